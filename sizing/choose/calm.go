package choose

import (
	"slices"
	"sort"

	"example.com/loomfolio/sizing/harness"
)

// calm keeps wires that lie together from getting thinner all at once, each
// because the others are still thick: of the groups in a run that would get thinner,
// half may, those that save most copper; none where some is false.
func (r *Round) calm(next []int, some bool) []int {
	out := make([]int, len(next))
	for w := range out {
		out[w] = max(next[w], r.At[w])
	}
	if !some {
		return out
	}
	thinning := r.thinning(next)
	free := r.halves(thinning)
	for _, g := range thinning {
		runs := r.runsOf(g)
		if slices.ContainsFunc(runs, func(run harness.RunID) bool { return free[run] == 0 }) {
			continue
		}
		for _, run := range runs {
			free[run]--
		}
		for _, w := range r.Groups.Wires[g] {
			out[w] = next[w]
		}
	}
	return out
}

// halves gives, by RunID, half of how many of some groups lie there.
func (r *Round) halves(groups []int) []int {
	out := make([]int, len(r.H.Runs))
	for _, g := range groups {
		for _, run := range r.runsOf(g) {
			out[run]++
		}
	}
	for run := range out {
		out[run] = (out[run] + 1) / 2
	}
	return out
}

// runsOf lists the runs in which a group lies, each once.
func (r *Round) runsOf(group int) []harness.RunID {
	var out []harness.RunID
	for _, w := range r.Groups.Wires[group] {
		for _, share := range r.Ways[w].Shares {
			out = append(out, share.Run)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// thinning lists the groups that would get thinner, those that save most first.
func (r *Round) thinning(next []int) []int {
	var out []int
	saves := make([]float64, len(r.Groups.Wires))
	for g, wires := range r.Groups.Wires {
		for _, w := range wires {
			saves[g] += float64(r.Shelf[w][r.At[w]].Conductor.Area-r.Shelf[w][next[w]].Conductor.Area) * r.Metres(w)
		}
		if saves[g] > 0 {
			out = append(out, g)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return saves[out[i]] > saves[out[j]] })
	return out
}
