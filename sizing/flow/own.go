package flow

import (
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
)

// Owner finds the way that is meant for each load's current: along the wires in
// the direction in which their legs are written. What charges a battery also takes
// from it, so wires between an alternator and a battery lead both ways; so does a wire
// that as it is written leads to no load and no return. On a side on which the writing
// leads nowhere, however the switches stand, it is not heeded.
type Owner struct {
	n      *Net
	both   []bool                         // by WireID: leads either way
	heeded [2][]bool                      // by side and ElementID: the writing leads to a source, to its return
	poles  [2]map[int][]harness.ElementID // by side and vertex: the sources with their plus there, with their minus
}

// The sides of an element: up, against the current, to a source's plus; down, with
// it, to a source's minus.
const (
	up = iota
	down
)

// Owner reads the writing of all legs.
func (n *Net) Owner() *Owner {
	o := &Owner{n: n, both: make([]bool, len(n.h.Wires)), poles: [2]map[int][]harness.ElementID{{}, {}}}
	for i := range n.h.Elements {
		if e := &n.h.Elements[i]; isSource(e) {
			o.poles[up][n.vertex[e.A]] = append(o.poles[up][n.vertex[e.A]], e.ID)
			o.poles[down][n.vertex[e.B]] = append(o.poles[down][n.vertex[e.B]], e.ID)
		}
	}
	o.markBoth()
	o.markTravellers()
	o.markThrown()
	o.markJoined()
	for side := range o.heeded {
		o.heeded[side] = make([]bool, len(n.h.Elements))
		for i := range n.h.Elements {
			if e := &n.h.Elements[i]; Draws(e) {
				o.heeded[side][i] = o.wayOut(e, side, nil, true).found()
			}
		}
	}
	return o
}

// Draws tells a load or a relay's coil.
func Draws(e *harness.Element) bool {
	return e.Kind == harness.Load || e.Kind == harness.RelayCoil
}

// live is the side of an element on which its feed lies.
func (o *Owner) live() int {
	if o.n.h.System.PositiveEarth {
		return down
	}
	return up
}

// markBoth marks the wires on the ways between an alternator's live side and a battery, and
// those that are written into nothing.
func (o *Owner) markBoth() {
	for i := range o.n.h.Elements {
		if e := &o.n.h.Elements[i]; e.Regulates() {
			for _, w := range o.Charging(e.ID).Wires {
				o.both[w] = true
			}
			o.markReturn(e)
		}
	}
	leads := o.n.leadingOn()
	for i := range o.n.h.Wires {
		w := &o.n.h.Wires[i]
		o.both[i] = o.both[i] || !leads[o.n.vertex[w.To]]
	}
}

// markReturn marks the return of a source that takes current too, as a regulator does while
// it gives none.
func (o *Owner) markReturn(source *harness.Element) {
	takes := slices.ContainsFunc(o.n.h.Parts[source.Part].Elements, func(id harness.ElementID) bool {
		e := &o.n.h.Elements[id]
		return e.Kind == harness.Load && e.A == source.A && e.B == source.B
	})
	if !takes {
		return
	}
	earth, _ := o.n.EarthLeads(source.ID)
	for _, w := range earth {
		o.both[w] = true
	}
}

// EitherWay tells a wire in which the current may go against the writing.
func (o *Owner) EitherWay(w harness.WireID) bool { return o.both[w] }

// Charging gives the wires and elements between an alternator's live side and the
// batteries, in no order.
func (o *Owner) Charging(id harness.ElementID) Path {
	t := &wayOut{o: o, side: 1 - o.live(), heed: true, from: o.n.live(&o.n.h.Elements[id])}
	t.goal = func(v int) bool {
		return slices.ContainsFunc(o.poles[o.live()][v], func(id harness.ElementID) bool { return o.n.h.Elements[id].Kind == harness.EMF })
	}
	return t.charging()
}

// charging gives what may charge a battery: by written ways; where the starter's cable is
// written towards the alternator's, by the shortest.
func (t *wayOut) charging() Path {
	if t.spread(); t.found() {
		return t.between()
	}
	t.heed = false
	t.spread()
	return t.shortest()
}

// leadingOn marks the vertices from which the writing leads on to a load, a source or the
// chassis, however the switches stand.
func (n *Net) leadingOn() []bool {
	leads := make([]bool, n.vertices)
	queue := []int{n.chassis}
	for i := range n.h.Elements {
		if e := &n.h.Elements[i]; Draws(e) || isSource(e) {
			queue = append(queue, n.vertex[e.A], n.vertex[e.B])
		}
	}
	for ; len(queue) > 0; queue = queue[1:] {
		v := queue[0]
		if leads[v] {
			continue
		}
		leads[v] = true
		for _, i := range n.at[v] {
			oneWay := n.edges[i].wire != harness.None || n.h.Elements[n.edges[i].element].Kind == harness.Rectifier
			if e := n.edges[i]; e.to == v || !oneWay {
				queue = append(queue, e.other(v))
			}
		}
	}
	return leads
}

// Own is the way that is meant for one element's current.
type Own struct {
	Feed, Back Path // the shortest, in the order of the current on the live side and then back to the source
	All        Path // every wire and element that may belong to it, in no order
	Whole      bool // it leads from a source and back
	Fed        bool // it leads from a source
	Earthed    bool // it leads back to one, or to the chassis
	Series     bool // through another load or coil
	Turned     bool // of a motor that switches have turned round: from its other side
	flows      []flowing
}

// flowing is an edge with the direction of the current: 1 from its from to its to, else -1.
type flowing struct {
	edge edge
	sign float64
}

// Of gives the way of a load or coil: in a solved state through the contacts that
// are closed and from the sources that are there; for nil through all of them.
func (o *Owner) Of(id harness.ElementID, st *network.State) Own {
	e := &o.n.h.Elements[id]
	own := o.own(o.wayOut(e, o.live(), st, o.heeded[o.live()][id]), o.wayOut(e, 1-o.live(), st, o.heeded[1-o.live()][id]))
	if !own.Whole && st != nil && e.Kind == harness.Load && e.Behaves == harness.AsMotor {
		if turned, ok := o.turnedRound(e, st); ok {
			turned.Turned = true
			return turned
		}
	}
	return own
}

// own puts the two sides of a way together.
func (o *Owner) own(feed, back *wayOut) Own {
	own := Own{Feed: feed.shortest().reversed(), Back: back.shortest(), Whole: feed.found() && back.found(), Fed: feed.found(), Earthed: back.found(), Series: feed.load || back.load}
	own.flows = append(feed.flows(), back.flows()...)
	for _, way := range []Path{feed.between(), back.between()} {
		own.All.Wires = append(own.All.Wires, way.Wires...)
		own.All.Elements = append(own.All.Elements, way.Elements...)
	}
	if back.found() && back.end == o.n.chassis {
		o.fromChassis(&own)
	}
	return own
}

// Lead adds a load's current on its own way to those of a state.
func (n *Net) Lead(st *network.State, own Own, amps float64) {
	for _, f := range own.flows {
		if f.edge.wire != harness.None {
			st.WireAmps[f.edge.wire] += f.sign * amps
		} else {
			st.Amps[f.edge.element] += f.sign * amps
		}
	}
	if own.Feed.Source != harness.None {
		st.Amps[own.Feed.Source] -= amps
	}
}

// fromChassis adds the lead by which the chassis joins the source.
func (o *Owner) fromChassis(own *Own) {
	if own.Feed.Source == harness.None {
		return
	}
	sign := -1.0 // of the current against a walk from the source to the chassis
	if o.n.h.System.PositiveEarth {
		sign = 1
	}
	lead := Path{Source: own.Feed.Source}
	for v := o.n.dead(&o.n.h.Elements[own.Feed.Source]); ; {
		e, ok := o.n.stepToChassis(v)
		if !ok {
			break
		}
		along := sign
		if e.to == v {
			along = -sign
		}
		if !own.retraced(e) {
			lead.add(e)
			own.flows = append(own.flows, flowing{e, along})
		}
		v = e.other(v)
	}
	lead = lead.reversed()
	own.Back.Source = own.Feed.Source
	for _, way := range []*Path{&own.Back, &own.All} {
		way.Wires = append(way.Wires, lead.Wires...)
		way.Elements = append(way.Elements, lead.Elements...)
	}
}

// retraced takes off the way what the lead from the chassis would go back over: there the
// return meets the lead, and never reaches the chassis.
func (own *Own) retraced(e edge) bool {
	i := slices.IndexFunc(own.flows, func(f flowing) bool { return f.edge == e })
	if i < 0 {
		return false
	}
	own.flows = slices.Delete(own.flows, i, i+1)
	for _, way := range []*Path{&own.Back, &own.All} {
		way.Wires = slices.DeleteFunc(way.Wires, func(w harness.WireID) bool { return w == e.wire })
		way.Elements = slices.DeleteFunc(way.Elements, func(x harness.ElementID) bool { return x == e.element })
	}
	return true
}

// wayOut is a walk from one side of an element.
type wayOut struct {
	o     *Owner
	side  int
	from  int // vertex
	heed  bool
	state *network.State // nil: every contact is closed
	goal  func(v int) bool
	load  bool // it may pass other loads
	crank bool // from a battery: no alternator turns a starter

	arcs []arc
	seen map[int]int // by vertex: the arc by which it was reached, -1 at the beginning
	end  int         // the nearest goal, -1 for none
}

type arc struct {
	edge     edge
	from, to int
}

// wayOut walks from a side of an element: past no other load, and only where that
// leads nowhere through those in series with it.
func (o *Owner) wayOut(e *harness.Element, side int, st *network.State, heed bool) *wayOut {
	t := o.walkFrom(o.end(e, side), side, st, heed)
	t.crank = o.n.h.Parts[e.Part].Kind == harness.Starter
	if !t.spreads() {
		alone := *t
		t.load = true
		if !t.spreads() {
			return &alone
		}
	}
	return t
}

// end gives the vertex of an element on a side.
func (o *Owner) end(e *harness.Element, side int) int {
	if side == down {
		return o.n.vertex[e.B]
	}
	return o.n.vertex[e.A]
}

// walkFrom prepares a walk from a vertex to the sources on a side.
func (o *Owner) walkFrom(from, side int, st *network.State, heed bool) *wayOut {
	t := &wayOut{o: o, side: side, from: from, heed: heed, state: st}
	t.goal = t.pole
	return t
}

// spreads walks, and tells whether a goal was found.
func (t *wayOut) spreads() bool {
	t.spread()
	return t.found()
}

// pole tells a vertex at which a source's right side is reached, or the chassis where
// that is what the side leads to.
func (t *wayOut) pole(v int) bool {
	if v == t.o.n.chassis {
		return t.side != t.o.live()
	}
	return slices.ContainsFunc(t.o.poles[t.side][v], t.gives)
}

// gives tells a source that is there, for a starter a battery. Whatever the state, a charger
// that comes and goes is none.
func (t *wayOut) gives(id harness.ElementID) bool {
	e := &t.o.n.h.Elements[id]
	if e.Regulates() && t.state == nil && e.When.Kind == harness.InPosition {
		return false
	}
	return t.there(id) && !(t.crank && e.Regulates())
}

// charged tells a vertex at which an alternator's right side lies.
func (t *wayOut) charged(v int) bool {
	return slices.ContainsFunc(t.o.poles[t.side][v], func(id harness.ElementID) bool { return t.o.n.h.Elements[id].Regulates() })
}

// there tells that an element takes part in the state. A charged battery that neither
// gives nor takes does too.
func (t *wayOut) there(id harness.ElementID) bool {
	if t.state == nil {
		return true
	}
	at := t.state.ElementAt[id]
	return at >= 0 && (isSource(&t.o.n.h.Elements[id]) || t.state.Elements[at].Kind != "open")
}

func (t *wayOut) found() bool { return t.end >= 0 }

// spread visits every vertex nearest first; it goes on from no goal.
func (t *wayOut) spread() {
	t.seen, t.end, t.arcs = map[int]int{t.from: -1}, -1, nil
	for queue := []int{t.from}; len(queue) > 0; queue = queue[1:] {
		v := queue[0]
		if t.goal(v) {
			if t.end < 0 {
				t.end = v
			}
			continue
		}
		if v == t.o.n.chassis || t.crank && t.side == t.o.live() && t.charged(v) {
			continue
		}
		for _, i := range t.o.n.at[v] {
			e := t.o.n.edges[i]
			if !t.passes(e, v) {
				continue
			}
			next := e.other(v)
			t.arcs = append(t.arcs, arc{e, v, next})
			if _, old := t.seen[next]; !old {
				t.seen[next] = len(t.arcs) - 1
				queue = append(queue, next)
			}
		}
	}
}

// passes tells whether the walk may go from a vertex over an edge.
func (t *wayOut) passes(e edge, v int) bool {
	along := e.from == v // with the current where it goes from A to B, from the wire's From to its To
	if t.side == up {
		along = !along
	}
	if e.wire != harness.None {
		return along || !t.heed || t.o.both[e.wire]
	}
	switch x := &t.o.n.h.Elements[e.element]; x.Kind {
	case harness.Contact, harness.FuseLink, harness.Resistance:
		return (x.Innards && !t.crank || !t.o.n.beside[e.element]) && t.there(e.element)
	case harness.Rectifier:
		return along && !t.o.n.beside[e.element]
	case harness.Load, harness.RelayCoil:
		return t.load && along
	}
	return false
}

// shortest gives the way to the nearest goal, in the order of the walk.
func (t *wayOut) shortest() Path {
	p := Path{Source: harness.None}
	if !t.found() {
		return p
	}
	for _, id := range t.o.poles[t.side][t.end] {
		if t.end != t.o.n.chassis && t.gives(id) {
			p.Source = id
			break
		}
	}
	for v := t.end; t.seen[v] >= 0; v = t.arcs[t.seen[v]].from {
		p.add(t.arcs[t.seen[v]].edge)
	}
	return p.reversed()
}

// flows gives the edges of the shortest way with the direction of the current.
func (t *wayOut) flows() []flowing {
	var out []flowing
	if !t.found() {
		return nil
	}
	for v := t.end; t.seen[v] >= 0; v = t.arcs[t.seen[v]].from {
		a := t.arcs[t.seen[v]]
		sign := 1.0
		if (a.edge.from == a.from) == (t.side == up) {
			sign = -1
		}
		out = append(out, flowing{a.edge, sign})
	}
	return out
}

func (p *Path) add(e edge) {
	if e.wire != harness.None {
		p.Wires = append(p.Wires, e.wire)
	} else {
		p.Elements = append(p.Elements, e.element)
	}
}

// between gives every edge that lies on a way to a goal; all that were met where
// none was reached.
func (t *wayOut) between() Path {
	leads := t.leads()
	ends := map[int]int{} // by vertex: how many edges are left there
	left := map[edge]bool{}
	for _, a := range t.arcs {
		if leads[a.to] && !left[a.edge] {
			left[a.edge] = true
			ends[a.from]++
			ends[a.to]++
		}
	}
	for pruned := t.found(); pruned; {
		pruned = false
		for e := range left {
			if t.idle(e.from, ends) || t.idle(e.to, ends) {
				delete(left, e)
				ends[e.from]--
				ends[e.to]--
				pruned = true
			}
		}
	}
	p := Path{Source: harness.None}
	for _, a := range t.arcs {
		if left[a.edge] {
			delete(left, a.edge)
			p.add(a.edge)
		}
	}
	return p
}

// idle tells a vertex at which a way ends that leads nowhere.
func (t *wayOut) idle(v int, ends map[int]int) bool {
	return ends[v] == 1 && v != t.from && !t.goal(v)
}

// leads marks the vertices from which a goal is reached over the arcs.
func (t *wayOut) leads() map[int]bool {
	leads, back := map[int]bool{}, map[int][]int{}
	for i, a := range t.arcs {
		back[a.to] = append(back[a.to], i)
	}
	var queue []int
	for v := range t.seen {
		if !t.found() || t.goal(v) {
			leads[v] = true
			queue = append(queue, v)
		}
	}
	for ; len(queue) > 0; queue = queue[1:] {
		for _, i := range back[queue[0]] {
			if v := t.arcs[i].from; !leads[v] {
				leads[v] = true
				queue = append(queue, v)
			}
		}
	}
	return leads
}
