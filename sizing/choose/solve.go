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
type solving struct {
	index    int // into Harness.States
	name     string
	cranking bool // seconds only: its currents warm nothing
	options  network.Options
	ready    *network.Prepared
	state    network.State
	warm     []unit.Celsius // by WireID: the conductors, as it was solved
	ohms     []float64      // by WireID: the whole wires at those temperatures
}

// newSolvings lists what is to be solved: the declared states first, by their
// index, then those made for the heat of flat batteries.
func (s *sizer) newSolvings() {
	for i, state := range s.h.States {
		s.solvings = append(s.solvings, solving{index: i, name: state.Name, cranking: state.Engine == harness.EngineCranking})
	}
	for i := range s.h.States {
		s.solvings = append(s.solvings, s.flatSolvings(i)...)
	}
	for i := range s.solvings {
		s.solvings[i].warm = s.unloaded(s.solvings[i].cranking)
	}
	s.hottest = s.unloaded(false)
}

// crankingCopper is the temperature that cables are counted at while the engine
// is cranked: SAE J541 states its drop at 20 C.
const crankingCopper unit.Celsius = 20

// unloaded gives the temperatures of wires that have not warmed themselves: that
// of the hottest place that each passes.
func (s *sizer) unloaded(cranking bool) []unit.Celsius {
	out := make([]unit.Celsius, len(s.h.Wires))
	for w := range out {
		out[w] = s.places[w].celsius
		if cranking {
			out[w] = crankingCopper
		}
	}
	return out
}

// solveAll solves every state with the sizes in hand, each wire at the
// temperature that its current gave it in the last round.
func (s *sizer) solveAll() error {
	for i := range s.solvings {
		if err := s.solveOne(&s.solvings[i]); err != nil {
			return err
		}
	}
	s.states = s.states[:0]
	for i := range s.h.States {
		s.states = append(s.states, s.solvings[i].state)
	}
	return nil
}

func (s *sizer) solveOne(at *solving) error {
	at.ohms = make([]float64, len(s.h.Wires))
	for w := range at.ohms {
		at.ohms[w] = s.ohmsAt(harness.WireID(w), at.warm[w])
	}
	r := network.Resistances{Wires: at.ohms, Links: s.links()}
	var err error
	if at.ready == nil {
		at.ready, err = network.Prepare(s.h, at.index, r, at.options)
	} else {
		at.ready, err = at.ready.With(r)
	}
	if err == nil {
		at.state, err = at.ready.Solve()
	}
	if err != nil {
		return fmt.Errorf("%s: %w", at.name, err)
	}
	at.state.Name = at.name
	return nil
}

// warmUp takes the temperatures of all wires from the currents that were solved,
// and tells the largest change, in K. A conductor counts as no hotter than its
// insulation stands for the hours of an overload: beyond that it is a finding,
// and no circuit goes on.
func (s *sizer) warmUp() float64 {
	change := 0.0
	for i := range s.solvings {
		at := &s.solvings[i]
		if at.cranking {
			continue
		}
		now := s.warm.temperatures(&at.state)
		for w := range now {
			most := s.size(harness.WireID(w)).overload
			change = math.Max(change, math.Abs(float64(min(now[w], most)-at.warm[w])))
			at.warm[w] = min(now[w], most)
		}
	}
	for w := range s.hottest {
		s.hottest[w], _ = s.hottestState(harness.WireID(w))
	}
	return change
}

// each visits every solved state, those with flat batteries too.
func (s *sizer) each(visit func(st *network.State, cranking bool)) {
	for i := range s.solvings {
		visit(&s.solvings[i].state, s.solvings[i].cranking)
	}
}

// links gives the resistances of the elements to solve with: those of the fuses
// in hand, by ElementID.
func (s *sizer) links() []float64 {
	out := make([]float64, len(s.h.Elements))
	for i, f := range s.fuses {
		out[i] = float64(f.cold)
	}
	return out
}

// ohms gives the resistance of a whole wire at 20 C.
func (s *sizer) ohms(w harness.WireID) float64 { return s.size(w).ohms * s.metres(w) }

// ohmsAt gives it at a temperature.
func (s *sizer) ohmsAt(w harness.WireID, t unit.Celsius) float64 {
	return s.ohms(w) * heat.ResistanceFactor(t)
}

// ohmsIn gives the resistance of a whole wire for the drop of a load in a
// declared state: with the copper as warm as it gets in any state, the same for
// all loads; as it was solved while the engine is cranked; and at 20 C where a
// published rule sizes the wires, as its own figures do.
func (s *sizer) ohmsIn(state int, w harness.WireID) float64 {
	switch {
	case s.byRule():
		return s.ohms(w)
	case s.solvings[state].cranking:
		return s.solvings[state].ohms[w]
	}
	return s.ohmsAt(w, s.hottest[w])
}
