package choose

import (
	"fmt"

	"example.com/loomfolio/sizing/copper"
	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Chosen is every electrical choice.
type Chosen struct {
	Wires      []Wire // by WireID
	Loads      []Load // in the order of the elements
	Fuses      []Fuse // in the order of the elements
	Relays     []Relay
	Budgets    []Budget        // by index into States
	States     []network.State // by index into Harness.States, with the chosen wires and fuses
	SourceKeys []string        // of the sources that decided something, each once

	CopperMass unit.Gram // of all wires
	// CopperBound: with the currents, fuses and floors that were settled on, no set
	// of gauges that keeps all drops is lighter. 0 where a published table sizes
	// wire by wire.
	CopperBound unit.Gram
}

// Solver solves one state of the harness; network.Solve is the one in use.
type Solver func(h *harness.Harness, state int, r network.Resistances, o network.Options) (network.State, error)

// All chooses every gauge and fuse. The ways are indexed by WireID. The error
// is one of the solver; what is wrong with the harness comes as problems.
//
// The method (practice.method: computed): every wire starts at the smallest
// size. All states are solved; from the currents come the fuses, and per wire
// the floors of heat, protection and handling; from the floors up, the drops of
// all loads in all states are brought within their limits with little copper;
// then all is solved again, until nothing changes.
func All(h *harness.Harness, ways []route.Way) (Chosen, source.Problems, error) {
	return allWith(h, ways, network.Solve)
}

func allWith(h *harness.Harness, ways []route.Way, solve Solver) (Chosen, source.Problems, error) {
	s := newSizer(h, ways, solve)
	if err := s.settle(); err != nil {
		return Chosen{}, nil, err
	}
	c := s.chosen()
	c.CopperMass, c.CopperBound = s.copper()
	return c, s.findings(&c), nil
}

// sizer holds the state of the choice while it settles.
type sizer struct {
	h      *harness.Harness
	ways   []route.Way
	solve  Solver
	net    *flow.Net
	guards flow.Guards

	shelf []shelf  // by WireID
	keys  []string // by WireID: which shelf
	at    []int    // by WireID: the size on its shelf
	fixed []bool   // by WireID: the gauge is given

	states  []network.State
	flat    []network.State // by state; without a Name where there is none
	draws   []draw
	coils   []draw
	peak    []peak                // by WireID
	bundle  []int                 // by WireID
	places  []ambient             // by WireID
	fuses   []fusing              // by ElementID; only those of fuses are used
	floors  []floors              // by WireID
	stand   [][]harness.ElementID // by WireID: the fuses whose current it must stand
	passing *flow.Passing
	warm    *warmth // nil where a table of currents is in force
	bound   float64 // g, of the wires in groups; 0 when there is none
	groups  [][]harness.WireID
	ofWire  []int // group by WireID, -1 for a given gauge
}

func newSizer(h *harness.Harness, ways []route.Way, solve Solver) *sizer {
	n := len(h.Wires)
	s := &sizer{
		h: h, ways: ways, solve: solve, net: flow.NewNet(h),
		shelf: make([]shelf, n), keys: make([]string, n), at: make([]int, n), fixed: make([]bool, n),
		bundle: make([]int, n), places: make([]ambient, n),
		fuses: make([]fusing, len(h.Elements)),
	}
	s.guards = s.net.Guards()
	store := &shelves{h: h, made: map[string]shelf{}}
	for i := range h.Wires {
		w := &h.Wires[i]
		s.shelf[i], s.keys[i] = store.of(w)
		s.at[i] = s.shelf[i].smallest(&h.Practice)
		if w.Gauge.Given() {
			s.fixed[i] = true
			s.at[i] = max(s.shelf[i].index(w.Gauge), 0)
		}
		s.bundle[i] = 1
		s.places[i] = hottest(h, ways, w)
	}
	return s
}

// Most rounds; from patient on, no wire gets thinner again.
const (
	mostRounds = 12
	patient    = 5
)

// settle chooses and solves until nothing changes.
func (s *sizer) settle() error {
	for round := range mostRounds {
		if err := s.solveAll(); err != nil {
			return err
		}
		s.measure()
		ratings := s.chooseFuses()
		s.findFloors()
		s.findGroups()
		next := s.chooseSizes()
		if round >= patient {
			next = heavier(next, s.at)
		}
		if same(next, s.at) && !ratings {
			break
		}
		s.at = next
	}
	if err := s.solveAll(); err != nil {
		return err
	}
	s.measure()
	s.findFloors()
	return nil
}

func heavier(a, b []int) []int {
	out := make([]int, len(a))
	for i := range a {
		out[i] = max(a[i], b[i])
	}
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

// solveAll solves every state, and those with a running alternator once more
// with a flat battery.
func (s *sizer) solveAll() error {
	r := network.Resistances{Wires: make([]float64, len(s.h.Wires)), Links: make([]float64, len(s.h.Elements))}
	for i := range s.h.Wires {
		r.Wires[i] = s.ohms(harness.WireID(i))
	}
	for i, f := range s.fuses {
		r.Links[i] = float64(f.cold)
	}
	s.states = make([]network.State, len(s.h.States))
	s.flat = make([]network.State, len(s.h.States))
	for i := range s.h.States {
		st, err := s.solve(s.h, i, r, network.Options{})
		if err != nil {
			return fmt.Errorf("state %s: %w", s.h.States[i].Name, err)
		}
		s.states[i] = st
		if s.h.States[i].Engine != harness.EngineRunning || !s.hasAlternator() {
			continue
		}
		if s.flat[i], err = s.solve(s.h, i, r, network.Options{Flat: true}); err != nil {
			return fmt.Errorf("state %s with a flat battery: %w", s.h.States[i].Name, err)
		}
		s.flat[i].Name = s.h.States[i].Name + ", flat battery"
	}
	return nil
}

func (s *sizer) hasAlternator() bool {
	for i := range s.h.Elements {
		if s.h.Elements[i].Kind == harness.Charger {
			return true
		}
	}
	return false
}

// ohms gives the resistance of a whole wire at 20 C.
func (s *sizer) ohms(w harness.WireID) float64 { return s.size(w).ohms * s.metres(w) }

func (s *sizer) size(w harness.WireID) *size { return &s.shelf[w][s.at[w]] }

// metres gives a wire's length; a wire of no length counts as 1 mm, since the
// solver needs a resistance.
func (s *sizer) metres(w harness.WireID) float64 { return max(float64(s.ways[w].Length), 1) / 1000 }

func (s *sizer) nominal() unit.Volt { return s.h.System.Volts }

// chooseSizes gives the size of every wire by the method of the practice.
func (s *sizer) chooseSizes() []int {
	if m := s.h.Practice.Method; m == "abyc-e11" || m == "ac43-13" {
		return s.published(m)
	}
	r := copper.Least(s.problem(func(w harness.WireID) int { return s.floors[w].least() }))
	s.bound = r.Bound
	return s.inWires(r.Step)
}

// computed meets all drops from the given floors up.
func (s *sizer) computed(floor func(harness.WireID) int) []int {
	return s.inWires(copper.Least(s.problem(floor)).Step)
}

// inWires gives each wire the step of its group.
func (s *sizer) inWires(step []int) []int {
	next := append([]int(nil), s.at...)
	for g, wires := range s.groups {
		for _, w := range wires {
			next[w] = step[g]
		}
	}
	return next
}

// copper gives the mass of all wires, and the bound that the last choice had
// below it, wires of a given gauge included. Where the currents moved a little
// after that choice, the mass itself is the highest bound that is claimed.
func (s *sizer) copper() (mass, bound unit.Gram) {
	if s.bound > 0 {
		bound = unit.Gram(s.bound)
	}
	for i := range s.h.Wires {
		w := harness.WireID(i)
		own := rating.CopperMass(s.size(w).conductor.Area, s.ways[w].Length)
		mass += own
		if s.fixed[w] && s.bound > 0 {
			bound += own
		}
	}
	return mass, min(bound, mass)
}
