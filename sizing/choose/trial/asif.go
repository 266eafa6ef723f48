package trial

import (
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
)

// AsIf solves a state, the sizes and fuses in hand at 20 C, with another engine condition and some parts in other positions.
func (s *Solved) AsIf(state int, engine harness.Engine, set map[harness.PartID]int) (network.State, error) {
	h := *s.H
	as := h.States[state]
	as.Engine, as.Position = engine, slices.Clone(as.Position)
	for id, n := range set {
		as.Position[id] = n
	}
	h.States = []harness.State{as}
	r := network.Resistances{Wires: make([]float64, len(h.Wires)), Links: s.Links}
	for i := range h.Wires {
		r.Wires[i] = s.Ohms(harness.WireID(i))
	}
	return network.Solve(&h, 0, r, network.Options{})
}
