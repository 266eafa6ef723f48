package copper

import (
	"cmp"
	"container/heap"
	"math"
	"slices"
)

// Work is counted in spots of fronts and rungs looked at, and in several uses and
// terms, which are quicker.
const (
	someWork   = 300_000 // of a problem, shared by its parts
	lineWork   = 16_000  // more for each line
	mostSweeps = 3       // before the root is narrowed
	nodeSweeps = 4
	mostTrades = 12 // rounds
	tradeWork  = 10 // uses and terms that count as one spot
)

// search is the part with the lightest set that was found.
type search struct {
	*part
	plan *plan
	best []int
	mass float64
	open nodes
	made int // nodes put
}

// solve decides all parts, each with its share of the work that is left, and
// gives the mass above their bounds.
func (t *thinned) solve(work int) float64 {
	parts := t.parts()
	lines, gap := len(t.lines), 0.0
	for _, p := range parts {
		share := work * len(p.lines) / lines
		best, bound, done := p.solve(share)
		work -= min(done, share)
		lines -= len(p.lines)
		for v, i := range best {
			p.posts[v].put(i, t.step)
		}
		if mass := p.mass(best); bound < mass*(1-equal) {
			gap += mass - bound
		}
	}
	return gap
}

// solve gives a rung for every post, a lower bound on the mass, and the work done.
func (p *part) solve(work int) ([]int, float64, int) {
	f := &search{part: p, plan: p.plan(), best: p.highest()}
	f.plan.most = work
	f.mass = p.mass(f.best)
	s := p.stand(make([]int, len(p.posts)))
	s.climb(all(len(p.lines)), -1)
	f.improve(s, mostTrades)
	bound := f.branch()
	return f.best, bound, f.plan.work
}

func all(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

// offer keeps a stand when it meets all and is lighter.
func (f *search) offer(s *stand) {
	for i := range s.lines {
		if s.short(i) {
			return
		}
	}
	if m := s.mass(s.at); m < f.mass {
		f.best, f.mass = append(f.best[:0], s.at...), m
	}
}

// cut is what a bound must stay below to promise anything lighter.
func (f *search) cut() float64 { return f.mass * (1 - equal/4) }

// branch gives the bound: of the root, then of the open node with the lowest.
func (f *search) branch() float64 {
	root := f.plan.root()
	root.priced(f.prices(f.mass))
	f.follow(root, mostTrades)
	f.raise(root, mostSweeps)
	if root.fewer() {
		return f.narrow(root)
	}
	f.put(root)
	for len(f.open) > 0 {
		n := f.open[0]
		if n.least >= f.cut() {
			break
		}
		if f.plan.work > f.plan.most {
			return min(n.least, f.mass)
		}
		heap.Pop(&f.open)
		f.divide(n.split)
	}
	return f.mass
}

// narrow solves what is left of a problem after many rungs were struck out: much
// of it cannot matter any more. It gives the bound.
func (f *search) narrow(s *split) float64 {
	t := &thinned{step: make([]int, len(f.posts)), posts: make([]post, len(f.posts))}
	for v := range f.posts {
		t.posts[v].members = []int{v}
		for i, r := range f.posts[v].rungs {
			if s.alive[s.rungAt[v]+i] {
				t.posts[v].rungs = append(t.posts[v].rungs, rung{r.mass, r.ohms, []int{i}})
			}
		}
	}
	for _, l := range f.lines {
		t.lines = append(t.lines, line{l.limit, l.slack, slices.Clone(l.terms)})
	}
	if len(possible(t.posts, t.lines)) < len(t.lines) {
		return f.mass
	}
	t.reduce()
	gap := t.solve(max(0, f.plan.most-f.plan.work))
	mass := f.part.mass(t.step)
	f.offer(f.stand(t.step))
	return min(f.mass, max(s.least, mass-gap))
}

// raise sweeps until the bound hardly grows.
func (f *search) raise(s *split, sweeps int) {
	s.judge(f.cut())
	for k := range sweeps {
		before := s.least
		if s.dead || f.plan.work > f.plan.most {
			return
		}
		s.sweep(k%2 == 1, k%4 == 1, f.cut())
		if k > 1 && s.least-before < 0.02*(f.mass-s.least) {
			return
		}
	}
}

// follow makes a set from what the posts have of their own. Those with one rung
// left come first, then the most shared; each takes its least rung that leaves
// all lines possible. A post in one line alone takes the lowest.
func (f *search) follow(s *split, rounds int) {
	st := f.stand(f.highest())
	for _, v := range f.byChoice(s) {
		st.shift(v, f.choice(s, v, st.lowest(v)))
	}
	f.improve(st, rounds)
}

// choice gives the alive rung from low up that has least of its own, or is first;
// the highest when none is alive.
func (f *search) choice(s *split, v, low int) int {
	best, least := len(f.posts[v].rungs)-1, math.Inf(1)
	for i := low; i < len(f.posts[v].rungs); i++ {
		at := s.rungAt[v] + i
		if !s.alive[at] {
			continue
		}
		if len(f.posts[v].uses) == 1 {
			return i
		}
		if s.own[at] < least {
			best, least = i, s.own[at]
		}
	}
	return best
}

// improve lets a stand down as far as it goes, and trades.
func (f *search) improve(s *stand, rounds int) {
	s.fall(all(len(f.posts)), -1)
	s.trade(rounds)
	f.offer(s)
	f.plan.work += s.work / tradeWork
}

func (p *part) highest() []int {
	out := make([]int, len(p.posts))
	for v := range out {
		out[v] = len(p.posts[v].rungs) - 1
	}
	return out
}

// byChoice lists the posts: those without a choice, then those in most lines.
func (f *search) byChoice(s *split) []int {
	rank := make([]int, len(f.posts))
	for v := range rank {
		rank[v] = -len(f.posts[v].uses)
		if s.choices(v) == 1 {
			rank[v] = math.MinInt
		}
	}
	out := all(len(f.posts))
	slices.SortStableFunc(out, func(v, w int) int { return cmp.Compare(rank[v], rank[w]) })
	return out
}

// divide splits a node on one post and keeps what can still be lighter.
func (f *search) divide(n *split) {
	v := f.pivot(n)
	if v < 0 {
		// One choice is left in each line, and the least step that fits is the
		// lightest: nothing in this node is lighter than what follow finds.
		f.follow(n, 0)
		return
	}
	edge := n.edge(v)
	for _, upper := range [...]bool{false, true} {
		c := n.clone()
		for i := range f.posts[v].rungs {
			if (i >= edge) != upper {
				c.alive[c.rungAt[v]+i] = false
			}
		}
		c.sum()
		f.raise(c, nodeSweeps)
		if !c.dead {
			f.follow(c, 1)
			f.put(c)
		}
	}
}

// pivot picks the open post with the most mass at stake times lines; when there
// is none, one of several posts with a choice in one line; else -1.
func (f *search) pivot(n *split) int {
	best, most := -1, -1.0
	for v := range f.posts {
		if !n.isOpen(v) {
			continue
		}
		if stake := float64(len(f.posts[v].uses)) * f.weight(n, v); stake > most {
			best, most = v, stake
		}
	}
	for d := 0; best < 0 && d < len(f.lines); d++ {
		best = n.second(d)
	}
	return best
}

// second gives the second post of a line that has a choice, -1 when there is none.
func (s *split) second(d int) int {
	count := 0
	for _, x := range s.lines[d].terms {
		if s.choices(x.Group) > 1 {
			if count++; count == 2 {
				return x.Group
			}
		}
	}
	return -1
}

// weight is the mass between a post's lightest and heaviest alive rung.
func (f *search) weight(n *split, v int) float64 {
	low, high := -1, 0
	for i := range f.posts[v].rungs {
		if n.alive[n.rungAt[v]+i] {
			if low < 0 {
				low = i
			}
			high = i
		}
	}
	return f.posts[v].rungs[high].mass - f.posts[v].rungs[low].mass
}

// edge divides the alive rungs of a post beside the one with least of its own.
func (s *split) edge(v int) int {
	first, best, last := -1, -1, 0
	for i := range s.posts[v].rungs {
		if !s.alive[s.rungAt[v]+i] {
			continue
		}
		if first < 0 {
			first = i
		}
		if best < 0 || s.own[s.rungAt[v]+i] < s.own[s.rungAt[v]+best] {
			best = i
		}
		last = i
	}
	if best == last {
		return last
	}
	return best + 1
}

// put keeps a node that can still be lighter.
func (f *search) put(s *split) {
	if !s.dead && s.least < f.cut() {
		f.made++
		heap.Push(&f.open, &node{s, f.made})
	}
}

// node is a split that waits; of equal bounds the older goes first.
type node struct {
	*split
	number int
}

type nodes []*node

func (n nodes) Len() int { return len(n) }
func (n nodes) Less(i, j int) bool {
	if n[i].least != n[j].least {
		return n[i].least < n[j].least
	}
	return n[i].number < n[j].number
}
func (n nodes) Swap(i, j int) { n[i], n[j] = n[j], n[i] }
func (n *nodes) Push(x any)   { *n = append(*n, x.(*node)) }
func (n *nodes) Pop() any {
	last := (*n)[len(*n)-1]
	*n = (*n)[:len(*n)-1]
	return last
}
