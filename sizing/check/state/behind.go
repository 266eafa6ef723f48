package state

import "example.com/loomfolio/sizing/harness"

// metal is what metal joins: elements and wires by the terminals that they have.
type metal struct {
	h     *harness.Harness
	at    map[harness.TerminalID][]harness.ElementID
	wires map[harness.TerminalID][]harness.WireID
}

func metalOf(h *harness.Harness) metal {
	m := metal{h, map[harness.TerminalID][]harness.ElementID{}, map[harness.TerminalID][]harness.WireID{}}
	for i := range h.Elements {
		e := &h.Elements[i]
		m.at[e.A] = append(m.at[e.A], e.ID)
		m.at[e.B] = append(m.at[e.B], e.ID)
	}
	for i := range h.Wires {
		w := &h.Wires[i]
		m.wires[w.From] = append(m.wires[w.From], w.ID)
		m.wires[w.To] = append(m.wires[w.To], w.ID)
	}
	return m
}

// fullest is the position that turns on most current; of equal ones that which
// closes more contacts, then the later one. One that is barred is none of them.
func (m metal) fullest(p *harness.Part, barred func(position int) bool) int {
	best, most, contacts := 0, -1.0, 0
	for n := range p.Positions {
		if barred(n) {
			continue
		}
		closed := m.contactsIn(p, n)
		a := m.behind(closed)
		if a > most+1e-9 || a > most-1e-9 && len(closed) >= contacts {
			best, most, contacts = n, max(a, most), len(closed)
		}
	}
	return best
}

// contactsIn lists a part's contacts that are closed in one of its positions.
func (m metal) contactsIn(p *harness.Part, position int) []harness.ElementID {
	var out []harness.ElementID
	for _, id := range p.Elements {
		w := m.h.Elements[id].When
		if w.Kind != harness.InPosition || w.Switch != p.ID {
			continue
		}
		for _, n := range w.Positions {
			if n == position {
				out = append(out, id)
			}
		}
	}
	return out
}

// behind estimates the current that some closed contacts turn on, A: the loads
// that metal joins to either end of them, and those on the contacts of relays
// whose coils are so joined. No other switch is passed and no source, the
// bodywork neither, so that the positions of one switch compare: what lies on
// the side that they share counts in each.
func (m metal) behind(contacts []harness.ElementID) float64 {
	w := walk{metal: m, seen: map[harness.TerminalID]bool{harness.Chassis: true}, counted: map[harness.ElementID]bool{}}
	for _, id := range contacts {
		w.counted[id] = true
		w.reach(m.h.Elements[id].A)
		w.reach(m.h.Elements[id].B)
	}
	for len(w.queue) > 0 {
		t := w.queue[0]
		w.queue = w.queue[1:]
		for _, wire := range w.wires[t] {
			w.reach(m.h.Wires[wire].From)
			w.reach(m.h.Wires[wire].To)
		}
		for _, id := range w.at[t] {
			w.pass(&m.h.Elements[id])
		}
	}
	return w.amps
}

// walk goes over metal and adds up the loads that it meets.
type walk struct {
	metal
	seen    map[harness.TerminalID]bool
	counted map[harness.ElementID]bool
	queue   []harness.TerminalID
	amps    float64
}

func (w *walk) reach(t harness.TerminalID) {
	if !w.seen[t] {
		w.seen[t] = true
		w.queue = append(w.queue, t)
	}
}

// pass takes in one element that a terminal of the walk belongs to.
func (w *walk) pass(e *harness.Element) {
	if w.counted[e.ID] {
		return
	}
	w.counted[e.ID] = true
	switch e.Kind {
	case harness.Load:
		w.amps += float64(e.Amps)
	case harness.RelayCoil:
		if e.Ohms > 0 {
			w.amps += float64(w.h.SystemOf(e).Volts) / float64(e.Ohms)
		}
		w.pulledIn(e.ID)
	case harness.Join, harness.Contact, harness.FuseLink, harness.Resistance, harness.Rectifier:
		if e.When.Kind == harness.Always || e.When.Kind == harness.EngineIs {
			w.reach(e.A)
			w.reach(e.B)
		}
	}
}

// pulledIn goes on at both ends of what a coil closes; of a load that follows a
// coil it takes the current.
func (w *walk) pulledIn(coil harness.ElementID) {
	for i := range w.h.Elements {
		e := &w.h.Elements[i]
		if e.When.Kind != harness.Energised || e.When.Coil != coil || w.counted[e.ID] {
			continue
		}
		w.counted[e.ID] = true
		if e.Kind == harness.Load {
			w.amps += float64(e.Amps)
			continue
		}
		w.reach(e.A)
		w.reach(e.B)
	}
}
