package diagram

import "math"

// A nook is the free width beside a tile at a pin's height, between what the tile
// and its words cover and the edge of the column; flags may stand in it.

// clearings gives for each pin the x, from its node's left, from which a flag on
// its wire meets nothing of the tile.
func (b *board) clearings() [][]float64 {
	out := make([][]float64, len(b.g.Nodes))
	for i, n := range b.g.Nodes {
		for _, p := range n.Pins {
			out[i] = append(out[i], b.clearing(n, p))
		}
	}
	return out
}

func (b *board) clearing(n Node, p Pin) float64 {
	if len(n.Solid) == 0 {
		if p.Side == West {
			return 0
		}
		return n.W
	}
	x := p.X
	for _, s := range n.Solid {
		switch {
		case s.Y >= p.Y+b.r.FlagDown+flagOff || s.Y+s.H <= p.Y-b.r.FlagUp-flagOff:
		case p.Side == West:
			x = math.Min(x, s.X)
		default:
			x = math.Max(x, s.X+s.W)
		}
	}
	return x
}

// flagOff is kept free between a flag and what stands above or below it, mm.
const flagOff = 0.3

// slack is the width that a column leaves before and behind a node.
func (b *board) slack(node int) (before, behind float64) {
	n := b.g.Nodes[node]
	free := b.widths[b.column[node]] - n.W
	switch n.Column {
	case First:
		return 0, free
	case Last:
		return free, 0
	}
	return free / 2, free / 2
}

// nook is the free width at a place; none at a lane.
func (b *board) nook(p place) float64 {
	if p.pin < 0 {
		return 0
	}
	node := b.items[p.item].node
	n := b.g.Nodes[node]
	before, behind := b.slack(node)
	if n.Pins[p.pin].Side == West {
		return before + b.clear[node][p.pin]
	}
	return behind + n.W - b.clear[node][p.pin]
}

// betterAtTo tells whether a wire's flag has its place at the wire's end: the
// nook there holds it and the one at the beginning does not.
func (b *board) betterAtTo(wire int) bool {
	w := b.g.Wires[wire]
	need := w.Flag + 2*flagAside
	return b.nook(b.placeOf(w.From)) < need && b.nook(b.placeOf(w.To)) >= need
}

// flagged gives the end at which the flag lies and whether that is the channel's
// left edge.
func (s segment) flagged() (end place, left bool) {
	if s.flag == atTo {
		return s.to, s.toL
	}
	return s.from, s.fromL
}
