package diagnose

import (
	"cmp"
	"slices"

	"example.com/loomfolio/sizing/fault/probe"
	"example.com/loomfolio/sizing/proof"
)

// entry is a line of the list: faults of one element that are of one kind.
type entry struct {
	fault int // the first of them
	share float64
}

// class is what no meter tells apart, its entries in the order in which to look at them.
type class struct {
	entries []entry
	share   float64
}

// classes groups what remains, the likeliest first. What differs only in what a joint costs
// is one to whoever looks for it.
func classes(faults []proof.Fault, left []proof.Suspect, words func(*proof.Fault) string) []class {
	var out []class
	at, of := map[int]int{}, map[string]int{}
	for _, s := range left {
		name := words(&faults[s.Fault])
		k, known := at[s.Class]
		if !known {
			if k, known = of[name]; !known {
				k = len(out)
				out = append(out, class{})
				of[name] = k
			}
			at[s.Class] = k
		}
		out[k].add(s, name, faults, words)
	}
	slices.SortStableFunc(out, func(a, b class) int { return cmp.Compare(b.share, a.share) })
	return out
}

// add enters a fault, under those of the same words.
func (c *class) add(s proof.Suspect, name string, faults []proof.Fault, words func(*proof.Fault) string) {
	c.share += s.Share
	i := slices.IndexFunc(c.entries, func(e entry) bool { return words(&faults[e.fault]) == name })
	if i < 0 {
		i = len(c.entries)
		c.entries = append(c.entries, entry{fault: s.Fault})
	}
	c.entries[i].share += s.Share
}

// inOrder puts the entries of a class in the order in which to look at them: by how likely
// each is for the minutes that it takes to reach.
func (c *class) inOrder(minutes func(fault int) float64) {
	var shares, cost []float64
	for _, e := range c.entries {
		shares, cost = append(shares, e.share), append(cost, minutes(e.fault))
	}
	sorted := make([]entry, 0, len(c.entries))
	for _, i := range probe.Order(shares, cost) {
		sorted = append(sorted, c.entries[i])
	}
	c.entries = sorted
}
