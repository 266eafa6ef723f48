// Package choose settles on the gauge of every wire and the rating of every fuse. In: the
// model and the ways, by WireID. Out: a Settled, for reading only: the sizes, the states
// solved with them, what is drawn, what the wires may carry and the fuses let happen, and
// the floors below which no wire may be. Always holds: every free wire is at its floors or
// above; what did not stand still at the end is solved once more, so that the findings see
// what is true. Its stages lie in packages under it, each of which takes a value and gives
// a new one: shelf, trial, demand, ampacity, protect; copper finds the least copper. What
// is said of a Settled is package reason, and what is wrong with it package finding.
// (What is fitted to the chosen wires, from terminals to reels, is package fit.)
package choose

import (
	"slices"

	"example.com/loomfolio/sizing/choose/ampacity"
	"example.com/loomfolio/sizing/choose/demand"
	"example.com/loomfolio/sizing/choose/protect"
	"example.com/loomfolio/sizing/choose/trial"
	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/route"
)

// Settle chooses every gauge and fuse. The ways are indexed by WireID. The error
// is one of the solver.
//
// The method (practice.method: computed): every wire starts at the smallest
// size. All states are solved; from the currents come the temperatures, the
// fuses, and per wire the floors of heat, protection and handling; from the
// floors up to what its terminals take, the drops of all loads in all states are
// brought within their limits with the least copper; then all is solved again,
// each wire's resistance at its temperature, until nothing changes. What the record
// holds is kept as long as it serves (see keeping). Where a dead short would burn a wire
// that was chosen so, or draw too little to open its fuse, the wire is lifted and all is
// chosen again: lifts only grow, on finite shelves.
func Settle(h *harness.Harness, ways []route.Way) (*Settled, error) {
	end, err := keeping(h, ways)
	if err != nil {
		return nil, err
	}
	return end.settled(), nil
}

func (e *end) settled() *Settled {
	return &Settled{Round: e.Round, Bound: e.bound, Rounds: e.rounds, Shorts: e.shorts, Drawn: e.ByWire()}
}

// Round is what one round of solving and choosing came to.
type Round struct {
	*protect.Protection
	Held
	Groups Groups
	Floors []Floors // by WireID
}

// Held is what is not free to be chosen.
type Held struct {
	Pins  Pins   // what is kept from the record
	Fixed []bool // by WireID: the gauge is given, or kept
}

// Given tells whether the description gives a wire's gauge.
func (k Held) Given(w harness.WireID) bool { return k.Fixed[w] && !k.Pins.Wires[w] }

// chooser goes round after round from one base.
type chooser struct {
	base  *trial.Base
	held  Held
	lifts []Lift // by WireID: what shorts ask for
	plan  Plan   // of what is bought
	least []int  // by WireID: the least size that the plan allows
	at    []int  // by WireID: the size to begin with
}

// end is the last round and how it was come to.
type end struct {
	*Round
	bound  float64 // g, see Settled.Bound
	rounds int     // since wires were lifted last
	shorts []flow.Shorts
}

// newChooser holds the pinned choices.
func newChooser(h *harness.Harness, ways []route.Way, kept Pins) *chooser {
	gauges := kept.gauges(h)
	c := &chooser{base: trial.New(h, ways, gauges), held: Held{Pins: kept}, lifts: make([]Lift, len(h.Wires)), least: make([]int, len(h.Wires))}
	for w, g := range gauges {
		at := c.base.Shelf[w].Smallest(&h.Practice)
		if g.Given() {
			at = max(c.base.Shelf[w].Index(g), 0)
		}
		c.at, c.held.Fixed = append(c.at, at), append(c.held.Fixed, g.Given())
	}
	return c
}

// Rounds: from patient on, only half of the wires of a run that would get thinner
// do at once; from stubborn on, none does; then no more than mostRounds. What is
// still to get thinner then stays as it is: up to 2 % of copper in made-up looms of
// 60 to 600 wires, nothing in the samples. It meets every rule all the same.
const (
	patient    = 5
	stubborn   = 9
	mostRounds = 80
)

// still: temperatures stand still when none changes by more, in K. The change
// falls to a few hundredths of itself from one solving to the next, since copper
// gains 0.4 % per K.
const still = 0.01

// settle chooses and solves until nothing changes, from a round or from nil: neither sizes nor fuses, and
// the temperatures that went into the solving are those that come out.
//
// Why it ends: a fuse's rating follows from currents alone, never from a wire's
// floor, so fuse and wire do not chase each other: a heavier wire moves a rating
// only as far as it moves the currents. What else might swing is held: from
// stubborn on neither a size nor a rating goes back, and both lie on finite
// shelves, so there are finitely many rounds in which one moves. mostRounds bounds
// them in any case; an end that did not stand still is solved once more, and
// every floor, fuse and drop is checked against that solution in the findings.
//
// Then the shorts are looked at: where one asks for more copper, its wires are lifted, and
// the rounds go on from what is in hand. Lifts only grow, on finite shelves, and no more than
// mostLifts times.
func (c *chooser) settle(before *Round) (end, error) {
	for n := 0; ; n++ {
		now, err := c.rest(before)
		if err != nil {
			return end{}, err
		}
		now.shorts = now.Shorts()
		next, more := now.lifted(now.shorts, c.lifts)
		if !more || n == mostLifts {
			return now, nil
		}
		c.lifts, c.at, before = next, now.At, now.Round
	}
}

// rest goes round until nothing changes, from a round or from nil.
func (c *chooser) rest(now *Round) (end, error) {
	at, bound := c.at, 0.0
	for n := range mostRounds {
		next, moved, err := c.round(at, now, n)
		if err != nil {
			return end{}, err
		}
		now = next
		above := 1e-9
		if n >= patient {
			above = nearly
		}
		at, bound = now.chooseSizes(above, n >= 2)
		if n >= patient {
			at = now.calm(at, n < stubborn)
		}
		if slices.Equal(at, now.At) && !moved {
			return end{Round: now, bound: bound, rounds: n + 1}, nil
		}
	}
	now, err := c.unsettled(at, now)
	return end{Round: now, bound: bound, rounds: mostRounds}, err
}

// round solves the nth time with some sizes, chooses the fuses and finds the floors; it tells whether
// a rating or a temperature differs from that of the round before, nil for none.
func (c *chooser) round(at []int, before *Round, n int) (now *Round, moved bool, err error) {
	d, a, change, err := c.measure(at, before)
	if err != nil {
		return nil, false, err
	}
	var fuses []protect.Fuse
	var most []float64
	if before != nil {
		fuses, most = before.Fuses, before.safeWith()
	}
	fuses, changed := protect.Choose(d, c.held.Pins.Fuses, most, c.plan.Fuses, fuses, n >= stubborn)
	now = c.rule(protect.Of(d, a, fuses))
	if n >= patient {
		now.holdEarths(before)
	}
	return now, changed || change >= still, nil
}

// holdEarths lets no earth lead's floor fall below that of the round before: it follows a
// live lead, and this may follow from it through the drop of what both carry, in turns.
func (r *Round) holdEarths(before *Round) {
	for w := range r.Floors {
		if was := before.Floors[w]; was.Earth && was.Handling > r.Floors[w].Handling {
			r.Floors[w].Handling, r.Floors[w].Earth = was.Handling, true
		}
	}
}

// unsettled solves once more with the sizes and fuses in hand, where the rounds
// ended before they stood still, so that the findings see what is true of them.
func (c *chooser) unsettled(at []int, before *Round) (*Round, error) {
	d, a, _, err := c.measure(at, before)
	if err != nil {
		return nil, err
	}
	return c.rule(protect.Of(d, a, protect.Measured(d, before.Fuses))), nil
}

// measure solves all states with some sizes and the fuses of the round before, and reads
// from them what is drawn and what the wires may carry; the change is the largest of a
// temperature, in K.
func (c *chooser) measure(at []int, before *Round) (*demand.Demand, *ampacity.Ampacity, float64, error) {
	links := make([]float64, len(c.base.H.Elements))
	var last *trial.Trial
	var carried *ampacity.Ampacity
	if before != nil {
		links, last, carried = protect.Links(before.Fuses), before.Trial, before.Ampacity
	}
	solved, err := c.base.Solve(at, links, last)
	if err != nil {
		return nil, nil, 0, err
	}
	carried = ampacity.Of(solved, carried)
	warm, change := solved.Warmed(carried.Temperatures)
	return demand.Of(warm), carried, change, nil
}

// rule finds which wires take one gauge, and the floors of all.
func (c *chooser) rule(p *protect.Protection) *Round {
	groups := groupsOf(p.Demand, c.held.Pins, c.held.Fixed, c.lifts)
	return &Round{Protection: p, Held: c.held, Groups: groups, Floors: floorsOf(p, groups, c.lifts, c.least)}
}

// nearly is how much more copper, as a share, sizes in hand may have from patient on: so
// near to each other two sets of sizes may take turns, each the lightest for the currents
// that the other makes.
const nearly = 0.002

// chooseSizes gives the size of every wire by the method of the practice, and the bound
// below the copper of the free ones, g, 0 when there is none. Sizes in hand that meet
// everything stay if they are at most a share above the lightest.
func (r *Round) chooseSizes(above float64, straps bool) (at []int, bound float64) {
	s := sizes{Protection: r.Protection, groups: r.Groups}
	least := func(w harness.WireID) int { return r.Floors[w].Least() }
	if r.ByRule() {
		return s.published(least), 0
	}
	p, found := s.withinTerminals(least)
	if s.inHand(&p, &found, above) {
		return r.At, found.Bound
	}
	return s.inWires(found.Step), found.Bound
}
