package fewest

import "math"

// over is what one pair above a limit costs: more than any reel.
const over = 20 * thousand

// joint is a neighbour of a node.
type joint struct {
	node int
	rank Rank
}

// search is a solution that is being changed.
type search struct {
	*Problem
	option []int
	open   []int     // nodes that have a choice
	may    [][]bool  // by node and option
	joints [][]joint // by node
	count  [][]int   // by size and option: nodes
	pairs  [ranks]int
	in     [][]int // by size: its nodes
	seed   uint64
	over   int        // what a pair above a limit costs now
	views  []view     // of the node that was looked at
	was    []int      // before a push
	own    [ranks]int // its pairs
	near   [][]int    // by option: those that look like it
	tally  [][2]int   // by option: pairs that the node that was looked at would have, at parts and in runs
	kin    bool       // it keeps to a family with a neighbour
	seen   []int      // by option: its place in views and 1
}

// view is an option that neighbours of a node have.
type view struct {
	option int
	count  [ranks]int
}

func newSearch(p *Problem, option []int) *search {
	s := &search{Problem: p, option: option, joints: make([][]joint, len(p.Nodes)), may: make([][]bool, len(p.Nodes)), seed: 88172645463325252, over: over, seen: make([]int, len(p.Alike))}
	s.count, s.in = make([][]int, len(p.Price)), make([][]int, len(p.Price))
	for i := range s.count {
		s.count[i] = make([]int, len(p.Alike))
	}
	for i := range p.Nodes {
		n := &p.Nodes[i]
		s.may[i] = make([]bool, len(p.Alike))
		for _, o := range n.Options {
			s.may[i][o] = true
		}
		if !n.fixed() {
			s.open = append(s.open, i)
		}
		for _, z := range n.Sizes {
			s.in[z] = append(s.in[z], i)
			s.count[z][option[i]]++
		}
	}
	s.tally, s.near = make([][2]int, len(p.Alike)), make([][]int, len(p.Alike))
	for o, row := range p.Alike {
		for other, alike := range row {
			if alike {
				s.near[o] = append(s.near[o], other)
			}
		}
	}
	s.join()
	return s
}

// join lists the neighbours, those pairs apart that have no choice.
func (s *search) join() {
	for _, e := range s.Edges {
		if s.Nodes[e.A].fixed() && s.Nodes[e.B].fixed() {
			continue
		}
		s.joints[e.A] = append(s.joints[e.A], joint{e.B, e.Rank})
		s.joints[e.B] = append(s.joints[e.B], joint{e.A, e.Rank})
		if e.Rank != Kin && s.Alike[s.option[e.A]][s.option[e.B]] {
			s.pairs[e.Rank]++
		}
	}
}

// delta gives what the total grows by when a node takes another option, limits apart, and how the
// pairs change.
func (s *search) delta(n, to int) (cost int, pairs [ranks]int) {
	from, node := s.option[n], &s.Nodes[n]
	for _, z := range node.Sizes {
		if s.count[z][from] == 1 {
			cost -= s.Price[z][from]
		}
		if s.count[z][to] == 0 {
			cost += s.Price[z][to]
		}
	}
	if node.Miss != nil {
		cost += node.Miss[to] - node.Miss[from]
	}
	was, is := s.Alike[from], s.Alike[to]
	for _, j := range s.joints[n] {
		o := s.option[j.node]
		if j.rank == Kin {
			cost += s.strange(to, o) - s.strange(from, o)
			continue
		}
		if was[o] != is[o] {
			if is[o] {
				pairs[j.rank]++
			} else {
				pairs[j.rank]--
			}
		}
	}
	return cost + pairs[Part]*s.Pair[Part] + pairs[Run]*s.Pair[Run], pairs
}

func (s *search) strange(a, b int) int {
	if s.Family[a] == s.Family[b] {
		return 0
	}
	return s.Pair[Kin]
}

// above is what a change of the pairs costs beyond the limits.
func (s *search) above(pairs [ranks]int) int {
	out := 0
	for r := range Kin {
		if d := pairs[r]; d != 0 && s.Most[r] >= 0 {
			out += s.over * (max(0, s.pairs[r]+d-s.Most[r]) - max(0, s.pairs[r]-s.Most[r]))
		}
	}
	return out
}

func (s *search) take(n, to int, pairs [ranks]int) {
	for _, z := range s.Nodes[n].Sizes {
		s.count[z][s.option[n]]--
		s.count[z][to]++
	}
	for r := range pairs {
		s.pairs[r] += pairs[r]
	}
	s.option[n] = to
}

func (s *search) next(n int) int {
	s.seed ^= s.seed << 13
	s.seed ^= s.seed >> 7
	s.seed ^= s.seed << 17
	return int((s.seed >> 11) % uint64(n))
}

// Solve looks for a cheap solution. Start holds options to begin with, by node, -1 or one that a
// node may not take for none; moves is how many changes are tried.
func Solve(p *Problem, start []int, moves int) []int {
	s := newSearch(p, p.Begin(start))
	if len(s.open) == 0 {
		return s.option
	}
	s.settle()
	best, least := append([]int(nil), s.option...), s.total()
	rounds := min(24, max(1, moves/(120*len(s.open))))
	for round := range rounds {
		hot := heats[round%len(heats)]
		if warm(start) {
			hot = heats[1]
		}
		s.round(moves/rounds, hot)
		for range 100 + moves/rounds/200 {
			s.push()
		}
		if now := s.total(); now < least {
			least = now
			copy(best, s.option)
		}
		if round%len(heats) == 1 {
			s.restore(best)
		}
	}
	return best
}

// heats at which the rounds begin, in thousandths of a reel.
var heats = [...]float64{900, 400, 2500}

// round anneals once and mends what came out.
func (s *search) round(moves int, hot float64) {
	best := append([]int(nil), s.option...)
	s.anneal(moves, hot, best)
	s.restore(best)
	s.settle()
	for range 3 {
		if !s.vacateAll() {
			return
		}
	}
}

// total is what the solution costs, those pairs apart that have no choice.
func (s *search) total() int {
	cost := s.excess() + s.pairs[Part]*s.Pair[Part] + s.pairs[Run]*s.Pair[Run]
	for z := range s.count {
		for o, n := range s.count[z] {
			if n > 0 {
				cost += s.Price[z][o]
			}
		}
	}
	for i, n := range s.Nodes {
		if n.Miss != nil {
			cost += n.Miss[s.option[i]]
		}
	}
	for _, e := range s.Edges {
		if e.Rank == Kin {
			cost += s.strange(s.option[e.A], s.option[e.B])
		}
	}
	return cost
}

func warm(start []int) bool {
	for _, o := range start {
		if o >= 0 {
			return true
		}
	}
	return false
}

// Begin gives every node an option that it may take: the one that it had, else its first.
func (p *Problem) Begin(start []int) []int {
	out := make([]int, len(p.Nodes))
	for i := range p.Nodes {
		out[i] = p.Nodes[i].Options[0]
		if i < len(start) {
			for _, o := range p.Nodes[i].Options {
				if o == start[i] {
					out[i] = o
				}
			}
		}
	}
	return out
}

// chance holds -ln of evenly spread shares, in thousandths.
func chance() [256]int {
	var out [256]int
	for i := range out {
		out[i] = int(math.Round(-1000 * math.Log((float64(i)+0.5)/256)))
	}
	return out
}

// anneal tries moves at a falling heat and notes the best solution met. The limits begin soft, so
// that pairs can wander, and end hard.
func (s *search) anneal(moves int, hot float64, best []int) {
	const end, steps = 20, 64
	chances := chance()
	at, least := s.excess(), s.excess()
	var extra [ranks]int
	for step := range steps {
		share := float64(step) / (steps - 1)
		heat := int(hot * math.Pow(end/hot, share))
		s.over = int(over * math.Pow(0.002, 1-share))
		s.press(&extra)
		for range moves / steps {
			n := s.open[s.next(len(s.open))]
			to := s.propose(n)
			if to == s.option[n] || !s.may[n][to] {
				continue
			}
			cost, pairs := s.delta(n, to)
			if with := cost + s.above(pairs) + pairs[Part]*extra[Part] + pairs[Run]*extra[Run]; with > 0 && with*1000 > heat*chances[s.next(256)] {
				continue
			}
			before := s.excess()
			s.take(n, to, pairs)
			if at += cost + s.excess() - before; at < least {
				least = at
				copy(best, s.option)
			}
		}
	}
	s.over = over
}

// press makes pairs dearer whose limit is passed, and cheaper again where it is not.
func (s *search) press(extra *[ranks]int) {
	for r := range Kin {
		switch {
		case s.Most[r] < 0:
		case s.pairs[r] > s.Most[r]:
			extra[r] += 10 + extra[r]/8
		default:
			extra[r] -= extra[r] / 8
		}
	}
}

// excess is what the pairs above the limits cost in the end.
func (s *search) excess() int {
	out := 0
	for r := range Kin {
		if s.Most[r] >= 0 {
			out += over * max(0, s.pairs[r]-s.Most[r])
		}
	}
	return out
}

// propose gives an option that a node might take: mostly one that is bought in its size anyway.
func (s *search) propose(n int) int {
	node := &s.Nodes[n]
	if len(node.Sizes) > 0 && s.next(8) < 6 {
		in := s.in[node.Sizes[s.next(len(node.Sizes))]]
		return s.option[in[s.next(len(in))]]
	}
	return node.Options[s.next(len(node.Options))]
}

func (s *search) restore(option []int) {
	for n, o := range option {
		if s.option[n] != o {
			_, pairs := s.delta(n, o)
			s.take(n, o, pairs)
		}
	}
}

// settle gives every node its best option until none has a better one.
func (s *search) settle() {
	for range 20 {
		changed := false
		for _, n := range s.open {
			changed = s.improve(n, -1) < 0 || changed
		}
		if !changed {
			return
		}
	}
}

// improve gives a node its best option, one that is barred apart, where it gains by that or stands
// on the barred one; it gives by how much the cost grew.
func (s *search) improve(n, barred int) int {
	s.look(n)
	from := s.option[n]
	was := s.worth(n, from)
	best, to := 0, -1
	for _, o := range s.Nodes[n].Options {
		if o == barred || o == from {
			continue
		}
		if cost := s.worth(n, o) - was; cost < best || to < 0 && from == barred {
			best, to = cost, o
		}
	}
	if to < 0 {
		return 0
	}
	cost, pairs := s.delta(n, to)
	cost += s.above(pairs)
	s.take(n, to, pairs)
	return cost
}

// look counts the neighbours of a node by their options.
func (s *search) look(n int) {
	for _, v := range s.views {
		s.seen[v.option] = 0
	}
	s.views = s.views[:0]
	for _, j := range s.joints[n] {
		o := s.option[j.node]
		k := s.seen[o]
		if k == 0 {
			s.views = append(s.views, view{option: o})
			k = len(s.views)
			s.seen[o] = k
		}
		s.views[k-1].count[j.rank]++
	}
	s.weigh()
	own := s.tally[s.option[n]]
	s.own = [ranks]int{Part: own[Part], Run: own[Run]}
}

// weigh adds up what the neighbours that were looked at make of every option.
func (s *search) weigh() {
	clear(s.tally)
	s.kin = false
	for i := range s.views {
		v := &s.views[i]
		s.kin = s.kin || v.count[Kin] > 0
		for _, o := range s.near[v.option] {
			s.tally[o][Part] += v.count[Part]
			s.tally[o][Run] += v.count[Run]
		}
	}
}

// worth is what a node costs on an option beside the neighbours that were looked at.
func (s *search) worth(n, o int) int {
	node := &s.Nodes[n]
	pairs := [ranks]int{Part: s.tally[o][Part], Run: s.tally[o][Run]}
	cost := 0
	if s.kin {
		for i := range s.views {
			cost += s.views[i].count[Kin] * s.strange(o, s.views[i].option)
		}
	}
	for _, z := range node.Sizes {
		if s.count[z][o] == 0 || s.count[z][o] == 1 && s.option[n] == o {
			cost += s.Price[z][o]
		}
	}
	if node.Miss != nil {
		cost += node.Miss[o]
	}
	return cost + pairs[Part]*s.Pair[Part] + pairs[Run]*s.Pair[Run] + s.beyond(pairs)
}

// beyond is what pairs above the limits cost if the node that was looked at has so many.
func (s *search) beyond(pairs [ranks]int) int {
	cost := 0
	for r := range Kin {
		if s.Most[r] >= 0 {
			cost += over * max(0, s.pairs[r]-s.own[r]+pairs[r]-s.Most[r])
		}
	}
	return cost
}

// push gives a node another option whatever that costs and lets its neighbours follow; it takes that
// back where nothing is gained.
func (s *search) push() {
	n := s.open[s.next(len(s.open))]
	to := s.propose(n)
	if to == s.option[n] || !s.may[n][to] {
		return
	}
	s.was = append(s.was[:0], s.option...)
	total, pairs := s.delta(n, to)
	total += s.above(pairs)
	s.take(n, to, pairs)
	for _, j := range s.joints[n] {
		if !s.Nodes[j.node].fixed() {
			total += s.improve(j.node, -1)
		}
	}
	if total += s.improve(n, -1); total >= 0 {
		s.restore(s.was)
	}
}

// vacateAll tries to do without each reel in turn, and tells whether that gained anything.
func (s *search) vacateAll() bool {
	gained := false
	for z := range s.count {
		for o := range s.count[z] {
			if s.count[z][o] > 0 && s.Price[z][o] > 0 {
				gained = s.vacate(z, o) || gained
			}
		}
	}
	return gained
}

// vacate moves all nodes off a reel and lets their neighbours follow; it takes that back where
// nothing is gained.
func (s *search) vacate(z, o int) bool {
	before := append([]int(nil), s.option...)
	total := 0
	for _, n := range s.in[z] {
		if s.option[n] != o {
			continue
		}
		if s.Nodes[n].fixed() {
			s.restore(before)
			return false
		}
		total += s.improve(n, o)
		if s.option[n] == o {
			s.restore(before)
			return false
		}
	}
	for range 2 {
		for _, n := range s.in[z] {
			if !s.Nodes[n].fixed() {
				total += s.improve(n, -1)
			}
		}
	}
	if total >= 0 {
		s.restore(before)
		return false
	}
	return true
}
