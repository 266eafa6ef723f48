package fit

import (
	"fmt"
	"math"

	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/joint"
	"example.com/loomfolio/sizing/network"
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
	g.Tighten = f.tightened(g.Stud)
	f.used = append(f.used, "ac43-11-189", "ac21-99-13")
	f.heldByStud(p, stud)
	g.Amps, g.State = stud.lasting.amps, stud.lasting.state
	if stud.cranking.amps > stud.lasting.amps {
		g.Crank, g.CrankIn = stud.cranking.amps, stud.cranking.state
	}
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
		return "star washer between ring and bared metal", "scrape the paint off to bright metal, as wide as the ring; paint over when tight"
	case "coated":
		return "star washer between ring and bared metal", "grind the coat off to bright metal, as wide as the ring; seal with grease or paint when tight"
	}
	return "spring washer under the nut", "brush to bright metal; seal with grease or paint when tight"
}

// lift finds the declared state in which the point is furthest from the battery's post, and
// where that is cranking, the worst of those that last.
func (f *fitter) lift(p *harness.Part, g *fitted.Ground) {
	var steady unit.Volt
	in := ""
	for i := range f.c.States {
		st := &f.c.States[i]
		v := f.offset(p, st)
		if v > g.Lift+alike {
			g.Lift, g.LiftIn = v, st.Name
		}
		if v > steady+alike && !f.crankingIn(i) {
			steady, in = v, st.Name
		}
	}
	if in != g.LiftIn {
		g.Steady, g.SteadyIn = steady, in
	}
}

// alike is how far two voltages may differ by the solver's rounding, V.
const alike = 1e-6

// offset is how far a ground is from the battery's post in a state, V.
func (f *fitter) offset(p *harness.Part, st *network.State) unit.Volt {
	most := 0.0
	for _, id := range p.Elements {
		if e := &f.h.Elements[id]; e.Kind != harness.Join {
			most = max(most, away(st, e.A), away(st, e.B))
		}
	}
	return unit.Volt(most)
}

// away is how far a terminal is from the battery's post, V; 0 for the metal itself and for
// what nothing joins.
func away(st *network.State, t harness.TerminalID) float64 {
	if v := math.Abs(st.Volts[t]); t != harness.Chassis && !math.IsNaN(v) {
		return v
	}
	return 0
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
			if p == nil || e.Kind != joint.Ring {
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
			if rings[key] != nil && d.Fitting.Kind == joint.Ring {
				rings[key] = append(rings[key], "the drain of "+f.h.Units[i].Name)
			}
		}
	}
	for _, key := range order {
		p := &f.h.Parts[part[key]]
		ownStuds := p.Kind == harness.Bus && p.Studs == 0 // a bar with as many as it needs
		if n := len(rings[key]); n > rating.MostRings && !ownStuds && !f.allNamedOwn(rings[key]) {
			f.problems = append(f.problems, source.Problem{
				Slug: "too-many-rings", Level: source.Warning, Span: f.h.Parts[part[key]].Span,
				Summary:  fmt.Sprintf("%d rings share the stud %s; four are the most (FAA AC 43.13-1B 11-174)", n, key),
				Detail:   "add a second stud beside it and a strap between the two",
				Subjects: append([]string{key}, rings[key]...), Numbers: []source.Number{{Name: "rings", Value: float64(n)}},
			})
		}
	}
}
