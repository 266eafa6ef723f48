package diagram

import (
	"cmp"
	"math"
	"slices"
)

// shorten puts the runs of a channel, which stand in an order with few crossings, in one
// that needs less width: of two that overlap the order is kept where the other one would
// cross worth more, and let go where it would not. The longest chain is placed first (list
// scheduling by critical path).
func (g *gutter) shorten(worth int) {
	n := len(g.runs)
	before := make([][]int, n)
	after := make([][]int, n)
	for i, r := range g.runs {
		for j := i + 1; j < n; j++ {
			if o := g.runs[j]; r.bars(o) && (r.first(o) || crossed(o, r)-crossed(r, o) >= worth) {
				before[j] = append(before[j], i)
				after[i] = append(after[i], j)
			}
		}
	}
	const pitch = lineApart * chartStep
	tail := make([]float64, n)
	for i := n - 1; i >= 0; i-- {
		tail[i] = g.runs[i].clearOf(g.flags[1])
		for _, j := range after[i] {
			tail[i] = math.Max(tail[i], tail[j]+pitch)
		}
	}
	x := g.schedule(before, tail)
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(x[a], x[b]) })
	runs := make([]run, n)
	for i, k := range order {
		runs[i] = g.runs[k]
	}
	g.runs = runs
}

// first tells whether a run has to precede another whatever it crosses.
func (r run) first(o run) bool { return mustPrecede(r, o, lineApart*chartStep-0.1) }

// schedule gives each run the least free place behind those before it.
func (g *gutter) schedule(before [][]int, tail []float64) []float64 {
	const pitch = lineApart * chartStep
	x := make([]float64, len(g.runs))
	done := make([]bool, len(g.runs))
	for range g.runs {
		next := -1
		for i := range g.runs {
			ready := !done[i] && !slices.ContainsFunc(before[i], func(j int) bool { return !done[j] })
			if ready && (next < 0 || tail[i] > tail[next]) {
				next = i
			}
		}
		at := g.runs[next].clearOf(g.flags[0])
		for _, j := range before[next] {
			at = math.Max(at, x[j]+pitch)
		}
		x[next] = g.free(next, at, x, done)
		done[next] = true
	}
	return x
}

// free is the least place from x on at which a run lies on none that is placed.
func (g *gutter) free(i int, at float64, x []float64, done []bool) float64 {
	const pitch = lineApart * chartStep
	var taken []float64
	for j, o := range g.runs {
		if done[j] && o.overlaps(g.runs[i]) {
			taken = append(taken, x[j])
		}
	}
	slices.Sort(taken)
	for _, t := range taken {
		if t > at-pitch+1e-9 && t < at+pitch-1e-9 {
			at = t + pitch
		}
	}
	return at
}

// overlaps tells whether two runs cannot share a track.
func (r run) overlaps(o run) bool {
	const near = lineApart*chartStep - 0.1
	return r.lo < o.hi+near && o.lo < r.hi+near
}
