// Package loose tells what hangs on that which nobody knows: the terminals of unknown
// boxes and the ends that are not traced.
//
// In: the model, and for a state which coils hold. Out: by terminal the unknown ends on the
// same metal; the terminals of which nobody can say what they are at; the wires that lead
// to unknown ends. Method: union of terminals over wires and what passes current without
// taking any. The bodywork and the posts of sources join nothing, or all would hang on all.
package loose

import (
	"slices"

	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
)

// End tells a terminal of which nobody knows where it leads: an open end, or one of an
// unknown box to which nothing is known to be joined inside.
func End(h *harness.Harness, t harness.TerminalID) bool {
	p := h.PartOf(t)
	switch {
	case p == nil:
		return false
	case p.Kind == harness.OpenEnd:
		return true
	case p.Kind != harness.Unknown:
		return false
	}
	return !slices.ContainsFunc(p.Elements, func(e harness.ElementID) bool { return h.Elements[e].A == t || h.Elements[e].B == t })
}

// Ends lists them all, in the order of the terminals.
func Ends(h *harness.Harness) []harness.TerminalID {
	var out []harness.TerminalID
	for t := range h.Terminals {
		if End(h, harness.TerminalID(t)) {
			out = append(out, harness.TerminalID(t))
		}
	}
	return out
}

// Metal is what is one piece of metal, with the unknown ends on it.
type Metal struct {
	of   forest.Forest
	ends map[int][]harness.TerminalID // by root
	firm map[int]bool                 // by root: a source's post or the bodywork is on it
}

// Worked is the metal with every contact closed, fuses in.
func Worked(h *harness.Harness) *Metal { return metal(h, func(*harness.Element) bool { return true }) }

// In is the metal of a state; energised tells by element which coils hold.
func In(h *harness.Harness, s *harness.State, energised []bool) *Metal {
	return metal(h, func(e *harness.Element) bool { return Closed(e.When, s, energised) })
}

// Closed tells whether a condition holds in a state.
func Closed(c harness.Condition, s *harness.State, energised []bool) bool {
	switch c.Kind {
	case harness.InPosition:
		return slices.Contains(c.Positions, s.Position[c.Switch])
	case harness.Energised:
		return energised[c.Coil]
	case harness.Released:
		return !energised[c.Coil]
	case harness.EngineIs:
		return slices.Contains(c.Engines, s.Engine)
	}
	return true
}

func metal(h *harness.Harness, there func(*harness.Element) bool) *Metal {
	m := &Metal{of: forest.New(len(h.Terminals)), ends: map[int][]harness.TerminalID{}, firm: map[int]bool{}}
	post := posts(h)
	for _, w := range h.Wires {
		m.join(post, w.From, w.To)
	}
	for i := range h.Elements {
		if e := &h.Elements[i]; passes(e) && there(e) {
			m.join(post, e.A, e.B)
		}
	}
	for _, t := range Ends(h) {
		root := m.of.Root(int(t))
		m.ends[root] = append(m.ends[root], t)
	}
	for i := range h.Wires {
		m.touch(post, h.Wires[i].From, h.Wires[i].To)
	}
	for i := range h.Elements {
		if e := &h.Elements[i]; passes(e) && there(e) {
			m.touch(post, e.A, e.B)
		}
	}
	return m
}

// join unites two terminals, neither of which is a post.
func (m *Metal) join(post []bool, a, b harness.TerminalID) {
	if !post[a] && !post[b] {
		m.of.Join(int(a), int(b))
	}
}

// touch notes that a metal reaches a post.
func (m *Metal) touch(post []bool, a, b harness.TerminalID) {
	for _, x := range [2][2]harness.TerminalID{{a, b}, {b, a}} {
		if post[x[0]] {
			m.firm[m.of.Root(int(x[1]))] = true
		}
	}
}

// posts are the terminals at which a walk over metal ends: the bodywork, and both sides of sources.
func posts(h *harness.Harness) []bool {
	out := make([]bool, len(h.Terminals))
	out[harness.Chassis] = true
	for i := range h.Elements {
		if e := &h.Elements[i]; e.Kind == harness.EMF || e.Kind == harness.Charger {
			out[e.A], out[e.B] = true, true
		}
	}
	return out
}

// passes tells what passes current without taking any.
func passes(e *harness.Element) bool {
	switch e.Kind {
	case harness.Join, harness.Contact, harness.FuseLink, harness.Resistance, harness.Rectifier:
		return true
	}
	return false
}

// Near lists the unknown ends on the metal of a terminal.
func (m *Metal) Near(t harness.TerminalID) []harness.TerminalID { return m.ends[m.of.Root(int(t))] }

// Unsure tells a terminal of which nobody can say what a meter shows there: unknown ends
// are on its metal, and no source and no ground is.
func (m *Metal) Unsure(t harness.TerminalID) bool {
	root := m.of.Root(int(t))
	return len(m.ends[root]) > 0 && !m.firm[root]
}

// Same tells whether two terminals are on one metal.
func (m *Metal) Same(a, b harness.TerminalID) bool { return m.of.Root(int(a)) == m.of.Root(int(b)) }

// Leads tells a wire that ends on an unknown end.
func Leads(h *harness.Harness, w harness.WireID) bool {
	return End(h, h.Wires[w].From) || End(h, h.Wires[w].To)
}

// Behind tells wires one of which ends on an unknown end.
func Behind(h *harness.Harness, wires []harness.WireID) bool {
	return slices.ContainsFunc(wires, func(w harness.WireID) bool { return Leads(h, w) })
}

// Open tells a terminal with an unknown end on its metal.
func (m *Metal) Open(t harness.TerminalID) bool { return len(m.Near(t)) > 0 }

// Commanded tells a load that is switched by what nobody knows: an unknown end is on the
// metal of a coil whose contact feeds or grounds it.
func (m *Metal) Commanded(h *harness.Harness, load harness.ElementID) bool {
	e := &h.Elements[load]
	for i := range h.Elements {
		c := &h.Elements[i]
		if k := c.When.Kind; k != harness.Energised && k != harness.Released || !passes(c) {
			continue
		}
		coil := &h.Elements[c.When.Coil]
		if (m.Same(c.A, e.A) || m.Same(c.A, e.B)) && (m.Open(coil.A) || m.Open(coil.B)) {
			return true
		}
	}
	return false
}

// Reach is some terminals.
type Reach map[harness.TerminalID]bool

// Has tells whether a terminal is among them.
func (r Reach) Has(t harness.TerminalID) bool { return r[t] }

// Beyond is what wires and closed contacts join to some terminals, up to fuses, loads, posts
// and the bodywork.
func Beyond(h *harness.Harness, from []harness.TerminalID) Reach {
	post, seen := posts(h), Reach{}
	near := make([][]harness.TerminalID, len(h.Terminals))
	join := func(a, b harness.TerminalID) {
		if !post[a] && !post[b] {
			near[a], near[b] = append(near[a], b), append(near[b], a)
		}
	}
	for _, w := range h.Wires {
		join(w.From, w.To)
	}
	for i := range h.Elements {
		if e := &h.Elements[i]; passes(e) && e.Kind != harness.FuseLink {
			join(e.A, e.B)
		}
	}
	for due := slices.Clone(from); len(due) > 0; due = due[1:] {
		if !seen[due[0]] {
			seen[due[0]] = true
			due = append(due, near[due[0]]...)
		}
	}
	return seen
}
