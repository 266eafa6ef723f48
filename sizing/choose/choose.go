// Package choose makes the electrical choices that a builder would otherwise
// make by hand: the gauge of every wire and the rating of every fuse. In: the
// model, the ways, the tables of package rating, and the solved states. Out:
// one result a wire, fuse, load, relay and state, with the reason of each
// choice, its numbers and their source. (What is fitted to the chosen wires,
// from terminals to reels, is package fit.)
package choose

import (
	"slices"
	"sort"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/choose/copper"
	"example.com/loomfolio/sizing/choose/shelf"
	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// All chooses every gauge and fuse. The ways are indexed by WireID. The error
// is one of the solver; what is wrong with the harness comes as problems.
//
// The method (practice.method: computed): every wire starts at the smallest
// size. All states are solved; from the currents come the temperatures, the
// fuses, and per wire the floors of heat, protection and handling; from the
// floors up to what its terminals take, the drops of all loads in all states are
// brought within their limits with the least copper; then all is solved again,
// each wire's resistance at its temperature, until nothing changes. What the record
// holds is kept as long as it serves (see keeping).
func All(h *harness.Harness, ways []route.Way) (chosen.Chosen, source.Problems, error) {
	s, err := keeping(h, ways)
	if err != nil {
		return chosen.Chosen{}, nil, err
	}
	c := s.chosen()
	c.CopperMass, c.CopperBound = s.copper()
	c.Rounds = s.Rounds
	return c, s.findings(&c), nil
}

// sizer holds the state of the choice while it settles.
type sizer struct {
	H      *harness.Harness
	Ways   []route.Way
	Net    *flow.Net
	Guards flow.Guards

	shelf.Shelves
	At    []int  // by WireID: the size on its shelf
	Fixed []bool // by WireID: the gauge is given, or kept
	Pins  Pins   // what is kept from the record

	Runs   [][]harness.WireID // by RunID: the wires in it
	Cables [][]harness.WireID // the cores of each cable
	Leads  []Leads            // of each battery, in the order of the elements

	Solvings   []Solving
	States     []network.State // by index into Harness.States
	Hottest    []unit.Celsius  // by WireID: as warm as it gets in any state, cranking apart
	Draws      []Draw
	Coils      []Draw
	Drawn      [][]int               // by WireID: the numbers of the draws that it carries, once all is settled
	Peaks      []Peak                // by WireID
	Bundles    []int                 // by WireID
	Places     []Ambient             // by WireID
	Fuses      []Fuse                // by ElementID; only those of fuses are used
	Floors     []Floors              // by WireID
	Stand      [][]harness.ElementID // by WireID: the fuses whose current it must stand
	passing    *flow.Passing         // what the fuses carry for ever
	surging    *flow.Passing         // what they carry until they open
	Branches   [][]harness.ElementID // by ElementID: the fuses that hang on a fuse
	Shorts     []flow.Shorts         // by ElementID; of fuses, once all is settled
	warm       *warmth
	single     *single
	Rounds     int
	Bound      float64 // g, of the wires in groups; 0 when there is none
	groups     [][]harness.WireID
	besideKept []int // by group: the thickest kept wire in series with it, 0 for none
	ofWire     []int // group by WireID, -1 for a given gauge
	series     []int // by WireID: equal for wires in series; None where none is, or where it cranks the engine
}

func newSizer(h *harness.Harness, ways []route.Way) *sizer { return newHeld(h, ways, free(h)) }

// newHeld holds the pinned choices.
func newHeld(h *harness.Harness, ways []route.Way, kept Pins) *sizer {
	n, gauges := len(h.Wires), kept.gauges(h)
	s := &sizer{
		H: h, Ways: ways, Net: flow.NewNet(h), Pins: kept, Shelves: shelf.New(h, gauges),
		At: make([]int, n), Fixed: make([]bool, n), Bundles: make([]int, n), Places: make([]Ambient, n),
		Fuses: make([]Fuse, len(h.Elements)),
	}
	s.Guards, s.Branches = s.Net.Guards(), s.Net.Branches()
	for i := range h.Wires {
		s.At[i] = s.Of[i].Smallest(&h.Practice)
		if gauges[i].Given() {
			s.Fixed[i] = true
			s.At[i] = max(s.Of[i].Index(gauges[i]), 0)
		}
		s.Bundles[i] = 1
		s.Places[i] = hottest(h, ways, &h.Wires[i])
	}
	s.single = newSingle(s.Kinds)
	s.Runs, s.Cables, s.Leads = inRuns(h, ways), inCables(h), leadsOf(h, s.Net)
	s.newSolvings()
	return s
}

// Rounds: from patient on, only half of the wires of a run that would get thinner
// do at once; from stubborn on, none does; then no more than mostRounds. What is
// still to get thinner then stays as it is: up to 2 % of copper in made-up looms of
// 60 to 600 wires, nothing in the samples. It meets every rule all the same.
const (
	patient    = 4
	stubborn   = 6
	mostRounds = 80
)

// still: temperatures stand still when none changes by more, in K. The change
// falls to a few hundredths of itself from one solving to the next, since copper
// gains 0.4 % per K.
const still = 0.01

// settle chooses and solves until nothing changes: neither sizes nor fuses, and
// the temperatures that went into the solving are those that come out.
//
// Why it ends: a fuse's rating follows from currents alone, never from a wire's
// floor, so fuse and wire do not chase each other: a heavier wire moves a rating
// only as far as it moves the currents. What else might swing is held: from
// stubborn on neither a size nor a rating goes back, and both lie on finite
// shelves, so there are finitely many rounds in which one moves. mostRounds bounds
// them in any case; an end that did not stand still is solved once more, and
// every floor, fuse and drop is checked against that solution in the findings.
func (s *sizer) settle() error {
	for round := range mostRounds {
		s.Rounds = round + 1
		if err := s.solveAll(); err != nil {
			return err
		}
		moved := s.measure()
		ratings := s.chooseFuses(round >= stubborn)
		s.findGroups()
		s.findFloors()
		next := s.chooseSizes()
		if round >= patient {
			next = s.calm(next, round < stubborn)
		}
		if same(next, s.At) && !ratings && moved < still {
			return nil
		}
		s.At = next
	}
	return s.unsettled()
}

// calm keeps wires that lie together from getting thinner all at once, each
// because the others are still thick: of the groups in a run that would get thinner,
// half may, those that save most copper; none where some is false.
func (s *sizer) calm(next []int, some bool) []int {
	out := make([]int, len(next))
	for w := range out {
		out[w] = max(next[w], s.At[w])
	}
	if !some {
		return out
	}
	thinning := s.thinning(next)
	free := make([]int, len(s.H.Runs)) // by RunID: how many groups may get thinner there
	for _, g := range thinning {
		for _, run := range s.runsOf(g) {
			free[run]++
		}
	}
	for run := range free {
		free[run] = (free[run] + 1) / 2
	}
	for _, g := range thinning {
		runs := s.runsOf(g)
		if slices.ContainsFunc(runs, func(run harness.RunID) bool { return free[run] == 0 }) {
			continue
		}
		for _, run := range runs {
			free[run]--
		}
		for _, w := range s.groups[g] {
			out[w] = next[w]
		}
	}
	return out
}

// runsOf lists the runs in which a group lies, each once.
func (s *sizer) runsOf(group int) []harness.RunID {
	var out []harness.RunID
	for _, w := range s.groups[group] {
		for _, share := range s.Ways[w].Shares {
			out = append(out, share.Run)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// thinning lists the groups that would get thinner, those that save most first.
func (s *sizer) thinning(next []int) []int {
	var out []int
	saves := make([]float64, len(s.groups))
	for g, wires := range s.groups {
		for _, w := range wires {
			saves[g] += float64(s.Of[w][s.At[w]].Conductor.Area-s.Of[w][next[w]].Conductor.Area) * s.Metres(w)
		}
		if saves[g] > 0 {
			out = append(out, g)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return saves[out[i]] > saves[out[j]] })
	return out
}

func same(a, b []int) bool {
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

func (s *sizer) Size(w harness.WireID) *shelf.Size { return &s.Of[w][s.At[w]] }

// metres gives a wire's length; a wire of no length counts as 1 mm, since the
// solver needs a resistance.
func (s *sizer) Metres(w harness.WireID) float64 { return max(float64(s.Ways[w].Length), 1) / 1000 }

func (s *sizer) Nominal() unit.Volt { return s.H.System.Volts }

// chooseSizes gives the size of every wire by the method of the practice.
func (s *sizer) chooseSizes() []int {
	if s.ByRule() {
		return s.published(s.H.Practice.Method)
	}
	p, r := s.withinTerminals(func(w harness.WireID) int { return s.Floors[w].Least() })
	s.Bound = r.Bound
	if s.inHand(&p, &r) {
		return s.At
	}
	return s.inWires(r.Step)
}

// withinTerminals finds the lightest set in sizes that the terminals take. A
// demand that these cannot meet lets the wires of its way grow beyond: a finding
// says then that a terminal does not fit, which is sooner mended than a drop.
func (s *sizer) withinTerminals(floor func(harness.WireID) int) (copper.Problem, copper.Result) {
	capped := make([]bool, len(s.groups))
	for g := range capped {
		capped[g] = true
	}
	p := s.problem(floor, capped)
	r := copper.Least(p)
	lifted := false
	for d, met := range r.Met {
		if met {
			continue
		}
		for _, t := range p.Demands[d].Terms {
			lifted = lifted || len(p.Groups[t.Group]) < len(s.Of[s.groups[t.Group][0]])
			capped[t.Group] = false
		}
	}
	if lifted {
		p = s.problem(floor, capped)
		r = copper.Least(p)
	}
	return p, r
}

// inHand tells that the sizes in hand meet all that the found ones meet with no
// more copper: then they stay, and two sets of one mass do not take turns.
func (s *sizer) inHand(p *copper.Problem, r *copper.Result) bool {
	mass, step := 0.0, make([]int, len(s.groups))
	for g, wires := range s.groups {
		step[g] = s.At[wires[0]]
		for _, w := range wires {
			if s.At[w] != step[g] {
				return false
			}
		}
		if step[g] < p.Floor[g] || step[g] >= len(p.Groups[g]) {
			return false
		}
		mass += p.Groups[g][step[g]].Mass
	}
	for d := range p.Demands {
		if r.Met[d] && !p.Demands[d].Meets(p.Drop(d, step)) {
			return false
		}
	}
	return mass <= r.Mass*(1+1e-9)
}

// computed meets all drops from the given floors up, whatever the terminals take.
func (s *sizer) computed(floor func(harness.WireID) int) []int {
	return s.inWires(copper.Least(s.problem(floor, make([]bool, len(s.groups)))).Step)
}

// inWires gives each wire the step of its group.
func (s *sizer) inWires(step []int) []int {
	next := append([]int(nil), s.At...)
	for g, wires := range s.groups {
		for _, w := range wires {
			next[w] = step[g]
		}
	}
	return next
}

// terminalLength is the length of a conductor that weighs what the terminal on
// its end does: a tubular lug of 35 mm2 some 25 g, a receptacle for 1.5 mm2 about
// 1 g; common practice, no source. Without it short thick stubs would look cheap.
const terminalLength unit.Millimetre = 80

// weighed gives the length by which a wire weighs, its two terminals in it.
func (s *sizer) weighed(w harness.WireID) unit.Millimetre {
	return s.Ways[w].Length + 2*terminalLength
}

// copper gives the mass of all wires, and the bound that the last choice had
// below it, wires of a given gauge included. Where the currents moved a little
// after that choice, the mass itself is the highest bound that is claimed.
func (s *sizer) copper() (mass, bound unit.Gram) {
	if s.Bound > 0 {
		bound = unit.Gram(s.Bound)
	}
	for i := range s.H.Wires {
		w := harness.WireID(i)
		own := rating.CopperMass(s.Size(w).Conductor.Area, s.weighed(w))
		mass += own
		if s.Fixed[w] && s.Bound > 0 {
			bound += own
		}
	}
	return mass, min(bound, mass)
}
