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

// fewStuds takes the next larger stud for the grounds whose stud is chosen, all of one size
// together, where fewer kinds of stud and ring are bought then. A larger stud carries more and
// takes all rings of the smaller (studs.csv); those that are given stay.
func (f *fitter) fewStuds(grounded map[harness.PartID]groundStud) {
	if !f.few() {
		return
	}
	base, groups := f.ringsBought(grounded)
	var sizes []string
	for _, s := range rating.Studs() {
		if groups[s.Name] != nil {
			sizes = append(sizes, s.Name)
		}
	}
	best, least := map[string]string{}, -1
	for mask := range 1 << len(sizes) {
		to, set := map[string]string{}, base
		for i, name := range sizes {
			to[name] = name
			if mask>>i&1 == 1 {
				to[name] = larger(name)[0]
			}
			set = set.with(to[name], groups[name])
		}
		if n := set.kinds(); least < 0 || n < least {
			best, least = to, n
		}
	}
	for id, g := range grounded {
		if to := best[g.name]; f.h.Parts[id].Stud == "" && to != "" && to != g.name {
			g.why = fmt.Sprintf("%s would do; with %s fewer kinds of ring, nut and washer are bought", rating.StudText(g.name), rating.StudText(to))
			g.name = to
			grounded[id] = g
		}
	}
}

// ringsBought gives the rings that are bought whatever becomes of the grounds whose stud is
// chosen, and by the stud that is least for those the barrels of their rings. Only the usual
// stud and the next, which a larger one of common rings can follow, are moved.
func (f *fitter) ringsBought(grounded map[harness.PartID]groundStud) (studSet, map[string]map[string]bool) {
	base, groups := studSet{map[string]bool{}, map[[2]string]bool{}}, map[string]map[string]bool{}
	usual := joint.Stud(f.h.Sheet.Imperial)
	for id := range f.h.Parts {
		p := &f.h.Parts[id]
		g, isGround := grounded[p.ID]
		barrels := f.barrelsAt(p.ID)
		if isGround && len(barrels) > 0 {
			if p.Stud == "" && (g.name == usual || g.name == larger(usual)[0]) {
				if groups[g.name] == nil {
					groups[g.name] = map[string]bool{}
				}
				maps.Copy(groups[g.name], barrels)
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
	return base, groups
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

// barrelKind is the barrel of a ring on a wire: the colour of its sleeve, else its own size.
func barrelKind(c rating.Conductor) string {
	if s, ok := rating.SleeveOf(c); ok {
		return s.Colour
	}
	if c.Area < 0.5 {
		return "red"
	}
	return c.Gauge.String()
}
