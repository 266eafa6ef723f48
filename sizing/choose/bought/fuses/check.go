package fuses

import (
	"slices"

	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/protect"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
)

// With gives the fuses as a plan has them, with the currents that were settled on.
func With(s *choose.Settled, plan []choose.Rated) []protect.Fuse {
	out := slices.Clone(s.Fuses)
	for i, r := range plan {
		if x := &out[i]; r.Rating > 0 {
			x.Least, x.Rating, x.Body = x.Rating, r.Rating, r.Body
			if !x.Breaker {
				x.Cold = rating.FuseCold(r.Body, r.Rating)
			}
		}
	}
	return out
}

// refused puts a plan to the engine's check, all fuses at once: it gives the fuses that were
// made larger and with which a wire does not stand what it did, or a short does not open what
// it did.
func (p *planner) refused(plan []choose.Rated) []harness.ElementID {
	after := protect.Of(p.s.Demand, p.s.Ampacity, With(p.s, plan))
	b := &blame{plan: plan}
	for w, guards := range after.Stand {
		id := harness.WireID(w)
		for _, f := range guards {
			if z := p.s.Size(id); !after.Stands(id, z, f) && p.s.Stands(id, z, f) {
				b.on(f, guards)
			}
		}
	}
	p.slow(after, b)
	return b.fuses
}

// slow blames for shorts.
func (p *planner) slow(after *protect.Protection, b *blame) {
	shorts := after.Shorts()
	for i := range shorts {
		f := harness.ElementID(i)
		if !p.counts(&p.s.H.Elements[i]) {
			continue
		}
		few := shorts[f].Least() < enough*float64(after.Fuses[f].Rating)
		if few && p.s.Shorts[f].Least() >= enough*float64(p.s.Fuses[f].Rating) {
			b.on(f, nil)
		}
		for _, w := range p.s.Guards.Wires[f] {
			z, now, was := p.s.Size(w), shorts[f].At(w), p.s.Shorts[f].At(w)
			if after.Lasts(f, now) > protect.OutLasts(z, now) && p.s.Lasts(f, was) <= protect.OutLasts(z, was) {
				b.on(f, p.s.Stand[w])
			}
		}
	}
}

// blame gathers the fuses that a plan made too large.
type blame struct {
	plan  []choose.Rated
	fuses []harness.ElementID
}

// on blames a fuse where the plan made it larger, else those of some others that it did; where
// none of these, all that it did.
func (b *blame) on(f harness.ElementID, others []harness.ElementID) {
	if b.one(f) {
		return
	}
	found := false
	for _, o := range others {
		found = b.one(o) || found
	}
	for o := range b.plan {
		if !found {
			b.one(harness.ElementID(o))
		}
	}
}

func (b *blame) one(f harness.ElementID) bool {
	if b.plan[f].Rating <= 0 {
		return false
	}
	if !slices.Contains(b.fuses, f) {
		b.fuses = append(b.fuses, f)
	}
	return true
}
