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
	seen, taken := map[harness.TerminalID]bool{t: true}, map[harness.WireID]bool{}
	var out, near Beside
	for queue := []harness.TerminalID{t}; len(queue) > 0; queue = queue[1:] {
		at := queue[0]
		reach := func(other harness.TerminalID) {
			if !seen[other] {
				seen[other] = true
				queue = append(queue, other)
			}
		}
		for i := range b.h.Wires {
			w := &b.h.Wires[i]
			if w.From != at && w.To != at || taken[w.ID] {
				continue
			}
			taken[w.ID] = true
			out.Wires = append(out.Wires, w.ID)
			if at == t {
				near.Wires = append(near.Wires, w.ID)
			}
			reach(w.From)
			reach(w.To)
		}
		for i := range b.h.Elements {
			e := &b.h.Elements[i]
			if e.A != at && e.B != at {
				continue
			}
			switch e.Kind {
			case harness.EMF, harness.Charger:
				return near, map[harness.TerminalID]bool{t: true}
			case harness.Contact, harness.FuseLink, harness.Join:
				if e.When.Kind == harness.Always && !seen[e.A+e.B-at] {
					out.Links = append(out.Links, e.ID)
					reach(e.A + e.B - at)
				}
			}
		}
		if at == harness.Chassis {
			return near, map[harness.TerminalID]bool{t: true}
		}
	}
	return out, seen
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
