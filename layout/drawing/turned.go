package drawing

import (
	"slices"

	"example.com/loomfolio/sizing/harness"
)

// towardsGround is the harness with its wires from the live side to the ground, as they are
// drawn from left to right: with the positive pole on the bodywork against the current.
func towardsGround(h *harness.Harness) *harness.Harness {
	if !h.System.PositiveEarth {
		return h
	}
	out := *h
	out.Wires = slices.Clone(h.Wires)
	for i := range out.Wires {
		w := &out.Wires[i]
		w.From, w.To = w.To, w.From
	}
	out.Circuits = slices.Clone(h.Circuits)
	for i := range out.Circuits {
		c := &out.Circuits[i]
		c.Wires = slices.Clone(c.Wires)
		for from := 0; from < len(c.Wires); {
			to := from + 1
			for to < len(c.Wires) && h.Wires[c.Wires[to]].Leg == h.Wires[c.Wires[from]].Leg {
				to++
			}
			slices.Reverse(c.Wires[from:to])
			from = to
		}
	}
	return &out
}
