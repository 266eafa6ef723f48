package work

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/polarity"
)

// web is a harness as joints (terminals that metal joins) and ways between them, for
// the independent bound: wires, contacts, fuses and diodes; loads lie between two joints.
type web struct {
	h        *harness.Harness
	joint    []int // by TerminalID
	ways     []way
	from     map[int][]int // joint: indices into ways
	loads    []drain
	poles    []pole
	sources  []pole
	cranking map[harness.WireID]bool
	work     *Work
	on       map[*harness.State]map[harness.ElementID]bool // coils that are fed, as far as asked
}

type way struct {
	a, b int
	wire harness.WireID
	fuse float64 // 110 % of its rating; 0 where it is none
	when harness.Condition
}

type drain struct {
	name   string
	a, b   int
	amps   float64
	cranks bool
	coil   harness.ElementID
}

// pole is a source between its live joint and its other one.
type pole struct {
	name       string
	live, dead int
	most       float64 // A; a battery has no limit
	running    bool    // gives current only with the engine running
}

// route is one way from a load to a source: its wires, and what must stand how.
type track struct {
	wires []harness.WireID
	set   map[harness.PartID][]int // positions of switches
	coils map[harness.ElementID]bool
}

func newWeb(w *Work) *web {
	h, _ := polarity.Mend(w.Harness) // what stands the wrong way round is reckoned with as it is meant
	g := &web{h: h, work: w, joint: make([]int, len(h.Terminals)), from: map[int][]int{}, cranking: map[harness.WireID]bool{}, on: map[*harness.State]map[harness.ElementID]bool{}}
	for i := range g.joint {
		g.joint[i] = i
	}
	for i := range h.Elements {
		if e := &h.Elements[i]; e.Kind == harness.Join {
			g.unite(e.A, e.B)
		}
	}
	for i := range h.Wires {
		g.way(way{g.node(h.Wires[i].From), g.node(h.Wires[i].To), harness.WireID(i), 0, harness.Condition{}})
	}
	for i := range h.Elements {
		g.element(&h.Elements[i])
	}
	g.crank()
	return g
}

func (g *web) unite(a, b harness.TerminalID) {
	from, to := g.joint[a], g.joint[b]
	for i := range g.joint {
		if g.joint[i] == from {
			g.joint[i] = to
		}
	}
}

func (g *web) node(t harness.TerminalID) int { return g.joint[t] }

func (g *web) way(w way) {
	if w.a == w.b {
		return
	}
	g.from[w.a] = append(g.from[w.a], len(g.ways))
	g.from[w.b] = append(g.from[w.b], len(g.ways))
	g.ways = append(g.ways, w)
}

// element adds what one electrical thing is to current. A resistance below 0.1 ohm is a joint.
func (g *web) element(e *harness.Element) {
	a, b := g.node(e.A), g.node(e.B)
	none := harness.WireID(harness.None)
	switch e.Kind {
	case harness.Contact:
		if e.When.Kind != harness.EngineIs {
			g.way(way{a, b, none, 0, e.When})
		}
	case harness.Rectifier:
		if p := &g.h.Parts[e.Part]; p.Kind == harness.Diode {
			g.way(way{a, b, none, 0, harness.Condition{}})
		}
	case harness.FuseLink:
		g.way(way{a, b, none, 1.1 * g.rating(e), harness.Condition{}})
	case harness.Resistance:
		if e.Ohms < 0.1 {
			g.way(way{a, b, none, 0, harness.Condition{}})
		}
	case harness.Load:
		g.loads = append(g.loads, drain{e.Name, a, b, float64(e.Amps), g.h.Parts[e.Part].Kind == harness.Starter, harness.None})
	case harness.RelayCoil:
		g.loads = append(g.loads, drain{e.Name, a, b, float64(g.h.System.Volts) / float64(e.Ohms), false, e.ID})
	case harness.EMF:
		g.source(pole{e.Name, a, b, math.Inf(1), false})
	case harness.Charger:
		g.source(pole{e.Name, a, b, float64(e.Amps), g.h.Parts[e.Part].Kind == harness.Alternator})
	}
}

// source adds a battery or charger with its live pole first.
func (g *web) source(p pole) {
	if g.h.System.PositiveEarth {
		p.live, p.dead = p.dead, p.live
	}
	g.poles, g.sources = append(g.poles, p), append(g.sources, p)
}

func (g *web) rating(e *harness.Element) float64 {
	for _, f := range g.work.Result.Fuses {
		if f.Element == e.ID {
			return float64(f.Rating)
		}
	}
	return math.Inf(1)
}

// crank marks the wires between batteries and starter.
func (g *web) crank() {
	for _, l := range g.loads {
		for _, p := range g.poles {
			if !l.cranks || !math.IsInf(p.most, 1) {
				continue
			}
			for _, from := range []int{l.a, l.b} {
				for _, t := range append(g.tracks(from, p.live, nil), g.tracks(from, p.dead, nil)...) {
					for _, w := range t.wires {
						g.cranking[w] = true
					}
				}
			}
		}
	}
}

// paths lists the ways from a load to the live and to the other pole of a battery.
func (g *web) paths(l drain) (feeds, returns []track) { return g.pathsIn(l, nil) }

// pathsIn lists those that stand in a state, all that can stand in some with nil.
func (g *web) pathsIn(l drain, st *harness.State) (feeds, returns []track) {
	for _, side := range []int{l.a, l.b} {
		for _, p := range g.poles {
			if !math.IsInf(p.most, 1) {
				continue
			}
			live, dead := g.tracks(side, p.live, st), g.tracks(side, p.dead, st)
			if len(live) > 0 && len(dead) > 0 {
				return nil, nil // a short: no load's path
			}
			feeds, returns = append(feeds, live...), append(returns, dead...)
		}
	}
	return feeds, returns
}

// tracks lists the simple ways between two joints, at most 24.
func (g *web) tracks(from, to int, st *harness.State) []track {
	var out []track
	near := g.reach(to, st)
	if !near[from] {
		return nil
	}
	seen := map[int]bool{}
	at := track{set: map[harness.PartID][]int{}, coils: map[harness.ElementID]bool{}}
	var walk func(n int)
	walk = func(n int) {
		if n == to {
			out = append(out, at.copied())
			return
		}
		seen[n] = true
		defer func() { seen[n] = false }()
		for _, i := range g.from[n] {
			w := g.ways[i]
			next := w.a + w.b - n
			if seen[next] || len(out) > 24 {
				continue
			}
			undo, ok := at.pass(w)
			if ok && (st == nil || g.closed(w.when, st)) {
				if w.wire != harness.None {
					at.wires = append(at.wires, w.wire)
				}
				walk(next)
				if w.wire != harness.None {
					at.wires = at.wires[:len(at.wires)-1]
				}
			}
			undo()
		}
	}
	walk(from)
	return out
}

func (t *track) copied() track {
	c := track{wires: slices.Clone(t.wires), set: map[harness.PartID][]int{}, coils: map[harness.ElementID]bool{}}
	for k, v := range t.set {
		c.set[k] = v
	}
	for k, v := range t.coils {
		c.coils[k] = v
	}
	return c
}

// pass notes what a way asks for; not ok where that contradicts what was passed before.
func (t *track) pass(w way) (undo func(), ok bool) {
	switch w.when.Kind {
	case harness.InPosition:
		was, had := t.set[w.when.Switch]
		now := w.when.Positions
		if had {
			now = common(was, now)
		}
		t.set[w.when.Switch] = now
		return func() { restore(t.set, w.when.Switch, was, had) }, len(now) > 0
	case harness.Energised, harness.Released:
		on := w.when.Kind == harness.Energised
		was, had := t.coils[w.when.Coil]
		t.coils[w.when.Coil] = on
		return func() { restore(t.coils, w.when.Coil, was, had) }, !had || was == on
	}
	return func() {}, true
}

func restore[K comparable, V any](m map[K]V, k K, was V, had bool) {
	if had {
		m[k] = was
	} else {
		delete(m, k)
	}
}

func common(a, b []int) []int {
	var out []int
	for _, x := range a {
		if slices.Contains(b, x) {
			out = append(out, x)
		}
	}
	return out
}

// agree tells whether two tracks can stand at once.
func (t *track) agree(o *track) bool {
	for p, a := range t.set {
		if b, had := o.set[p]; had && len(common(a, b)) == 0 {
			return false
		}
	}
	for c, on := range t.coils {
		if other, had := o.coils[c]; had && other != on {
			return false
		}
	}
	return true
}

// indispensable gives the wires of a track without which no other that can stand at
// the same time would serve.
func indispensable(list []track) []harness.WireID {
	var out []harness.WireID
	for i := range list {
		for _, w := range list[i].wires {
			beside := slices.ContainsFunc(list, func(o track) bool { return !slices.Contains(o.wires, w) && list[i].agree(&o) })
			if !beside && !slices.Contains(out, w) {
				out = append(out, w)
			}
		}
	}
	return out
}

// always gives the wires that all tracks have.
func always(list []track) []harness.WireID {
	var out []harness.WireID
	for _, w := range list[0].wires {
		if !slices.ContainsFunc(list, func(o track) bool { return !slices.Contains(o.wires, w) }) {
			out = append(out, w)
		}
	}
	return out
}

// closed tells whether a condition holds in a state; a coil is on where it has both ways.
func (g *web) closed(c harness.Condition, st *harness.State) bool {
	switch c.Kind {
	case harness.InPosition:
		return slices.Contains(c.Positions, st.Position[c.Switch])
	case harness.Energised:
		return g.energised(c.Coil, st)
	case harness.Released:
		return !g.energised(c.Coil, st)
	}
	return true
}

// energised is answered once for each state; a coil that hangs on itself is off.
func (g *web) energised(coil harness.ElementID, st *harness.State) bool {
	known := g.on[st]
	if known == nil {
		known = map[harness.ElementID]bool{}
		g.on[st] = known
	}
	if on, asked := known[coil]; asked {
		return on
	}
	known[coil] = false
	for _, l := range g.loads {
		if l.coil == coil {
			known[coil] = g.fed(l, st)
		}
	}
	return known[coil]
}

// fed tells whether a coil has a way to both poles of a source in a state.
func (g *web) fed(l drain, st *harness.State) bool {
	a, b := g.reach(l.a, st), g.reach(l.b, st)
	return slices.ContainsFunc(g.poles, func(p pole) bool {
		return a[p.live] && b[p.dead] || a[p.dead] && b[p.live]
	})
}

func (g *web) reach(from int, st *harness.State) map[int]bool {
	seen, todo := map[int]bool{from: true}, []int{from}
	for len(todo) > 0 {
		n := todo[0]
		todo = todo[1:]
		for _, i := range g.from[n] {
			w := g.ways[i]
			next := w.a + w.b - n
			if !seen[next] && (st == nil || g.closed(w.when, st)) {
				seen[next] = true
				todo = append(todo, next)
			}
		}
	}
	return seen
}
