package sneak

import (
	"slices"

	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
)

// graph is the harness as vertices (terminals that are always one) and edges.
type graph struct {
	h      *harness.Harness
	vertex []int // by terminal
	edges  []edge
	at     [][]int // by vertex: the edges there
	both   []bool  // by wire: its writing says nothing
	beside []bool  // by element: it lies across a coil
	sign   bool    // the feed leads with the current: minus on earth

	queue []int
}

// marks are the vertices that the last walk into it reached.
type marks struct {
	by    []int // by vertex: the walk that reached it last
	walks int
}

func (m *marks) has(v int) bool { return m.by[v] == m.walks }

// edge is a wire, or an element where wire is None, from a vertex to another.
type edge struct {
	wire    harness.WireID
	element harness.ElementID
	a, b    int
}

func newGraph(h *harness.Harness, owner *flow.Owner) *graph {
	g := &graph{h: h, vertex: make([]int, len(h.Terminals)), both: make([]bool, len(h.Wires)), beside: make([]bool, len(h.Elements)), sign: !h.System.PositiveEarth}
	f := forest.New(len(h.Terminals))
	for _, e := range h.Elements {
		if e.Kind == harness.Join && e.When.Kind == harness.Always {
			f.Join(int(e.A), int(e.B))
		}
	}
	for t := range g.vertex {
		g.vertex[t] = f.Root(t)
	}
	g.at = make([][]int, len(h.Terminals))
	for _, w := range h.Wires {
		g.both[w.ID] = owner.EitherWay(w.ID)
		g.add(edge{w.ID, harness.None, g.vertex[w.From], g.vertex[w.To]})
	}
	for _, e := range h.Elements {
		if e.Kind != harness.Open {
			g.add(edge{harness.None, e.ID, g.vertex[e.A], g.vertex[e.B]})
		}
	}
	g.findBeside()
	return g
}

func (g *graph) add(e edge) {
	if e.a == e.b {
		return
	}
	g.at[e.a] = append(g.at[e.a], len(g.edges))
	g.at[e.b] = append(g.at[e.b], len(g.edges))
	g.edges = append(g.edges, e)
}

// findBeside marks what lies across a coil, as its suppression does.
func (g *graph) findBeside() {
	coils := map[[2]int]bool{}
	pair := func(e *harness.Element) [2]int {
		a, b := g.vertex[e.A], g.vertex[e.B]
		return [2]int{min(a, b), max(a, b)}
	}
	for i := range g.h.Elements {
		if e := &g.h.Elements[i]; e.Kind == harness.RelayCoil {
			coils[pair(e)] = true
		}
	}
	for i := range g.h.Elements {
		e := &g.h.Elements[i]
		g.beside[i] = e.Kind != harness.RelayCoil && e.Kind != harness.Load && coils[pair(e)]
	}
}

// other gives the other end of an edge.
func (e *edge) other(v int) int { return e.a + e.b - v }

// live gives the vertex of an element away from the earth side.
func (g *graph) live(e *harness.Element) int { return g.vertex[g.h.Live(e)] }

// dead gives its vertex on the earth side.
func (g *graph) dead(e *harness.Element) int { return g.vertex[g.h.Earthed(e)] }

// walk is how far a walk goes.
type walk struct {
	with    bool  // with the current, else against it
	any     bool  // wires lead either way
	loads   bool  // loads and coils let it pass, as the current goes
	through bool  // loads let it pass either way
	stop    []int // vertices that it does not leave
	shut    func(e *harness.Element) bool
}

// reach marks what is reached from some vertices.
func (g *graph) reach(m *marks, from []int, w walk) {
	if m.by == nil {
		m.by = make([]int, len(g.at))
	}
	m.walks++
	g.queue = append(g.queue[:0], from...)
	for k := 0; k < len(g.queue); k++ {
		v := g.queue[k]
		if m.has(v) {
			continue
		}
		m.by[v] = m.walks
		if slices.Contains(w.stop, v) {
			continue
		}
		for _, i := range g.at[v] {
			e := &g.edges[i]
			if next := e.other(v); !m.has(next) && g.passes(e, e.a == v, w) {
				g.queue = append(g.queue, next)
			}
		}
	}
}

// passes tells whether a walk may go over an edge from its a, or from its b.
func (g *graph) passes(e *edge, fromA bool, w walk) bool {
	along := fromA == w.with
	if e.wire != harness.None {
		return along || w.any || g.both[e.wire]
	}
	switch x := &g.h.Elements[e.element]; x.Kind {
	case harness.Join, harness.Contact, harness.FuseLink, harness.Resistance:
		return !g.beside[e.element] && w.shut(x)
	case harness.Rectifier:
		return along && !g.beside[e.element]
	case harness.Load, harness.RelayCoil:
		return w.loads && along || w.through && x.Kind == harness.Load
	}
	return false
}

// rails gives the vertices of the live sides, and of the earth sides with the chassis, of
// the sources that are there while the engine does something.
func (g *graph) rails(engine harness.Engine) (lives, deads []int) {
	for i := range g.h.Elements {
		e := &g.h.Elements[i]
		if e.Kind == harness.EMF || e.Regulates() && there(e, engine) {
			lives, deads = append(lives, g.live(e)), append(deads, g.dead(e))
		}
	}
	return lives, append(deads, g.vertex[harness.Chassis])
}

// there tells an element that the engine does not take away.
func there(e *harness.Element, engine harness.Engine) bool {
	if e.When.Kind != harness.EngineIs {
		return true
	}
	return slices.Contains(e.When.Engines, engine)
}
