package fit

import (
	"fmt"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// tabs advises, once for all, on tabs that several wires would share: a tab takes
// one receptacle (common practice, no source).
func (f *fitter) tabs() {
	on := map[harness.TerminalID][]harness.WireID{}
	for i := range f.out.Ends {
		for _, e := range f.out.Ends[i] {
			if strings.HasPrefix(e.Fitting, "receptacle") {
				on[e.Terminal] = append(on[e.Terminal], e.Wire)
			}
		}
	}
	var words, subjects []string
	for t := range f.h.Terminals {
		wires := on[harness.TerminalID(t)]
		if len(wires) < 2 {
			continue
		}
		sum := unit.SquareMillimetre(0)
		for _, w := range wires {
			sum += f.c.Wires[w].Area
		}
		full := f.h.Terminals[t].Full
		words = append(words, fmt.Sprintf("%s (%s, together %s)", full, strings.Join(f.names(wires), " and "), sum))
		subjects = append(subjects, full)
	}
	if len(words) == 0 {
		return
	}
	f.problems = append(f.problems, source.Problem{
		Slug: "wires-share-tab", Level: source.Advice, Span: f.h.PartOf(f.terminalNamed(subjects[0])).Span,
		Summary:  "several wires meet on one tab, which takes one receptacle: " + strings.Join(words, ", "),
		Detail:   "crimp them into one receptacle whose range holds them together, take a receptacle with a tab of its own, or join them at a splice",
		Subjects: subjects, Numbers: []source.Number{{Name: "tabs", Value: float64(len(words))}},
	})
}

func (f *fitter) terminalNamed(full string) harness.TerminalID {
	for t := range f.h.Terminals {
		if f.h.Terminals[t].Full == full {
			return harness.TerminalID(t)
		}
	}
	return harness.Chassis
}
