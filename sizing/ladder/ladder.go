// Package ladder finds the fewest kinds that serve many needs, where the kinds stand in an
// order and one serves what a lesser one would: sizes of wire, ratings of fuses, bores of
// tube. Pure numbers. In: by need the least and the greatest kind that serves it and what
// each kind costs there. Out: for every number of kinds the set that costs least, exactly.
//
// Method: dynamic programming over the ordered kinds. Between two kinds of a set that stand
// next to each other every need goes to the upper one, so what a set costs is a sum over its
// neighbours; n kinds take n² sums and n³ steps.
package ladder

import "math"

// Need is something that one kind has to serve: any from Least to Most, numbers of kinds from
// 0, at Cost[kind]. No kind is cheaper than a lesser one: Cost does not fall. A need with Most
// below Least can be served by none.
type Need struct {
	Least, Most int
	Cost        []float64
}

// Set is some kinds, ascending, and what all needs cost with them; +Inf where they do not
// serve all.
type Set struct {
	Kinds []int
	Cost  float64
}

// Curve gives by the number of kinds, from 0 to n, the set of so many out of n that costs
// least; where several do, the one with the lesser last kinds. Kinds that are free stand in every set besides, whether they
// serve or not, and do not count.
func Curve(n int, needs []Need, free []bool) []Set {
	c := costs(n, needs)
	best := make([][]float64, n+1) // by the last kind plus 1, then by the number of kinds
	from := make([][]int, n+1)
	for j := range best {
		best[j], from[j] = make([]float64, n+1), make([]int, n+1)
		for k := range best[j] {
			best[j][k] = math.Inf(1)
		}
	}
	best[0][0] = 0
	for j := 1; j <= n; j++ {
		for i := j - 1; i >= 0; i-- {
			step(best, from, c, free, i, j)
			if i > 0 && is(free, i-1) {
				break // no set leaves a free kind out
			}
		}
	}
	return ends(n, needs, best, from, free)
}

func is(free []bool, kind int) bool { return kind < len(free) && free[kind] }

// step goes on from sets that end in kind i to kind j, both plus 1.
func step(best [][]float64, from [][]int, c [][]float64, free []bool, i, j int) {
	counts := 1
	if is(free, j-1) {
		counts = 0
	}
	for k := range best[i] {
		if k+counts >= len(best[j]) {
			break
		}
		if sum := best[i][k] + c[i][j]; sum < best[j][k+counts] {
			best[j][k+counts], from[j][k+counts] = sum, i
		}
	}
}

// costs gives what all needs cost whose least kind lies above i and not above j when j serves
// them, both plus 1.
func costs(n int, needs []Need) [][]float64 {
	c := make([][]float64, n+1)
	for i := range c {
		c[i] = make([]float64, n+1)
	}
	for _, x := range needs {
		least := max(x.Least, 0)
		for j := least + 1; j <= n; j++ {
			cost := math.Inf(1)
			if j-1 <= x.Most {
				cost = x.Cost[j-1]
			}
			for i := range least + 1 {
				c[i][j] += cost
			}
		}
	}
	return c
}

// ends picks the cheapest last kind for each number of kinds.
func ends(n int, needs []Need, best [][]float64, from [][]int, free []bool) []Set {
	top, last := 0, 0 // no set may end below what the greatest need asks for, or a free kind
	for _, x := range needs {
		top = max(top, x.Least+1)
	}
	for j := range n {
		if is(free, j) {
			last = j + 1
		}
	}
	out := make([]Set, n+1)
	for k := range out {
		out[k].Cost = math.Inf(1)
		end := -1
		for j := max(top, last); j <= n; j++ {
			if best[j][k] < out[k].Cost {
				out[k].Cost, end = best[j][k], j
			}
		}
		if end >= 0 {
			out[k].Kinds = trace(from, free, end, k)
		}
	}
	return out
}

// trace follows a set back from its last kind.
func trace(from [][]int, free []bool, j, k int) []int {
	var out []int
	for j > 0 {
		out = append([]int{j - 1}, out...)
		counts := 1
		if is(free, j-1) {
			counts = 0
		}
		j, k = from[j][k], k-counts
	}
	return out
}

// Serving gives the kind of a set that serves a need, -1 where none does.
func (s Set) Serving(x Need) int {
	for _, kind := range s.Kinds {
		if kind >= x.Least {
			if kind > x.Most {
				return -1
			}
			return kind
		}
	}
	return -1
}

// Fewest gives the least number of kinds that serves all needs which any kind serves, the
// cheapest set of so many; no kinds where there are no such needs.
func Fewest(n int, needs []Need) Set {
	var served []Need
	for _, x := range needs {
		if max(x.Least, 0) <= min(x.Most, n-1) {
			served = append(served, x)
		}
	}
	for _, set := range Curve(n, served, nil) {
		if !math.IsInf(set.Cost, 1) {
			return set
		}
	}
	return Set{}
}
