package cause

import (
	"math"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/proof"
)

// coil enters a coil open and shorted, and its relay stuck: the coil takes its current and
// nothing moves.
func (l *lister) coil(e *harness.Element) {
	at := l.spotOf(e)
	if n := l.ways.Of[e.ID]; n != harness.None {
		at = spot{l.ways.List[n].State, e.ID}
	}
	l.one(e, proof.Open, e.Name, "open", open, at)
	l.one(e, proof.Shorted, e.Name, "shorted", ShortOhms, at)
	if at.state != harness.None && l.states[at.state].Energised[e.ID] {
		l.one(e, proof.Stuck, l.h.Parts[e.Part].Ref, "stuck", float64(e.Ohms), at)
	}
}

// What a flat battery gives, against its nominal voltage, and behind what resistance; a
// dead one; judgement, not published.
const (
	flatPart = 11.4 / 12
	flatOhms = 0.1
	deadPart = 2.0 / 12
	deadOhms = 1.0
)

// battery enters a battery flat, dead and off the loom.
func (l *lister) battery(e *harness.Element) {
	amps := func(s *network.State) float64 { return s.Amps[e.ID] }
	at := l.busiest(amps)
	for i := range l.states { // cranking asks most of it
		if at.state != harness.None && math.Abs(amps(&l.states[i])) > math.Abs(amps(&l.states[at.state])) {
			at.state = i
		}
	}
	volts := float64(l.h.SystemOf(e).Volts) * float64(e.Holds())
	l.weak(e, proof.Flat, "flat", network.Source{Element: e.ID, Volts: flatPart * volts, Ohms: flatOhms}, at)
	l.weak(e, proof.Dead, "dead", network.Source{Element: e.ID, Volts: deadPart * volts, Ohms: deadOhms}, at)
	l.disconnected(e, l.busiest(amps))
}

func (l *lister) weak(e *harness.Element, kind proof.Kind, ending string, as network.Source, at spot) {
	c := l.blank(l.h.Parts[e.Part].Ref, kind, ending)
	c.Part, c.Sources = e.Part, []network.Source{as}
	l.add(c, at)
}

// disconnected enters a source with every wire off its live post.
func (l *lister) disconnected(e *harness.Element, at spot) {
	c := l.blank(l.h.Parts[e.Part].Ref, proof.Disconnected, "disconnected")
	c.Part = e.Part
	post := l.ways.Joined[l.h.Live(e)]
	for i := range l.h.Wires {
		if w := &l.h.Wires[i]; l.ways.Joined[w.From] == post || l.ways.Joined[w.To] == post {
			c.Cuts = append(c.Cuts, onWire(w.ID, open)...)
		}
	}
	if len(c.Cuts) > 0 {
		l.add(c, at)
	}
}
