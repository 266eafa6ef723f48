package flow

import (
	"math"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
)

// Least is the current, in amperes, below which nothing is said to flow.
const Least = 1e-6

// Path is the way of a current in one state: the wires and elements that it
// passes, in the order of the current, and the source at its end.
type Path struct {
	Wires    []harness.WireID
	Elements []harness.ElementID
	Source   harness.ElementID // None when the way was lost
}

// Currents is one solved state, ready to be followed.
type Currents struct {
	h     *harness.Harness
	state *network.State
	edges []edge
	start []int   // by node of the state: the first of its edges in list; one more at the end
	list  []int32 // numbers of edges, node by node
}

// In prepares a state.
func In(h *harness.Harness, st *network.State) *Currents {
	c := &Currents{h: h, state: st, edges: make([]edge, 0, len(h.Wires)+len(h.Elements))}
	for i := range h.Wires {
		c.add(edge{wire: h.Wires[i].ID, element: harness.None}, h.Wires[i].From, h.Wires[i].To)
	}
	for i := range h.Elements {
		if e := &h.Elements[i]; e.Kind != harness.Join && e.Kind != harness.Open {
			c.add(edge{wire: harness.None, element: e.ID}, e.A, e.B)
		}
	}
	c.sort()
	return c
}

func (c *Currents) add(e edge, a, b harness.TerminalID) {
	e.from, e.to = c.state.Of[a], c.state.Of[b]
	if e.from != e.to && e.from >= 0 && e.to >= 0 {
		c.edges = append(c.edges, e)
	}
}

// sort lists the edges by node, those of one node in their order.
func (c *Currents) sort() {
	nodes := 0
	for _, node := range c.state.Of {
		nodes = max(nodes, node+1)
	}
	c.start, c.list = make([]int, nodes+1), make([]int32, 2*len(c.edges))
	for _, e := range c.edges {
		c.start[e.from+1]++
		c.start[e.to+1]++
	}
	for n := range nodes {
		c.start[n+1] += c.start[n]
	}
	next := append([]int(nil), c.start...)
	for i, e := range c.edges {
		for _, node := range [2]int{e.from, e.to} {
			c.list[next[node]] = int32(i)
			next[node]++
		}
	}
}

// at gives the numbers of the edges at a node.
func (c *Currents) at(node int) []int32 { return c.list[c.start[node]:c.start[node+1]] }

// amps gives an edge's current from its from-node to its to-node.
func (c *Currents) amps(e edge) float64 {
	a := 0.0
	if e.element != harness.None {
		a = c.state.Amps[e.element]
	} else {
		a = c.state.WireAmps[e.wire]
	}
	if math.IsNaN(a) {
		return 0
	}
	return a
}

// Through gives the current of an element, 0 where it has none.
func (c *Currents) Through(id harness.ElementID) float64 { return c.amps(edge{harness.None, id, 0, 0}) }

// Feed gives the way on the live side of an element that draws current, from
// the source to the element. With positive earth that is the minus side.
func (c *Currents) Feed(id harness.ElementID) Path {
	if c.h.System.PositiveEarth {
		return c.down(id).reversed()
	}
	return c.up(id).reversed()
}

// Return gives the way on the earth side, from the element back to the source.
func (c *Currents) Return(id harness.ElementID) Path {
	if c.h.System.PositiveEarth {
		return c.up(id)
	}
	return c.down(id)
}

// Charge gives the way of the current that a source gives: on its live side from where
// it goes to the source, and on the earth side from the source on.
func (c *Currents) Charge(id harness.ElementID) (feed, back Path) {
	e := &c.h.Elements[id]
	out, in := c.follow(e.A, id, 1), c.follow(e.B, id, -1)
	if c.h.System.PositiveEarth {
		out, in = in, out
	}
	return out.reversed(), in
}

// up walks against the current from the terminal where it comes in; down walks
// with it from the terminal where it goes out.
func (c *Currents) up(id harness.ElementID) Path {
	e := &c.h.Elements[id]
	if c.Through(id) < 0 {
		return c.follow(e.B, id, -1)
	}
	return c.follow(e.A, id, -1)
}

func (c *Currents) down(id harness.ElementID) Path {
	e := &c.h.Elements[id]
	if c.Through(id) < 0 {
		return c.follow(e.A, id, 1)
	}
	return c.follow(e.B, id, 1)
}

func (p Path) reversed() Path {
	reverse(p.Wires)
	reverse(p.Elements)
	return p
}

// follow walks from a terminal along the largest current, against it (sign -1)
// or with it (sign 1), until a source.
func (c *Currents) follow(from harness.TerminalID, skip harness.ElementID, sign float64) Path {
	p := Path{Source: harness.None}
	node := c.state.Of[from]
	seen := map[int]bool{}
	for node >= 0 && !seen[node] {
		seen[node] = true
		next, ok := c.largest(node, skip, sign)
		if !ok {
			return p
		}
		if next.wire != harness.None {
			p.Wires = append(p.Wires, next.wire)
		} else if isSource(&c.h.Elements[next.element]) {
			p.Source = next.element
			return p
		} else {
			p.Elements = append(p.Elements, next.element)
		}
		node = next.other(node)
	}
	return p
}

// largest gives the edge that brings (sign -1) or takes (sign 1) most current.
func (c *Currents) largest(node int, skip harness.ElementID, sign float64) (edge, bool) {
	best, most := edge{}, Least
	for _, i := range c.at(node) {
		e := c.edges[i]
		if e.wire == harness.None && e.element == skip {
			continue
		}
		away := c.amps(e) // out of the node
		if e.to == node {
			away = -away
		}
		if away*sign > most*(1+1e-9) {
			best, most = e, away*sign
		}
	}
	return best, most > Least
}

// Fuses gives the fuses and breakers among the elements of a path, in its order.
func (p Path) Fuses(h *harness.Harness) []harness.ElementID {
	var out []harness.ElementID
	for _, id := range p.Elements {
		if h.Elements[id].Kind == harness.FuseLink {
			out = append(out, id)
		}
	}
	return out
}

func reverse[T any](list []T) {
	for i, j := 0, len(list)-1; i < j; i, j = i+1, j-1 {
		list[i], list[j] = list[j], list[i]
	}
}
