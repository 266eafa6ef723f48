package spread

import "slices"

// greedy is the state of one greedy run.
type greedy struct {
	*field
	floors Floors
	option []int // by node, -1 while open
	left   []set // by node: options still possible
	count  []int // by node: how many those are
	bought map[reel]bool
	family map[int]int // by group: its family
	counts [ranks]tally
}

// reel is wire of one reel number and option.
type reel struct{ number, option int }

// run serves the nodes one by one at the floors: first the one with the fewest
// options left, ties by most neighbours, then by number (after Brélaz, "New
// methods to color the vertices of a graph", CACM 22, 1979). When strict, it
// gives up as soon as a node has none left.
func (f *field) run(t Floors, strict bool, s *seed) ([]int, bool) {
	g := f.begin(t)
	g.plant(s)
	for range f.open {
		c := g.next()
		i, ok := g.pick(c)
		if !ok {
			if strict {
				return nil, false
			}
			i = g.leastBad(c)
		}
		g.settle(c, i)
	}
	return g.option, true
}

func (f *field) begin(t Floors) *greedy {
	g := &greedy{field: f, floors: t, bought: map[reel]bool{}, family: map[int]int{}}
	g.left, g.count = make([]set, len(f.Nodes)), make([]int, len(f.Nodes))
	for c := range f.Nodes {
		g.option = append(g.option, -1)
		if f.settled(c) {
			g.option[c] = f.Nodes[c].Options[0]
			g.buy(c)
			continue
		}
		g.left[c] = f.allowed(c, &t)
		g.count[c] = g.left[c].count()
	}
	for r := range g.counts {
		g.counts[r].width = (len(f.Far) + 63) / 64
	}
	return g
}

// plant cuts the nodes of a seed down to its options.
func (g *greedy) plant(s *seed) {
	if s == nil {
		return
	}
	for _, c := range s.nodes {
		if g.left[c].meets(s.options) {
			g.left[c].keep(s.options)
			g.count[c] = g.left[c].count()
		}
	}
}

func (g *greedy) next() int {
	best := -1
	for _, c := range g.open {
		if g.option[c] < 0 && (best < 0 || g.count[c] < g.count[best] ||
			g.count[c] == g.count[best] && len(g.links[c]) > len(g.links[best])) {
			best = c
		}
	}
	return best
}

// merit is how good an option is for a node, best by least.
type merit struct{ lost, fresh, tracer, wish int }

func (a merit) beats(b merit) bool {
	switch {
	case a.lost != b.lost:
		return a.lost < b.lost
	case a.fresh != b.fresh:
		return a.fresh < b.fresh
	case a.tracer != b.tracer:
		return a.tracer < b.tracer
	}
	return a.wish < b.wish
}

// pick chooses the option that takes the fewest options from the neighbours;
// ties: no new reel, plain, the wish, then the earlier in the list.
func (g *greedy) pick(c int) (option int, ok bool) {
	g.tallyUp(c)
	option = -1
	var best merit
	for _, i := range g.domain[c] {
		if !g.left[c].has(i) {
			continue
		}
		m := merit{lost: g.lost(c, i), fresh: g.newReels(c, i), tracer: tracer(g.Plain, i), wish: -wish(g.Nodes[c].Wish, i)}
		if option < 0 || m.beats(best) {
			option, best = i, m
		}
	}
	return option, option >= 0
}

func tracer(plain []bool, i int) int {
	if len(plain) == 0 || plain[i] {
		return 0
	}
	return 1
}

func wish(wishes []int, i int) int {
	if wishes == nil {
		return 0
	}
	return wishes[i]
}

// tallyUp counts, by rank, how many neighbours still have each option.
func (g *greedy) tallyUp(c int) {
	g.work += len(g.links[c])
	for r := range g.counts {
		g.counts[r].clear()
	}
	for i := range g.links[c] {
		l := &g.links[c][i]
		if g.option[l.to] < 0 && l.asks(&g.floors) > 0 && l.asks(&g.floors) == g.floors[l.rank] {
			g.counts[l.rank].add(g.left[l.to])
		}
	}
}

func (g *greedy) lost(c, option int) int {
	n := 0
	for r := range g.counts {
		if len(g.counts[r].planes) > 0 {
			n += g.counts[r].outside(g.fits(g.floors[r])[option])
		}
	}
	for i := range g.links[c] {
		l := &g.links[c][i]
		if asks := l.asks(&g.floors); g.option[l.to] < 0 && asks > 0 && asks != g.floors[l.rank] {
			n += g.left[l.to].without(g.fits(asks)[option])
		}
	}
	return n
}

func (g *greedy) newReels(c, option int) int {
	n := 0
	for _, r := range g.Nodes[c].Reels {
		if !g.bought[reel{r, option}] {
			n++
		}
	}
	return n
}

// leastBad serves a node for which nothing is left: the option that costs
// least in likeness, then the one farthest from all neighbours.
func (g *greedy) leastBad(c int) int {
	cost, least := g.alike(g.option, c), never
	for _, i := range g.domain[c] {
		least = min(least, cost[i])
	}
	best, bestFar := -1, 0
	for _, i := range g.domain[c] {
		if cost[i] > least {
			continue
		}
		if far := g.nearest(c, i); best < 0 || far > bestFar {
			best, bestFar = i, far
		}
	}
	return best
}

// nearest is the least distance of an option of a node to the neighbours that are
// served and not alike.
func (g *greedy) nearest(c, i int) int {
	far := never
	for _, list := range [2][]link{g.links[c], g.walls[c]} {
		for k := range list {
			l := &list[k]
			if g.option[l.to] < 0 || l.rank == Pass {
				continue
			}
			if d := g.Far[i][g.option[l.to]]; d > 0 {
				far = min(far, d)
			}
		}
	}
	return far
}

func (g *greedy) buy(c int) {
	for _, r := range g.Nodes[c].Reels {
		g.bought[reel{r, g.option[c]}] = true
	}
}

func (g *greedy) settle(c, option int) {
	g.option[c] = option
	g.buy(c)
	for i := range g.links[c] {
		l := &g.links[c][i]
		if asks := l.asks(&g.floors); asks > 0 && g.option[l.to] < 0 {
			g.left[l.to].keep(g.fits(asks)[option])
			g.count[l.to] = g.left[l.to].count()
		}
	}
	g.settleGroup(c, option)
}

// settleGroup brings the rest of a group to the family of its first node, where
// they have options of it.
func (g *greedy) settleGroup(c, option int) {
	group := g.Nodes[c].Group
	if _, known := g.family[group]; group == 0 || known {
		return
	}
	g.family[group] = g.Family[option]
	same := newSet(len(g.Far))
	for i, f := range g.Family {
		if f == g.Family[option] {
			same.add(i)
		}
	}
	for _, o := range g.open {
		has := func(i int) bool { return same.has(i) }
		if g.Nodes[o].Group == group && g.option[o] < 0 && slices.ContainsFunc(g.domain[o], has) {
			g.left[o].keep(same)
			g.count[o] = g.left[o].count()
		}
	}
}
