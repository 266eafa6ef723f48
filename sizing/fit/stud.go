package fit

import (
	"fmt"
	"math"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/joint"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// groundStud is the stud of a ground: by what its description says, else by the thickest ring
// on it and by what it carries.
type groundStud struct {
	name, why string
	thickest  harness.WireID // None where nothing ends there
	amps      unit.Ampere    // most in any state that lasts
}

// groundStuds finds the studs of all grounds.
func (f *fitter) groundStuds() map[harness.PartID]groundStud {
	out := map[harness.PartID]groundStud{}
	for i := range f.h.Parts {
		if p := &f.h.Parts[i]; p.Kind == harness.Ground {
			out[p.ID] = f.studOf(p)
		}
	}
	return out
}

// studOf finds the stud of a ground; the smallest that takes both, from the usual one up.
func (f *fitter) studOf(p *harness.Part) groundStud {
	out := groundStud{name: p.Stud, thickest: f.thickestAt(p.ID), amps: f.lastingAt(p)}
	if p.Stud != "" {
		return out
	}
	out.name = joint.Stud(f.h.Sheet.Imperial)
	area := unit.SquareMillimetre(0)
	if out.thickest != harness.None {
		area = f.c.Wires[out.thickest].Area
	}
	for _, next := range larger(out.name) {
		s, _ := rating.StudOf(out.name)
		switch {
		case area > s.Lug*roundedArea:
			out.why = fmt.Sprintf("%s takes rings up to %s, %s is %s", s.Name, f.areaText(s.Lug), f.h.Wires[out.thickest].Name, f.c.Wires[out.thickest].Gauge)
		case out.amps > s.Faces:
			out.why = fmt.Sprintf("%s carries %s, and %s returns here", s.Name, s.Faces, unit.Amps(float64(out.amps)))
		default:
			return out
		}
		out.name = next
	}
	return out
}

// roundedArea is how far a size may lie over an area and still count as it.
const roundedArea = 1.02

// larger lists the usual studs above one, in its own system.
func larger(stud string) []string {
	if stud == "1/4" {
		return []string{"5/16", "3/8", "1/2", "1/2"}
	}
	return []string{"M8", "M10", "M12", "M12"}
}

// areaText is an area of rings in the sheet's gauges.
func (f *fitter) areaText(area unit.SquareMillimetre) string {
	if f.h.Sheet.Gauge == unit.Metric {
		return unit.Gauge{System: unit.Metric, Size: fmt.Sprint(float64(area))}.String()
	}
	return rating.NearestBelow(f.h.Sheet.Gauge, area*roundedArea).Gauge.String()
}

// thickestAt gives the thickest wire that ends on a part.
func (f *fitter) thickestAt(p harness.PartID) harness.WireID {
	best := harness.WireID(harness.None)
	for _, w := range f.at(p) {
		if best == harness.None || f.c.Wires[w].Area > f.c.Wires[best].Area {
			best = w
		}
	}
	return best
}

// lastingAt gives the most that a ground carries in any state but cranking: from its rings into
// the metal, or from one ring to the others.
func (f *fitter) lastingAt(p *harness.Part) unit.Ampere {
	most := 0.0
	for i := range f.c.States {
		if f.crankingIn(f.c.States[i].Name) {
			continue
		}
		for _, id := range p.Elements {
			if a := math.Abs(f.c.States[i].Amps[id]); f.h.Elements[id].Kind != harness.Join && a > most {
				most = a
			}
		}
	}
	for _, w := range f.at(p.ID) {
		if wire := &f.c.Wires[w]; !f.crankingIn(wire.State) {
			most = math.Max(most, float64(wire.Amps))
		}
	}
	return unit.Ampere(most)
}

func (f *fitter) crankingIn(state string) bool {
	for i := range f.h.States {
		if s := &f.h.States[i]; s.Name == state && s.Engine == harness.EngineCranking {
			return true
		}
	}
	return false
}

// heldByStud reports a given stud on which a ring of that size is not made, or that carries
// more than such a stud does.
func (f *fitter) heldByStud(p *harness.Part, g groundStud) {
	s, ok := rating.StudOf(g.name)
	if !ok || g.thickest == harness.None {
		return
	}
	f.used = append(f.used, s.Sources...)
	wire := &f.c.Wires[g.thickest]
	if s.Largest > 0 && wire.Area > s.Largest*roundedArea {
		f.problems = append(f.problems, source.Problem{
			Slug: "terminal-does-not-fit", Level: source.Warning, Span: p.Span,
			Summary:  fmt.Sprintf("%s is %s, and no ring for a stud of %s is made for more than %s (%s)", f.h.Wires[g.thickest].Name, wire.Gauge, s.Name, f.areaText(s.Largest), p.Ref),
			Detail:   "leave stud: out to have it chosen, or write a larger one",
			Subjects: []string{p.Ref, f.h.Wires[g.thickest].Name},
			Numbers:  []source.Number{{Name: "area_mm2", Value: float64(wire.Area)}, {Name: "most_mm2", Value: float64(s.Largest)}},
		})
	}
	if s.Faces > 0 && g.amps > s.Faces {
		f.problems = append(f.problems, source.Problem{
			Slug: "stud-overloaded", Level: source.Warning, Span: p.Span,
			Summary:  fmt.Sprintf("%s carries %s; a stud of %s is good for %s with the rings face to face", p.Ref, unit.Amps(float64(g.amps)), s.Name, s.Faces),
			Detail:   "write a larger stud:, or share the returns between two grounds",
			Subjects: []string{p.Ref}, Numbers: []source.Number{{Name: "amps", Value: float64(g.amps)}, {Name: "most_a", Value: float64(s.Faces)}},
		})
	}
}
