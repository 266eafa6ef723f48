package cause

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/unit"
)

// wire enters a wire open, with bad joints, and shorted to ground.
func (l *lister) wire(w *harness.Wire) {
	at := l.onWay(l.ways.Wire[w.ID], func(s *network.State) float64 { return s.WireAmps[w.ID] })
	c := l.blank(w.Name, proof.Open, "open")
	c.Wire, c.Cuts = w.ID, onWire(w.ID, open)
	l.family(c, proof.Joint, at)
	if at = l.shorts(w.To, at); at.state != harness.None {
		c := l.blank(w.Name, proof.Short, "short")
		c.Wire, c.Ohms, c.Touch = w.ID, ShortOhms, l.touch(w.To, harness.Chassis)
		l.add(c, at)
	}
}

// shorts is the spot in which metal that touches the bodywork shows: where its load is on
// if the metal is live then, else where it is live most.
func (l *lister) shorts(t harness.TerminalID, at spot) spot {
	if at.state != harness.None {
		if v := &l.states[at.state]; math.Abs(v.Volts[t]-v.Volts[harness.Chassis]) >= 1 {
			return at
		}
	}
	out := l.differ(t, harness.Chassis, always)
	out.load = at.load
	return out
}

// element enters what can happen to an element.
func (l *lister) element(e *harness.Element) {
	switch e.Kind {
	case harness.FuseLink, harness.Contact:
		l.contact(e)
	case harness.Resistance:
		l.resistance(e)
	case harness.RelayCoil:
		l.coil(e)
	case harness.Rectifier:
		l.one(e, proof.Open, e.Name, "open", open, l.spotOf(e))
		l.one(e, proof.Shorted, e.Name, "shorted", ShortOhms, l.differ(e.A, e.B, always))
	case harness.Load:
		l.one(e, proof.Open, e.Name, "open", open, l.spotOf(e))
		l.one(e, proof.Shorted, e.Name, "shorted", ShortOhms, l.spotOf(e))
	case harness.EMF:
		l.battery(e)
	case harness.Charger, harness.Converter:
		at := l.spotOf(e)
		l.one(e, proof.Dead, e.Name, "dead", open, at)
		l.disconnected(e, at)
	}
}

// spotOf is the spot of an element.
func (l *lister) spotOf(e *harness.Element) spot {
	return l.onWay(l.ways.Element[e.ID], func(s *network.State) float64 { return s.Amps[e.ID] })
}

// one enters an element that has another resistance.
func (l *lister) one(e *harness.Element, kind proof.Kind, element, ending string, ohms float64, at spot) {
	c := l.blank(element, kind, ending)
	c.Part, c.Cuts = e.Part, onElement(e.ID, ohms)
	l.add(c, at)
}

// contact enters a fuse, a cavity or a pair of contacts open, burnt and welded.
func (l *lister) contact(e *harness.Element) {
	c := l.blank(e.Name, proof.Open, "open")
	c.Part, c.Cuts, c.Contact = e.Part, onElement(e.ID, open), e.ID
	l.family(c, proof.Burnt, l.spotOf(e))
	if e.When.Kind == harness.Always {
		return
	}
	at := l.differ(e.A, e.B, func(i int) bool { return !Closed(l.h, &l.states[i], e.When) })
	if at.state == harness.None {
		return
	}
	c = l.blank(e.Name, proof.Welded, "welded")
	c.Part, c.Contact, c.Ohms, c.Touch = e.Part, e.ID, weldedOhms(e), harness.None
	if moved(e) {
		c.Cuts = onElement(e.ID, float64(c.Ohms))
	} else {
		c.Touch = l.touch(e.A, e.B)
	}
	l.add(c, at)
}

// moved tells a contact that follows a coil: it is part of the network in every state.
func moved(e *harness.Element) bool {
	return e.When.Kind == harness.Energised || e.When.Kind == harness.Released
}

// weldedOhms is the resistance of a contact that is closed for good: its own when closed.
func weldedOhms(e *harness.Element) unit.Ohm {
	if e.Ohms > 0 {
		return e.Ohms
	}
	return closedOhms
}

// closedOhms is a closed contact where the model gives none; common practice, no source.
const closedOhms unit.Ohm = 0.002

// Closed tells whether a condition holds in a solved state.
func Closed(h *harness.Harness, s *network.State, c harness.Condition) bool {
	switch c.Kind {
	case harness.InPosition:
		return slices.Contains(c.Positions, h.States[s.Index].Position[c.Switch])
	case harness.Energised:
		return s.Energised[c.Coil]
	case harness.Released:
		return !s.Energised[c.Coil]
	case harness.EngineIs:
		return slices.Contains(c.Engines, h.States[s.Index].Engine)
	}
	return true
}

// resistance enters a ground point that is off or bad, a strap, a resistor.
func (l *lister) resistance(e *harness.Element) {
	switch kind := l.h.Parts[e.Part].Kind; {
	case l.h.Grounds(e):
		c := l.blank(e.Name, proof.Unearthed, "unearthed")
		c.Part, c.Cuts = e.Part, onElement(e.ID, open)
		l.family(c, proof.Joint, l.crowded(e))
	case kind == harness.Strap:
		c := l.blank(e.Name, proof.Open, "open")
		c.Part, c.Cuts = e.Part, onElement(e.ID, open)
		l.family(c, proof.Joint, l.spotOf(e))
	default:
		l.one(e, proof.Open, e.Name, "open", open, l.spotOf(e))
		l.one(e, proof.Shorted, e.Name, "shorted", ShortOhms, l.differ(e.A, e.B, always))
	}
}

// crowded is the spot of a ground point: the state in which most loads and coils end on
// it, of those the one with the most current.
func (l *lister) crowded(e *harness.Element) spot {
	at := l.spotOf(e)
	best, most := at, l.ending(e, at.state)
	for i := range l.states {
		if n := l.ending(e, i); n > most {
			best, most = spot{i, l.foremost(e, i)}, n
		}
	}
	return best
}

// ending counts the loads and coils whose way leads over an element and that carry current
// in a state.
func (l *lister) ending(e *harness.Element, state int) int {
	n := 0
	for i := range l.ways.List {
		x := &l.ways.List[i]
		if state != harness.None && math.Abs(l.states[state].Amps[x.Draw]) >= least && slices.Contains(x.Own.All.Elements, e.ID) {
			n++
		}
	}
	return n
}

// foremost is the load over an element with the most current in a state.
func (l *lister) foremost(e *harness.Element, state int) harness.ElementID {
	best, most := harness.ElementID(harness.None), 0.0
	for i := range l.ways.List {
		x := &l.ways.List[i]
		if a := math.Abs(l.states[state].Amps[x.Draw]); a > most && slices.Contains(x.Own.All.Elements, e.ID) {
			best, most = x.Draw, a
		}
	}
	return best
}
