package check

import (
	"slices"

	"example.com/loomfolio/sizing/check/side"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// walked is a leg with its stops resolved, in the order in which they are written.
type walked struct {
	circuit harness.CircuitID
	n       int
	span    source.Span
	halts   []halt
	turned  bool // written against the current
}

// halt gives the stops as the current passes them.
func (w *walked) halt(i int) halt {
	if !w.turned {
		return w.halts[i]
	}
	h := w.halts[len(w.halts)-1-i]
	h.arrive, h.leave = h.leave, h.arrive
	return h
}

// between gives the stop that says what the wire to the i-th is: of the two, that which
// is written second.
func (w *walked) between(i int) *describe.Stop {
	if !w.turned {
		return w.halts[i].stop
	}
	return w.halts[len(w.halts)-i].stop
}

// turn finds the legs that are written against the current, from the ground in a vehicle
// with negative earth or from the live side in one with positive, and how their bare parts lie.
func (c *checker) turn(legs []walked) {
	asWritten := make([]side.Leg, len(legs))
	for i := range legs {
		w := &legs[i]
		asWritten[i] = side.Leg{First: w.halts[0].leave, Last: w.halts[len(w.halts)-1].arrive}
		for n := 1; n < len(w.halts); n++ {
			if from, to := w.halts[n-1], w.halts[n]; from.part != to.part || c.jumps(from, to, to.stop) {
				asWritten[i].Joins = append(asWritten[i].Joins, [2]harness.TerminalID{from.leave, to.arrive})
			}
		}
	}
	against, most := side.Against(c.h, asWritten)
	for i := range legs {
		legs[i].turned = against[i]
		c.layBare(&legs[i], most)
	}
}

// layBare turns a leg's bare parts and connectors. What has a direction (a load, a diode)
// and the two halves of a connector lie with the current; a fuse or switch begins at its 1
// as most legs are written.
func (c *checker) layBare(w *walked, most bool) {
	for i := range w.halts {
		h := &w.halts[i]
		if h.arrive == h.leave {
			continue
		}
		lies := w.turned != most
		if c.directed(h.part) {
			lies = w.turned != c.backwards(h.part)
		}
		if lies {
			h.arrive, h.leave = h.leave, h.arrive
		}
	}
}

// directed tells a part whose two terminals differ.
func (c *checker) directed(id harness.PartID) bool {
	p := &c.h.Parts[id]
	if p.Kind == harness.Connector {
		return true
	}
	for _, e := range p.Elements {
		switch c.h.Elements[e].Kind {
		case harness.Join, harness.Contact, harness.FuseLink, harness.Resistance, harness.Open:
		default:
			return true
		}
	}
	return false
}

// backwards tells a load through which the current runs from its second terminal to its
// first: with plus on the bodywork an ignition coil, whose 15 is its live side.
func (c *checker) backwards(id harness.PartID) bool {
	p := &c.h.Parts[id]
	return slices.ContainsFunc(p.Elements, func(n harness.ElementID) bool {
		e := &c.h.Elements[n]
		return e.Kind == harness.Load && e.A == p.Terminals[1] && e.B == p.Terminals[0]
	})
}
