package finding

import (
	"fmt"
	"math"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// bodyCarries is how much current a part's own body may return before a cable is advised:
// thin sheet, paint and spot welds add up. Common practice, no source.
const bodyCarries = 25

// bodies advises a return cable where a part that is grounded by its body takes a heavy
// current. What stands on an engine is told where its strap is.
func (f *inspection) bodies() {
	for i := range f.H.Parts {
		p := &f.H.Parts[i]
		if !p.BodyGround || p.BodyJoint == harness.None || p.Kind == harness.Starter || p.Kind == harness.Alternator {
			continue
		}
		most, in := 0.0, ""
		for s := range f.States {
			if a := math.Abs(f.States[s].Amps[p.BodyJoint]); a > most && !f.Faulty[s] { // false for NaN
				most, in = a, f.States[s].Name
			}
		}
		if most <= bodyCarries {
			continue
		}
		f.add(source.Problem{
			Slug: "body-carries-much", Level: source.Advice, Span: p.Span,
			Summary:  fmt.Sprintf("%s returns %s over its body in %s", p.Ref, unit.Amps(most), in),
			Detail:   "run a cable from its bolt to the battery's ground or to a stud on thick metal, and write it as its return: sheet metal and paint get hot at such a joint",
			Subjects: []string{p.Ref, in}, Numbers: []source.Number{number("amps", most)},
		})
	}
}
