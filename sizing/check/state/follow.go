package state

import (
	"maps"
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
)

// follow sets the park contacts that a state does not name: one turns while its motor is fed
// from both sides, with the contact itself at rest.
func follow(h *harness.Harness, states []harness.State, named func(state int, p harness.PartID) bool) {
	var w *ways
	for i := range h.Parts {
		p := &h.Parts[i]
		if m, ok := kind.MoverOf(p.Kind); !ok || m != kind.WhenFed || len(p.Positions) < 2 {
			continue
		}
		if w == nil {
			w = waysOf(metalOf(h))
		}
		for s := range states {
			if states[s].Position[p.ID] == 0 && !named(s, p.ID) && w.feeds(&states[s], p) {
				states[s].Position[p.ID] = 1
			}
		}
	}
}

// feeds tells whether a state joins any load of a part to both poles.
func (w *ways) feeds(s *harness.State, p *harness.Part) bool {
	live, earth := w.poles(s)
	return slices.ContainsFunc(p.Elements, func(id harness.ElementID) bool {
		e := &w.h.Elements[id]
		return e.Kind == harness.Load && (live[e.A] && earth[e.B] || live[e.B] && earth[e.A])
	})
}

// mostRelays is how many relays may follow one another.
const mostRelays = 8

// poles gives the terminals that a state joins to the live pole and to the other one; a relay
// is pulled in once its coil lies between both.
func (w *ways) poles(s *harness.State) (live, earth map[harness.TerminalID]bool) {
	pulled := map[harness.ElementID]bool{}
	for range mostRelays {
		live, earth = w.reached(s, pulled, w.live, w.earth), w.reached(s, pulled, w.earth, w.live)
		now := map[harness.ElementID]bool{}
		for i := range w.h.Elements {
			if e := &w.h.Elements[i]; e.Kind == harness.RelayCoil && (live[e.A] && earth[e.B] || live[e.B] && earth[e.A]) {
				now[e.ID] = true
			}
		}
		if maps.Equal(now, pulled) {
			break
		}
		pulled = now
	}
	return live, earth
}

// reached is what metal joins to some terminals in a state, never past the barred ones.
func (w *ways) reached(s *harness.State, pulled map[harness.ElementID]bool, from, barred []harness.TerminalID) map[harness.TerminalID]bool {
	seen := map[harness.TerminalID]bool{}
	queue := slices.Clone(from)
	for len(queue) > 0 {
		t := queue[0]
		queue = queue[1:]
		if seen[t] || slices.Contains(barred, t) {
			continue
		}
		seen[t] = true
		for _, id := range w.wires[t] {
			queue = append(queue, w.h.Wires[id].From+w.h.Wires[id].To-t)
		}
		for _, id := range w.at[t] {
			if e := &w.h.Elements[id]; passesIn(e, s, pulled) {
				queue = append(queue, e.A+e.B-t)
			}
		}
	}
	return seen
}

// passesIn tells metal that is closed in a state.
func passesIn(e *harness.Element, s *harness.State, pulled map[harness.ElementID]bool) bool {
	switch e.Kind {
	case harness.Join, harness.FuseLink, harness.Resistance, harness.Rectifier, harness.Contact:
	default:
		return false
	}
	switch e.When.Kind {
	case harness.EngineIs:
		return false // the inside of an alternator
	case harness.InPosition:
		return slices.Contains(e.When.Positions, s.Position[e.When.Switch])
	case harness.Energised:
		return pulled[e.When.Coil]
	case harness.Released:
		return !pulled[e.When.Coil]
	}
	return true
}

// momentary tells what is worked for a while only: buttons, timers of glow plugs, and the
// switch of a motor that turns either way.
func (d *driver) momentary(p *harness.Part) bool {
	m, _ := kind.MoverOf(p.Kind)
	return p.Momentary || m == kind.Pulsed || p.Kind == harness.Switch && d.movesBothWays(p)
}

// movesBothWays tells a switch with the leads of a motor that turns either way on it.
func (d *driver) movesBothWays(p *harness.Part) bool {
	return slices.ContainsFunc(p.Terminals, func(t harness.TerminalID) bool {
		return slices.ContainsFunc(d.beside(t, p.ID), func(e *harness.Element) bool {
			row, _ := kind.Of(d.h.Parts[e.Part].Kind)
			return e.Kind == harness.Load && row.Recipe != nil && row.Recipe.EitherWay
		})
	})
}

// beside lists the elements at the ends of the wires of a terminal, over connectors and
// splices too, but for those of the part itself.
func (d *driver) beside(t harness.TerminalID, but harness.PartID) []*harness.Element {
	var out []*harness.Element
	seen := map[harness.TerminalID]bool{harness.Chassis: true}
	for queue := []harness.TerminalID{t}; len(queue) > 0; queue = queue[1:] {
		at := queue[0]
		if seen[at] {
			continue
		}
		seen[at] = true
		for _, id := range d.wires[at] {
			queue = append(queue, d.h.Wires[id].From+d.h.Wires[id].To-at)
		}
		for _, id := range d.at[at] {
			e := &d.h.Elements[id]
			if e.Part == but {
				continue
			}
			out = append(out, e)
			if e.When.Kind == harness.Always && (e.Kind == harness.Contact || e.Kind == harness.Join) {
				queue = append(queue, e.A+e.B-at)
			}
		}
	}
	return out
}

// warns tells a pressure switch with nothing but lamps on it that is closed at rest: that of
// the oil, which opens as the engine turns.
func (d *driver) warns(p *harness.Part) bool { return len(d.warning(p)) > 0 }

// warning lists the lamps of such a pressure switch; none of any other part.
func (d *driver) warning(p *harness.Part) []harness.ElementID {
	if p.Kind != harness.PressureSwitch || len(d.contactsIn(p, 0)) == 0 {
		return nil
	}
	var lamps []harness.ElementID
	for _, t := range p.Terminals {
		for _, e := range d.beside(t, p.ID) {
			switch {
			case e.Kind == harness.Load && e.Behaves == harness.AsLamp:
				lamps = append(lamps, e.ID)
			case e.Kind == harness.Load || e.Kind == harness.RelayCoil:
				return nil
			}
		}
	}
	return lamps
}

// lit is what must be set for the lamps of such a pressure switch to light.
func (d *driver) lit(p *harness.Part) setting {
	out := setting{}
	for _, id := range d.warning(p) {
		for q, n := range d.forLoad(id).positions() {
			if q != p.ID && !d.isKey(q) {
				out[q] = n
			}
		}
	}
	return out
}
