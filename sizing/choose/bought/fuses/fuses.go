// Package fuses finds the fewest kinds of fuse that serve every circuit, above the least
// rating of each. In: what was settled, with the wires as they are bought. Out: by element the
// rating and the body that are bought. Units: A.
//
// Method: a fuse takes any listed rating from that which its currents ask for up to the
// largest that keeps all of this: every wire behind it stands it, as thick as it is; its holder
// carries it; a dead short at the far end draws three times the rating (ECSS-Q-ST-30-11C) and
// is over before k²S² of IEC 60364-5-54; it is no more than twice the least; it stays below the
// fuse that feeds it where it was. Of these spans the ladder makes the fewest kinds, and with
// them the least sum of ratings. What it found is put to the engine's own check of fuses and
// wires together; what that refuses is taken back a step, and all is sought again.
package fuses

import (
	"math"

	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/protect"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Near is how many times its own least rating a fuse may be at most: beyond the wires that the
// loom knows, the leads inside a device were made for a fuse of about its size. Judgement, not
// published.
const Near = 2

// mostTries is how often a plan that the engine's check refuses is sought again.
const mostTries = 40

// mostTurns is how often the branches are sought again behind feeders that came out larger.
const mostTurns = 3

// Plan gives by ElementID what is bought of every free fuse, zero for all that stays as it is;
// nil where nothing changes. A given, kept or built fuse never changes.
func Plan(s *choose.Settled) []choose.Rated {
	p := newPlanner(s)
	best := p.checked()
	for range mostTurns {
		if best == nil || !p.raise(best) {
			break
		}
		next := p.checked()
		if next == nil || !better(p.kinds(next), p.kinds(best)) {
			break
		}
		best = next
	}
	return best
}

// planner seeks one plan after the other.
type planner struct {
	s       *choose.Settled
	at      []choose.Rated           // by ElementID: in hand, no less is bought
	below   []float64                // by ElementID: what the check refused; +Inf for nothing
	feeders [][]harness.ElementID    // by ElementID: the fuses on which it hangs
	wires   [][]harness.WireID       // by ElementID: the wires that must stand it
	free    map[choose.Rated]bool    // bought whatever is planned
	listed  map[string][]unit.Ampere // by body: what the lists name, ascending
}

func newPlanner(s *choose.Settled) *planner {
	n := len(s.H.Elements)
	p := &planner{
		s: s, at: make([]choose.Rated, n), below: make([]float64, n), feeders: make([][]harness.ElementID, n),
		wires: make([][]harness.WireID, n), free: map[choose.Rated]bool{}, listed: map[string][]unit.Ampere{},
	}
	for i := range p.below {
		p.below[i] = math.Inf(1)
		p.at[i] = choose.Rated{Rating: s.Fuses[i].Rating, Body: s.Fuses[i].Body}
		for _, b := range s.Branches[i] {
			p.feeders[b] = append(p.feeders[b], harness.ElementID(i))
		}
	}
	for w, guards := range s.Stand {
		for _, f := range guards {
			p.wires[f] = append(p.wires[f], harness.WireID(w))
		}
	}
	p.bought()
	return p
}

// bought notes what is bought in any case: what is not free to change, and the spare fuses
// that panels name.
func (p *planner) bought() {
	for i := range p.s.H.Elements {
		e := &p.s.H.Elements[i]
		if p.counts(e) && !p.open(e.ID) && e.Kept.State != harness.Built {
			p.free[p.at[i]] = true
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

// open tells a fuse that is free to be bought larger.
func (p *planner) open(f harness.ElementID) bool {
	x := &p.s.Fuses[f]
	return !x.Given && !x.Kept && !x.Tight && !x.Short
}

func (p *planner) seat(f harness.ElementID) protect.Seat {
	return protect.Seat{H: p.s.H, E: &p.s.H.Elements[f]}
}

// raise takes the ratings of feeders in a plan as those in hand, so that their branches may be
// larger too; false where none came out larger.
func (p *planner) raise(plan []choose.Rated) bool {
	raised := false
	for f, r := range plan {
		if len(p.s.Branches[f]) > 0 && r.Rating > p.at[f].Rating {
			p.at[f], raised = r, true
		}
	}
	return raised
}

// count is how many kinds are bought, and the sum of all ratings.
type count struct {
	kinds int
	sum   float64
}

func better(a, b count) bool {
	return a.kinds < b.kinds || a.kinds == b.kinds && a.sum < b.sum-1e-9
}

// kinds counts the kinds that are bought with a plan.
func (p *planner) kinds(plan []choose.Rated) count {
	seen := map[choose.Rated]bool{}
	for r := range p.free {
		seen[r] = true
	}
	sum := 0.0
	for i := range p.s.H.Elements {
		e := &p.s.H.Elements[i]
		if !p.counts(e) || !p.open(e.ID) {
			continue
		}
		r := choose.Rated{Rating: p.s.Fuses[i].Rating, Body: p.s.Fuses[i].Body}
		if plan[i].Rating > 0 {
			r = plan[i]
		}
		seen[r] = true
		sum += float64(r.Rating)
	}
	return count{len(seen), sum}
}

// checked seeks until the engine's own check refuses nothing; nil where nothing is found.
func (p *planner) checked() []choose.Rated {
	for range mostTries {
		plan := p.sought()
		if plan == nil {
			return nil
		}
		refused := p.refused(plan)
		if len(refused) == 0 {
			return plan
		}
		for _, f := range refused {
			p.below[f] = float64(plan[f].Rating)
		}
	}
	return nil
}
