package fit

import (
	"fmt"

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
	lasting   through        // most in any state that lasts
	cranking  through        // most while the engine is cranked: seconds
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
	out := groundStud{name: p.Stud, thickest: f.thickestAt(p.ID)}
	out.lasting, out.cranking = f.throughGround(p)
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
		case out.lasting.amps > s.Faces:
			out.why = fmt.Sprintf("%s carries %s, and %s passes here in %s", s.Name, s.Faces, unit.Amps(float64(out.lasting.amps)), out.lasting.state)
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
	if s.Faces > 0 && g.lasting.amps > s.Faces {
		f.problems = append(f.problems, source.Problem{
			Slug: "stud-overloaded", Level: source.Warning, Span: p.Span,
			Summary:  fmt.Sprintf("%s carries %s; a stud of %s is good for %s with the rings face to face", p.Ref, unit.Amps(float64(g.lasting.amps)), s.Name, s.Faces),
			Detail:   "write a larger stud:, or share the returns between two grounds",
			Subjects: []string{p.Ref}, Numbers: []source.Number{{Name: "amps", Value: float64(g.lasting.amps)}, {Name: "most_a", Value: float64(s.Faces)}},
		})
	}
}
