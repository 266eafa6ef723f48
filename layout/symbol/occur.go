package symbol

import (
	"slices"

	"example.com/loomfolio/sizing/harness"
)

// Occurring are the symbols that the diagrams of a model have: those of its parts, and
// those that every diagram has.
func Occurring(h *harness.Harness) map[Variant]bool {
	ofParts := map[Variant]bool{groundOne: true}
	for _, s := range samples() {
		ofParts[s.v] = true
	}
	out := map[Variant]bool{}
	for _, g := range Key() {
		for _, e := range g.Examples {
			out[e.Words] = !ofParts[e.Words]
		}
	}
	out[ownWireOne] = slices.ContainsFunc(h.Wires, func(w harness.Wire) bool { return w.Existing })
	out[bodyOne] = false
	for i := range h.Parts {
		p := &h.Parts[i]
		out[bodyOne] = out[bodyOne] || p.BodyGround && p.BodyJoint != harness.None
		out[VariantOf(h, p)] = true
		if p.Kind == harness.FusePanel {
			out[positionOne], out[panelOne] = true, true
		}
	}
	return out
}
