package finding

import (
	"fmt"
	"slices"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/choose/demand"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// converters reports what is wrong with converters and what hangs behind them.
func (f *inspection) converters() {
	all := f.ElementsOf(harness.Converter)
	for i, id := range all {
		f.overtaxed(id)
		f.neverOpens(id)
		f.emptiesItsFeed(id)
		for _, other := range all[:i] {
			f.together(id, other)
		}
	}
}

// overtaxed reports a converter whose loads are described to take more than it gives, in
// the state in which they take most.
func (f *inspection) overtaxed(id harness.ElementID) {
	var worst *chosen.Side
	state := 0
	for i := range f.c.Budgets {
		for j := range f.c.Budgets[i].Behind {
			if s := &f.c.Budgets[i].Behind[j]; s.Converter == id && s.Asked > s.Limit*(1+1e-6) && (worst == nil || s.Asked > worst.Asked) {
				worst, state = s, f.c.Budgets[i].State
			}
		}
	}
	if worst == nil {
		return
	}
	then := "its voltage falls"
	if f.H.BatteryBehind(id) != nil {
		then = "the battery behind it gives the rest until it is flat"
	}
	f.add(source.Problem{
		Slug: "converter-overloaded", Level: source.Warning, Span: f.PartOf(id).Span,
		Summary:  fmt.Sprintf("the loads behind %s take %s in %s and it gives %s: %s", worst.Name, unit.Amps(float64(worst.Asked)), f.H.States[state].Name, worst.Limit, then),
		Detail:   "use a larger converter, or feed less from it",
		Subjects: []string{worst.Name, f.H.States[state].Name}, Numbers: []source.Number{number("loads_a", float64(worst.Asked)), number("gives_a", float64(worst.Limit))},
	})
}

// neverOpens reports given fuses behind a converter that are rated for more than it gives,
// where no battery helps it to open them.
func (f *inspection) neverOpens(id harness.ElementID) {
	name := f.PartOf(id).Ref
	for i := range f.c.Fuses {
		x := &f.c.Fuses[i]
		e := &f.H.Elements[x.Element]
		limit := f.H.LimitOf(e)
		if f.H.BehindOf(e) != id || limit == 0 || !x.Given || x.Rating <= limit*(1+1e-6) {
			continue
		}
		f.add(source.Problem{
			Slug: "fuse-above-converter", Level: source.Warning, Span: f.H.Parts[x.Part].RatingPlace(x.Position),
			Summary:  fmt.Sprintf("%s is rated %s and %s gives %s at most: a short behind it never opens it, and all behind %s goes dead", x.Name, x.Rating, name, limit, name),
			Detail:   fmt.Sprintf("write a rating clearly below %s, a fuse for each circuit, or leave the rating out", limit),
			Subjects: []string{x.Name, name}, Numbers: []source.Number{number("rating_a", float64(x.Rating)), number("gives_a", float64(limit))},
		})
	}
}

// emptiesItsFeed reports a converter that charges a battery from another one while nothing
// charges that.
func (f *inspection) emptiesItsFeed(id harness.ElementID) {
	battery := f.H.BatteryBehind(id)
	if battery == nil || len(f.ElementsOf(harness.EMF)) < 2 {
		return
	}
	input := &f.H.Elements[f.H.Elements[id].Input]
	for i := range f.States {
		state := &f.H.States[i]
		if state.Engine != harness.EngineOff || f.Faulty[i] || !f.States[i].Energised[input.ID] {
			continue
		}
		p := f.PartOf(id)
		f.add(source.Problem{
			Slug: "charger-empties-battery", Level: source.Warning, Span: p.Span,
			Summary:  fmt.Sprintf("%s works in %s with the engine off: it charges %s from the battery that feeds it until that is flat", p.Ref, state.Name, battery.Name),
			Detail:   "switch it by D+ (a wire to its terminal on), or let it work only above the voltage of a charging battery (works-above: 13 V for 12 V)",
			Subjects: []string{p.Ref, state.Name}, Numbers: []source.Number{number("works_above_v", float64(input.Floor))},
		})
		return
	}
}

// together reports two converters whose outputs metal joins: the one that is set a little
// higher gives all, up to its limit.
func (f *inspection) together(id, other harness.ElementID) {
	a, b := &f.H.Elements[id], &f.H.Elements[other]
	if !f.Net.Always(f.H.Live(a), f.H.Live(b)) {
		return
	}
	one, two := f.PartOf(other).Ref, f.PartOf(id).Ref
	f.add(source.Problem{
		Slug: "converters-in-parallel", Level: source.Warning, Span: f.PartOf(id).Span,
		Summary:  fmt.Sprintf("the outputs of %s and %s are joined: the one that is set a little higher gives all until it is at its limit", one, two),
		Detail:   "divide the loads between the two, use one that gives it all, or such as are made to share, by their maker's word",
		Subjects: []string{one, two},
	})
}

// shortOfVolts reports loads that get less than they are said to need, each in its worst
// state.
func (f *inspection) shortOfVolts() {
	for i := range f.H.Parts {
		p := &f.H.Parts[i]
		if p.NeedsVolts <= 0 {
			continue
		}
		var worst *demand.Draw
		for j := range f.Draws {
			d := &f.Draws[j]
			ours := slices.Contains(p.Elements, d.Load) && f.Declared(d) && !f.Faulty[d.State]
			if ours && d.Volts < float64(p.NeedsVolts)*(1-1e-6) && (worst == nil || d.Volts < worst.Volts) {
				worst = d
			}
		}
		if worst != nil {
			f.shortOf(p, worst)
		}
	}
}

func (f *inspection) shortOf(p *harness.Part, d *demand.Draw) {
	cure := "feed it by heavier wires or a shorter way where their sizes are given, or write needs: as it is"
	if left := d.Volts + f.Drop(d); left <= float64(p.NeedsVolts) {
		cure = "no wire mends that: its supply has no more in this state; use a supply that holds its voltage (a converter, a larger battery), or turn it off then"
	}
	f.add(source.Problem{
		Slug: "needs-more-volts", Level: source.Warning, Span: p.NeedsSpan,
		Summary:  fmt.Sprintf("%s needs %s and gets %.2f V in %s", p.Ref, p.NeedsVolts, d.Volts, f.StateName(d)),
		Detail:   cure,
		Subjects: []string{p.Ref, f.StateName(d)}, Numbers: []source.Number{number("volts", d.Volts), number("needs_v", float64(p.NeedsVolts))},
	})
}
