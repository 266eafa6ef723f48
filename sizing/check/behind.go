package check

import "example.com/loomfolio/sizing/harness"

// contactsIn lists a part's contacts that are closed in one of its positions.
func (c *checker) contactsIn(p *harness.Part, position int) []harness.ElementID {
	var out []harness.ElementID
	for _, id := range p.Elements {
		w := c.h.Elements[id].When
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
func (c *checker) behind(contacts []harness.ElementID) float64 {
	w := walk{c: c, at: c.joints(), seen: map[harness.TerminalID]bool{harness.Chassis: true}, counted: map[harness.ElementID]bool{}}
	for _, id := range contacts {
		w.counted[id] = true
		w.reach(c.h.Elements[id].A)
		w.reach(c.h.Elements[id].B)
	}
	for len(w.queue) > 0 {
		t := w.queue[0]
		w.queue = w.queue[1:]
		for _, wire := range c.wiresAt[t] {
			w.reach(c.h.Wires[wire].From)
			w.reach(c.h.Wires[wire].To)
		}
		for _, id := range w.at[t] {
			w.pass(&c.h.Elements[id])
		}
	}
	return w.amps
}

// joints lists the elements by terminal.
func (c *checker) joints() map[harness.TerminalID][]harness.ElementID {
	out := map[harness.TerminalID][]harness.ElementID{}
	for i := range c.h.Elements {
		e := &c.h.Elements[i]
		out[e.A] = append(out[e.A], e.ID)
		out[e.B] = append(out[e.B], e.ID)
	}
	return out
}

// walk goes over metal and adds up the loads that it meets.
type walk struct {
	c       *checker
	at      map[harness.TerminalID][]harness.ElementID
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
			w.amps += float64(w.c.h.System.Volts) / float64(e.Ohms)
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
	for i := range w.c.h.Elements {
		e := &w.c.h.Elements[i]
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
