package trial

import (
	"fmt"
	"math"

	"example.com/loomfolio/sizing/choose/shelf"
	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/heat"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/unit"
)

// Solving is one state that is solved each round: a declared one, or one made
// for the sake of heat (batteries flat).
type Solving struct {
	Index    int // into Harness.States; None for what no state shows
	Name     string
	Cranking bool // seconds only: its currents warm nothing
	AllFlat  bool // every battery is flat
	State    network.State
	Warm     []unit.Celsius // by WireID: the conductors, as it was solved
	Ohms     []float64      // by WireID: the whole wires at those temperatures
	beside   []bool         // by WireID, of what no state shows: the fullest state flows there too
	options  network.Options
	ready    *network.Prepared
}

// Solved is every state with sizes in hand.
type Solved struct {
	*Base
	At       []int     // by WireID: the size in hand, on its shelf
	Links    []float64 // by ElementID: the resistances of the fuses in hand, ohm
	Solvings []Solving
	States   []network.State       // by index into Harness.States, as they were solved
	Currents []*flow.Currents      // of the declared states, those that size
	Meant    []judged              // by declared state
	Stray    [][]harness.ElementID // by declared state: loads with a real current whose own way is open
	Faulty   []bool                // by declared state: it sizes nothing; see judge
	Missing  []harness.ElementID   // loads and coils that no state turns on
}

// solvings lists what is to be solved: the declared states first, by their
// index, then those made for the heat of flat batteries and of low voltages.
func (b *Base) solvings() []Solving {
	var out []Solving
	for i, state := range b.H.States {
		out = append(out, Solving{Index: i, Name: state.Name, Cranking: state.Engine == harness.EngineCranking})
	}
	for i := range b.H.States {
		out = append(out, b.flatSolvings(i)...)
		out = append(out, b.lowSolvings(i)...)
	}
	for i := range out {
		out[i].Warm = b.unloaded(out[i].Cranking)
	}
	return out
}

// crankingCopper is the temperature that cables are counted at while the engine
// is cranked: SAE J541 states its drop at 20 C.
const crankingCopper unit.Celsius = 20

// unloaded gives the temperatures of wires that have not warmed themselves: that
// of the hottest place that each passes.
func (b *Base) unloaded(cranking bool) []unit.Celsius {
	out := make([]unit.Celsius, len(b.H.Wires))
	for w := range out {
		out[w] = b.Places[w].Celsius
		if cranking {
			out[w] = crankingCopper
		}
	}
	return out
}

// Solve solves every state with some sizes, by WireID the place on its shelf, and with the
// resistances of the fuses in hand, by ElementID in ohm; each wire at the temperature that
// its current gave it in the round before, nil for none. The error is the solver's, with
// the name of the state before it.
func (b *Base) Solve(at []int, links []float64, before *Trial) (*Solved, error) {
	s := &Solved{Base: b, At: at, Links: links}
	for i, one := range b.plan {
		if before != nil {
			one.ready, one.Warm = before.Solvings[i].ready, before.Warm[i]
		}
		if err := s.solve(&one); err != nil {
			return nil, fmt.Errorf("%s: %w", one.Name, err)
		}
		s.Solvings = append(s.Solvings, one)
	}
	for i := range b.H.States {
		s.States = append(s.States, s.Solvings[i].State)
		s.Currents = append(s.Currents, flow.In(b.H, &s.States[i]))
	}
	var last *Solved
	if before != nil {
		last = before.Solved
	}
	s.judge(last)
	s.describe(before)
	return s, nil
}

func (s *Solved) solve(one *Solving) (err error) {
	one.Ohms = s.whole(one.Warm)
	r := network.Resistances{Wires: one.Ohms, Links: s.Links}
	if one.ready == nil {
		one.ready, err = network.Prepare(s.H, one.Index, r, one.options)
	} else {
		one.ready, err = one.ready.With(r)
	}
	if err != nil {
		return err
	}
	one.State, err = one.ready.Solve()
	one.State.Name = one.Name
	return err
}

// Each visits every solved state, those with flat batteries too.
func (s *Solved) Each(visit func(st *network.State, cranking bool)) {
	for i := range s.Solvings {
		visit(&s.Solvings[i].State, s.Solvings[i].Cranking)
	}
}

// Ohms gives the resistance of a whole wire at 20 C.
func (s *Solved) Ohms(w harness.WireID) float64 { return s.Size(w).Ohms * s.Metres(w) }

// OhmsAt gives it at a temperature.
func (s *Solved) OhmsAt(w harness.WireID, t unit.Celsius) float64 {
	return s.Ohms(w) * heat.ResistanceFactor(t)
}

// Most is the largest current through an element in any state, cranking included.
func (s *Solved) Most(e harness.ElementID) float64 {
	out := 0.0
	for i := range s.States {
		if a := math.Abs(s.States[i].Amps[e]); a > out { // false for NaN
			out = a
		}
	}
	return out
}

// Size gives the size in hand of a wire.
func (s *Solved) Size(w harness.WireID) *shelf.Size { return &s.Shelf[w][s.At[w]] }
