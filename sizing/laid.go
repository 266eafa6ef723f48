package sizing

import (
	"fmt"
	"slices"

	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/choose/finding"
	"example.com/loomfolio/sizing/choose/misuse"
	"example.com/loomfolio/sizing/choose/reason"
	"example.com/loomfolio/sizing/choose/spare"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/source"
)

// laying is a loom with its ways and the sizes that settled on them.
type laying struct {
	ways    []route.Way // by WireID
	settled *choose.Settled
	lengths source.Problems
}

// settle chooses on some ways.
type settle func(ways []route.Way) (*choose.Settled, error)

// laid finds the ways and settles on the sizes. Wires that are twisted are longer the
// thicker they are, and may need to be thicker the longer they are: where a choice
// makes them longer, all is chosen once more. Sections never shrink again after the
// first choice, so this ends.
func laid(h *harness.Harness, ways []route.Way, by settle) (laying, error) {
	var sections []route.Section
	for {
		settled, err := by(ways)
		if err != nil {
			return laying{}, fmt.Errorf("the network has no solution: %w", err)
		}
		sections = wider(sections, settled)
		next, lengths := route.FindFor(h, sections)
		if sameLengths(ways, next) {
			return laying{next, settled, lengths}, nil
		}
		ways = next
	}
}

// least settles on the least sizes. Nothing is chosen where a wire has no length: the problems
// say which.
func least(h *harness.Harness) (laying, error) {
	ways, lengths := route.Find(h)
	if lengths.HasErrors() {
		return laying{ways: ways, lengths: lengths}, nil
	}
	return laid(h, ways, func(ways []route.Way) (*choose.Settled, error) { return choose.Settle(h, ways) })
}

// chosen gives all choices with their reasons, and what is wrong with them; least is what was
// settled before it was said what is bought, nil where nothing is.
func (l *laying) chosen(least *choose.Settled) (chosen.Chosen, source.Problems) {
	var all chosen.Chosen
	if least == nil {
		least, all = l.settled, reason.Of(l.settled)
	} else {
		all = reason.Bought(least, l.settled)
	}
	all.Spares = spare.Of(l.settled, &all)
	return all, slices.Concat(l.lengths, finding.All(l.settled, &all), misuse.All(least, l.settled, &all))
}

// wider gives the sections of the wires that were settled on, none below what it was.
func wider(before []route.Section, settled *choose.Settled) []route.Section {
	out := make([]route.Section, len(settled.At))
	for w := range out {
		z := settled.Size(harness.WireID(w))
		out[w] = route.Section{Over: z.Over, Area: z.Conductor.Area}
		if before != nil {
			out[w].Over, out[w].Area = max(out[w].Over, before[w].Over), max(out[w].Area, before[w].Area)
		}
	}
	return out
}

func sameLengths(a, b []route.Way) bool {
	for i := range a {
		if a[i].Length != b[i].Length {
			return false
		}
	}
	return true
}
