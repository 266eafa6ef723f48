package sizing

import (
	"example.com/loomfolio/sizing/change"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// coloured gives every wire its colour, the record's where it has one and the
// description says nothing else. Where choosing freely gives those anyway, the
// choice stands with its own reasons.
func coloured(h *harness.Harness, ways []route.Way, gauges []unit.Gauge) ([]colour.Choice, colour.Report, source.Problems) {
	choices, report, problems := colour.Assign(h, ways, gauges, nil)
	if agrees(h, choices) {
		return choices, report, problems
	}
	return colour.Assign(h, ways, gauges, locks(h))
}

// locks gives the colours that the record holds.
func locks(h *harness.Harness) colour.Locks {
	out := colour.Locks{}
	for i := range h.Wires {
		if w := &h.Wires[i]; keepsColour(w) {
			out[w.ID] = colour.Lock{Pair: change.KeptPair(w), Built: w.Kept.State == harness.Built}
		}
	}
	return out
}

func keepsColour(w *harness.Wire) bool { return w.Kept.State != "" && w.Base == "" }

func agrees(h *harness.Harness, choices []colour.Choice) bool {
	for i := range h.Wires {
		if w := &h.Wires[i]; keepsColour(w) && choices[i].Pair != change.KeptPair(w) {
			return false
		}
	}
	return true
}
