package diagram

import "sort"

// permutePins lets the wires of one terminal change places so that they leave
// in the order of the heights to which they go.
func (b *board) permutePins() {
	rank := b.ranks()
	for node := range b.g.Nodes {
		for _, group := range b.groups(node) {
			b.permute(group, rank)
		}
	}
}

// landing is one wire's end on a node.
type landing struct {
	seg  int
	from bool
}

// groups gives the landings of each terminal that takes several wires on one side.
func (b *board) groups(node int) [][]landing {
	byGroup := map[[2]int][]landing{}
	var keys [][2]int
	it := b.itemOf[node]
	for _, i := range b.byItem[it] {
		s := b.segs[i]
		for _, from := range []bool{true, false} {
			p := s.to
			if from {
				p = s.from
			}
			if p.item != it || p.pin < 0 || b.g.Nodes[node].Pins[p.pin].Group == 0 {
				continue
			}
			pin := b.g.Nodes[node].Pins[p.pin]
			key := [2]int{pin.Group, int(pin.Side)}
			if byGroup[key] == nil {
				keys = append(keys, key)
			}
			byGroup[key] = append(byGroup[key], landing{i, from})
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

func (b *board) permute(group []landing, rank []float64) {
	pins := make([]place, len(group))
	for i, l := range group {
		pins[i] = *b.end(l)
	}
	sort.SliceStable(pins, func(i, j int) bool { return pins[i].offset < pins[j].offset })
	sort.SliceStable(group, func(i, j int) bool { return b.aim(group[i], rank) < b.aim(group[j], rank) })
	for i, l := range group {
		*b.end(l) = pins[i]
		w := &b.wires[b.segs[l.seg].wire]
		if l.from {
			w.From.Pin = pins[i].pin
		} else {
			w.To.Pin = pins[i].pin
		}
	}
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
