package finding

import (
	"fmt"

	"example.com/loomfolio/sizing/choose/demand"
	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// sideBySide reports fuses that share one feed and one load: their currents
// never share evenly, and when one opens the other carries all.
func (f *inspection) sideBySide() {
	for _, two := range f.Net.Parallel() {
		if f.Most(two[0])+f.Most(two[1]) >= demand.OnFrom {
			f.abreast(&f.H.Elements[two[0]], &f.H.Elements[two[1]])
		}
	}
}

func (f *inspection) abreast(a, b *harness.Element) {
	sum := f.Most(a.ID) + f.Most(b.ID)
	f.add(source.Problem{
		Slug: "parallel-fuses", Level: source.Warning, Span: f.H.Parts[b.Part].Span,
		Summary:  fmt.Sprintf("%s and %s are in parallel: when one opens the other carries all (%s)", a.Name, b.Name, unit.Amps(sum)),
		Detail:   "use one fuse of the size needed, or give each its own wire and load",
		Subjects: []string{a.Name, b.Name},
		Numbers:  []source.Number{number("amps", sum)},
	})
}

// fedTwice reports metal that stays live when one of its fuses is out: as a
// warning where both come from one battery, as advice where each has a battery
// of its own, as a cable between two batteries must, once for each pair of them.
func (f *inspection) fedTwice() {
	said := map[[2]harness.ElementID]bool{}
	var link *flow.TwiceFed
	linked := ""
	for i := range f.States {
		for _, x := range f.Net.TwiceFed(&f.States[i]) {
			switch {
			case said[x.Fuses]:
			case len(x.Batteries) > 0:
				said[x.Fuses] = true
				f.fedFromOneBattery(x, f.H.States[i].Name)
			case link == nil || len(x.Wires) < len(link.Wires):
				link, linked = &x, f.H.States[i].Name
			}
		}
	}
	if link != nil {
		f.fedFromTwoBatteries(*link, linked)
	}
}

func (f *inspection) fedFromOneBattery(x flow.TwiceFed, state string) {
	a, b := &f.H.Elements[x.Fuses[0]], &f.H.Elements[x.Fuses[1]]
	sum := float64(f.Fuses[a.ID].Rating + f.Fuses[b.ID].Rating)
	f.add(source.Problem{
		Slug: "fed-from-two-fuses", Level: source.Warning, Span: f.H.Parts[b.Part].Span,
		Summary:  fmt.Sprintf("%s and %s both feed %s in %s: with either fuse out it is still live, and a short draws on both (%s together)", a.Name, b.Name, source.Some(f.names(x.Wires), " wires"), state, unit.Amps(sum)),
		Detail:   "feed it from one of the two: remove the other's wire, or keep them apart with a changeover contact or a diode in each",
		Subjects: append([]string{a.Name, b.Name, state}, f.names(x.Wires)...),
		Numbers:  []source.Number{number("ratings_a", sum)},
	})
}

func (f *inspection) fedFromTwoBatteries(x flow.TwiceFed, state string) {
	a, b := &f.H.Elements[x.Fuses[0]], &f.H.Elements[x.Fuses[1]]
	f.add(source.Problem{
		Slug: "fed-from-two-fuses", Level: source.Advice, Span: f.H.Parts[b.Part].Span,
		Summary:  fmt.Sprintf("%s and %s feed %s from two batteries in %s, as a cable between them must: either alone keeps it live", a.Name, b.Name, source.Some(f.names(x.Wires), " wires"), state),
		Detail:   "remove both fuses before you work on it, and say so on a label at each",
		Subjects: append([]string{a.Name, b.Name, state}, f.names(x.Wires)...),
	})
}
