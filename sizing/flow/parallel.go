package flow

import (
	"slices"

	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
)

// Parallel gives the pairs of fuses that join the same two pieces of metal: when
// one opens, the other carries all. A changeover contact that joins them in no position
// keeps them apart, and so does a diode between them.
func (n *Net) Parallel() [][2]harness.ElementID {
	region := n.regions()
	first := map[[2]int]harness.ElementID{}
	var out [][2]harness.ElementID
	for _, e := range n.h.Elements {
		if e.Kind != harness.FuseLink {
			continue
		}
		sides := n.sidesIn(region, e.ID)
		if sides[0] == sides[1] {
			continue
		}
		if other, ok := first[sides]; !ok {
			first[sides] = e.ID
		} else if n.everTogether(other, e.ID) {
			out = append(out, [2]harness.ElementID{other, e.ID})
		}
	}
	return out
}

// sidesIn gives the two pieces of metal that a fuse joins, the lower number first.
func (n *Net) sidesIn(region forest.Forest, fuse harness.ElementID) [2]int {
	e := &n.h.Elements[fuse]
	return pair(region.Root(n.vertex[e.A]), region.Root(n.vertex[e.B]))
}

// everTogether tells whether each switch and each relay has a position that leaves two
// fuses side by side, all others being closed.
func (n *Net) everTogether(a, b harness.ElementID) bool {
	for i := range n.h.Parts {
		p := &n.h.Parts[i]
		if len(p.Positions) > 1 && !n.togetherIn(a, b, len(p.Positions), func(w harness.Condition, position int) bool {
			return w.Kind == harness.InPosition && w.Switch == p.ID && !slices.Contains(w.Positions, position)
		}) {
			return false
		}
	}
	for i := range n.h.Elements {
		e := &n.h.Elements[i]
		if e.Kind == harness.RelayCoil && !n.togetherIn(a, b, 2, func(w harness.Condition, position int) bool {
			return w.Coil == e.ID && (w.Kind == harness.Energised && position == 0 || w.Kind == harness.Released && position == 1)
		}) {
			return false
		}
	}
	return true
}

// togetherIn tells whether two fuses lie side by side in one of so many positions; opens
// tells what is open in each.
func (n *Net) togetherIn(a, b harness.ElementID, positions int, opens func(harness.Condition, int) bool) bool {
	for position := range positions {
		f := forest.New(n.vertices)
		for _, e := range n.edges {
			if e.from == n.chassis || e.to == n.chassis {
				continue
			}
			if e.wire != harness.None || n.conducts(e.element) && n.h.Elements[e.element].Kind != harness.Rectifier && !opens(n.h.Elements[e.element].When, position) {
				f.Join(e.from, e.to)
			}
		}
		if n.sidesIn(f, a) == n.sidesIn(f, b) {
			return true
		}
	}
	return false
}
