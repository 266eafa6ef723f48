package diagram

import (
	"math"
	"slices"
)

// item is what stands in a column: a tile, or the lane of a passing wire.
type item struct {
	node   int // -1: a lane
	column int
	w, h   float64
	up     float64 // footprint above the tile's own top, for flags near its edge
	y      float64 // top of the footprint
}

// place is an end of a segment: a pin or a lane, in a column, on one side.
type place struct {
	item   int
	offset float64 // from the item's y
	pin    int     // index into the node's pins; -1 in a lane
}

// segment is the part of a wire that lies in one channel; channel c lies to the
// right of column c, channel -1 to the left of column 0.
type segment struct {
	wire    int
	channel int
	from    place
	to      place
	fromL   bool // the from end comes from the channel's left edge
	toL     bool
	flag    flagEnd
}

// flagEnd says at which end of a segment the wire's flag lies.
type flagEnd int

const (
	noFlag flagEnd = iota
	atFrom
	atTo
)

// board is the state of one attempt.
type board struct {
	g       Graph
	r       Rules
	column  []int // by node
	columns [][]int
	items   []item
	itemOf  []int // by node
	wires   []Wire
	segs    []segment
	byItem  [][]int     // segments that touch an item
	shared  [][]landing // terminals whose wires may change places
	clear   [][]float64
	widths  []float64 // of the columns
	scratch *scratch
}

func newBoard(g Graph, r Rules, columns []int) *board {
	b := &board{g: g, r: r, column: columns, wires: slices.Clone(g.Wires), scratch: &scratch{}}
	b.columns = make([][]int, slices.Max(columns)+1)
	for i, n := range g.Nodes {
		up, down := b.margins(n)
		b.itemOf = append(b.itemOf, b.add(item{node: i, column: columns[i], w: n.W, h: n.H + up + down, up: up}))
	}
	b.widths = b.columnWidths()
	b.clear = b.clearings()
	for i := range b.wires {
		b.lead(i)
	}
	b.index()
	b.shared = b.groups()
	return b
}

func (b *board) add(it item) int {
	it.h = b.ceil(it.h)
	b.items = append(b.items, it)
	id := len(b.items) - 1
	b.columns[it.column] = append(b.columns[it.column], id)
	return id
}

func (b *board) ceil(h float64) float64 { return math.Ceil(h/b.r.Grid-1e-9) * b.r.Grid }

// margins gives the room that flags at a node's pins need beyond its footprint,
// above as a multiple of the grid so that pins stay on it.
func (b *board) margins(n Node) (up, down float64) {
	for _, p := range n.Pins {
		up = math.Max(up, b.r.FlagUp+0.5-p.Y)
		down = math.Max(down, p.Y+b.r.FlagDown+0.5-n.H)
	}
	return b.ceil(up), down
}

// channelOf says in which channel a pin opens and whether at its left edge.
func (b *board) channelOf(e End) (channel int, left bool) {
	c := b.column[e.Node]
	if b.g.pin(e).Side == East {
		return c, true
	}
	return c - 1, false
}

// lead divides a wire into segments, with a lane in each column that it passes.
func (b *board) lead(wire int) {
	w := b.wires[wire]
	from, fromL := b.channelOf(w.From)
	to, toL := b.channelOf(w.To)
	at, atL := b.placeOf(w.From), fromL
	began := len(b.segs)
	for c := from; c != to; {
		next, passed := c+1, c+1
		if to < from {
			next, passed = c-1, c
		}
		lane := place{item: b.add(item{node: -1, column: passed, h: 2 * b.r.Grid}), offset: b.r.Grid, pin: -1}
		b.segs = append(b.segs, segment{wire: wire, channel: c, from: at, fromL: atL, to: lane, toL: to < from})
		at, atL, c = lane, to > from, next
	}
	b.segs = append(b.segs, segment{wire: wire, channel: to, from: at, fromL: atL, to: b.placeOf(w.To), toL: toL})
	if b.betterAtTo(wire) {
		b.segs[len(b.segs)-1].flag = atTo
	} else {
		b.segs[began].flag = atFrom
	}
}

func (b *board) placeOf(e End) place {
	it := b.itemOf[e.Node]
	return place{item: it, offset: b.items[it].up + b.g.pin(e).Y, pin: e.Pin}
}

func (b *board) index() {
	b.byItem = make([][]int, len(b.items))
	for i, s := range b.segs {
		b.byItem[s.from.item] = append(b.byItem[s.from.item], i)
		if s.to.item != s.from.item {
			b.byItem[s.to.item] = append(b.byItem[s.to.item], i)
		}
	}
}

func (b *board) yOf(p place) float64 { return b.items[p.item].y + p.offset }

// straight tells whether a segment crosses its channel without a bend.
func (b *board) straight(s segment) bool {
	return s.fromL != s.toL && math.Abs(b.yOf(s.from)-b.yOf(s.to)) < 1e-6
}
