package fit

import (
	"fmt"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// bars advises on a bus bar with fewer studs than its stops have names: nothing then
// says which rings share a stud.
func (f *fitter) bars() {
	for i := range f.h.Parts {
		p := &f.h.Parts[i]
		if p.Kind != harness.Bus || p.Studs == 0 || len(p.Terminals) <= p.Studs {
			continue
		}
		var names []string
		for _, t := range p.Terminals {
			names = append(names, f.h.Terminals[t].Name)
		}
		f.problems = append(f.problems, source.Problem{
			Slug: "more-names-than-studs", Level: source.Advice, Span: p.Span, Subjects: []string{p.Ref},
			Summary: fmt.Sprintf("%s has %s, and its stops name %d: %s; nothing says which of them share one", p.Ref, unit.Counted(p.Studs, "stud"), len(names), strings.Join(names, ", ")),
			Detail:  fmt.Sprintf("name the stops after the studs (%s.1, %s.2 …), or write studs: %d", p.Ref, p.Ref, len(names)),
			Numbers: []source.Number{{Name: "studs", Value: float64(p.Studs)}},
		})
	}
}
