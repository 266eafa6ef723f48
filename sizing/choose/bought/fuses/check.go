package fuses

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/protect"
	"example.com/loomfolio/sizing/choose/shelf"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
)

// reorder looks for fuses that a plan does not keep below those that feed them as they were. The
// feeder is to be larger from now on where it may be, and where that goes first; else the
// branch stays behind. It tells whether it found any.
func (p *planner) reorder(plan []choose.Rated) bool {
	found := false
	for i, feeders := range p.feeders {
		f := harness.ElementID(i)
		for _, feeder := range feeders {
			if !p.astray(plan, f, feeder) {
				continue
			}
			found = true
			if least, ok := p.aboveBranch(plan, f, feeder); ok && p.feedersGrow {
				p.above[feeder] = math.Max(p.above[feeder], least)
			} else {
				p.below[f] = math.Min(p.below[f], float64(p.in(plan, f)))
			}
		}
	}
	return found
}

// astray tells a branch that a plan made larger and that is no more below its feeder where it
// was, or is above it where it was as large.
func (p *planner) astray(plan []choose.Rated, f, feeder harness.ElementID) bool {
	was, now := p.s.Fuses[feeder].Rating, p.in(plan, feeder)
	own, to := p.s.Fuses[f].Rating, p.in(plan, f)
	if to <= own {
		return false
	}
	return own < was && to >= now || own >= was && to > now
}

// aboveBranch gives the least rating that a feeder is offered and that is above a branch.
func (p *planner) aboveBranch(plan []choose.Rated, f, feeder harness.ElementID) (float64, bool) {
	if !p.counts(&p.s.H.Elements[feeder]) || !p.open(feeder) {
		return 0, false
	}
	for _, o := range p.offers(feeder) {
		for _, r := range o.ratings {
			if r > p.in(plan, f) {
				return float64(r), true
			}
		}
	}
	return 0, false
}

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
	c := &verdict{p: p, plan: plan, to: p.grown(plan), after: protect.Of(p.s.Demand, p.s.Ampacity, With(p.s, plan))}
	for w, guards := range c.after.Stand {
		id := harness.WireID(w)
		for _, f := range guards {
			if !c.after.Stands(id, c.size(id), f) && p.s.Stands(id, p.s.Size(id), f) {
				c.blame(f, guards)
			}
		}
	}
	c.slow()
	return c.blamed
}

// verdict is of a plan before the engine.
type verdict struct {
	p      *planner
	plan   []choose.Rated
	to     map[harness.WireID]int
	after  *protect.Protection
	blamed []harness.ElementID
}

func (c *verdict) size(w harness.WireID) *shelf.Size {
	return &c.after.Shelf[w][max(c.after.At[w], c.to[w])]
}

// slow blames for shorts; they count with the wires as they were, which draw less.
func (c *verdict) slow() {
	s, shorts := c.p.s, c.after.Shorts()
	for i := range shorts {
		f := harness.ElementID(i)
		if !c.p.counts(&s.H.Elements[i]) {
			continue
		}
		few := shorts[f].Least() < enough*float64(c.after.Fuses[f].Rating)
		if few && s.Shorts[f].Least() >= enough*float64(s.Fuses[f].Rating) {
			c.blame(f, nil)
		}
		for _, w := range s.Guards.Wires[f] {
			now, was := shorts[f].At(w), s.Shorts[f].At(w)
			if c.after.Lasts(f, now) > protect.OutLasts(c.size(w), now) && s.Lasts(f, was) <= protect.OutLasts(s.Size(w), was) {
				c.blame(f, s.Stand[w])
			}
		}
	}
}

// blame blames a fuse where the plan made it larger, else those of some others that it did;
// where none of these, all that it did.
func (c *verdict) blame(f harness.ElementID, others []harness.ElementID) {
	if c.one(f) {
		return
	}
	found := false
	for _, o := range others {
		found = c.one(o) || found
	}
	for o := range c.plan {
		if !found {
			c.one(harness.ElementID(o))
		}
	}
}

func (c *verdict) one(f harness.ElementID) bool {
	if c.plan[f].Rating <= 0 {
		return false
	}
	if !slices.Contains(c.blamed, f) {
		c.blamed = append(c.blamed, f)
	}
	return true
}
