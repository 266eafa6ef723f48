package reel

import (
	"slices"

	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
)

// drainsOf gives by reel the drains that are cut from it: wires that lead from a screen to a
// ground, of that size, from the first reel from which a wire to a ground is cut as well. What
// is built, and what such a reel is not there for, is bought by itself.
func drainsOf(h *harness.Harness, reels []fitted.Reel, units []fitted.Unit, kept []harness.KeptState) [][]*fitted.Drain {
	out := make([][]*fitted.Drain, len(reels))
	at := slices.IndexFunc(reels, func(r fitted.Reel) bool {
		return r.Gauge == fitted.DrainGauge(h.Sheet.Gauge) && toGround(h, &r, kept)
	})
	for i := range units {
		if at < 0 || harness.BuiltUnit(&h.Units[i], kept) {
			continue
		}
		for n := range units[i].Drains {
			if d := &units[i].Drains[n]; d.Length > 0 && d.With == harness.None {
				out[at] = append(out[at], d)
			}
		}
	}
	return out
}

// toGround tells a reel from which a wire to a ground is cut.
func toGround(h *harness.Harness, r *fitted.Reel, kept []harness.KeptState) bool {
	return slices.ContainsFunc(r.Wires, func(w harness.WireID) bool {
		a, b := h.PartOf(h.Wires[w].From), h.PartOf(h.Wires[w].To)
		ground := a != nil && a.Kind == harness.Ground || b != nil && b.Kind == harness.Ground
		return ground && !harness.IsBuilt(kept, int(w))
	})
}
