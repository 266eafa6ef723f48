package diagnose

import (
	"cmp"
	"slices"

	"example.com/loomfolio/sizing/proof"
)

// entry is a line of the list: faults of one element that are of one kind.
type entry struct {
	fault int // the first of them
	share float64
}

// class is what no meter tells apart, its entries the likeliest first.
type class struct {
	entries []entry
	share   float64
}

// classes groups what remains, the likeliest first.
func classes(faults []proof.Fault, left []proof.Suspect, words func(*proof.Fault) string) []class {
	var out []class
	at, line := map[int]int{}, map[string]int{}
	for _, s := range left {
		k, known := at[s.Class]
		if !known {
			k = len(out)
			at[s.Class] = k
			out = append(out, class{})
		}
		c := &out[k]
		c.share += s.Share
		name := words(&faults[s.Fault])
		i, known := line[name]
		if !known || i >= len(c.entries) || words(&faults[c.entries[i].fault]) != name {
			i = len(c.entries)
			line[name] = i
			c.entries = append(c.entries, entry{fault: s.Fault})
		}
		c.entries[i].share += s.Share
	}
	for i := range out {
		slices.SortStableFunc(out[i].entries, func(a, b entry) int { return cmp.Compare(b.share, a.share) })
	}
	slices.SortStableFunc(out, func(a, b class) int { return cmp.Compare(b.share, a.share) })
	return out
}
