// Package fuses finds the few kinds of fuse that serve every circuit, above the least rating of
// each. In: what was settled, with the wires as they are bought. Out: by element the rating and
// the body that are bought. Units: A, g.
//
// Method: a fuse takes any listed rating from that which its currents ask for up to the
// largest that keeps all of this: every wire behind it stands it, as thick as it is or as its
// terminals take; its holder carries it; a dead short at the far end draws three times the
// rating (ECSS-Q-ST-30-11C) and is over before k²S² of IEC 60364-5-54; it is no more than twice
// the least, or 10 A. Of these the ladder makes the kinds: a kind less is worth so much copper, then the
// least sum of ratings. A fuse stays below those that feed it where it was: either they grow
// with it or it stays behind, whichever comes to less. What came of it is put to the engine's
// own check of all fuses and wires at once; what that refuses is taken back a step, and all is
// sought again.
package fuses

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/protect"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Near is how many times its own least rating a fuse may be at most, and Small the rating up to
// which any may be: beyond the wires that the loom knows, the leads inside a device were made
// for a fuse of about its size, but hardly any are too thin for the smallest fuse of many cars.
// Judgement, not published.
const (
	Near              = 2
	Small unit.Ampere = 10
)

// Worth is how much more copper one kind of fuse less may cost: about what a box of fuses costs
// in wire. Judgement, not published.
const Worth unit.Gram = 150

// Plan gives by ElementID what is bought of every free fuse, zero for all that stays as it is;
// nil where nothing changes. A kind less may cost worth of copper; with 0 no wire grows, and
// there are the fewest kinds that need no copper. A given, kept or built fuse never changes.
func Plan(s *choose.Settled, worth unit.Gram) []choose.Rated {
	var best []choose.Rated
	least := newPlanner(s, worth).sum(make([]choose.Rated, len(s.H.Elements)))
	for _, grows := range []bool{true, false} {
		if grows && worth <= 0 {
			continue
		}
		answers := map[asked]answer{}
		for _, feedersGrow := range []bool{true, false} {
			p := newPlanner(s, worth)
			p.grows, p.feedersGrow, p.answers = grows, feedersGrow, answers
			if plan := p.checked(); plan != nil && p.sum(plan) < least-1e-9 {
				best, least = plan, p.sum(plan)
			}
			if !p.reordered {
				break // no branch came to its feeder
			}
		}
	}
	return best
}

// mostTries is how often a plan that a check refuses is sought again.
const mostTries = 100

// planner seeks one plan after the other.
type planner struct {
	s           *choose.Settled
	worth       float64
	grows       bool                     // wires do, where that is worth it
	feedersGrow bool                     // before branches stay behind
	reordered   bool                     // a feeder had to grow, or a branch to stay behind
	above       []float64                // by ElementID: no less is bought
	below       []float64                // by ElementID: less than that is bought; +Inf for nothing
	feeders     [][]harness.ElementID    // by ElementID: the fuses before it on the way to a load
	wires       [][]harness.WireID       // by ElementID: the wires that must stand it
	free        map[choose.Rated]bool    // bought whatever is planned, or there
	listed      map[string][]unit.Ampere // by body: what the lists name, ascending
	answers     map[asked]answer         // found so far
}

func newPlanner(s *choose.Settled, worth unit.Gram) *planner {
	n := len(s.H.Elements)
	p := &planner{
		s: s, worth: float64(worth), grows: worth > 0, above: make([]float64, n), below: make([]float64, n), feeders: make([][]harness.ElementID, n),
		wires: make([][]harness.WireID, n), free: map[choose.Rated]bool{}, listed: map[string][]unit.Ampere{},
		answers: map[asked]answer{},
	}
	for i := range p.below {
		p.below[i] = math.Inf(1)
	}
	for w, guards := range s.Stand {
		for _, f := range guards {
			p.wires[f] = append(p.wires[f], harness.WireID(w))
		}
	}
	for i := range s.Draws {
		p.feed(s.Draws[i].Feed.Fuses(s.H))
	}
	for i := range s.Coils {
		p.feed(s.Coils[i].Feed.Fuses(s.H))
	}
	p.bought()
	return p
}

// feed notes fuses on the way to a load, from the source on.
func (p *planner) feed(way []harness.ElementID) {
	for i, f := range way {
		for _, before := range way[:i] {
			if !slices.Contains(p.feeders[f], before) {
				p.feeders[f] = append(p.feeders[f], before)
			}
		}
	}
}

// bought notes what is bought in any case, or there: what is not free to change, and the spare
// fuses that panels name.
func (p *planner) bought() {
	for i := range p.s.H.Elements {
		e := &p.s.H.Elements[i]
		if p.counts(e) && !p.open(e.ID) && !p.s.H.OwnFuse(e) {
			p.free[p.now(e.ID)] = true
		}
	}
	for i := range p.s.H.Parts {
		part := &p.s.H.Parts[i]
		if part.Panel == nil {
			continue
		}
		for _, text := range part.Panel.Spare {
			if amps, err := unit.ParseAmpere(text); err == nil {
				p.free[choose.Rated{Rating: amps, Body: spareBody(part)}] = true
			}
		}
	}
}

func spareBody(p *harness.Part) string {
	if p.Body == "" {
		return "blade"
	}
	return p.Body
}

// counts tells a fuse that is fitted.
func (p *planner) counts(e *harness.Element) bool {
	return e.Kind == harness.FuseLink && p.s.Fuses[e.ID].Rating > 0 && !p.seat(e.ID).Spare()
}

// open tells a fuse that is free to be bought larger: it is not the vehicle's own.
func (p *planner) open(f harness.ElementID) bool {
	x := &p.s.Fuses[f]
	return !x.Given && !x.Kept && !x.Tight && !x.Short && !p.s.H.OwnFuse(&p.s.H.Elements[f])
}

// movable lists the fuses that are free to be bought larger, in the order of the elements.
func (p *planner) movable() []harness.ElementID {
	var out []harness.ElementID
	for i := range p.s.H.Elements {
		if e := &p.s.H.Elements[i]; p.counts(e) && p.open(e.ID) {
			out = append(out, e.ID)
		}
	}
	return out
}

func (p *planner) now(f harness.ElementID) choose.Rated {
	return choose.Rated{Rating: p.s.Fuses[f].Rating, Body: p.s.Fuses[f].Body}
}

// in gives the rating that a fuse has in a plan.
func (p *planner) in(plan []choose.Rated, f harness.ElementID) unit.Ampere {
	if plan[f].Rating > 0 {
		return plan[f].Rating
	}
	return p.s.Fuses[f].Rating
}

func (p *planner) seat(f harness.ElementID) protect.Seat {
	return protect.Seat{H: p.s.H, E: &p.s.H.Elements[f]}
}

// hardly weighs a sum of ratings against copper, g/A: it only decides between equals.
const hardly = 1e-4

// sum is what a plan comes to, in g of copper: its kinds, the copper by which wires grow, and
// hardly the ratings.
func (p *planner) sum(plan []choose.Rated) float64 {
	seen, sum := map[choose.Rated]bool{}, 0.0
	for r := range p.free {
		seen[r] = true
	}
	for _, f := range p.movable() {
		r := p.now(f)
		if plan[f].Rating > 0 {
			r = plan[f]
		}
		seen[r] = true
		sum += hardly * float64(r.Rating)
	}
	return sum + p.perKind()*float64(len(seen)) + p.grams(p.grown(plan))
}

// perKind is what one kind comes to, in g; where no wire may grow, more than all ratings.
func (p *planner) perKind() float64 {
	if p.worth > 0 {
		return p.worth
	}
	return 1e3
}

// checked seeks until nothing is refused; nil where nothing is found.
func (p *planner) checked() []choose.Rated {
	for range mostTries {
		plan := p.sought()
		if plan == nil {
			return nil
		}
		if p.reorder(plan) {
			p.reordered = true
			continue
		}
		refused := p.refused(plan)
		if len(refused) == 0 {
			return plan
		}
		for _, f := range refused {
			p.below[f] = math.Min(p.below[f], float64(plan[f].Rating))
		}
	}
	return nil
}
