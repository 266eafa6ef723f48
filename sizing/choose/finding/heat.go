package finding

import (
	"fmt"
	"slices"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// heat reports wires that no size cools, given gauges that get too hot, and
// given gauges thinner than practice allows.
func (f *inspection) heat() {
	for i := range f.H.Wires {
		w := harness.WireID(i)
		c := &f.c.Wires[i]
		over := !f.Peaks[w].Short && float64(c.Amps) > float64(c.Ampacity)*(1+1e-6)
		switch {
		case over && f.Given(w):
			f.givenTooHot(w, c)
		case over && c.Temperature > c.Class && f.Alone(w, f.Size(w), c.Class) >= float64(c.Amps):
			f.cooked(w, c)
		case over:
			f.tooHot(w, c)
		case c.Temperature > c.Class+neighbourly:
			f.cooked(w, c)
		case f.Given(w) && f.At[w] < f.Floors[w].Handling && !f.Floors[w].Earth && !f.H.Wires[w].Existing:
			f.tooThin(w, c)
		case f.Given(w):
			f.returnTooThin(w, c)
		}
	}
}

func (f *inspection) givenTooHot(w harness.WireID, c *chosen.Wire) {
	f.add(source.Problem{
		Slug: "gauge-given-too-thin", Level: source.Error, Span: f.H.Wires[w].GaugeSpan,
		Summary:  fmt.Sprintf("%s is given as %s and gets too hot: it carries %s", f.wireName(w), c.Gauge, tooMuch(c)),
		Detail:   fmt.Sprintf("for the heat the wire needs %s; %s", c.Wants.Heat, f.thicker(w)),
		Subjects: []string{f.wireName(w), c.State}, Numbers: heatNumbers(c),
	})
}

func (f *inspection) tooHot(w harness.WireID, c *chosen.Wire) {
	f.add(source.Problem{
		Slug: "wire-too-hot", Level: source.Error, Span: f.H.Wires[w].Span,
		Summary:  fmt.Sprintf("%s gets too hot in every size: as %s it carries %s", f.wireName(w), c.Gauge, tooMuch(c)),
		Detail:   "route it through a cooler place, take it out of the bundle, choose an insulation of a higher class, or split the load over two wires",
		Subjects: []string{f.wireName(w), c.State}, Numbers: heatNumbers(c),
	})
}

func (f *inspection) tooThin(w harness.WireID, c *chosen.Wire) {
	f.add(source.Problem{
		Slug: "gauge-given-too-thin", Level: source.Advice, Span: f.H.Wires[w].GaugeSpan,
		Summary:  fmt.Sprintf("%s is given as %s; practice allows nothing under %s", f.wireName(w), c.Gauge, c.Wants.Handling),
		Detail:   "thin wire breaks at the terminal: leave the gauge out, or lower practice.smallest",
		Subjects: []string{f.wireName(w)}, Numbers: []source.Number{number("area_mm2", float64(c.Area))},
	})
}

// tooMuch says what a wire carries and what it may carry.
func tooMuch(c *chosen.Wire) string {
	beside := ""
	if c.Bundle > 1 {
		beside = fmt.Sprintf(" in a bundle of %d loaded wires", c.Bundle)
	}
	return fmt.Sprintf("%s in %s, and is good for %s at %s%s", unit.Amps(float64(c.Amps)), c.State, unit.Amps(float64(c.Ampacity)), c.Ambient, beside)
}

func heatNumbers(c *chosen.Wire) []source.Number {
	return []source.Number{number("amps", float64(c.Amps)), number("ampacity_a", float64(c.Ampacity)), number("ambient_c", float64(c.Ambient))}
}

// cooked reports a wire whose own current is nothing to it, but that lies beside
// hotter ones of a higher class, or in a place that is hotter than it stands.
func (f *inspection) cooked(w harness.WireID, c *chosen.Wire) {
	p := source.Problem{
		Slug: "wire-too-hot", Level: source.Error, Span: f.H.Wires[w].Span,
		Summary:  fmt.Sprintf("%s gets %.0f °C in %s from the wires beside it; its insulation %s is rated %s", f.wireName(w), float64(c.Temperature), c.HottestIn, c.Insulation, c.Class),
		Detail:   "use the insulation of the hot wires for it too, or route it another way",
		Subjects: []string{f.wireName(w), c.HottestIn}, Numbers: []source.Number{number("temperature_c", float64(c.Temperature)), number("class_c", float64(c.Class))},
	}
	if c.Ambient >= c.Class {
		p.Summary = fmt.Sprintf("%s passes %s of %s; its insulation %s is rated %s", f.wireName(w), f.placeName(w), c.Ambient, c.Insulation, c.Class)
		p.Detail = "route it through a cooler place, or choose an insulation of a higher class"
	}
	f.add(p)
}

func (f *inspection) placeName(w harness.WireID) string {
	if at := f.Places[w].Place; at != harness.None {
		return "a place (" + f.H.Places[at].Key + ")"
	}
	return "a place"
}

// neighbourly is how far above its class a wire may come by rounding.
const neighbourly unit.Celsius = 0.5

// returnTooThin reports a given gauge of a source's return, or of a link between
// batteries, that holds clearly less copper than the source's lead: all that comes by the
// one goes back by the other.
func (f *inspection) returnTooThin(w harness.WireID, c *chosen.Wire) {
	for _, l := range f.Leads {
		if !slices.Contains(l.Earth, w) {
			continue
		}
		for _, live := range l.Live {
			if area := f.Size(live).Conductor.Area; float64(c.Area) < thinReturn*float64(area) {
				f.add(source.Problem{
					Slug: "gauge-given-too-thin", Level: source.Warning, Span: f.H.Wires[w].GaugeSpan,
					Summary:  fmt.Sprintf("%s is given as %s and is the return of %s, which is %s", f.wireName(w), c.Gauge, f.wireName(live), f.c.Wires[live].Gauge),
					Detail:   "a return holds no less copper than the feed (NEC 552.10 of a battery's); " + f.thicker(w),
					Subjects: []string{f.wireName(w), f.wireName(live)}, Numbers: []source.Number{number("area_mm2", float64(c.Area)), number("least_mm2", float64(area))},
				})
				return
			}
		}
	}
}

// thinReturn is the share of its feed's copper below which a given return is said to be
// thin; less is a neighbouring size of another series. Common practice, no source.
const thinReturn = 0.7
