// Package demand says who draws what, by which way. In: a trial. Out: every load and coil
// that is on in a state with the wires of its feed and return, the worst current of each
// wire, what a draw loses in its wires against what its class allows, what the contacts
// carry, and the sums of each state. Units: A, V, days. Always holds: a draw counts for
// its limit while cranking only where its load is on in no other state; a limit is above 0.
// Method: ways by the largest current (package flow); limits by practice.drop; factors
// for contacts by FAA AC 43.13-1B table 11-4.
package demand

import (
	"iter"
	"math"
	"slices"

	"example.com/loomfolio/sizing/choose/trial"
	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
)

// Demand is what is drawn in one trial.
type Demand struct {
	*trial.Trial
	Draws  []Draw // of the loads, by state and then by element
	Coils  []Draw // of the coils of relays
	Charge []Draw // of the alternators, regulators and chargers: the battery takes what they give; Load is the source
	Peaks  []Peak // by WireID
	Cranks []bool // by WireID: it lies on the way of a starter's motor current
}

// Of follows every load and coil that draws current in every state, and adds the loads
// that no state turns on with what they are described to take.
func Of(t *trial.Trial) *Demand {
	m := &Demand{Trial: t}
	for i := range m.States {
		m.drawsIn(i)
	}
	for _, id := range m.Missing {
		m.drawDescribed(&m.H.Elements[id])
	}
	m.markCounting()
	m.charges()
	m.Cranks = m.startingWires()
	m.Peaks = m.peaks()
	return m
}

// Draw is one load (or coil) that draws current in one state, with its way.
type Draw struct {
	Load   harness.ElementID
	State  int // into Solvings: a declared state, or what no state shows
	Amps   float64
	More   float64 // what one of constant power takes beyond that at the lowest voltage that it works at, the engine being off, A
	Volts  float64 // NaN where no state shows it
	Feed   flow.Path
	Back   flow.Path
	Counts bool // its drop is held to the limit in this state
}

// OnFrom is the least current at which a load counts as on, A; common practice, no source.
const OnFrom = 1e-3

// Awake tells whether a load or coil is on at a current: a real share of what it is described to
// take. A charge lamp with a few millivolts across it while the alternator runs is not.
func (m *Demand) Awake(e *harness.Element, amps float64) bool {
	if m.H.ConverterOf(e.ID) != nil { // it takes what is behind it, be that ever so little
		return amps >= OnFrom
	}
	return amps >= OnFrom && amps >= trial.Real*m.DescribedAmps(e)
}

// drawsIn finds what is on in a state, and meant to be.
func (m *Demand) drawsIn(state int) {
	st, c := &m.States[state], m.Currents[state]
	for i := range m.H.Elements {
		e := &m.H.Elements[i]
		a := math.Abs(c.Through(e.ID))
		if !flow.Draws(e) || !m.Awake(e, a) || !m.IsMeant(e.ID, state) {
			continue
		}
		d := Draw{Load: e.ID, State: state, Amps: a, Volts: math.Abs(st.Volts[e.A] - st.Volts[e.B]), Feed: c.Feed(e.ID), Back: c.Return(e.ID)}
		if e.Behaves == harness.AsPower && m.H.States[state].Engine == harness.EngineOff { // a running alternator holds the voltage
			d.More = math.Max(0, float64(e.Most())-a)
		}
		m.add(e, d)
	}
}

func (m *Demand) add(e *harness.Element, d Draw) {
	if e.Kind == harness.RelayCoil {
		m.Coils = append(m.Coils, d)
	} else {
		m.Draws = append(m.Draws, d)
	}
}

// drawDescribed adds a load that no state turns on, over the way that is its own.
func (m *Demand) drawDescribed(e *harness.Element) {
	own := &m.Owns[e.ID]
	if !own.Whole || e.Kind != harness.Load {
		return
	}
	d := Draw{Load: e.ID, State: len(m.Solvings) - 2, Amps: m.FullAmps(e), Volts: math.NaN(), Feed: own.Feed, Back: own.Back}
	if m.PartOf(e.ID).Kind == harness.Starter {
		d.State++
	}
	m.Draws = append(m.Draws, d)
}

// Declared tells a draw in a declared state.
func (m *Demand) Declared(d *Draw) bool { return d.State < len(m.States) }

// Cranking tells a draw while the engine is cranked.
func (m *Demand) Cranking(d *Draw) bool { return m.Solvings[d.State].Cranking }

// StateName names the state of a draw, or says that none shows it.
func (m *Demand) StateName(d *Draw) string { return m.Solvings[d.State].Name }

// markCounting: while the engine is cranked, the starter pulls every other load
// down; only loads whose own way no other state closes are held to their limit then.
func (m *Demand) markCounting() {
	elsewhere := m.meantElsewhere()
	for i := range m.Draws {
		if d := &m.Draws[i]; !m.Cranking(d) {
			elsewhere[d.Load] = true
		}
	}
	for i := range m.Draws {
		d := &m.Draws[i]
		d.Counts = !m.Cranking(d) || !elsewhere[d.Load]
	}
}

// meantElsewhere gives the loads whose own way is closed in a state that is not cranking, if
// only for a trickle: a charge lamp that the alternator keeps dark.
func (m *Demand) meantElsewhere() map[harness.ElementID]bool {
	out := map[harness.ElementID]bool{}
	for i := range m.States {
		for _, id := range m.ElementsOf(harness.Load) {
			if !m.Solvings[i].Cranking && m.IsMeant(id, i) {
				out[id] = true
			}
		}
	}
	return out
}

// Most is the current that a draw is sized for: of one of constant power that at the
// lowest voltage that it works at, A.
func (d *Draw) Most() float64 { return d.Amps + d.More }

// Elements visits what a draw passes besides wires, from its source to the load and back.
func (d *Draw) Elements() iter.Seq[harness.ElementID] {
	return func(yield func(harness.ElementID) bool) {
		for _, list := range [2][]harness.ElementID{d.Feed.Elements, d.Back.Elements} {
			for _, id := range list {
				if !yield(id) {
					return
				}
			}
		}
	}
}

// Passes tells that an element lies on a draw's way.
func (d *Draw) Passes(id harness.ElementID) bool {
	return slices.Contains(d.Feed.Elements, id) || slices.Contains(d.Back.Elements, id)
}

// Wires gives the wires of a draw, feed first.
func (d *Draw) Wires() []harness.WireID {
	return append(append([]harness.WireID(nil), d.Feed.Wires...), d.Back.Wires...)
}

// Through gives the worst continuous current of a fuse. The seconds of a
// starter's motor do not count.
func (m *Demand) Through(id harness.ElementID) (float64, string) {
	worst, name := 0.0, ""
	starting := m.onStarter(id)
	m.Each(func(st *network.State, cranking bool) {
		a := math.Abs(st.Amps[id])
		if !math.IsNaN(a) && !(cranking && starting) && a > worst+1e-9 {
			worst, name = a, st.Name
		}
	})
	return worst, name
}

func (m *Demand) onStarter(id harness.ElementID) bool {
	for i := range m.Draws {
		d := &m.Draws[i]
		if m.PartOf(d.Load).Kind == harness.Starter && d.Passes(id) {
			return true
		}
	}
	return false
}

// ByWire gives, by WireID, the draws whose way leads over it: the loads', then those of
// what charges.
func (m *Demand) ByWire() [][]*Draw {
	out := make([][]*Draw, len(m.H.Wires))
	for _, list := range [][]Draw{m.Draws, m.Charge} {
		for i := range list {
			d := &list[i]
			for _, w := range d.Wires() {
				if n := len(out[w]); n == 0 || out[w][n-1] != d {
					out[w] = append(out[w], d)
				}
			}
		}
	}
	return out
}
