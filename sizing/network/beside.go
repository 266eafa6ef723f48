package network

import (
	"math"

	"example.com/loomfolio/sizing/harness"
)

// Beside is a piece of metal in which a current flows that is none of the vehicle's direct
// current: the alternating current of a stator (RMS), or that of a solar panel.
type Beside struct {
	From  harness.ElementID // the first that says so
	Wires []harness.WireID
	Links []harness.ElementID // contacts and fuses on the way
	Amps  float64
}

// findBeside gathers these currents in a state. Where panels meet, what the pluses bring
// and what the minuses take is one current: the larger counts.
func (b *builder) findBeside() {
	var from []*harness.Element
	for i := range b.h.Elements {
		if e := &b.h.Elements[i]; e.Kind == harness.Open && e.Amps > 0 && b.state.There(e.When) {
			from = append(from, e)
		}
	}
	done := make([]bool, len(from))
	for i := range from {
		if done[i] {
			continue
		}
		piece, terminals := b.piece(from[i].A)
		plus, minus := 0.0, 0.0
		for n, e := range from {
			if !terminals[e.A] {
				continue
			}
			done[n] = true
			if e.Volts < 0 {
				minus += float64(e.Amps)
			} else {
				plus += float64(e.Amps)
			}
		}
		piece.From, piece.Amps = from[i].ID, math.Max(plus, minus)
		b.besides = append(b.besides, piece)
	}
}

// piece walks the metal at a terminal; where that is the vehicle's own it keeps the wires
// on the terminal alone.
func (b *builder) piece(t harness.TerminalID) (Beside, map[harness.TerminalID]bool) {
	w := &metalWalk{b: b, seen: map[harness.TerminalID]bool{t: true}, taken: map[harness.WireID]bool{}, queue: []harness.TerminalID{t}}
	for near := -1; len(w.queue) > 0; w.queue = w.queue[1:] {
		at := w.queue[0]
		w.wires(at)
		if near < 0 {
			near = len(w.out.Wires)
		}
		if own := w.elements(at); own || at == harness.Chassis {
			return Beside{Wires: w.out.Wires[:near]}, map[harness.TerminalID]bool{t: true}
		}
	}
	return w.out, w.seen
}

// metalWalk visits what wires, contacts, fuses and joints join.
type metalWalk struct {
	b     *builder
	seen  map[harness.TerminalID]bool
	taken map[harness.WireID]bool
	queue []harness.TerminalID
	out   Beside
}

func (w *metalWalk) reach(t harness.TerminalID) {
	if !w.seen[t] {
		w.seen[t] = true
		w.queue = append(w.queue, t)
	}
}

// wires goes over the wires at a terminal.
func (w *metalWalk) wires(at harness.TerminalID) {
	for i := range w.b.h.Wires {
		x := &w.b.h.Wires[i]
		if x.From != at && x.To != at || w.taken[x.ID] {
			continue
		}
		w.taken[x.ID] = true
		w.out.Wires = append(w.out.Wires, x.ID)
		w.reach(x.From)
		w.reach(x.To)
	}
}

// elements goes over the elements at a terminal, and tells whether a source of the vehicle
// is among them.
func (w *metalWalk) elements(at harness.TerminalID) (source bool) {
	for i := range w.b.h.Elements {
		e := &w.b.h.Elements[i]
		if e.A != at && e.B != at {
			continue
		}
		switch e.Kind {
		case harness.EMF, harness.Charger:
			return true
		case harness.Contact, harness.FuseLink, harness.Join:
			if far := e.A + e.B - at; e.When.Kind == harness.Always && !w.seen[far] {
				w.out.Links = append(w.out.Links, e.ID)
				w.reach(far)
			}
		}
	}
	return false
}

// addBeside adds these currents to a state's.
func (b *builder) addBeside(s *State) {
	s.Besides = b.besides
	for _, x := range b.besides {
		for _, w := range x.Wires {
			s.WireAmps[w] += x.Amps
		}
		for _, id := range x.Links {
			s.Amps[id] += x.Amps
		}
	}
}
