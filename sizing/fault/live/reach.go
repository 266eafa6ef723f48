package live

import (
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
)

// feeds is the resistance up to which a resistor feeds what is behind it, ohm: one in
// series with a blower or a coil, not one that a module senses through. Judgement, not
// published.
const feeds = 10

// reached marks the pieces to which closed metal leads from the live side of a source that
// is there, and from the earth side.
func (t *table) reached(st *network.State, off []harness.ElementID) (fed, ground []bool) {
	var lives, earths []int
	for i := range t.h.Elements {
		e := &t.h.Elements[i]
		if e.Kind != harness.EMF && e.Kind != harness.Charger || st.ElementAt[i] < 0 {
			continue
		}
		earths = append(earths, t.piece[t.h.Earthed(e)])
		if !slices.Contains(off, e.ID) {
			lives = append(lives, t.piece[t.h.Live(e)])
		}
	}
	if len(lives) == 0 || !t.h.System.WiredReturn {
		earths = append(earths, t.piece[harness.Chassis])
	}
	return t.spread(st, lives, true), t.spread(st, earths, false)
}

// spread marks what metal joins to some pieces; over diodes where they let a feed pass.
func (t *table) spread(st *network.State, from []int, diodes bool) []bool {
	out := make([]bool, len(t.piece))
	for queue := from; len(queue) > 0; queue = queue[1:] {
		n := queue[0]
		if out[n] {
			continue
		}
		out[n] = true
		for _, i := range t.at[n] {
			e := &t.h.Elements[i]
			a, b := t.piece[e.A], t.piece[e.B]
			if t.leads(st, e, n == a, diodes) {
				queue = append(queue, a+b-n)
			}
		}
	}
	return out
}

// leads tells whether an element leads a feed on from its A or its B in a solved state.
func (t *table) leads(st *network.State, e *harness.Element, fromA, diodes bool) bool {
	switch e.Kind {
	case harness.Join, harness.Contact, harness.FuseLink:
		return t.closed(st, e)
	case harness.Resistance:
		return e.Ohms <= feeds && t.closed(st, e)
	case harness.Rectifier:
		return diodes && fromA != t.h.System.PositiveEarth
	}
	return false
}

// closed tells that an element joins its ends in a solved state. A join that was made one
// node is no element of the network.
func (t *table) closed(st *network.State, e *harness.Element) bool {
	at := st.ElementAt[e.ID]
	if at < 0 {
		return e.Kind == harness.Join && st.Of[e.A] == st.Of[e.B]
	}
	return st.Elements[at].Kind != "open"
}
