package fit

import (
	"fmt"
	"maps"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/joint"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// studSet is what nuts, washers and the rings on them are bought as: a ring by its stud and
// its barrel.
type studSet struct {
	studs map[string]bool
	rings map[[2]string]bool
}

// kinds counts what is bought: a nut and two washers a stud, and the rings.
func (s studSet) kinds() int { return 3*len(s.studs) + len(s.rings) }

func (s studSet) with(stud string, barrels map[string]bool) studSet {
	out := studSet{maps.Clone(s.studs), maps.Clone(s.rings)}
	out.studs[stud] = true
	for b := range barrels {
		out.rings[[2]string{stud, b}] = true
	}
	return out
}

// fewStuds takes the next larger stud for the grounds that would have the usual one, all of
// them together, where fewer kinds of stud and ring are bought then. A larger stud carries more and
// takes all rings of the smaller (studs.csv); those that are given stay.
func (f *fitter) fewStuds(grounded map[harness.PartID]groundStud) {
	if !f.few() {
		return
	}
	base, barrels := f.ringsBought(grounded)
	usual := joint.Stud(f.h.Sheet.Imperial)
	to := larger(usual)[0]
	if base.with(to, barrels).kinds() >= base.with(usual, barrels).kinds() {
		return
	}
	for id, g := range grounded {
		if f.h.Parts[id].Stud == "" && g.name == usual {
			g.why = fmt.Sprintf("%s would do; with %s fewer kinds of ring, nut and washer are bought", rating.StudText(g.name), rating.StudText(to))
			g.name = to
			grounded[id] = g
		}
	}
}

// ringsBought gives the rings that are bought whatever becomes of the grounds whose stud is
// chosen, and the barrels of the rings on those that would have the usual one. Only the usual
// stud is moved: rings of every barrel are sold for the next larger one.
func (f *fitter) ringsBought(grounded map[harness.PartID]groundStud) (studSet, map[string]bool) {
	base, moved := studSet{map[string]bool{}, map[[2]string]bool{}}, map[string]bool{}
	usual := joint.Stud(f.h.Sheet.Imperial)
	for id := range f.h.Parts {
		p := &f.h.Parts[id]
		g, isGround := grounded[p.ID]
		barrels := f.barrelsAt(p.ID)
		if isGround && len(barrels) > 0 {
			if p.Stud == "" && g.name == usual {
				maps.Copy(moved, barrels)
				continue
			}
			base = base.with(g.name, barrels)
		}
	}
	for i := range f.h.Wires {
		for _, t := range []harness.TerminalID{f.h.Wires[i].From, f.h.Wires[i].To} {
			if p := f.h.PartOf(t); p != nil && p.Kind == harness.Ground {
				continue
			}
			if j := f.jointOf(t); j.Fitting == joint.Ring {
				base.rings[[2]string{j.Size, barrelKind(conductorOf(&f.c.Wires[i]))}] = true
			}
		}
	}
	return base, moved
}

// barrelsAt gives the barrels of the rings on a ground, drains too.
func (f *fitter) barrelsAt(p harness.PartID) map[string]bool {
	out := map[string]bool{}
	for _, w := range f.at(p) {
		out[barrelKind(conductorOf(&f.c.Wires[w]))] = true
	}
	if len(f.drainsAt(p)) > 0 {
		out[barrelKind(rating.Conductor{Gauge: unit.Gauge{System: f.h.Sheet.Gauge}, Area: f.drainArea()})] = true
	}
	return out
}

// barrelKind is the barrel of a ring on a wire: the first colour of sleeve that covers it, else its own size.
func barrelKind(c rating.Conductor) string {
	if c.Area < 0.5 || rating.SleeveFits("red", c) {
		return "red"
	}
	if s, ok := rating.SleeveOf(c); ok {
		return s.Colour
	}
	return c.Gauge.String()
}
