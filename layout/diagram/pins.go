package diagram

import (
	"slices"
	"sort"
)

// permutePins lets the wires of one terminal change places so that they leave
// in the order of the heights to which they go.
func (b *board) permutePins() {
	b.permuteBy(b.ranks())
}

// permuteBy is permutePins with the height of each item given.
func (b *board) permuteBy(rank []float64) {
	moved := false
	for _, group := range b.shared {
		moved = b.permute(slices.Clone(group), rank) || moved
	}
	if moved {
		b.index()
	}
}

// landing is one wire's end on a node.
type landing struct {
	seg  int
	from bool
}

// groupKey names a terminal whose wires may change places: by its pins' group on
// one node, or by the key that the entries of a rail share.
type groupKey struct {
	column, node, group int
	side                Side
	key                 string
}

func (b *board) keyOf(p place) (groupKey, bool) {
	it := b.items[p.item]
	if p.pin < 0 {
		return groupKey{}, false
	}
	n := b.g.Nodes[it.node]
	pin := n.Pins[p.pin]
	if n.Key != "" {
		return groupKey{column: it.column, side: pin.Side, key: n.Key}, true
	}
	return groupKey{node: it.node, group: pin.Group, side: pin.Side}, pin.Group != 0
}

// groups gives the landings of each terminal that takes several wires on one side.
// They stay the same whichever of them change places.
func (b *board) groups() [][]landing {
	byGroup := map[groupKey][]landing{}
	var keys []groupKey
	for i, s := range b.segs {
		for _, from := range []bool{true, false} {
			p := s.to
			if from {
				p = s.from
			}
			k, ok := b.keyOf(p)
			if !ok {
				continue
			}
			if byGroup[k] == nil {
				keys = append(keys, k)
			}
			byGroup[k] = append(byGroup[k], landing{i, from})
		}
	}
	var out [][]landing
	for _, k := range keys {
		if len(byGroup[k]) > 1 {
			out = append(out, byGroup[k])
		}
	}
	return out
}

// permute gives the wires of a terminal its places in the order of their aims; it
// tells whether any moved.
func (b *board) permute(group []landing, rank []float64) bool {
	moved := false
	pins := make([]place, len(group))
	for i, l := range group {
		pins[i] = *b.end(l)
	}
	own := func(p place) float64 { return rank[p.item] + p.offset }
	sort.SliceStable(pins, func(i, j int) bool { return own(pins[i]) < own(pins[j]) })
	sort.SliceStable(group, func(i, j int) bool { return b.aim(group[i], rank) < b.aim(group[j], rank) })
	for i, l := range group {
		if *b.end(l) == pins[i] {
			continue
		}
		moved = true
		*b.end(l) = pins[i]
		w := &b.wires[b.segs[l.seg].wire]
		e := End{b.items[pins[i].item].node, pins[i].pin}
		if l.from {
			w.From = e
		} else {
			w.To = e
		}
	}
	return moved
}

func (b *board) end(l landing) *place {
	if l.from {
		return &b.segs[l.seg].from
	}
	return &b.segs[l.seg].to
}

// aim is the height of the other end of the landing's segment.
func (b *board) aim(l landing, rank []float64) float64 {
	p := b.segs[l.seg].from
	if l.from {
		p = b.segs[l.seg].to
	}
	return rank[p.item] + p.offset
}
