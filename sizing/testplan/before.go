package testplan

import (
	"strings"

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
	if err := m.toGround(rest, worked); err != nil {
		return err
	}
	if err := m.neighbours(rest); err != nil {
		return err
	}
	return m.pulled(rest)
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
func (m *plan) pulled(d *dead) error {
	for i, f := range m.r.Fuses {
		if f.Breaker {
			continue
		}
		e := &m.h.Elements[f.Element]
		ohms, off, metal, err := d.between(e.A, e.B)
		if err != nil {
			return err
		}
		one := proof.Pulled{Fuse: f.Element, Ohms: unit.Ohm(ohms), Off: off, Note: m.bridged(off)}
		switch {
		case metal:
			one.Note = "metal joins its two sides: it protects nothing"
		case m.r.Outages[i].Shared:
			one.Note = strings.Trim("another feeder reaches its load side: pull that too; "+one.Note, "; ")
		}
		m.p.Before.Pulled = append(m.p.Before.Pulled, one)
	}
	return nil
}
