package fit

import (
	"fmt"
	"math"
	"strings"

	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// grounds stacks the rings of every ground point, the heaviest at the bottom.
func (f *fitter) grounds() {
	for i := range f.h.Parts {
		if p := &f.h.Parts[i]; p.Kind == harness.Ground {
			f.out.Grounds = append(f.out.Grounds, f.ground(p))
		}
	}
}

func (f *fitter) ground(p *harness.Part) fitted.Ground {
	stud := f.grounded[p.ID]
	g := fitted.Ground{Part: p.ID, Rings: f.at(p.ID), Stud: stud.name, StudWhy: stud.why, Surface: f.surface(p)}
	f.heaviestFirst(g.Rings)
	g.Washer, g.Prep = preparation(g.Surface)
	g.Prep += f.tightened(g.Stud)
	f.used = append(f.used, "ac43-11-189", "ac21-99-13")
	f.heldByStud(p, stud)
	f.lift(p, &g)
	return g
}

// surface is the part's own, else that of its place, else bare metal.
func (f *fitter) surface(p *harness.Part) string {
	if p.Surface != "" {
		return p.Surface
	}
	if p.Place != harness.None && f.h.Places[p.Place].Surface != "" {
		return f.h.Places[p.Place].Surface
	}
	return "bare"
}

// preparation says how the metal is made ready: paint and oxide off where the
// ring stands (FAA AC 43.13-1B 11-189), a toothed washer where there was a coat
// (NEC 552.10); sealing it afterwards is common practice.
func preparation(surface string) (washer, prep string) {
	switch surface {
	case "painted":
		return "star washer between ring and bared metal", "scrape the paint off to bright metal, as wide as the ring; paint over when it is tight"
	case "coated":
		return "star washer between ring and bared metal", "grind the coat off to bright metal, as wide as the ring; seal with grease or paint when it is tight"
	}
	return "spring washer under the nut", "brush to bright metal; seal with grease or paint when it is tight"
}

// lift finds the state with the most current through the point, and the point's
// voltage in it; of states with the same current the one that lifts it most.
func (f *fitter) lift(p *harness.Part, g *fitted.Ground) {
	for i := range f.c.States {
		st := &f.c.States[i]
		for _, id := range p.Elements {
			e := &f.h.Elements[id]
			a := math.Abs(st.Amps[id])
			t := e.A
			if t == harness.Chassis {
				t = e.B
			}
			v := math.Abs(st.Volts[t])
			if math.IsNaN(v) {
				v = 0
			}
			const alike = 1e-6 // A; less is the solver's rounding
			more := a > float64(g.Amps)+alike
			as := math.Abs(a-float64(g.Amps)) <= alike && g.State != "" && v > float64(g.Lift)
			if e.Kind == harness.Join || math.IsNaN(a) || !more && !as {
				continue
			}
			g.Amps, g.State, g.Lift = unit.Ampere(a), st.Name, unit.Volt(v)
		}
	}
}

// stacks reports studs with more rings than FAA AC 43.13-1B 11-174 allows. A
// ground is one stud whatever its terminals are called.
func (f *fitter) stacks() {
	rings := map[string][]string{}
	part := map[string]harness.PartID{}
	var order []string
	for _, two := range f.out.Ends {
		for _, e := range two {
			p := f.h.PartOf(e.Terminal)
			if p == nil || !strings.HasPrefix(e.Fitting, "ring") {
				continue
			}
			key := f.h.Terminals[e.Terminal].Full
			if p.Kind == harness.Ground {
				key = p.Ref
			}
			if rings[key] == nil {
				order = append(order, key)
			}
			part[key] = p.ID
			rings[key] = append(rings[key], f.h.Wires[e.Wire].Name)
		}
	}
	for i := range f.out.Units {
		for _, d := range f.out.Units[i].Drains {
			key := f.h.Terminals[d.Terminal].Full
			if rings[key] != nil && strings.HasPrefix(d.Fitting.Fitting, "ring") {
				rings[key] = append(rings[key], "the drain of "+f.h.Units[i].Name)
			}
		}
	}
	for _, key := range order {
		p := &f.h.Parts[part[key]]
		ownStuds := p.Kind == harness.Bus && p.Studs == 0 // a bar with as many as it needs
		if n := len(rings[key]); n > rating.MostRings && !ownStuds {
			f.problems = append(f.problems, source.Problem{
				Slug: "too-many-rings", Level: source.Warning, Span: f.h.Parts[part[key]].Span,
				Summary:  fmt.Sprintf("%d rings share the stud %s; four are the most (FAA AC 43.13-1B 11-174)", n, key),
				Detail:   "add a second stud beside it and a strap between the two",
				Subjects: append([]string{key}, rings[key]...), Numbers: []source.Number{{Name: "rings", Value: float64(n)}},
			})
		}
	}
}
