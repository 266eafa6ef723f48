package spread

import (
	"slices"
	"sort"
)

const never = 1 << 30 // a distance above all

// field is the graph made ready for searching.
type field struct {
	*Problem
	open   []int    // nodes that have a choice
	links  [][]link // by node: the open nodes that it is joined to, by rank
	walls  [][]link // by node: the settled ones
	nearby [][]int  // by node and rank×options: the least distance to settled nodes
	steps  []int    // distances that occur, ascending, each once, above 0
	fit    map[int][]set
	close  map[int][][]int // by floor and option: those that are nearer
	domain [][]int         // by node: the options that are still in play
	best   []int           // the options found so far
	floors Floors          // that best keeps
	stuck  [ranks]bool     // nothing more was reached below the limit of a band
	stages []int           // distances to which all ranks are brought before any goes on
	work   int
	spare  []int
	costs  []int // by option: see alike
}

// link is an edge seen from one of its ends.
type link struct {
	to    int
	rank  Rank
	cost  int
	hold  int // no greater distance is asked of it
	edge  int
	aside bool // alike whatever is done: nothing is asked of it
}

// asks gives the distance that a link must keep at the floors.
func (l *link) asks(t *Floors) int {
	if l.aside {
		return 0
	}
	return min(l.hold, t[l.rank])
}

func newField(p *Problem) *field {
	n := len(p.Nodes)
	f := &field{Problem: p, links: make([][]link, n), walls: make([][]link, n), nearby: make([][]int, n), fit: map[int][]set{}, close: map[int][][]int{}, stages: []int{1}}
	for c := range p.Nodes {
		f.domain = append(f.domain, p.Nodes[c].Options)
		if !f.settled(c) {
			f.open = append(f.open, c)
		}
	}
	for i, e := range p.Edges {
		f.join(i, e.A, e.B)
		f.join(i, e.B, e.A)
	}
	for _, c := range f.open {
		sort.SliceStable(f.links[c], func(i, j int) bool { return f.links[c][i].rank < f.links[c][j].rank })
		f.nearby[c] = f.distances(c)
	}
	f.steps = f.thresholds()
	f.stages = append(append(f.stages, f.Bands...), never)
	return f
}

func (f *field) settled(c int) bool { return len(f.Nodes[c].Options) == 1 }

// join notes an edge at one of its ends, where that has a choice.
func (f *field) join(edge, from, to int) {
	if f.settled(from) {
		return
	}
	e := &f.Edges[edge]
	l := link{to: to, rank: e.Rank, cost: e.Cost, hold: never, edge: edge}
	if f.settled(to) {
		f.walls[from] = append(f.walls[from], l)
		return
	}
	f.links[from] = append(f.links[from], l)
}

// distances gives, by rank and option, the least distance to settled nodes.
func (f *field) distances(c int) []int {
	m := len(f.Far)
	out := slices.Repeat([]int{never}, int(ranks)*m)
	for _, l := range f.walls[c] {
		for i, d := range f.Far[f.Nodes[l.to].Options[0]] {
			at := int(l.rank)*m + i
			out[at] = min(out[at], d)
		}
	}
	return out
}

// thresholds lists the distances that occur up to Enough.
func (f *field) thresholds() []int {
	var all []int
	for i := range f.Far {
		for _, d := range f.Far[i][:i] {
			if d > 0 && (f.Enough == 0 || d <= f.Enough) {
				all = append(all, d)
			}
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// fits gives, by option, those that are at least so far away.
func (f *field) fits(floor int) []set {
	if out, ok := f.fit[floor]; ok {
		return out
	}
	out := fits(f.Far, floor)
	f.fit[floor] = out
	return out
}

// closer gives, by option, those that are nearer than a floor; at 1 those that are
// alike.
func (f *field) closer(floor int) [][]int {
	if out, ok := f.close[floor]; ok {
		return out
	}
	out := make([][]int, len(f.Far))
	for i := range out {
		for j, d := range f.Far[i] {
			if d < floor {
				out[i] = append(out[i], j)
			}
		}
	}
	f.close[floor] = out
	return out
}

func fits(far [][]int, floor int) []set {
	out := make([]set, len(far))
	for i := range out {
		out[i] = newSet(len(far))
		for j, d := range far[i] {
			if d >= floor {
				out[i].add(j)
			}
		}
	}
	return out
}

// allowed gives the options of a node that keep the floors to the settled nodes
// round it. Where none does, those that come nearest to it stay: a settled
// neighbour that is too near pulls down nobody else.
func (f *field) allowed(c int, t *Floors) set {
	m := len(f.Far)
	out := newSet(m)
	cand := f.domain[c]
	if len(f.walls[c]) > 0 {
		cand = append(f.spare[:0], cand...)
		f.spare = cand
	}
	var kept Floors // a floor that was kept once is kept by all that is left
	for _, stage := range f.stages {
		for r := Touch; r < ranks && len(f.walls[c]) > 0; r++ {
			if floor := min(stage, t[r]); floor != kept[r] {
				cand = f.awayFrom(c, r, floor, cand)
				kept[r] = floor
			}
		}
	}
	for _, i := range cand {
		out.add(i)
	}
	return out
}

// awayFrom keeps the options that are so far from the settled nodes of a rank,
// or as far as any is. It works in place.
func (f *field) awayFrom(c int, r Rank, floor int, cand []int) []int {
	near := f.nearby[c][int(r)*len(f.Far):]
	best := 0
	for _, i := range cand {
		best = max(best, near[i])
	}
	if best == 0 && floor > 0 {
		return f.leastCost(c, r, cand)
	}
	floor = min(floor, best)
	return slices.DeleteFunc(cand, func(i int) bool { return near[i] < floor })
}

// leastCost keeps the options that are alike to settled nodes at the least cost.
func (f *field) leastCost(c int, r Rank, cand []int) []int {
	var out []int
	least := never
	for _, i := range cand {
		cost := 0
		for _, l := range f.walls[c] {
			if l.rank == r && f.Far[i][f.Nodes[l.to].Options[0]] == 0 {
				cost += l.cost
			}
		}
		if cost < least {
			least, out = cost, nil
		}
		if cost == least {
			out = append(out, i)
		}
	}
	return out
}
