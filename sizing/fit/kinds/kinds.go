// Package kinds finds the fewest kinds that serve many needs, where a kind serves a range of
// them and no kind stands in for every lesser one: tubes that must pass over one thing and
// grip another, contacts, barrels, seals. Pure numbers. In: by need what each kind that serves
// it costs there. Out: the kind of every need. Where one kind serves what a lesser one would,
// package ladder is quicker.
package kinds

import (
	"cmp"
	"math"
	"slices"
)

// Need is one thing to be served: by kind, its cost there, and only by those.
type Need map[int]float64

// Pick gives the kind that serves each need, -1 for a need that none serves: exactly the set
// of kinds with the least sum of weights, and of those with an equal sum the one that costs
// least. A need takes the kind of the set that costs least there. All weights are above 0.
//
// Method: branch and bound over the kinds of the need that the fewest serve.
func Pick(weights []float64, needs []Need) []int {
	s := &search{weights: weights, all: needs, needs: distinct(needs), chosen: make([]bool, len(weights)), weight: math.Inf(1), cost: math.Inf(1)}
	s.down(0)
	out := make([]int, len(needs))
	for i, x := range needs {
		out[i] = cheapest(x, s.best)
	}
	return out
}

type search struct {
	weights []float64
	all     []Need
	needs   []Need // those of them that different kinds serve
	chosen  []bool
	best    []bool
	weight  float64 // of the best
	cost    float64
}

// alike is how far sums may differ by rounding.
const alike = 1e-9

// down chooses for the first need that is not served yet.
func (s *search) down(weight float64) {
	if weight > s.weight+alike {
		return
	}
	next := slices.IndexFunc(s.needs, func(x Need) bool { return cheapest(x, s.chosen) < 0 })
	if next < 0 {
		s.keep(weight)
		return
	}
	for _, k := range ordered(s.needs[next]) {
		s.chosen[k] = true
		s.down(weight + s.weights[k])
		s.chosen[k] = false
	}
}

// keep takes a whole set where it is better.
func (s *search) keep(weight float64) {
	cost := 0.0
	for _, x := range s.all {
		if k := cheapest(x, s.chosen); k >= 0 {
			cost += x[k]
		}
	}
	if weight < s.weight-alike || weight < s.weight+alike && cost < s.cost-alike {
		s.weight, s.cost, s.best = weight, cost, slices.Clone(s.chosen)
	}
}

// distinct leaves one of the needs that the same kinds serve, those with the fewest kinds
// first; what nothing serves is left out.
func distinct(needs []Need) []Need {
	var out []Need
	for _, x := range needs {
		if len(x) == 0 {
			continue
		}
		if !slices.ContainsFunc(out, func(o Need) bool { return slices.Equal(ordered(o), ordered(x)) }) {
			out = append(out, x)
		}
	}
	slices.SortStableFunc(out, func(a, b Need) int { return cmp.Compare(len(a), len(b)) })
	return out
}

func ordered(x Need) []int {
	out := make([]int, 0, len(x))
	for k := range x {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}

// cheapest gives the kind of a set that serves a need at the least cost, the first of several.
func cheapest(x Need, set []bool) int {
	best := -1
	for _, k := range ordered(x) {
		if k < len(set) && set[k] && (best < 0 || x[k] < x[best]-alike) {
			best = k
		}
	}
	return best
}
