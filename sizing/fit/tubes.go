package fit

import (
	"slices"

	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/fit/kinds"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// tubeNeed is one place for a tube: what it passes over and grips, how much of it is cut, and
// where its name goes.
type tubeNeed struct {
	over, grips, long unit.Millimetre
	name              *string
}

// fewTubes takes as few kinds of heat-shrink as pass over and grip everything, of those the
// usual ones, of those the thinnest.
func (f *fitter) fewTubes() {
	if !f.few() {
		return
	}
	places := f.tubePlaces()
	tubes := rating.Shrinks()
	weights := make([]float64, len(tubes))
	for k, t := range tubes {
		weights[k] = 1
		if t.Family != rating.Usual {
			weights[k] += rareTube
		}
	}
	needs := make([]kinds.Need, len(places))
	for i, p := range places {
		needs[i] = kinds.Need{}
		for _, t := range rating.TubesFor(p.over, p.grips) {
			needs[i][slices.Index(tubes, t)] = float64(t.Supplied * p.long)
		}
	}
	for i, k := range kinds.Pick(weights, needs) {
		if k >= 0 {
			*places[i].name = tubes[k].Name(f.h.Sheet.Imperial)
			f.used = append(f.used, tubes[k].Source)
		}
	}
}

// rareTube is what a tube that few shops have weighs more; so little that it never costs a kind.
const rareTube = 1e-3

// tubePlaces lists every tube that was found: over lugs, splices, the ends of screens and of covers.
func (f *fitter) tubePlaces() []tubeNeed {
	var out []tubeNeed
	add := func(over, grips, long unit.Millimetre, name *string) {
		if *name != "" {
			out = append(out, tubeNeed{over, grips, long, name})
		}
	}
	for i := range f.out.Ends {
		for n := range f.out.Ends[i] {
			e := &f.out.Ends[i][n]
			over, grips := f.underTube(e)
			add(over, grips, e.ShrinkLen, &e.Shrink)
		}
	}
	for i := range f.out.Splices {
		s := &f.out.Splices[i]
		need := f.spliceNeeds[s.Part]
		add(need.over, need.grips, s.ShrinkLen, &s.Shrink)
	}
	for i := range f.out.Units {
		u := &f.out.Units[i]
		add(u.Diameter, f.inner[i], 2*u.BootLen, &u.Boot)
	}
	for i := range f.out.Runs {
		r := &f.out.Runs[i]
		add(r.Outside, r.Diameter, 2*r.BootLen, &r.Boot)
	}
	return out
}

// underTube gives what the tube over an end passes and grips: the barrel, and the wire.
func (f *fitter) underTube(e *fitted.End) (over, grips unit.Millimetre) {
	w := &f.c.Wires[e.Wire]
	return max(barrelOver(w.Area), w.Diameter), w.Diameter
}
