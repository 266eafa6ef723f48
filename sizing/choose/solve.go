package choose

import (
	"fmt"
	"math"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/heat"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/unit"
)

// solving is one state that is solved each round: a declared one, or one made
// for the sake of heat (batteries flat).
type Solving struct {
	Index    int // into Harness.States
	Name     string
	Cranking bool // seconds only: its currents warm nothing
	options  network.Options
	ready    *network.Prepared
	State    network.State
	Warm     []unit.Celsius // by WireID: the conductors, as it was solved
	Ohms     []float64      // by WireID: the whole wires at those temperatures
}

// newSolvings lists what is to be solved: the declared states first, by their
// index, then those made for the heat of flat batteries.
func (s *sizer) newSolvings() {
	for i, state := range s.H.States {
		s.Solvings = append(s.Solvings, Solving{Index: i, Name: state.Name, Cranking: state.Engine == harness.EngineCranking})
	}
	for i := range s.H.States {
		s.Solvings = append(s.Solvings, s.flatSolvings(i)...)
	}
	for i := range s.Solvings {
		s.Solvings[i].Warm = s.unloaded(s.Solvings[i].Cranking)
	}
	s.Hottest = s.unloaded(false)
}

// crankingCopper is the temperature that cables are counted at while the engine
// is cranked: SAE J541 states its drop at 20 C.
const crankingCopper unit.Celsius = 20

// unloaded gives the temperatures of wires that have not warmed themselves: that
// of the hottest place that each passes.
func (s *sizer) unloaded(cranking bool) []unit.Celsius {
	out := make([]unit.Celsius, len(s.H.Wires))
	for w := range out {
		out[w] = s.Places[w].Celsius
		if cranking {
			out[w] = crankingCopper
		}
	}
	return out
}

// solveAll solves every state with the sizes in hand, each wire at the
// temperature that its current gave it in the last round.
func (s *sizer) solveAll() error {
	for i := range s.Solvings {
		if err := s.solveOne(&s.Solvings[i]); err != nil {
			return err
		}
	}
	s.States = s.States[:0]
	for i := range s.H.States {
		s.States = append(s.States, s.Solvings[i].State)
	}
	return nil
}

func (s *sizer) solveOne(at *Solving) error {
	at.Ohms = make([]float64, len(s.H.Wires))
	for w := range at.Ohms {
		at.Ohms[w] = s.OhmsAt(harness.WireID(w), at.Warm[w])
	}
	r := network.Resistances{Wires: at.Ohms, Links: s.links()}
	var err error
	if at.ready == nil {
		at.ready, err = network.Prepare(s.H, at.Index, r, at.options)
	} else {
		at.ready, err = at.ready.With(r)
	}
	if err == nil {
		at.State, err = at.ready.Solve()
	}
	if err != nil {
		return fmt.Errorf("%s: %w", at.Name, err)
	}
	at.State.Name = at.Name
	return nil
}

// warmUp takes the temperatures of all wires from the currents that were solved,
// and tells the largest change, in K. A conductor counts as no hotter than its
// insulation stands for the hours of an overload: beyond that it is a finding,
// and no circuit goes on.
func (s *sizer) warmUp() float64 {
	change := 0.0
	for i := range s.Solvings {
		at := &s.Solvings[i]
		if at.Cranking {
			continue
		}
		now := s.warm.temperatures(&at.State)
		for w := range now {
			most := s.Size(harness.WireID(w)).Overload
			change = math.Max(change, math.Abs(float64(min(now[w], most)-at.Warm[w])))
			at.Warm[w] = min(now[w], most)
		}
	}
	for w := range s.Hottest {
		s.Hottest[w], _ = s.HottestState(harness.WireID(w))
	}
	return change
}

// each visits every solved state, those with flat batteries too.
func (s *sizer) Each(visit func(st *network.State, cranking bool)) {
	for i := range s.Solvings {
		visit(&s.Solvings[i].State, s.Solvings[i].Cranking)
	}
}

// links gives the resistances of the elements to solve with: those of the fuses
// in hand, by ElementID.
func (s *sizer) links() []float64 {
	out := make([]float64, len(s.H.Elements))
	for i, f := range s.Fuses {
		out[i] = float64(f.Cold)
	}
	return out
}

// ohms gives the resistance of a whole wire at 20 C.
func (s *sizer) Ohms(w harness.WireID) float64 { return s.Size(w).Ohms * s.Metres(w) }

// ohmsAt gives it at a temperature.
func (s *sizer) OhmsAt(w harness.WireID, t unit.Celsius) float64 {
	return s.Ohms(w) * heat.ResistanceFactor(t)
}

// ohmsIn gives the resistance of a whole wire for the drop of a load in a
// declared state: with the copper as warm as it gets in any state, the same for
// all loads; as it was solved while the engine is cranked; and at 20 C where a
// published rule sizes the wires, as its own figures do.
func (s *sizer) OhmsIn(state int, w harness.WireID) float64 {
	switch {
	case s.ByRule():
		return s.Ohms(w)
	case s.Solvings[state].Cranking:
		return s.Solvings[state].Ohms[w]
	}
	return s.OhmsAt(w, s.Hottest[w])
}
