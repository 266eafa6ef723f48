package drawing

import (
	"slices"

	"example.com/loomfolio/sizing/harness"
)

// towardsGround is the harness with its wires from the live side to the ground, as they are
// drawn from left to right: with the positive pole on the bodywork against the current,
// and a leg that begins at a ground, or ends at a battery's earthed pole, turned round.
func towardsGround(h *harness.Harness) *harness.Harness {
	out := *h
	out.Wires = slices.Clone(h.Wires)
	out.Circuits = slices.Clone(h.Circuits)
	for i := range out.Circuits {
		c := &out.Circuits[i]
		c.Wires = slices.Clone(c.Wires)
		for from := 0; from < len(c.Wires); {
			to := from + 1
			for to < len(c.Wires) && h.Wires[c.Wires[to]].Leg == h.Wires[c.Wires[from]].Leg {
				to++
			}
			turnLeg(&out, c.Wires[from:to])
			from = to
		}
	}
	return &out
}

// turnLeg turns the wires of a leg to the ground.
func turnLeg(h *harness.Harness, leg []harness.WireID) {
	turn := func() {
		for _, id := range leg {
			w := &h.Wires[id]
			w.From, w.To = w.To, w.From
		}
		slices.Reverse(leg)
	}
	if h.System.PositiveEarth {
		turn()
	}
	first, last := h.Wires[leg[0]].From, h.Wires[leg[len(leg)-1]].To
	if p := h.PartOf(first); p != nil && p.Kind == harness.Ground || earthedPole(h, last) {
		turn()
	}
}

// earthedPole tells whether a terminal is the pole of a battery that faces the bodywork.
func earthedPole(h *harness.Harness, t harness.TerminalID) bool {
	p := h.PartOf(t)
	if p == nil || p.Kind != harness.Battery {
		return false
	}
	if h.System.PositiveEarth {
		return h.Terminals[t].Name == "+"
	}
	return h.Terminals[t].Name == "-"
}
