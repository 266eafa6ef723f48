// Package flow follows currents through the harness. In: the model, and a
// solved state where a current is to be followed. Out: the way of a load's
// current from its source and back; wires in series without a branch; the
// fuses that guard each wire; what hangs on a source with no fuse between.
//
// Two readings are kept apart. A path follows the largest current in one solved
// state. A region is what metal joins whatever the switches do: every contact
// counts as closed, so that a guard holds in every position.
package flow

import (
	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
)

// edge is a wire, or an element when Wire is None.
type edge struct {
	wire    harness.WireID
	element harness.ElementID
	from    int // vertex at the wire's From, the element's A
	to      int // vertex at the wire's To, the element's B
}

func (e edge) other(v int) int {
	if e.from == v {
		return e.to
	}
	return e.from
}

// Net is the harness as vertices (terminals joined without resistance) and
// edges (wires and elements).
type Net struct {
	h        *harness.Harness
	vertex   []int // by TerminalID
	edges    []edge
	at       [][]int // edges by vertex
	chassis  int
	beside   map[harness.ElementID]bool // elements that lie across a coil, or inside an alternator
	vertices int
	outputs  []int         // by ElementID of a source: where it reaches what it feeds
	always   forest.Forest // by vertex, see Always; nil until it is asked for
	bonds    forest.Forest // by vertex, see Bonded; nil until it is asked for
	grounded map[int]int   // by vertex: the edge towards the chassis; nil until it is asked for
}

// NewNet joins the terminals and lists the edges: wires first, then elements.
func NewNet(h *harness.Harness) *Net {
	n := &Net{h: h, vertex: make([]int, len(h.Terminals))}
	n.join()
	for _, w := range h.Wires {
		n.add(edge{w.ID, harness.None, n.vertex[w.From], n.vertex[w.To]})
	}
	for _, e := range h.Elements {
		if e.Kind != harness.Join && e.Kind != harness.Open {
			n.add(edge{harness.None, e.ID, n.vertex[e.A], n.vertex[e.B]})
		}
	}
	n.chassis = n.vertex[harness.Chassis]
	n.findBeside()
	n.findOutputs()
	return n
}

func (n *Net) add(e edge) {
	if e.from == e.to {
		return
	}
	for len(n.at) <= max(e.from, e.to) {
		n.at = append(n.at, nil)
	}
	n.at[e.from] = append(n.at[e.from], len(n.edges))
	n.at[e.to] = append(n.at[e.to], len(n.edges))
	n.edges = append(n.edges, e)
}

// join gives every terminal its vertex; joined terminals share one.
func (n *Net) join() {
	root := forest.New(len(n.h.Terminals))
	for _, e := range n.h.Elements {
		if e.Kind == harness.Join && e.When.Kind == harness.Always {
			root.Join(int(e.A), int(e.B))
		}
	}
	number := map[int]int{}
	for t := range n.h.Terminals {
		r := root.Root(t)
		if _, ok := number[r]; !ok {
			number[r] = len(number)
		}
		n.vertex[t] = number[r]
	}
	n.vertices = len(number)
	n.at = make([][]int, n.vertices)
}

// findBeside marks what is no way for a feed: suppression across a coil, and
// the contacts that stand for an alternator's regulator.
func (n *Net) findBeside() {
	n.beside = map[harness.ElementID]bool{}
	coils := map[[2]int]bool{}
	for _, e := range n.h.Elements {
		if e.Kind == harness.RelayCoil {
			coils[pair(n.vertex[e.A], n.vertex[e.B])] = true
		}
	}
	for _, e := range n.h.Elements {
		across := e.Kind != harness.RelayCoil && coils[pair(n.vertex[e.A], n.vertex[e.B])]
		if across || e.Innards {
			n.beside[e.ID] = true
		}
	}
}

func pair(a, b int) [2]int { return [2]int{min(a, b), max(a, b)} }

// isSource tells a battery or an alternator.
func isSource(e *harness.Element) bool { return e.Gives() }

// live gives the vertex of a source that is not the earth side.
func (n *Net) live(e *harness.Element) int { return n.vertex[n.h.Live(e)] }

// dead gives the vertex of a source on the earth side.
func (n *Net) dead(e *harness.Element) int { return n.vertex[n.h.Earthed(e)] }

// conducts tells an element that passes a feed on: contacts, resistors, diodes
// and straps; not loads, coils, sources or what lies beside them.
func (n *Net) conducts(id harness.ElementID) bool {
	e := &n.h.Elements[id]
	switch e.Kind {
	case harness.Contact, harness.Resistance, harness.Rectifier:
		return !n.beside[id]
	}
	return false
}
