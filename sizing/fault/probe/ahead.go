package probe

import (
	"cmp"
	"slices"
)

// tries is how many of the most telling tests are tried two steps deep.
const tries = 4

// ahead chooses the test for many classes: of those that tell most for their cost the one
// after which least is left to pay.
func (c classed) ahead(set []int) *step {
	best, least := step{}, 0.0
	for i, t := range c.telling(set, tries) {
		parts := c.partsBy(set, c.tests[t])
		cost := c.tests[t].Cost * c.sum(set)
		for _, part := range parts {
			cost += c.guess(part)
		}
		if i == 0 || cost < least-slight {
			best, least = step{test: t, parts: parts}, cost
		}
	}
	return &best
}

// guess is what it would cost to part classes if the rest were told at the rate of the
// best test.
func (c classed) guess(set []int) float64 {
	if len(set) < 2 {
		return 0
	}
	t := c.telling(set, 1)[0]
	rate := c.information(set, c.tests[t]) / c.tests[t].Cost
	w := make([]float64, len(set))
	for i, k := range set {
		w[i] = c.weights[k]
	}
	return c.sum(set) * max(c.tests[t].Cost, Entropy(w)/rate)
}

// telling are the tests that give most information for their cost.
func (c classed) telling(set []int, most int) []int {
	type told struct {
		test int
		rate float64
	}
	var list []told
	for i, t := range c.tests {
		if bits := c.information(set, t); bits > 0 {
			list = append(list, told{i, bits / t.Cost})
		}
	}
	slices.SortStableFunc(list, func(a, b told) int { return cmp.Compare(b.rate, a.rate) })
	var out []int
	for _, x := range list[:min(most, len(list))] {
		out = append(out, x.test)
	}
	return out
}

// information is that of a test on some of the classes.
func (c classed) information(set []int, t Test) float64 {
	var few [16]float64
	by := few[:0]
	for _, k := range set {
		for len(by) <= t.Answer[k] {
			by = append(by, 0)
		}
		by[t.Answer[k]] += c.weights[k]
	}
	return Entropy(by)
}

// partsBy parts classes by a test's answers, in ascending order of them.
func (c classed) partsBy(set []int, t Test) [][]int {
	var by [][]int
	for _, k := range set {
		for len(by) <= t.Answer[k] {
			by = append(by, nil)
		}
		by[t.Answer[k]] = append(by[t.Answer[k]], k)
	}
	return slices.DeleteFunc(by, func(part []int) bool { return len(part) == 0 })
}
