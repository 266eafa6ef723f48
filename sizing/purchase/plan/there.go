package plan

import (
	"slices"

	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// thereWeight is what a reel counts that built wires were cut from: some of it may be left, and
// it is known where it was bought (judgement, not published).
const thereWeight = 0.3

// keptReels notes what the wires of the record are of, and whether one of these is built.
func keptReels(h *harness.Harness, core []bool) map[reel]bool {
	out := map[reel]bool{}
	for i := range h.Wires {
		if k := &h.Wires[i].Kept; k.State != "" && !core[i] {
			r := reel{k.Gauge, k.Insulation, colour.Pair{Base: k.Base, Tracer: k.Tracer}}
			out[r] = out[r] || k.State == harness.Built
		}
	}
	return out
}

// there tells a size that lies on the shelf, or that wires of the record are of.
func (w *weighing) there(insulation string, g unit.Gauge) bool {
	for r := range w.kept {
		if r.gauge == g && r.insulation == insulation {
			return true
		}
	}
	return insulation == w.h.Practice.Insulation && slices.ContainsFunc(w.h.Practice.Stock, func(s harness.Stock) bool { return s.Gauge == g })
}

// counts gives what a reel that is needed counts in the sum.
func (w *weighing) counts(r reel) float64 {
	n := 1.0
	if r.pair.Tracer != "" {
		n += w.ask.Tracer
	}
	if w.kept[r] {
		n *= thereWeight
	}
	return n
}
