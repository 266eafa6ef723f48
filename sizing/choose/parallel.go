package choose

import (
	"fmt"

	"example.com/loomfolio/sizing/source"
)

// sideBySide reports fuses that share one feed and one load: their currents
// never share evenly, and when one opens the other carries all.
func (f *inspection) sideBySide() {
	for _, two := range f.net.Parallel() {
		a, b := &f.h.Elements[two[0]], &f.h.Elements[two[1]]
		if f.most(a.ID)+f.most(b.ID) < onFrom {
			continue
		}
		f.add(source.Problem{
			Slug: "parallel-fuses", Level: source.Warning, Span: f.h.Parts[b.Part].Span,
			Summary:  fmt.Sprintf("%s and %s lie side by side: when one opens the other carries all (%s)", a.Name, b.Name, amps(f.most(a.ID)+f.most(b.ID))),
			Detail:   "take one fuse of the size needed, or give each its own wire and load",
			Subjects: []string{a.Name, b.Name},
			Numbers:  []source.Number{number("amps", f.most(a.ID)+f.most(b.ID))},
		})
	}
}
