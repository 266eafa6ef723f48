package flow

import "example.com/loomfolio/sizing/harness"

// Feeding says what can flow into a wire from either of its ends, with every contact closed.
type Feeding struct{ g *ganging }

// Feeding prepares it for the ratings of fuses, A.
func (n *Net) Feeding(rating func(harness.ElementID) float64) *Feeding {
	g := n.ganging(nil, rating)
	g.region, g.on = n.regions(), map[int][]side{}
	for _, id := range g.fuses {
		e := &n.h.Elements[id]
		for end, t := range []harness.TerminalID{e.A, e.B} {
			metal := g.region.Root(n.vertex[t])
			g.on[metal] = append(g.on[metal], side{id, end})
		}
	}
	return &Feeding{g}
}

// Most gives the larger of the sums that fuses and limited sources let into a wire at its
// two ends, A. A battery with no fuse between counts for nothing here.
func (f *Feeding) Most(w harness.WireID) float64 {
	most := 0.0
	for _, t := range []harness.TerminalID{f.g.n.h.Wires[w].From, f.g.n.h.Wires[w].To} {
		if v := f.g.n.vertex[t]; v != f.g.n.chassis {
			before := f.before(v, w)
			most = max(most, f.g.flow(func(v int) bool { return before[v] }).Amps)
		}
	}
	return most
}

// before marks what current can reach a vertex from, not through one wire and not against a diode.
func (f *Feeding) before(v int, but harness.WireID) map[int]bool {
	n, seen := f.g.n, map[int]bool{v: true}
	for queue := []int{v}; len(queue) > 0; queue = queue[1:] {
		for _, i := range n.at[queue[0]] {
			e := n.edges[i]
			next := e.other(queue[0])
			if next == n.chassis || seen[next] || e.wire == but || e.wire == harness.None && !f.passes(e, queue[0]) {
				continue
			}
			seen[next] = true
			queue = append(queue, next)
		}
	}
	return seen
}

// passes tells whether current comes to a vertex over an element.
func (f *Feeding) passes(e edge, to int) bool {
	if !f.g.n.conducts(e.element) {
		return false
	}
	return f.g.n.h.Elements[e.element].Kind != harness.Rectifier || (e.to == to) != f.g.n.h.System.PositiveEarth
}
