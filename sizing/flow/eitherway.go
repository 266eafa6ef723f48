package flow

import (
	"slices"

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
