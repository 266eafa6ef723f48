package sizing

import (
	"fmt"
	"math"

	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// alike is how far apart, as a share, the voltages of batteries in parallel may be: those of
// different chemistry for one system differ by less. Common practice, no source.
const alike = 0.2

// unlikeSources refuses batteries of unlike voltage that metal joins in parallel whatever the
// switches do: one drives hundreds of amperes through the other, and nothing can be sized
// for that.
func unlikeSources(h *harness.Harness) source.Problems {
	net := flow.NewNet(h)
	for i := range h.Elements {
		for j := range i {
			a, b := &h.Elements[j], &h.Elements[i]
			if a.Kind != harness.EMF || b.Kind != harness.EMF || !net.Always(a.A, b.A) || !net.Always(a.B, b.B) {
				continue
			}
			if math.Abs(float64(a.Volts-b.Volts)) <= alike*float64(max(a.Volts, b.Volts)) {
				continue
			}
			return source.Problems{{
				Slug: "sources-unlike", Level: source.Error, Span: h.Parts[b.Part].Span,
				Summary:  fmt.Sprintf("%s gives %s and %s gives %s, and they are in parallel: the one empties itself into the other", a.Name, a.Volts, b.Name, b.Volts),
				Detail:   "part them by a switch that joins one at a time, put like ones in series first, or charge one from the other through a converter",
				Subjects: []string{a.Name, b.Name},
			}}
		}
	}
	return nil
}
