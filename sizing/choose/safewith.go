package choose

import (
	"math"

	"example.com/loomfolio/sizing/harness"
)

// safeWith gives by ElementID the largest rating of each fuse with which the wires of a given
// gauge behind it are safe, A; +Inf where there are none.
func (r *Round) safeWith() []float64 {
	out := make([]float64, len(r.H.Elements))
	for i := range out {
		out[i] = math.Inf(1)
	}
	for w, guards := range r.Stand {
		if id := harness.WireID(w); r.Given(id) {
			for _, f := range guards {
				out[f] = math.Min(out[f], r.MostRating(id, r.Size(id), f))
			}
		}
	}
	return out
}
