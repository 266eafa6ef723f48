package flow

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
)

// Carries is a current, in amperes, that makes a branch: less is taken as none.
const carries = 1e-3

// Series gives for every wire the number of its group: wires that follow each
// other with no branch between, parted only by fuses, contacts, connectors and
// the load itself.
// A branch is a vertex with more than two neighbours that carry current in any
// of the states, or that lie on a load's own way; a ground point or a bus is one however few wires end there, for
// what bolts on next belongs to somebody else; and so is a fuse where parts says so: a
// branch need not be as heavy as its feeder. Groups are numbered by their first wire.
func (n *Net) Series(states []network.State, owns []Own, parts func(fuse harness.ElementID) bool) []int {
	hot, posts := n.hot(states), n.posts()
	n.ownsToo(hot, owns)
	groups := forest.New(len(n.edges))
	for v := range n.at {
		if v == n.chassis || posts[v] {
			continue
		}
		if a, b, ok := n.onlyTwo(v, hot, parts); ok {
			groups.Join(a, b)
		}
	}
	out := make([]int, len(n.h.Wires))
	number := map[int]int{}
	byWire := make([]int, len(n.h.Wires))
	for i, e := range n.edges {
		if e.wire != harness.None {
			byWire[e.wire] = groups.Root(i)
		}
	}
	for w := range out {
		g, ok := number[byWire[w]]
		if !ok {
			g = len(number)
			number[byWire[w]] = g
		}
		out[w] = g
	}
	return out
}

// posts marks the vertices of ground points and buses, and of the studs of batteries and
// machines.
func (n *Net) posts() []bool {
	out := make([]bool, n.vertices)
	for i := range n.h.Parts {
		p := &n.h.Parts[i]
		switch p.Kind {
		case harness.Ground, harness.Bus, harness.Battery, harness.Alternator, harness.Starter, harness.Dynamo, harness.ControlBox, harness.Shunt:
		default:
			continue
		}
		for _, t := range p.Terminals {
			out[n.vertex[t]] = true
		}
	}
	return out
}

// hot tells for each edge whether it carries current in any state.
func (n *Net) hot(states []network.State) []bool {
	hot := make([]bool, len(n.edges))
	for i, e := range n.edges {
		for s := range states {
			a := 0.0
			if e.wire != harness.None {
				a = states[s].WireAmps[e.wire]
			} else {
				a = states[s].Amps[e.element]
			}
			if !math.IsNaN(a) && math.Abs(a) > carries {
				hot[i] = true
			}
		}
	}
	return hot
}

// ownsToo marks the edges on the ways that are meant for loads and coils, so that what is in
// series does not hang on which of them a state shows.
func (n *Net) ownsToo(hot []bool, owns []Own) {
	wires, elements := make([]bool, len(n.h.Wires)), make([]bool, len(n.h.Elements))
	for i := range owns {
		for _, w := range owns[i].All.Wires {
			wires[w] = true
		}
		for _, e := range owns[i].All.Elements {
			elements[e] = true
		}
	}
	for i, e := range n.edges {
		hot[i] = hot[i] || e.wire != harness.None && wires[e.wire] || e.wire == harness.None && elements[e.element]
	}
}

// onlyTwo gives the two edges at a vertex that carry current and pass it on in
// series; false at a branch or a source.
func (n *Net) onlyTwo(v int, hot []bool, parts func(harness.ElementID) bool) (a, b int, ok bool) {
	var found []int
	for _, i := range n.at[v] {
		if hot[i] {
			found = append(found, i)
		}
	}
	if len(found) != 2 || !n.inSeries(found[0], parts) || !n.inSeries(found[1], parts) {
		return 0, 0, false
	}
	return found[0], found[1], true
}

// Parts tells a fuse before which other fuses guard the wires than behind it: that of a
// branch. One of a panel always is; one on an unfused lead from the source is not.
func (n *Net) Parts(g *Guards) func(fuse harness.ElementID) bool {
	parts := make([]bool, len(n.h.Elements))
	for i := range n.h.Elements {
		if e := &n.h.Elements[i]; e.Kind == harness.FuseLink {
			parts[i] = n.h.Parts[e.Part].Panel != nil || n.branches(g, e)
		}
	}
	return func(fuse harness.ElementID) bool { return parts[fuse] }
}

func (n *Net) branches(g *Guards, e *harness.Element) bool {
	var sides [2][]harness.ElementID
	for side, v := range [2]int{n.vertex[e.A], n.vertex[e.B]} {
		for _, i := range n.at[v] {
			if w := n.edges[i].wire; w != harness.None {
				if slices.Contains(g.Legs[e.ID], w) {
					return false
				}
				sides[side] = append(sides[side], g.Of[w]...)
			}
		}
	}
	only := func(a, b []harness.ElementID) bool {
		return slices.ContainsFunc(a, func(f harness.ElementID) bool { return f != e.ID && !slices.Contains(b, f) })
	}
	return only(sides[0], sides[1]) || only(sides[1], sides[0])
}

// inSeries tells a wire, a fuse, a contact or a load: a load's return carries
// what its feed carries.
func (n *Net) inSeries(i int, parts func(harness.ElementID) bool) bool {
	e := n.edges[i]
	if e.wire != harness.None {
		return true
	}
	switch n.h.Elements[e.element].Kind {
	case harness.FuseLink:
		return !parts(e.element)
	case harness.Contact, harness.Load, harness.RelayCoil:
		return !n.beside[e.element]
	}
	return false
}
