package network

import (
	"math"

	"example.com/loomfolio/sizing/circuit"
	"example.com/loomfolio/sizing/harness"
)

const (
	mostSensings = 50       // solvings until a regulator's voltage stands still
	sensedTo     = 1e-9     // V that it may be off
	mostLift     = 2.0 / 12 // of the nominal voltage: how far a regulator lifts its output for what is lost to where it senses, or with an open sense lead; common practice, no source
)

// sensing lifts what an alternator with a sense lead holds at its output by what is lost up
// to the point where it senses, and gives the network that has come to rest so. It is found
// by solving in turns: what is lost is a small part of what is there.
func (b *builder) sensing(p *circuit.Prepared) (*circuit.Prepared, error) {
	var at []harness.ElementID
	for i := range b.h.Elements {
		if e := &b.h.Elements[i]; e.Kind == harness.Charger && e.Sense != 0 && b.elementAt[i] >= 0 {
			at = append(at, e.ID)
		}
	}
	if len(at) == 0 {
		return p, nil
	}
	for range mostSensings {
		s, err := p.Solve()
		if err != nil {
			return nil, err
		}
		n, moved := p.Network(), 0.0
		n.Elements = append([]circuit.Element(nil), n.Elements...)
		for _, id := range at {
			e, x := &b.h.Elements[id], &n.Elements[b.elementAt[id]]
			lost := math.Abs(s.Volts[b.of[b.h.Live(e)]] - s.Volts[b.of[e.Sense]])
			volts := float64(e.Volts) + min(lost, mostLift*b.nominal(e))
			if math.IsNaN(volts) {
				continue
			}
			moved = math.Max(moved, math.Abs(volts-x.Volts))
			x.Volts = volts
		}
		if moved < sensedTo {
			break
		}
		if p, err = circuit.Prepare(n); err != nil {
			return nil, err
		}
	}
	b.elements = p.Network().Elements
	return p, nil
}
