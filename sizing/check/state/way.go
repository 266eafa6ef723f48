package state

import (
	"maps"
	"slices"

	"example.com/loomfolio/sizing/harness"
)

// far is the cost of what no way leads to.
const far = 1 << 20

// needs is what must be set for something to get current: the positions that each
// switch may stand in, and the switches in order from the far end to the source.
type needs struct {
	allowed map[harness.PartID][]int
	order   []harness.PartID
	cost    int // switches out of rest; far where no way is known
}

// ways asks which switches lead current to a terminal. It passes metal, fuses and
// contacts, never a load; a relay's contact needs what its coil needs.
type ways struct {
	metal
	live, earth []harness.TerminalID // the batteries' poles, the bodywork with the second
	coils       map[harness.ElementID]needs
	fromLive    *reach
	fromEarth   *reach
}

func waysOf(m metal) *ways {
	w := &ways{metal: m, earth: []harness.TerminalID{harness.Chassis}, coils: map[harness.ElementID]needs{}}
	for i := range m.h.Elements {
		e := &m.h.Elements[i]
		if e.Kind != harness.EMF {
			continue
		}
		live, earth := e.A, e.B
		if m.h.System.PositiveEarth {
			live, earth = earth, live
		}
		w.live, w.earth = append(w.live, live), append(w.earth, earth)
	}
	w.fromLive, w.fromEarth = w.search(w.live, w.earth), w.search(w.earth, w.live)
	return w
}

// forLoad is what a load or coil needs: a way from each pole to one of its ends,
// and what closes it.
func (w *ways) forLoad(id harness.ElementID) needs {
	e := &w.h.Elements[id]
	out := w.between(e, w.fromLive, w.fromEarth)
	if e.When.Kind == harness.Energised {
		out = joined(w.forCoil(e.When.Coil), out)
	}
	return out
}

// forCoil is what a relay's coil needs.
func (w *ways) forCoil(id harness.ElementID) needs {
	if n, known := w.coils[id]; known {
		return n
	}
	w.coils[id] = needs{cost: far} // of a relay that holds itself the contact is no way
	e := &w.h.Elements[id]
	n := w.between(e, w.search(w.live, w.earth), w.search(w.earth, w.live))
	w.coils[id] = n
	return n
}

func (w *ways) between(e *harness.Element, live, earth *reach) needs {
	a, b := joined(w.to(live, e.A), w.to(earth, e.B)), joined(w.to(live, e.B), w.to(earth, e.A))
	if b.cost < a.cost {
		return b
	}
	return a
}

// forContact is what brings the supply, or the ground, to one end of a contact.
func (w *ways) forContact(id harness.ElementID) needs {
	e := &w.h.Elements[id]
	best := needs{cost: far}
	for _, r := range []*reach{w.fromLive, w.fromEarth} {
		for _, t := range []harness.TerminalID{e.A, e.B} {
			n := w.to(r, t)
			if _, itself := n.allowed[e.When.Switch]; !itself && n.cost < best.cost {
				best = n
			}
		}
	}
	return best
}

// reach is how terminals are reached from a pole: the cost, and the last step.
type reach struct {
	cost map[harness.TerminalID]int
	from map[harness.TerminalID]step
}

type step struct {
	element harness.ElementID // None for a wire
	before  harness.TerminalID
}

// search goes out from some terminals and never over those that are barred.
func (w *ways) search(from, barred []harness.TerminalID) *reach {
	r := &reach{map[harness.TerminalID]int{}, map[harness.TerminalID]step{}}
	queue := slices.Clone(from)
	for _, t := range from {
		r.cost[t] = 0
	}
	for len(queue) > 0 {
		t := queue[0]
		queue = queue[1:]
		offer := func(to harness.TerminalID, element harness.ElementID, cost int) {
			cost += r.cost[t]
			if old, known := r.cost[to]; cost >= far || known && old <= cost || slices.Contains(barred, to) {
				return
			}
			r.cost[to], r.from[to] = cost, step{element, t}
			queue = append(queue, to)
		}
		w.onward(t, offer)
	}
	return r
}

// onward offers each terminal beside one, with what leads there and its cost.
func (w *ways) onward(t harness.TerminalID, offer func(harness.TerminalID, harness.ElementID, int)) {
	for _, id := range w.wires[t] {
		offer(w.h.Wires[id].From+w.h.Wires[id].To-t, harness.None, 0)
	}
	for _, id := range w.at[t] {
		e := &w.h.Elements[id]
		if cost := w.costOf(e); cost < far {
			offer(e.A+e.B-t, id, cost)
		}
	}
}

// costOf is how many switches must leave their rest so that an element passes current.
func (w *ways) costOf(e *harness.Element) int {
	switch e.Kind {
	case harness.Join, harness.FuseLink, harness.Resistance, harness.Rectifier, harness.Contact:
	default:
		return far
	}
	switch e.When.Kind {
	case harness.EngineIs:
		return far // the inside of an alternator
	case harness.Energised:
		return 1 + w.forCoil(e.When.Coil).cost
	case harness.InPosition:
		if !slices.Contains(e.When.Positions, 0) {
			return 1
		}
	}
	return 0
}

// to gathers what the way to a terminal needs.
func (w *ways) to(r *reach, t harness.TerminalID) needs {
	cost, known := r.cost[t]
	if !known {
		return needs{cost: far}
	}
	out := needs{allowed: map[harness.PartID][]int{}, cost: cost}
	for range len(w.h.Terminals) {
		s, more := r.from[t]
		if !more {
			break
		}
		if s.element != harness.None {
			out = joined(out, w.closing(&w.h.Elements[s.element]))
		}
		t = s.before
	}
	out.cost = cost
	return out
}

// closing is what closes one element.
func (w *ways) closing(e *harness.Element) needs {
	switch e.When.Kind {
	case harness.InPosition:
		return needs{allowed: map[harness.PartID][]int{e.When.Switch: e.When.Positions}, order: []harness.PartID{e.When.Switch}}
	case harness.Energised:
		return w.forCoil(e.When.Coil)
	}
	return needs{}
}

// joined is what both need; where they ask a switch for different positions the first wins.
func joined(a, b needs) needs {
	out := needs{allowed: maps.Clone(a.allowed), order: slices.Clone(a.order), cost: min(a.cost+b.cost, far)}
	if out.allowed == nil {
		out.allowed = map[harness.PartID][]int{}
	}
	for _, p := range b.order {
		was, known := out.allowed[p]
		if !known {
			out.allowed[p] = b.allowed[p]
			out.order = append(out.order, p)
			continue
		}
		if both := common(was, b.allowed[p]); len(both) > 0 {
			out.allowed[p] = both
		}
	}
	return out
}

func common(a, b []int) []int {
	var out []int
	for _, n := range a {
		if slices.Contains(b, n) {
			out = append(out, n)
		}
	}
	return out
}

// positions gives the positions to be set, those that leave a switch at rest left out.
func (n needs) positions() map[harness.PartID]int {
	out := map[harness.PartID]int{}
	for _, p := range n.order {
		if at := n.allowed[p]; n.cost < far && !slices.Contains(at, 0) {
			out[p] = at[0]
		}
	}
	return out
}
