// Package testplan says how the finished wiring is proved with a cheap meter and a lamp:
// what must beep before any power, the first power in its order, what a meter shows with
// the loads on and between what limits, the drop across every joint, the current through
// every fuse and coil, and what flows with the key off.
//
// In: the model as it is meant, and what was sized. Out: the parts of a proof.Proof that
// hold these. Method: everything is solved in the network of the sized wiring; limits are
// those of package tolerance.
package testplan

import (
	"fmt"

	"example.com/loomfolio/sizing/fault/way"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/testplan/dead"
	"example.com/loomfolio/sizing/testplan/point"
	"example.com/loomfolio/sizing/testplan/power"
	"example.com/loomfolio/sizing/testplan/tolerance"
)

// plan is one being made.
type plan struct {
	h      *harness.Harness
	r      *result.Result
	p      *proof.Proof
	at     []int               // by terminal: its point
	asked  [][]bool            // by state, point: it is measured in that state
	limits []*tolerance.Limits // by state, nil where nothing is measured
}

// Fill fills in the test plan of a result whose points are known. The error is the
// solver's.
func Fill(h *harness.Harness, r *result.Result) error {
	m := &plan{h: h, r: r, p: &r.Proof, at: point.At(h, r.Proof.Points)}
	m.ask()
	for _, step := range []func() error{m.solve, m.before, m.power} {
		if err := step(); err != nil {
			return fmt.Errorf("the test plan: %w", err)
		}
	}
	ways := way.All(h, r.Loads, r.States)
	m.misleads(ways)
	m.pulses()
	m.sections(ways)
	m.askSections()
	m.readings()
	m.through()
	m.coils()
	m.keyOff()
	return nil
}

func (m *plan) before() (err error) {
	m.p.Before, err = dead.All(m.h, m.r, m.at)
	return err
}

func (m *plan) power() (err error) {
	m.p.Power, err = power.First(m.h, m.r)
	return err
}

// ask marks the states in which each point is measured: those of the circuits whose
// wires end there, and of each load its own.
func (m *plan) ask() {
	m.asked = make([][]bool, len(m.r.States))
	for i := range m.asked {
		m.asked[i] = make([]bool, len(m.p.Points))
	}
	for c, states := range point.Asked(m.h, m.r.Loads, m.r.States) {
		for _, s := range states {
			m.mark(s, m.h.Circuits[c].Wires)
		}
	}
	for i, l := range m.r.Loads {
		if s := point.StateOf(m.h, m.r.Loads, i); s != harness.None {
			m.mark(s, l.Feed)
			m.mark(s, l.Return)
		}
	}
}

// askSections asks for both ends of every section in its state.
func (m *plan) askSections() {
	for _, s := range m.p.Sections {
		if !s.Whole {
			m.asked[s.State][m.at[s.From]], m.asked[s.State][m.at[s.To]] = true, true
		}
	}
}

// mark asks for the ends of wires in a state.
func (m *plan) mark(state int, wires []harness.WireID) {
	for _, w := range wires {
		for _, t := range []harness.TerminalID{m.h.Wires[w].From, m.h.Wires[w].To} {
			if at := m.at[t]; at != proof.None {
				m.asked[state][at] = true
			}
		}
	}
}

// solve makes the limits of every state.
func (m *plan) solve() (err error) {
	m.limits = make([]*tolerance.Limits, len(m.r.States))
	cold := m.r.Cold()
	for s := range m.r.States {
		if len(m.r.States[s].Network.Elements) == 0 {
			continue
		}
		if m.limits[s], err = tolerance.New(m.h, &m.r.States[s], cold); err != nil {
			return err
		}
	}
	return nil
}
