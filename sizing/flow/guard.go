package flow

import (
	"slices"

	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
)

// Bare is a wire that a source feeds with no fuse between.
type Bare struct {
	Wire     harness.WireID
	Source   harness.ElementID
	Chain    []harness.WireID    // the wires from the source up to and with this one
	Through  []harness.ElementID // elements passed on the way
	Cranking bool                // on the way from a battery to a starter's motor
	Output   bool                // ends on an alternator's output, or lies between it and the fuse by which a battery feeds it
	Limited  bool                // no battery is among the sources: they limit themselves
}

// Guards says which fuses stand before each wire, and which wires have none.
type Guards struct {
	Of    [][]harness.ElementID // by WireID: the fuses and breakers that feed it, in order
	Wires [][]harness.WireID    // by ElementID: the wires that a fuse feeds up to the next fuse
	Bare  []Bare                // in the order of the wires
	Legs  [][]harness.WireID    // by ElementID: the unfused wires between a source and this fuse
}

// Guards finds them.
func (n *Net) Guards() Guards {
	g := Guards{
		Of:    make([][]harness.ElementID, len(n.h.Wires)),
		Wires: make([][]harness.WireID, len(n.h.Elements)),
		Legs:  make([][]harness.WireID, len(n.h.Elements)),
	}
	region := n.regions()
	for _, e := range n.h.Elements {
		if e.Kind == harness.FuseLink {
			n.guard(&g, e, region)
		}
	}
	n.bare(&g)
	for i := range g.Bare {
		if b := &g.Bare[i]; !b.Output && n.h.Elements[b.Source].Regulates() {
			b.Output = n.charges(&g, b, region)
		}
	}
	return g
}

// charges tells a wire of an unbranched way between an alternator and a fuse behind which,
// elsewhere, a battery lies: at a short in it each end brings only what comes from there.
func (n *Net) charges(g *Guards, b *Bare, region forest.Forest) bool {
	here := region.Root(n.vertex[n.h.Wires[b.Wire].From])
	return slices.ContainsFunc(g.Of[b.Wire], func(fuse harness.ElementID) bool {
		far := n.vertex[n.h.Elements[fuse].A]
		if region.Root(far) == here {
			far = n.vertex[n.h.Elements[fuse].B]
		}
		return slices.Contains(g.Legs[fuse], b.Wire) && n.unbranched(b.Chain) && n.batteryBehind(far, here, region)
	})
}

// unbranched tells that no third wire ends between the wires of a chain.
func (n *Net) unbranched(chain []harness.WireID) bool {
	ends := map[int]int{}
	for _, w := range chain {
		ends[n.vertex[n.h.Wires[w].From]]++
		ends[n.vertex[n.h.Wires[w].To]]++
	}
	for v, here := range ends {
		wires := 0
		for _, i := range n.at[v] {
			if n.edges[i].wire != harness.None {
				wires++
			}
		}
		if here == 2 && wires > 2 {
			return false
		}
	}
	return true
}

// batteryBehind tells that a vertex leads to a battery's live side without passing a
// piece of metal.
func (n *Net) batteryBehind(from, metal int, region forest.Forest) bool {
	found := false
	n.walk(from, func(e edge) bool {
		elsewhere := region.Root(e.from) != metal && region.Root(e.to) != metal
		return elsewhere && (e.wire != harness.None || n.conducts(e.element) || n.h.Elements[e.element].Kind == harness.FuseLink)
	}, func(v int) bool {
		found = found || slices.ContainsFunc(n.h.Elements, func(e harness.Element) bool { return e.Kind == harness.EMF && n.live(&e) == v })
		return !found
	})
	return found
}

// regions joins what metal joins between fuses, loads and the chassis.
func (n *Net) regions() forest.Forest {
	f := forest.New(n.vertices)
	for _, e := range n.edges {
		if e.from == n.chassis || e.to == n.chassis {
			continue
		}
		if e.wire != harness.None || n.conducts(e.element) {
			f.Join(e.from, e.to)
		}
	}
	return f
}

// together joins what wires and some elements join, the chassis with it.
func (n *Net) together(joins func(*harness.Element) bool) forest.Forest {
	f := forest.New(n.vertices)
	for _, e := range n.edges {
		if e.wire != harness.None || joins(&n.h.Elements[e.element]) {
			f.Join(e.from, e.to)
		}
	}
	return f
}

// guard enters one fuse: it feeds a side when a source is reached from the other.
func (n *Net) guard(g *Guards, e harness.Element, region forest.Forest) {
	a, b := n.vertex[e.A], n.vertex[e.B]
	fed := map[int]bool{}
	if n.reaches(a, e.ID) {
		fed[region.Root(b)] = true
	}
	if n.reaches(b, e.ID) {
		fed[region.Root(a)] = true
	}
	for _, w := range n.h.Wires {
		v := n.vertex[w.From]
		if v == n.chassis {
			v = n.vertex[w.To]
		}
		if fed[region.Root(v)] {
			g.Of[w.ID] = append(g.Of[w.ID], e.ID)
			g.Wires[e.ID] = append(g.Wires[e.ID], w.ID)
		}
	}
}

// reaches tells whether a source's live side is reached from a vertex without
// passing one element, a load or the chassis.
func (n *Net) reaches(from int, not harness.ElementID) bool {
	return n.reachesAny(from, not, isSource)
}

// reachesAny tells the same of the sources that are asked for.
func (n *Net) reachesAny(from int, not harness.ElementID, asked func(*harness.Element) bool) bool {
	lives := map[int]bool{}
	for i := range n.h.Elements {
		if e := &n.h.Elements[i]; asked(e) {
			lives[n.output(e)] = true
		}
	}
	found := false
	n.walk(from, func(e edge) bool {
		if e.wire != harness.None {
			return true
		}
		fuse := n.h.Elements[e.element].Kind == harness.FuseLink
		return e.element != not && (fuse || n.conducts(e.element))
	}, func(v int) bool {
		found = found || lives[v]
		return !found
	})
	return found
}

// walk visits vertices in order of distance, never the chassis, over the edges
// that pass allows, until visit says no.
func (n *Net) walk(from int, pass func(edge) bool, visit func(int) bool) {
	seen := make([]bool, n.vertices)
	queue := []int{from}
	seen[from] = true
	for len(queue) > 0 {
		v := queue[0]
		queue = queue[1:]
		if v == n.chassis || !visit(v) {
			continue
		}
		for _, i := range n.at[v] {
			e := n.edges[i]
			if next := e.other(v); !seen[next] && pass(e) {
				seen[next] = true
				queue = append(queue, next)
			}
		}
	}
}

// step is how a vertex was reached from a source.
type step struct {
	back   int // vertex before, -1 at the source
	edge   edge
	source harness.ElementID
	seen   bool
}

// bare walks from every source over unfused metal.
func (n *Net) bare(g *Guards) {
	steps := n.unfused()
	cranking := n.cranking(steps)
	for _, w := range n.Links() {
		cranking[w] = true
	}
	for _, w := range n.h.Wires {
		a, b := n.vertex[w.From], n.vertex[w.To]
		if a == n.chassis || b == n.chassis || !steps[a].seen || !steps[b].seen {
			continue
		}
		far := b
		if steps[a].edge.wire == w.ID && steps[a].back >= 0 {
			far = a
		}
		x := Bare{Wire: w.ID, Source: steps[far].source, Cranking: cranking[w.ID], Output: n.onOutput(a) || n.onOutput(b)}
		x.Chain, x.Through = n.chain(steps, far, w.ID)
		x.Limited = n.h.Elements[x.Source].Regulates()
		g.Bare = append(g.Bare, x)
	}
	for _, e := range n.h.Elements {
		if e.Kind != harness.FuseLink {
			continue
		}
		for _, v := range []int{n.vertex[e.A], n.vertex[e.B]} {
			if steps[v].seen {
				g.Legs[e.ID] = append(g.Legs[e.ID], n.legs(steps, v)...)
			}
		}
	}
}

// legs gives the unfused wires on every way from a source to a vertex, in the order of
// the wires: what is left of the unfused metal when all that leads elsewhere is taken off.
func (n *Net) legs(steps []step, v int) []harness.WireID {
	ends := make(map[int]int)
	left := map[int]bool{}
	for i, e := range n.edges {
		unfused := e.from != n.chassis && e.to != n.chassis && steps[e.from].seen && steps[e.to].seen && steps[e.from].source == steps[v].source
		if unfused && (e.wire != harness.None || n.conducts(e.element)) {
			left[i] = true
			ends[e.from]++
			ends[e.to]++
		}
	}
	idle := func(at int) bool { return ends[at] == 1 && at != v && steps[at].back >= 0 }
	for pruned := true; pruned; {
		pruned = false
		for i := range left {
			if e := n.edges[i]; idle(e.from) || idle(e.to) {
				delete(left, i)
				ends[e.from]--
				ends[e.to]--
				pruned = true
			}
		}
	}
	var wires []harness.WireID
	for i, e := range n.edges {
		if left[i] && e.wire != harness.None {
			wires = append(wires, e.wire)
		}
	}
	return wires
}

// unfused reaches out from the live side of every battery, nearest first, then
// from the alternators to what no battery reached.
func (n *Net) unfused() []step {
	steps := make([]step, n.vertices)
	n.spread(steps, harness.EMF)
	n.spread(steps, harness.Charger)
	n.spread(steps, harness.Converter)
	return steps
}

func (n *Net) spread(steps []step, kind harness.ElementKind) {
	var queue []int
	for i := range n.h.Elements {
		e := &n.h.Elements[i]
		if v := n.output(e); e.Kind == kind && !steps[v].seen && v != n.chassis {
			steps[v] = step{back: -1, source: e.ID, seen: true}
			queue = append(queue, v)
		}
	}
	for len(queue) > 0 {
		v := queue[0]
		queue = queue[1:]
		for _, i := range n.at[v] {
			e := n.edges[i]
			next := e.other(v)
			if next == n.chassis || steps[next].seen || e.wire == harness.None && !n.conducts(e.element) {
				continue
			}
			steps[next] = step{back: v, edge: e, source: steps[v].source, seen: true}
			queue = append(queue, next)
		}
	}
}

// chain gives the wires and elements between the source and a vertex; the last
// wire is added where the way does not end on it.
func (n *Net) chain(steps []step, v int, last harness.WireID) ([]harness.WireID, []harness.ElementID) {
	var wires []harness.WireID
	var elements []harness.ElementID
	for steps[v].seen && steps[v].back >= 0 {
		if e := steps[v].edge; e.wire != harness.None {
			wires = append(wires, e.wire)
		} else {
			elements = append(elements, e.element)
		}
		v = steps[v].back
	}
	reverse(wires)
	reverse(elements)
	if last != harness.None && (len(wires) == 0 || wires[len(wires)-1] != last) {
		wires = append(wires, last)
	}
	return wires, elements
}

// cranking gives the wires between a source and the motor of a starter.
func (n *Net) cranking(steps []step) map[harness.WireID]bool {
	out := map[harness.WireID]bool{}
	for _, e := range n.h.Elements {
		if e.Kind != harness.Load || n.h.Parts[e.Part].Kind != harness.Starter {
			continue
		}
		for _, v := range []int{n.vertex[e.A], n.vertex[e.B]} {
			wires, _ := n.chain(steps, v, harness.None)
			for _, w := range wires {
				out[w] = true
			}
		}
	}
	return out
}

func (n *Net) onOutput(v int) bool {
	for i := range n.h.Elements {
		if e := &n.h.Elements[i]; e.Regulates() && n.output(e) == v {
			return true
		}
	}
	return false
}

// EarthLeads gives the wires on the way from a source's earth side to the chassis, or
// where there is none to a battery's earth side, through buses and isolators where they
// lie between, and those on its live side. Returns that end on the source itself are
// neither.
func (n *Net) EarthLeads(source harness.ElementID) (earth, live []harness.WireID) {
	e := &n.h.Elements[source]
	for _, w := range n.h.Wires {
		if n.vertex[w.From] == n.live(e) || n.vertex[w.To] == n.live(e) {
			live = append(live, w.ID)
		}
	}
	if _, ok := n.stepToChassis(n.dead(e)); ok {
		return n.toChassis(n.dead(e)), live
	}
	if e.Kind == harness.EMF {
		return n.gathering(n.dead(e)), live
	}
	deads := map[int]bool{}
	for i := range n.h.Elements {
		if x := &n.h.Elements[i]; x.Kind == harness.EMF {
			deads[n.dead(x)] = true
		}
	}
	return n.link(n.dead(e), deads), live
}

// gathering gives the wires at a vertex that do not end on a load: what gathers the
// returns of several.
func (n *Net) gathering(v int) []harness.WireID {
	own := map[int]bool{}
	for i := range n.h.Elements {
		if e := &n.h.Elements[i]; Draws(e) {
			own[n.vertex[e.A]], own[n.vertex[e.B]] = true, true
		}
	}
	var out []harness.WireID
	for _, i := range n.at[v] {
		if e := n.edges[i]; e.wire != harness.None && !own[e.other(v)] {
			out = append(out, e.wire)
		}
	}
	return out
}

// toChassis gives the wires on the shortest way over metal to the chassis, or none
// where there is no such way.
func (n *Net) toChassis(from int) []harness.WireID {
	var wires []harness.WireID
	for v := from; ; {
		e, ok := n.stepToChassis(v)
		if !ok {
			return wires
		}
		if e.wire != harness.None {
			wires = append(wires, e.wire)
		}
		v = e.other(v)
	}
}

// stepToChassis gives the first edge of the shortest way over metal from a vertex to
// the chassis; false at the chassis and where there is no way.
func (n *Net) stepToChassis(from int) (edge, bool) {
	if n.grounded == nil {
		n.reachChassis()
	}
	i, ok := n.grounded[from]
	if !ok || from == n.chassis {
		return edge{}, false
	}
	return n.edges[i], true
}

// reachChassis finds for every vertex that metal joins to the chassis the edge that
// leads there.
func (n *Net) reachChassis() {
	n.grounded = map[int]int{n.chassis: -1}
	for queue := []int{n.chassis}; len(queue) > 0; queue = queue[1:] {
		v := queue[0]
		for _, i := range n.at[v] {
			e := n.edges[i]
			next := e.other(v)
			if _, old := n.grounded[next]; !old && (e.wire != harness.None || n.conducts(e.element)) {
				n.grounded[next] = i
				queue = append(queue, next)
			}
		}
	}
}

// poles gives the vertices of all live sides, and of all earth sides with the chassis.
func (n *Net) poles() (lives, deads map[int]bool) {
	lives, deads = map[int]bool{}, map[int]bool{n.chassis: true}
	for i := range n.h.Elements {
		if e := &n.h.Elements[i]; isSource(e) {
			lives[n.output(e)] = true
			deads[n.dead(e)] = true
		}
	}
	return lives, deads
}

// walkAll is walk with the chassis as a vertex like any other.
func (n *Net) walkAll(from int, pass func(edge) bool, visit func(int) bool) {
	seen := make([]bool, n.vertices)
	stack := []int{from}
	seen[from] = true
	for len(stack) > 0 {
		v := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		if !visit(v) {
			continue
		}
		for _, i := range n.at[v] {
			e := n.edges[i]
			if next := e.other(v); !seen[next] && pass(e) {
				seen[next] = true
				stack = append(stack, next)
			}
		}
	}
}
