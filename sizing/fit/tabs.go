package fit

import (
	"fmt"
	"strings"

	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/joint"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// tabs settles where several wires meet on one tab or in one cavity: it takes one
// receptacle or contact (common practice, no source). They are crimped into one
// receptacle together where one is made for their areas added; else an advice says so, once for all.
func (f *fitter) tabs() {
	on := map[harness.TerminalID][]*fitted.End{}
	for i := range f.out.Ends {
		for n := range f.out.Ends[i] {
			if e := &f.out.Ends[i][n]; single(e.Kind) {
				on[e.Terminal] = append(on[e.Terminal], e)
			}
		}
	}
	var words, subjects []string
	var first *harness.Part
	for t := range f.h.Terminals {
		ends := on[harness.TerminalID(t)]
		if len(ends) < 2 || f.allOwn(wiresOf(ends)) || f.share(ends) {
			continue
		}
		full := f.h.Terminals[t].Full
		words = append(words, fmt.Sprintf("%s (%s, together %s)", full, strings.Join(f.names(wiresOf(ends)), " and "), unit.AreaText(f.together(ends), f.h.Sheet.Imperial)))
		subjects = append(subjects, full)
		if first == nil {
			first = f.h.PartOf(harness.TerminalID(t))
		}
	}
	if first == nil {
		return
	}
	f.problems = append(f.problems, source.Problem{
		Slug: "wires-share-tab", Level: source.Advice, Span: first.Span,
		Summary:  "several wires meet where one terminal goes, and none is made for them together: " + strings.Join(words, ", "),
		Detail:   "join them at a splice with one wire to the part, or give each a tab of its own",
		Subjects: subjects, Gathers: true, Numbers: []source.Number{{Name: "tabs", Value: float64(len(words))}},
	})
}

// single tells a fitting of which a terminal of the part takes one only.
func single(fitting string) bool { return fitting == joint.Receptacle || fitting == joint.Contact }

func wiresOf(ends []*fitted.End) []harness.WireID {
	var out []harness.WireID
	for _, e := range ends {
		out = append(out, e.Wire)
	}
	return out
}

func (f *fitter) together(ends []*fitted.End) unit.SquareMillimetre {
	sum := unit.SquareMillimetre(0)
	for _, e := range ends {
		sum += f.c.Wires[e.Wire].Area
	}
	return sum
}

// share puts the wires of a tab into one insulated receptacle by their areas added, as
// in a splice (NASA-STD-8739.4 19.11); false where there is none. The first of them
// counts it. The shop's own terminals, which say for one wire what they take, are left alone.
func (f *fitter) share(ends []*fitted.End) bool {
	first := ends[0]
	sum := f.together(ends)
	sleeve, ok := f.sleeveFor(first, sum)
	p := f.h.PartOf(first.Terminal)
	if !ok || p.Sleeve != "" && p.Sleeve != sleeve.Colour {
		return false
	}
	for _, e := range ends {
		if e.Part != "" || !e.ToMake() {
			return false
		}
	}
	most := f.thickestOf(ends)
	for i, e := range ends {
		insulate(e, sleeve, sum)
		if f.c.Wires[e.Wire].Area*thinBeside < most {
			e.Strip, e.Folded = 2*e.Strip, true
		}
		e.With, e.Second = others(ends, e), i > 0
		e.Reason = fmt.Sprintf("on one tab with %s, so in one female spade: together %s, %s takes %s", strings.Join(f.names(e.With), " and "), unit.AreaText(sum, f.h.Sheet.Imperial), sleeve.Colour, sleeve.Range)
		e.Sources = append(e.Sources, "nasa-splice", sleeve.Source)
	}
	return true
}

// sleeveFor gives the insulated receptacle for an area at an end; false where none is made, or where no receptacle goes.
func (f *fitter) sleeveFor(e *fitted.End, sum unit.SquareMillimetre) (rating.Sleeve, bool) {
	j, system := f.jointOf(e.Terminal), f.c.Wires[e.Wire].Gauge.System
	sleeve, ok := rating.SleeveOf(rating.Conductor{Gauge: unit.Gauge{System: system}, Area: sum})
	if !ok || j.Fitting != joint.Receptacle || !j.Takes(sum) {
		return rating.Sleeve{}, false
	}
	return rating.SleeveRange(sleeve.Colour, system)
}

// insulate gives an end the insulated crimp for the areas that it holds together.
func insulate(e *fitted.End, sleeve rating.Sleeve, sum unit.SquareMillimetre) {
	e.Crimp, e.Size, e.Folded, e.Doubt = sleeve.Colour+" insulated", sleeve.Range, false, ""
	e.Strip, _ = rating.Strip("insulated", sum)
}

func (f *fitter) thickestOf(ends []*fitted.End) unit.SquareMillimetre {
	most := unit.SquareMillimetre(0)
	for _, e := range ends {
		most = max(most, f.c.Wires[e.Wire].Area)
	}
	return most
}

func others(ends []*fitted.End, self *fitted.End) []harness.WireID {
	var out []harness.WireID
	for _, e := range ends {
		if e != self {
			out = append(out, e.Wire)
		}
	}
	return out
}
