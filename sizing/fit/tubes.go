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
	tape              *unit.Millimetre // how wide the wires are built up with tape under it; nil where they cannot be
}

// mostTape is how much wider the wires at the end of a cover may be made with tape so that a tube
// grips: about four layers of the usual 0.13 mm; common practice, no source.
const mostTape unit.Millimetre = 1

// taping is what a tube costs more that needs tape under it.
const taping = 1e6

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
	plain, taped := make([]kinds.Need, len(places)), make([]kinds.Need, len(places))
	for i, p := range places {
		plain[i], taped[i] = p.served(tubes, false), p.served(tubes, true)
	}
	picked := kinds.Pick(weights, plain)
	if fewer := kinds.Pick(weights, taped); several(fewer) < several(picked) {
		picked = fewer // tape only where that saves a kind
	}
	for i, k := range picked {
		if k >= 0 {
			places[i].take(tubes[k], f.h.Sheet.Imperial)
			f.used = append(f.used, tubes[k].Source)
		}
	}
}

// several counts the kinds among those that were picked.
func several(picked []int) int {
	seen := map[int]bool{}
	for _, k := range picked {
		if k >= 0 {
			seen[k] = true
		}
	}
	return len(seen)
}

// served gives the tubes that serve a place, at what is cut of them; taped: with tape under them too.
func (p tubeNeed) served(tubes []rating.Shrink, taped bool) kinds.Need {
	out := kinds.Need{}
	for _, t := range rating.TubesFor(p.over, p.grips) {
		out[slices.Index(tubes, t)] = float64(t.Supplied * p.long)
	}
	if !taped || p.tape == nil || len(out) == 0 {
		return out
	}
	for _, t := range rating.TubesFor(p.over, p.grips+mostTape-gripped) {
		if k := slices.Index(tubes, t); t.Recovered >= p.grips && t.Family != rating.SingleWall {
			out[k] = taping + float64(t.Supplied*p.long)
		}
	}
	return out
}

// take gives a place its tube, and the tape under it where the tube does not grip by itself.
func (p tubeNeed) take(t rating.Shrink, imperial bool) {
	*p.name = t.Name(imperial)
	if p.tape != nil && t.Recovered >= p.grips {
		*p.tape = t.Recovered + gripped
	}
}

// gripped is how much wider than the narrowest bore of a tube that is what it grips.
const gripped unit.Millimetre = 0.2

// rareTube is what a tube that few shops have weighs more; so little that it never costs a kind.
const rareTube = 1e-3

// tubePlaces lists every tube that was found: over lugs, splices, the ends of screens and of covers.
func (f *fitter) tubePlaces() []tubeNeed {
	var out []tubeNeed
	add := func(over, grips, long unit.Millimetre, name *string) {
		if *name != "" {
			out = append(out, tubeNeed{over, grips, long, name, nil})
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
		if r.Boot != "" {
			out[len(out)-1].tape = &r.Taped
		}
	}
	return out
}

// underTube gives what the tube over an end passes and grips: the barrel, and the wire.
func (f *fitter) underTube(e *fitted.End) (over, grips unit.Millimetre) {
	w := &f.c.Wires[e.Wire]
	return max(barrelOver(w.Area), w.Diameter), w.Diameter
}
