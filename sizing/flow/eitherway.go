package flow

import (
	"slices"

	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
)

// Currents that go either way by design: over a wire between two switches, and through a
// motor that switches turn round.

// markTravellers marks the wires on which nothing ends but contacts of switches and relays,
// as between two switches of one lamp or a wiper's switch and its park contact: the
// direction of the writing says nothing of them.
func (o *Owner) markTravellers() {
	for i, e := range o.n.edges {
		if e.wire != harness.None && o.n.onlyContacts(e.from, i) && o.n.onlyContacts(e.to, i) {
			o.both[e.wire] = true
		}
	}
}

// markThrown marks the wires at the break contact of a changeover relay whose make contact
// goes to ground, as where two motors are put in series: with all contacts closed, by which
// the writing is read, the current of that wire would go to ground the other way.
func (o *Owner) markThrown() {
	for i := range o.n.h.Elements {
		e := &o.n.h.Elements[i]
		if e.Kind != harness.Contact || e.When.Kind != harness.Released {
			continue
		}
		common, other := o.n.thrown(e)
		if common < 0 || !o.n.grounds(other) {
			continue
		}
		for _, end := range [2]int{o.n.vertex[e.A], o.n.vertex[e.B]} {
			for _, k := range o.n.at[end] {
				if w := o.n.edges[k].wire; end != common && w != harness.None {
					o.both[w] = true
				}
			}
		}
	}
}

// markJoined marks the jumpers of a switch that put two of its throws together, with wires
// at one of them only: the throw in use carries the current of both.
func (o *Owner) markJoined() {
	var jumpers []harness.WireID
	for i := range o.n.h.Wires {
		w := &o.n.h.Wires[i]
		if p := o.n.h.PartOf(w.From); p != nil && p.Kind == harness.Switch && o.n.h.Jumper(w.ID) {
			jumpers = append(jumpers, w.ID)
		}
	}
	if len(jumpers) == 0 {
		return
	}
	f := forest.New(o.n.vertices)
	for _, w := range jumpers {
		f.Join(o.n.vertex[o.n.h.Wires[w].From], o.n.vertex[o.n.h.Wires[w].To])
	}
	for _, w := range jumpers {
		o.both[w] = o.both[w] || o.n.leavesOnce(f, f.Root(o.n.vertex[o.n.h.Wires[w].From]), jumpers)
	}
}

// leavesOnce tells that wires beside some jumpers end on one vertex at most of those that
// these join.
func (n *Net) leavesOnce(f forest.Forest, root int, jumpers []harness.WireID) bool {
	at := -1
	for _, e := range n.edges {
		if e.wire == harness.None || slices.Contains(jumpers, e.wire) {
			continue
		}
		for _, v := range [2]int{e.from, e.to} {
			if f.Root(v) != root {
				continue
			}
			if at >= 0 && at != v {
				return false
			}
			at = v
		}
	}
	return true
}

// thrown gives the vertices of the common terminal of a changeover relay, of which this is
// the break contact, and of its make contact; -1 where there is none.
func (n *Net) thrown(e *harness.Element) (common, other int) {
	for i := range n.h.Elements {
		x := &n.h.Elements[i]
		if x.Kind != harness.Contact || x.When.Kind != harness.Energised || x.When.Coil != e.When.Coil {
			continue
		}
		a, b := n.vertex[x.A], n.vertex[x.B]
		switch {
		case a == n.vertex[e.A] || a == n.vertex[e.B]:
			return a, b
		case b == n.vertex[e.A] || b == n.vertex[e.B]:
			return b, a
		}
	}
	return -1, -1
}

// grounds tells a vertex that metal joins to the earth side whatever the switches do.
func (n *Net) grounds(v int) bool {
	_, deads := n.poles()
	return n.reachesOver(v, deads, n.firm)
}

// onlyContacts tells that beside one edge only contacts of switches and relays end on a vertex.
func (n *Net) onlyContacts(v, but int) bool {
	if v == n.chassis || len(n.at[v]) < 2 {
		return false
	}
	for _, i := range n.at[v] {
		if i == but {
			continue
		}
		e := n.edges[i]
		if e.wire != harness.None || n.h.Elements[e.element].Kind != harness.Contact {
			return false
		}
		if k := n.h.Parts[n.h.Elements[e.element].Part].Kind; k != harness.Switch && k != harness.Relay {
			return false
		}
	}
	return true
}

// turnedRound gives the way of a motor that the contacts of a state turn round: its feed
// comes over plain metal to the side from which it otherwise returns, over a contact on
// either side and past no other load.
func (o *Owner) turnedRound(e *harness.Element, st *network.State) (Own, bool) {
	feed := o.walkFrom(o.end(e, 1-o.live()), o.live(), st, false)
	back := o.walkFrom(o.end(e, o.live()), 1-o.live(), st, false)
	if !feed.spreads() || !back.spreads() {
		return Own{}, false
	}
	own := o.own(feed, back)
	return own, o.switched(own.Feed) && o.switched(own.Back)
}

// switched tells a way over a contact of a switch or relay.
func (o *Owner) switched(way Path) bool {
	return slices.ContainsFunc(way.Elements, func(id harness.ElementID) bool {
		k := o.n.h.Parts[o.n.h.Elements[id].Part].Kind
		return o.n.h.Elements[id].Kind == harness.Contact && (k == harness.Switch || k == harness.Relay)
	})
}
