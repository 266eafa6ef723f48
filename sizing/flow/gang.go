package flow

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
)

// Gang is what can flow into a wire from one of its sides where several fuses feed
// there at once.
type Gang struct {
	Fuses []harness.ElementID // those that let something in, in the order of their IDs, then the machines that give there unfused
	Amps  float64             // what all of them let in, from sources that are not behind the wire
}

// Gangs gives them by WireID, for the ratings of fuses in A: the largest sums over
// the states and over the metal that no switch parts. A ring by which a metal would
// feed itself counts for nothing (the sum is a maximum flow from the sources through
// the fuses, each no more than its rating; Edmonds and Karp, J. ACM 19 (1972) 248). A
// metal on which a battery hangs unfused has no sum.
func (n *Net) Gangs(states []network.State, rating func(harness.ElementID) float64) [][]Gang {
	out := make([][]Gang, len(n.h.Wires))
	seen := map[string]bool{}
	for i := -1; i < len(states); i++ {
		var st *network.State
		if i >= 0 {
			st = &states[i]
		}
		g := n.ganging(st, rating)
		if key := g.key(); seen[key] {
			continue
		} else {
			seen[key] = true
		}
		g.all(out)
	}
	return out
}

// ganging is the harness in one position of its switches, as metals that fuses join.
type ganging struct {
	n      *Net
	rating func(harness.ElementID) float64
	region forest.Forest
	closed []bool // by ElementID
	fuses  []harness.ElementID
	on     map[int][]side
}

// ganging reads a state; nil for what holds whatever the switches do.
func (n *Net) ganging(st *network.State, rating func(harness.ElementID) float64) *ganging {
	g := &ganging{n: n, rating: rating, region: forest.New(n.vertices), closed: make([]bool, len(n.h.Elements)), on: map[int][]side{}}
	for i := range n.h.Elements {
		e := &n.h.Elements[i]
		always := st == nil && n.conducts(e.ID) && e.When.Kind == harness.Always && e.Kind != harness.Rectifier && !n.isResistor(e)
		g.closed[i] = always || st != nil && n.joins(e.ID, st)
	}
	for _, e := range n.edges {
		if e.from != n.chassis && e.to != n.chassis && (e.wire != harness.None || g.closed[e.element]) {
			g.region.Join(e.from, e.to)
		}
	}
	for i := range n.h.Elements {
		if e := &n.h.Elements[i]; e.Kind == harness.FuseLink {
			g.fuses = append(g.fuses, e.ID)
			for end, t := range []harness.TerminalID{e.A, e.B} {
				metal := g.region.Root(n.vertex[t])
				g.on[metal] = append(g.on[metal], side{e.ID, end})
			}
		}
	}
	return g
}

// key tells positions apart that join the same.
func (g *ganging) key() string {
	key := make([]byte, len(g.closed))
	for i, c := range g.closed {
		if c {
			key[i] = 1
		}
	}
	return string(key)
}

// all adds the gangs of every wire.
func (g *ganging) all(out [][]Gang) {
	fed := map[int]bool{}
	for _, metal := range g.fedFromSeveral() {
		fed[metal] = g.several(metal)
	}
	for i := range g.n.h.Wires {
		w := &g.n.h.Wires[i]
		v := g.n.vertex[w.From]
		if v == g.n.chassis {
			v = g.n.vertex[w.To]
		}
		if !fed[g.region.Root(v)] {
			continue
		}
		ends := [2]int{g.n.vertex[w.From], g.n.vertex[w.To]}
		for side, v := range ends {
			if v == g.n.chassis {
				continue
			}
			gang := g.into(v, w.ID)
			if g.n.onOutput(ends[1-side]) { // a machine's own cable is held to the fuses alone, as its size is
				g.withoutMachines(&gang)
			}
			g.add(&out[i], gang)
		}
	}
}

// withoutMachines leaves the fuses of a gang.
func (g *ganging) withoutMachines(gang *Gang) {
	for _, id := range gang.Fuses {
		if e := &g.n.h.Elements[id]; e.Regulates() {
			gang.Amps -= overOutput * float64(e.Amps)
		}
	}
	gang.Fuses = slices.DeleteFunc(gang.Fuses, func(id harness.ElementID) bool { return g.n.h.Elements[id].Regulates() })
}

func (g *ganging) add(list *[]Gang, gang Gang) {
	if len(gang.Fuses) > 1 {
		*list = append(*list, gang)
	}
}

// several tells a metal into which more than one fuse lets something, and on which no
// battery hangs.
func (g *ganging) several(metal int) bool {
	for i := range g.n.h.Elements {
		if e := &g.n.h.Elements[i]; e.Kind == harness.EMF && g.region.Root(g.n.output(e)) == metal {
			return false
		}
	}
	return len(g.flow(func(v int) bool { return g.region.Root(v) == metal }).Fuses) > 1
}

// fedFromSeveral lists the metals that sources reach over more than one fuse without
// passing the metal itself: by a walk in depth from all sources, where a metal reached
// later leads back to one reached sooner (Tarjan, SIAM J. Comput. 1 (1972) 146).
func (g *ganging) fedFromSeveral() []int {
	d := &depth{g: g, order: map[int]int{}, low: map[int]int{}, fed: map[int]int{}}
	var lives []int
	for i := range g.n.h.Elements {
		if e := &g.n.h.Elements[i]; isSource(e) {
			lives = append(lives, g.region.Root(g.n.output(e)))
		}
	}
	for _, metal := range lives {
		if _, old := d.order[metal]; old {
			continue
		}
		d.visit(metal, harness.None, lives)
	}
	for i := range g.n.h.Elements {
		if e := &g.n.h.Elements[i]; e.Regulates() {
			d.fed[g.region.Root(g.n.output(e))]++
		}
	}
	var out []int
	for metal, fuses := range d.fed {
		if fuses > 1 {
			out = append(out, metal)
		}
	}
	slices.Sort(out)
	return out
}

// depth is a walk in depth over metals. All sources are one place, of order 0.
type depth struct {
	g     *ganging
	order map[int]int // by metal: when it was reached, from 1 on
	low   map[int]int // by metal: the earliest that it or what was reached from it leads back to
	fed   map[int]int // by metal: the fuses over which sources are reached without it
}

func (d *depth) visit(metal int, by harness.ElementID, lives []int) {
	d.order[metal] = len(d.order) + 1
	d.low[metal] = d.order[metal]
	if slices.Contains(lives, metal) {
		d.low[metal] = 0
	}
	if by != harness.None {
		d.fed[metal]++
	}
	for _, x := range d.g.on[metal] {
		e := &d.g.n.h.Elements[x.fuse]
		ends := [2]int{d.g.region.Root(d.g.n.vertex[e.A]), d.g.region.Root(d.g.n.vertex[e.B])}
		other := ends[1-x.end]
		if x.fuse == by || other == metal {
			continue
		}
		if at, old := d.order[other]; old {
			if at < d.order[metal] {
				d.fed[metal]++
			}
			d.low[metal] = min(d.low[metal], at)
			continue
		}
		d.visit(other, x.fuse, lives)
		if d.low[other] < d.order[metal] {
			d.fed[metal]++
		}
		d.low[metal] = min(d.low[metal], d.low[other])
	}
}

// into gives what flows into a wire at one of its ends: into the metal that is joined
// to that end without the wire.
func (g *ganging) into(v int, but harness.WireID) Gang {
	here := map[int]bool{}
	g.n.walk(v, func(e edge) bool {
		if e.wire != harness.None {
			return e.wire != but
		}
		return g.closed[e.element]
	}, func(v int) bool {
		here[v] = true
		return true
	})
	return g.flow(func(v int) bool { return here[v] })
}

// flow gives the maximum flow from all sources into some vertices.
func (g *ganging) flow(sink func(v int) bool) Gang {
	f := &maxFlow{g: g, sink: sink, used: map[harness.ElementID]float64{}, given: map[harness.ElementID]float64{}}
	for f.augment() {
	}
	gang := Gang{}
	for _, id := range g.fuses {
		e := &g.n.h.Elements[id]
		a, b := sink(g.n.vertex[e.A]), sink(g.n.vertex[e.B])
		in := 0.0
		switch {
		case b && !a:
			in = f.used[id]
		case a && !b:
			in = -f.used[id]
		}
		if in > Least {
			gang.Fuses = append(gang.Fuses, id)
			gang.Amps += in
		}
	}
	for i := range g.n.h.Elements {
		if e := &g.n.h.Elements[i]; e.Regulates() && sink(g.n.output(e)) {
			gang.Fuses = append(gang.Fuses, e.ID)
			gang.Amps += overOutput * float64(e.Amps)
		}
	}
	return gang
}

// maxFlow is a flow through the fuses that is being enlarged.
type maxFlow struct {
	g     *ganging
	sink  func(v int) bool
	used  map[harness.ElementID]float64 // A from A to B of each fuse
	given map[harness.ElementID]float64 // A that each alternator gives
}

// node is where a vertex belongs: to the sink, or to its metal (the rest of the sink's
// metal is one of its own).
func (f *maxFlow) node(v int) int {
	if f.sink(v) {
		return -1
	}
	return f.g.region.Root(v)
}

// hop is how a node was reached: over a fuse, or from a source.
type hop struct {
	back int
	over harness.ElementID
	sign float64 // of the fuse's current
	room float64
}

// augment finds the shortest way with room from a source to the sink and fills it.
func (f *maxFlow) augment() bool {
	hops := map[int]hop{}
	var queue []int
	for i := range f.g.n.h.Elements {
		e := &f.g.n.h.Elements[i]
		room := math.Inf(1)
		switch e.Kind {
		case harness.EMF:
		case harness.Charger, harness.Converter:
			room = overOutput*float64(e.Amps) - f.given[e.ID]
		default:
			continue
		}
		node := f.node(f.g.n.output(e))
		if _, old := hops[node]; node != -1 && !old && room > Least {
			hops[node] = hop{-2, e.ID, 0, room}
			queue = append(queue, node)
		}
	}
	for ; len(queue) > 0; queue = queue[1:] {
		for _, x := range f.g.on[queue[0]] {
			next, h, ok := f.over(x.fuse, queue[0])
			if _, old := hops[next]; !ok || old {
				continue
			}
			hops[next] = h
			if next == -1 {
				f.fill(hops)
				return true
			}
			queue = append(queue, next)
		}
	}
	return false
}

// over goes over a fuse from a node, as far as it has room.
func (f *maxFlow) over(id harness.ElementID, from int) (int, hop, bool) {
	e := &f.g.n.h.Elements[id]
	a, b := f.node(f.g.n.vertex[e.A]), f.node(f.g.n.vertex[e.B])
	sign, next := 1.0, b
	switch from {
	case a:
	case b:
		sign, next = -1, a
	default:
		return 0, hop{}, false
	}
	room := f.g.rating(id) - sign*f.used[id]
	return next, hop{from, id, sign, room}, next != from && room > Least
}

// fill enlarges the flow along the way that was found.
func (f *maxFlow) fill(hops map[int]hop) {
	room := math.Inf(1)
	for at := -1; at != -2; at = hops[at].back {
		room = math.Min(room, hops[at].room)
	}
	for at := -1; at != -2; at = hops[at].back {
		h := hops[at]
		if f.g.n.h.Elements[h.over].Kind == harness.FuseLink {
			f.used[h.over] += h.sign * room
		} else {
			f.given[h.over] += room
		}
	}
}

// Best gives the gang of a wire that lets most in with a fuse among it, false where
// there is none.
func Best(gangs []Gang, fuse harness.ElementID) (best Gang, ok bool) {
	for _, g := range gangs {
		if slices.Contains(g.Fuses, fuse) && g.Amps > best.Amps {
			best, ok = g, true
		}
	}
	return best, ok
}
