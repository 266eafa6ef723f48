package fitted

import (
	"fmt"
	"slices"

	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/harness"
)

// Name is what the shopping list calls a reel: "0.5 mm² thin-wall-125 OG/BK".
func (r *Reel) Name() string {
	name := r.Gauge.String() + " " + r.Insulation
	if r.Base != "" {
		name += " " + colour.Pair{Base: r.Base, Tracer: r.Tracer}.String()
	}
	return name
}

// Source names the length that a cut is from where a reel has several or is cut
// from the shelf: "left-over 2", "new 1"; "" where all is cut from the one that is bought.
func (r *Reel) Source(cut int) string {
	if len(r.Cuts) == 1 && !r.Cuts[0].Shelf {
		return ""
	}
	n, of := 0, 0
	for i := range r.Cuts {
		if r.Cuts[i].Shelf == r.Cuts[cut].Shelf {
			of++
			if i <= cut {
				n++
			}
		}
	}
	name := "new"
	if r.Cuts[cut].Shelf {
		name = "left-over"
	}
	if of > 1 {
		name += fmt.Sprintf(" %d", n)
	}
	return name
}

// CutOf finds the cut that a wire is in; -1 for none.
func (r *Reel) CutOf(w harness.WireID) int {
	return slices.IndexFunc(r.Cuts, func(c Cut) bool { return slices.Contains(c.Wires, w) })
}

// Order gives the wires in the order of cutting: those of no unit reel by reel, then
// unit by unit.
func Order(h *harness.Harness, reels []Reel) []harness.WireID {
	of := h.UnitOf()
	var out []harness.WireID
	for _, r := range reels {
		for _, w := range r.Wires {
			if of[w] == harness.None {
				out = append(out, w)
			}
		}
	}
	for i := range h.Units {
		out = append(out, h.Units[i].Wires...)
	}
	return out
}
