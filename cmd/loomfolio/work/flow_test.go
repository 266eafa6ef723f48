package work

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/harness"
)

// endless stands for what no fuse limits, in amperes.
const endless = 1e6

// positions are the states of the description, and each switch alone in each position
// beside the state with most switched on.
func (g *web) positions() []*harness.State {
	var out []*harness.State
	for i := range g.h.States {
		out = append(out, &g.h.States[i])
	}
	return out
}

// flow is the most that the sources can give to a joint continuously, without one wire:
// the largest flow through the fuses that stand between (Ford and Fulkerson).
func (g *web) flow(without harness.WireID, from []pole, to int, st *harness.State) float64 {
	n := newFlow(g, without, st)
	for _, p := range from {
		if p.running && st.Engine != harness.EngineRunning {
			continue
		}
		n.source(p.live, min(p.most, endless))
	}
	return n.most(to)
}

// onward is the most that passes the fuses behind a joint, without one wire, to
// anything that could take it: loads and the other poles.
func (g *web) onward(without harness.WireID, from int, st *harness.State) float64 {
	n := newFlow(g, without, st)
	for _, l := range g.loads {
		n.source(l.a, endless)
		n.source(l.b, endless)
	}
	for _, p := range g.poles {
		n.source(p.live, endless)
	}
	return n.most(from)
}

// flowing is a network of capacities between joints; -1 is where all sources begin.
type flowing struct {
	edges []edge
	from  map[int][]int
}

type edge struct {
	a, b int
	left float64
}

func newFlow(g *web, without harness.WireID, st *harness.State) *flowing {
	n := &flowing{from: map[int][]int{}}
	for _, w := range g.ways {
		if w.wire != harness.None && w.wire == without || !g.closed(w.when, st) {
			continue
		}
		room := float64(endless)
		if w.fuse > 0 {
			room = min(w.fuse, endless)
		}
		n.add(w.a, w.b, room, room)
	}
	return n
}

func (n *flowing) add(a, b int, there, back float64) {
	n.from[a] = append(n.from[a], len(n.edges))
	n.edges = append(n.edges, edge{a, b, there})
	n.from[b] = append(n.from[b], len(n.edges))
	n.edges = append(n.edges, edge{b, a, back})
}

func (n *flowing) source(at int, amps float64) { n.add(-1, at, amps, 0) }

// most is the flow from the sources to a joint; infinite where no fuse limits it.
func (n *flowing) most(to int) float64 {
	sum := 0.
	for {
		path := n.shortest(to)
		if path == nil {
			break
		}
		room := math.Inf(1)
		for _, e := range path {
			room = min(room, n.edges[e].left)
		}
		for _, e := range path {
			n.edges[e].left -= room
			n.edges[e^1].left += room
		}
		if sum += room; sum > endless/2 {
			return math.Inf(1)
		}
	}
	return sum
}

func (n *flowing) shortest(to int) []int {
	by := map[int]int{-1: -1}
	for todo := []int{-1}; len(todo) > 0; todo = todo[1:] {
		if todo[0] == to {
			return n.trace(to, by)
		}
		for _, e := range n.from[todo[0]] {
			next := n.edges[e].b
			if _, seen := by[next]; !seen && n.edges[e].left > 1e-9 {
				by[next] = e
				todo = append(todo, next)
			}
		}
	}
	return nil
}

func (n *flowing) trace(to int, by map[int]int) []int {
	var out []int
	for at := to; at != -1; at = n.edges[by[at]].a {
		out = append(out, by[at])
	}
	slices.Reverse(out)
	return out
}
