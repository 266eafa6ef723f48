package cost

import (
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/purchase"
	"example.com/loomfolio/sizing/rating"
)

// Sources gives the keys of the documents that masses and minutes rest on, each once.
func Sources(h *harness.Harness, c *purchase.Cost) []string {
	var out []string
	if c.Wire > 0 {
		for i := range h.Wires {
			if in, ok := rating.InsulationOf(h.Wires[i].Insulation); ok {
				out = append(out, in.DensitySource)
			}
		}
	}
	if c.Cover > 0 {
		out = append(out, "cover-mass")
	}
	for _, o := range c.Operation {
		if o.Minutes > 0 && o.Source != "" {
			out = append(out, o.Source)
		}
	}
	return rating.Distinct(out...)
}
