package testplan

import (
	"math"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/testplan/meter"
	"example.com/loomfolio/sizing/testplan/tolerance"
	"example.com/loomfolio/sizing/unit"
)

// through gives the current through each fuse in the state in which it carries most, the
// engine not cranked.
func (m *plan) through() {
	for _, f := range m.r.Fuses {
		if state := m.most(f.Element); state != harness.None {
			m.p.Through = append(m.p.Through, m.throughIn(f.Element, state))
		}
	}
}

// enough is the share of the most current in any state that will do where a meter is safer
// to hold.
const enough = 0.8

// most is the state in which an element carries most.
func (m *plan) most(e harness.ElementID) int {
	return m.mostOf(func(s int) float64 { return m.r.States[s].Amps[e] })
}

// mostOf is the state in which a current is largest: one with the engine off where it is
// nearly as large there, cranking only where there is no other; None where there is none.
func (m *plan) mostOf(amps func(state int) float64) int {
	best, least := harness.None, meter.Nothing
	for _, engine := range []harness.Engine{harness.EngineRunning, harness.EngineOff, harness.EngineCranking} {
		at, most := m.mostWhile(amps, engine)
		if at != harness.None && most >= least && (engine != harness.EngineCranking || best == harness.None) {
			best, least = at, enough*most
		}
	}
	return best
}

// mostWhile is the state with the largest current while the engine is so.
func (m *plan) mostWhile(amps func(state int) float64, engine harness.Engine) (state int, most float64) {
	state = harness.None
	for s := range m.r.States {
		if m.limits[s] == nil || m.h.States[s].Engine != engine {
			continue
		}
		if a := math.Abs(amps(s)); a > most+1e-9 {
			state, most = s, a
		}
	}
	return state, most
}

func (m *plan) throughIn(e harness.ElementID, state int) proof.Through {
	r := m.amps(e, state)
	k := m.r.States[state].ElementAt[e]
	return proof.Through{
		Fuse: e, State: state, Amps: unit.Ampere(r.Is), Low: unit.Ampere(r.Low), High: unit.Ampere(r.High),
		Across: unit.Volt(r.Is * m.r.States[state].Network.Elements[k].Ohms),
	}
}

// amps is the range of an element's current, counted positive.
func (m *plan) amps(e harness.ElementID, state int) tolerance.Range {
	r := m.limits[state].Amps(m.r.States[state].ElementAt[e])
	if r.Is < 0 {
		r = tolerance.Range{Is: -r.Is, Low: -r.High, High: -r.Low}
	}
	r.Low = max(r.Low, 0)
	return r
}

// coils gives the current and the ohms of each relay's coil.
func (m *plan) coils() {
	for i := range m.h.Elements {
		e := &m.h.Elements[i]
		state := m.most(e.ID)
		if e.Kind != harness.RelayCoil || state == harness.None {
			continue
		}
		r, t := m.amps(e.ID, state), rating.ToleranceOf("coil")
		ohms, diode := m.across(e)
		m.p.Coils = append(m.p.Coils, proof.CoilAmps{
			Coil: e.ID, State: state, Amps: unit.Ampere(r.Is), Low: unit.Ampere(r.Low), High: unit.Ampere(r.High),
			Ohms: unit.Ohm(ohms), OhmsLow: unit.Ohm(ohms * t.Low), OhmsHigh: unit.Ohm(ohms * t.High), Diode: diode,
		})
	}
}

// across gives the ohms across a coil with a resistor beside it, and which way a diode lies.
func (m *plan) across(coil *harness.Element) (ohms float64, diode string) {
	siemens := 1 / float64(coil.Ohms)
	for _, id := range m.h.Parts[coil.Part].Elements {
		e := &m.h.Elements[id]
		beside := e.A == coil.A && e.B == coil.B || e.A == coil.B && e.B == coil.A
		switch {
		case !beside || id == coil.ID:
		case e.Kind == harness.Resistance:
			siemens += 1 / float64(e.Ohms)
		case e.Kind == harness.Rectifier:
			diode = m.h.Terminals[e.B].Name + " is positive"
		}
	}
	return 1 / siemens, diode
}

// keyOff gives the current with everything at rest, by fuse and in sum.
func (m *plan) keyOff() {
	m.p.KeyOff.State = harness.None
	for i := range m.r.Budgets {
		if b := &m.r.Budgets[i]; b.KeyOff && m.limits[b.State] != nil {
			m.p.KeyOff = m.atRest(b)
			return
		}
	}
}

func (m *plan) atRest(b *chosen.Budget) proof.KeyOff {
	_, high := tolerance.Drawn(m.h, &m.r.States[b.State])
	out := proof.KeyOff{State: b.State, Sum: b.Drain, High: unit.Ampere(high), Limit: rating.KeyOff()}
	for _, d := range b.Drains {
		if d.Fuse != harness.None {
			out.Fuses = append(out.Fuses, m.throughIn(d.Fuse, b.State))
		}
	}
	return out
}
