package fit

import (
	"fmt"
	"math"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// straps holds every strap through which the engine is cranked against the
// starter's own cable: what goes in by the cable comes back by the strap.
func (f *fitter) straps() {
	need, cable := f.crankingCable()
	if cable == harness.None {
		return
	}
	for i := range f.h.Parts {
		p := &f.h.Parts[i]
		amps := f.cranks(p)
		if p.Kind != harness.Strap || amps == 0 {
			continue
		}
		f.strap(p, amps, need, f.h.Wires[cable].Name)
	}
}

func (f *fitter) strap(p *harness.Part, amps unit.Ampere, need unit.SquareMillimetre, cable string) {
	numbers := []source.Number{{Name: "amps", Value: float64(amps)}, {Name: "least_mm2", Value: float64(need)}}
	if !p.Size.Given() {
		f.problems = append(f.problems, source.Problem{
			Slug: "strap-size-unknown", Level: source.Advice, Span: p.Span,
			Summary:  fmt.Sprintf("%s carries %s while the engine is cranked, and nothing says how thick it is", p.Ref, amps),
			Detail:   fmt.Sprintf("it must hold %s at least, as does the starter's cable %s; write gauge:", unit.AreaText(need, f.h.Sheet.Imperial), cable),
			Subjects: []string{p.Ref, cable}, Numbers: numbers,
		})
		return
	}
	has := rating.AreaOf(p.Size)
	if float64(has) >= float64(need)*0.98 {
		return
	}
	f.problems = append(f.problems, source.Problem{
		Slug: "strap-too-thin", Level: source.Warning, Span: p.Span,
		Summary:  fmt.Sprintf("%s is %s, where the starter's cable %s needs %s; both carry %s while the engine is cranked", p.Ref, p.Size, cable, unit.AreaText(need, f.h.Sheet.Imperial), amps),
		Detail:   fmt.Sprintf("use a strap of %s at least, or a second one beside it", unit.AreaText(need, f.h.Sheet.Imperial)),
		Subjects: []string{p.Ref, cable}, Numbers: append(numbers, source.Number{Name: "area_mm2", Value: float64(has)}),
	})
}

// crankingCable is the thickest wire that ends on a starter, with the copper that it needs, bought
// thicker or not; None where there is no starter with a wire.
func (f *fitter) crankingCable() (area unit.SquareMillimetre, cable harness.WireID) {
	cable = harness.None
	for i := range f.h.Parts {
		if f.h.Parts[i].Kind != harness.Starter {
			continue
		}
		for _, w := range f.at(harness.PartID(i)) {
			if a := needs(&f.c.Wires[w]); a > area {
				area, cable = a, w
			}
		}
	}
	return area, cable
}

// needs gives the copper of a wire's own least size.
func needs(w *chosen.Wire) unit.SquareMillimetre {
	if w.Least.Given() {
		return rating.AreaOf(w.Least)
	}
	return w.Area
}

// cranks gives the most current through a part while the engine is cranked, 0
// where it is less than half of what the starter then takes.
func (f *fitter) cranks(p *harness.Part) unit.Ampere {
	most := 0.0
	for s := range f.c.States {
		if s >= len(f.h.States) || f.h.States[s].Engine != harness.EngineCranking {
			continue
		}
		starter := 0.0
		for i := range f.h.Parts {
			if f.h.Parts[i].Kind == harness.Starter {
				starter = math.Max(starter, f.through(&f.h.Parts[i], s))
			}
		}
		if a := f.through(p, s); a > starter/2 {
			most = math.Max(most, a)
		}
	}
	return unit.Ampere(most)
}

// through is the greatest current in any element of a part, A.
func (f *fitter) through(p *harness.Part, state int) float64 {
	most := 0.0
	for _, e := range p.Elements {
		if a := math.Abs(f.c.States[state].Amps[e]); !math.IsNaN(a) {
			most = math.Max(most, a)
		}
	}
	return most
}
