package flow

import (
	"sort"

	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
)

// TwiceFed is a piece of metal that two fuses feed from different sides.
type TwiceFed struct {
	Fuses     [2]harness.ElementID // the lower ID first
	Wires     []harness.WireID     // of the metal between them
	Batteries []harness.ElementID  // that both lead to; none: each has a battery of its own
}

// TwiceFed finds, in a solved state, the metal that is live as long as either of
// two fuses is in. Only closed contacts join metal, and no diode does. Fuses
// that come from one and the same metal lie side by side: see Parallel. What an
// alternator alone feeds does not count, nor does metal that a battery is part of.
func (n *Net) TwiceFed(st *network.State) []TwiceFed {
	m := n.metals(st)
	var out []TwiceFed
	for _, metal := range m.order {
		if m.batteries[metal] != nil || !m.between(metal) {
			continue
		}
		feeders := m.feeders(metal)
		for i := range feeders {
			for j := i + 1; j < len(feeders); j++ {
				if a, b := feeders[i], feeders[j]; a.from != b.from {
					out = append(out, TwiceFed{[2]harness.ElementID{a.fuse, b.fuse}, m.wires[metal], common(a.batteries, b.batteries)})
				}
			}
		}
	}
	return out
}

// metals is the harness in one state as pieces of metal that fuses join.
type metals struct {
	order     []int                       // the metals that fuses end on, in the order of the fuses
	batteries map[int][]harness.ElementID // with their live side on a metal
	wires     map[int][]harness.WireID
	joints    map[int][]joint // the fuses on a metal, in the order of their IDs
}

// joint is a fuse on a metal, and the metal on its other side.
type joint struct {
	fuse  harness.ElementID
	other int
}

func (n *Net) metals(st *network.State) *metals {
	region := n.regionsIn(st)
	m := &metals{batteries: map[int][]harness.ElementID{}, wires: map[int][]harness.WireID{}, joints: map[int][]joint{}}
	for i := range n.h.Elements {
		e := &n.h.Elements[i]
		switch e.Kind {
		case harness.EMF:
			live := region.Root(n.output(e))
			m.batteries[live] = append(m.batteries[live], e.ID)
		case harness.FuseLink:
			a, b := region.Root(n.vertex[e.A]), region.Root(n.vertex[e.B])
			m.join(e.ID, a, b)
			m.join(e.ID, b, a)
		}
	}
	for _, w := range n.h.Wires {
		if v := n.vertex[w.From]; v != n.chassis {
			m.wires[region.Root(v)] = append(m.wires[region.Root(v)], w.ID)
		}
	}
	return m
}

// join enters a fuse on a metal.
func (m *metals) join(fuse harness.ElementID, metal, other int) {
	if m.joints[metal] == nil {
		m.order = append(m.order, metal)
	}
	m.joints[metal] = append(m.joints[metal], joint{fuse, other})
}

// between tells that fuses lead from a metal to two others at least.
func (m *metals) between(metal int) bool {
	first := metal
	for _, j := range m.joints[metal] {
		if j.other != metal && first != metal && j.other != first {
			return true
		}
		if j.other != metal {
			first = j.other
		}
	}
	return false
}

// regionsIn joins what metal joins in a state, between fuses and loads.
func (n *Net) regionsIn(st *network.State) forest.Forest {
	f := forest.New(n.vertices)
	for _, e := range n.edges {
		if e.from == n.chassis || e.to == n.chassis {
			continue
		}
		if e.wire != harness.None || n.joins(e.element, st) {
			f.Join(e.from, e.to)
		}
	}
	return f
}

// joins tells a strap, or a contact that is closed in a state.
func (n *Net) joins(id harness.ElementID, st *network.State) bool {
	e := &n.h.Elements[id]
	if !n.conducts(id) || e.Kind == harness.Rectifier || n.isResistor(e) {
		return false
	}
	at := st.ElementAt[id]
	return at >= 0 && st.Elements[at].Kind != "open"
}

func (n *Net) isResistor(e *harness.Element) bool {
	return n.h.Resists(e)
}

// feeder is a fuse that leads to batteries from a metal.
type feeder struct {
	fuse      harness.ElementID
	from      int // the metal on its other side
	batteries []harness.ElementID
}

// feeders gives the fuses through which a metal is fed, in the order of their IDs.
func (m *metals) feeders(metal int) []feeder {
	var out []feeder
	for _, j := range m.joints[metal] {
		if j.other == metal {
			continue
		}
		if b := m.reached(j.other, metal); len(b) > 0 {
			out = append(out, feeder{j.fuse, j.other, b})
		}
	}
	return out
}

// reached gives the batteries that a metal leads to, itself with them, without
// passing another metal.
func (m *metals) reached(from, but int) []harness.ElementID {
	seen := map[int]bool{from: true, but: true}
	var out []harness.ElementID
	for queue := []int{from}; len(queue) > 0; queue = queue[1:] {
		if here := m.batteries[queue[0]]; here != nil {
			out = append(out, here...)
			continue // what lies behind a battery is fed by it
		}
		for _, j := range m.joints[queue[0]] {
			if !seen[j.other] {
				seen[j.other] = true
				queue = append(queue, j.other)
			}
		}
	}
	sort.Slice(out, func(i, j int) bool { return out[i] < out[j] })
	return out
}

func common(a, b []harness.ElementID) []harness.ElementID {
	var out []harness.ElementID
	for _, x := range a {
		for _, y := range b {
			if x == y {
				out = append(out, x)
			}
		}
	}
	return out
}

// Unlimited tells whether a battery feeds a fuse or breaker with nothing between
// that limits the current.
func (n *Net) Unlimited(fuse harness.ElementID, limits func(harness.ElementID) bool) bool {
	lives := map[int]bool{}
	for i := range n.h.Elements {
		if e := &n.h.Elements[i]; e.Kind == harness.EMF {
			lives[n.output(e)] = true
		}
	}
	found := false
	for _, from := range []int{n.vertex[n.h.Elements[fuse].A], n.vertex[n.h.Elements[fuse].B]} {
		n.walk(from, func(e edge) bool {
			if e.wire != harness.None {
				return true
			}
			passes := n.h.Elements[e.element].Kind == harness.FuseLink && !limits(e.element)
			return e.element != fuse && (passes || n.conducts(e.element))
		}, func(v int) bool {
			found = found || lives[v]
			return !found
		})
	}
	return found
}

// Branches gives for every fuse (by ElementID) the fuses that hang on what it
// feeds and lead to no source themselves: those of a panel, of its feeder.
func (n *Net) Branches() [][]harness.ElementID {
	out := make([][]harness.ElementID, len(n.h.Elements))
	region := n.regions()
	fed := map[int][]harness.ElementID{} // the branch fuses by the metal that feeds them
	far := map[harness.ElementID][]int{} // the metals that a fuse feeds
	for _, e := range n.h.Elements {
		if e.Kind != harness.FuseLink {
			continue
		}
		a, b := n.vertex[e.A], n.vertex[e.B]
		fromA, fromB := n.reaches(a, e.ID), n.reaches(b, e.ID)
		if fromA {
			far[e.ID] = append(far[e.ID], region.Root(b))
		}
		if fromB {
			far[e.ID] = append(far[e.ID], region.Root(a))
		}
		switch {
		case fromA && !fromB:
			fed[region.Root(a)] = append(fed[region.Root(a)], e.ID)
		case fromB && !fromA:
			fed[region.Root(b)] = append(fed[region.Root(b)], e.ID)
		}
	}
	for i := range out {
		for _, metal := range far[harness.ElementID(i)] {
			out[i] = append(out[i], fed[metal]...)
		}
	}
	return out
}
