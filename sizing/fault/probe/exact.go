package probe

import (
	"cmp"
	"math"
	"math/bits"
	"slices"
)

// subset is a set of classes of an exact search, by bits.
type subset uint32

// split is a test in an exact search.
type split struct {
	test  int
	cost  float64
	parts []subset // by answers in ascending order
}

// exact is the search for the best tree: by subset the least cost times weight.
type exact struct {
	set     []int // of classes, the lightest first
	weights []float64
	splits  []split
	least   float64   // cost of any test
	answers int       // of any test, the greatest number
	costs   []float64 // by subset, of the best tree; 0: not solved yet
	firsts  []int16   // by subset, the split with which it begins
	bounds  []float64 // by subset; 0: not known yet
	weighed []float64 // by subset; 0: not known yet
}

// exact finds the best plan for a few classes.
func (c classed) exact(set []int) *step {
	n := 1 << len(set)
	e := exact{set: slices.Clone(set), costs: make([]float64, n), firsts: make([]int16, n), bounds: make([]float64, n), weighed: make([]float64, n)}
	slices.SortStableFunc(e.set, func(a, b int) int { return cmp.Compare(c.weights[a], c.weights[b]) })
	for _, k := range e.set {
		e.weights = append(e.weights, c.weights[k])
	}
	e.split(c)
	whole := subset(1)<<len(set) - 1
	e.solve(whole)
	return e.plan(whole)
}

// split lists the tests that part the set, without those that tell no more than a
// cheaper one.
func (e *exact) split(c classed) {
	var list []split
	for i, t := range c.tests {
		if s := (split{i, t.Cost, e.partsBy(t)}); len(s.parts) > 1 {
			list = append(list, s)
		}
	}
	slices.SortStableFunc(list, func(a, b split) int {
		return cmp.Or(cmp.Compare(a.cost, b.cost), cmp.Compare(len(b.parts), len(a.parts)))
	})
	for _, s := range list {
		if !slices.ContainsFunc(e.splits, s.within) {
			e.splits = append(e.splits, s)
			e.answers = max(e.answers, len(s.parts))
		}
	}
	if len(list) > 0 {
		e.least = list[0].cost
	}
}

// within tells whether another test parts whatever this one does.
func (s split) within(other split) bool {
	for _, p := range other.parts {
		for _, q := range s.parts {
			if both := p & q; both != 0 && both != p {
				return false
			}
		}
	}
	return true
}

// partsBy are the subsets by a test's answers.
func (e *exact) partsBy(t Test) []subset {
	var seen []int
	for _, k := range e.set {
		if at, there := slices.BinarySearch(seen, t.Answer[k]); !there {
			seen = slices.Insert(seen, at, t.Answer[k])
		}
	}
	parts := make([]subset, len(seen))
	for i, k := range e.set {
		at, _ := slices.BinarySearch(seen, t.Answer[k])
		parts[at] |= 1 << i
	}
	return parts
}

// weight is that of a subset.
func (e *exact) weight(s subset) float64 {
	if s == 0 {
		return 0
	}
	if e.weighed[s] == 0 {
		e.weighed[s] = e.weights[bits.TrailingZeros32(uint32(s))] + e.weight(s&(s-1))
	}
	return e.weighed[s]
}

// bound is a cost times weight below which no tree for a subset can be.
func (e *exact) bound(s subset) float64 {
	if s&(s-1) == 0 {
		return 0
	}
	if e.bounds[s] == 0 {
		var w [Limit]float64
		n := 0
		for x := s; x != 0; x &= x - 1 {
			w[n] = e.weights[bits.TrailingZeros32(uint32(x))]
			n++
		}
		e.bounds[s] = e.least * merged(w[:n], e.answers)
	}
	return e.bounds[s]
}

// tried is a split of a subset and the bound of what it leads to.
type tried struct {
	split int
	bound float64
}

// slight is a difference of costs that is none.
const slight = 1e-12

// solve finds the best tree of a subset.
func (e *exact) solve(s subset) float64 {
	if s&(s-1) == 0 {
		return 0
	}
	if e.costs[s] > 0 {
		return e.costs[s]
	}
	best := math.Inf(1)
	for _, t := range e.candidates(s) {
		if t.bound >= best-slight {
			break
		}
		if cost := e.costOf(s, t, best); cost < best-slight {
			best, e.firsts[s] = cost, int16(t.split)
		}
	}
	e.costs[s] = best
	return best
}

// costOf is the cost of a split; where it is seen to be no better than what is known it may
// be less than that.
func (e *exact) costOf(s subset, t tried, best float64) float64 {
	cost := t.bound
	for _, part := range e.splits[t.split].parts {
		cost += e.solve(s&part) - e.bound(s&part)
		if cost >= best-slight {
			break
		}
	}
	return cost
}

// candidates are the splits that part a subset, the most promising first.
func (e *exact) candidates(s subset) []tried {
	list := make([]tried, 0, len(e.splits))
	whole := e.weight(s)
	for i, x := range e.splits {
		bound, parts := x.cost*whole, 0
		for _, part := range x.parts {
			if part &= s; part != 0 {
				parts++
				bound += e.bound(part)
			}
		}
		if parts > 1 {
			list = append(list, tried{i, bound})
		}
	}
	slices.SortStableFunc(list, func(a, b tried) int { return cmp.Compare(a.bound, b.bound) })
	return list
}

// plan gives the best tree of a subset among the classes.
func (e *exact) plan(s subset) *step {
	if s&(s-1) == 0 {
		return nil
	}
	x := e.splits[e.firsts[s]]
	out := &step{test: x.test}
	for _, part := range x.parts {
		if part &= s; part != 0 {
			out.parts, out.next = append(out.parts, e.classes(part)), append(out.next, e.plan(part))
		}
	}
	return out
}

// classes are those of a subset, in ascending order.
func (e *exact) classes(s subset) []int {
	var out []int
	for ; s != 0; s &= s - 1 {
		out = append(out, e.set[bits.TrailingZeros32(uint32(s))])
	}
	slices.Sort(out)
	return out
}
