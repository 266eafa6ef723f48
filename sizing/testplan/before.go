package testplan

import (
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/unit"
)

// before lists what is proved with the battery off and all fuses out.
func (m *plan) before() error {
	rest, err := m.dead(false)
	if err != nil {
		return err
	}
	worked, err := m.dead(true)
	if err != nil {
		return err
	}
	m.beeps()
	m.toGround(rest, worked)
	m.neighbours(rest)
	m.pulled(rest)
	return nil
}

// ground is what counts as ground for a beeper: the bodywork, of a wired return the
// earthed post of the first battery. None where there is neither.
func (m *plan) ground(d *dead) harness.TerminalID {
	if d.state.Of[harness.Chassis] >= 0 && !m.h.System.WiredReturn {
		return harness.Chassis
	}
	for i := range m.h.Elements {
		if e := &m.h.Elements[i]; e.Kind == harness.EMF {
			return m.h.Earthed(e)
		}
	}
	return harness.None
}

// pulled: each fuse out reads open, or says what bridges it.
func (m *plan) pulled(d *dead) {
	for _, f := range m.r.Fuses {
		if f.Breaker {
			continue
		}
		e := &m.h.Elements[f.Element]
		ohms, off, metal := d.between(e.A, e.B)
		one := proof.Pulled{Fuse: f.Element, Ohms: unit.Ohm(ohms), Off: off, Note: m.bridged(off)}
		if metal {
			one.Note = "metal joins its two sides: it protects nothing"
		}
		m.p.Before.Pulled = append(m.p.Before.Pulled, one)
	}
}
