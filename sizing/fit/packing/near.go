package packing

import (
	"math"
	"math/bits"
)

// slack is how far apart two circles may lie, in largest radii, that may touch
// within a few steps.
const slack = 0.6

// plainly is how many circles are compared each with each; of more, those in cells
// close by.
const plainly = 100

// room is what near works in, kept from call to call.
type room struct {
	pairs [][2]int32
	found []uint64 // a bit a circle
	grids []grid
}

// near lists the pairs that are close enough to touch within a few steps, in the
// order of the first and then the second, which is the lower. The list holds until
// the next call.
func (p *press) near(at []point) [][2]int32 {
	p.room.pairs = p.room.pairs[:0]
	if len(at) <= plainly {
		p.room.pairs = p.nearOf(at, p.room.pairs)
		return p.room.pairs
	}
	if p.room.found == nil {
		p.room.found = make([]uint64, (len(at)+63)/64)
	}
	sizes, found, out := p.sizes(at), p.room.found, p.room.pairs
	for i := range at {
		for k := range sizes {
			if sizes[k].from < i {
				sizes[k].mark(p, at, i, found)
			}
		}
		for word := range found[:i/64+1] {
			for ; found[word] != 0; found[word] &= found[word] - 1 {
				out = append(out, [2]int32{int32(i), int32(64*word + bits.TrailingZeros64(found[word]))})
			}
		}
	}
	p.room.pairs = out
	return out
}

func (p *press) nearOf(at []point, out [][2]int32) [][2]int32 {
	for i := range at {
		for j := range i {
			if p.close(at, i, j) {
				out = append(out, [2]int32{int32(i), int32(j)})
			}
		}
	}
	return out
}

func (p *press) close(at []point, i, j int) bool {
	reach := p.radii[i] + p.radii[j] + slack
	dx, dy := at[i].x-at[j].x, at[i].y-at[j].y
	return dx*dx+dy*dy < reach*reach
}

// grid is circles of about one size in square cells, row by row.
type grid struct {
	from, to  int     // the circles are these, from the largest on
	left, low float64 // the corner of the first cell
	wide      int     // cells in a row
	start     []int32 // by cell: the first of its circles in list; one more at the end
	list      []int32
	next      []int32 // by cell, while it is filled
}

// cell is the side of a cell in largest radii.
const cell = 0.5

// sizes parts the circles where the radius has halved, and lays each part out.
func (p *press) sizes(at []point) []grid {
	k := 0
	for from := 0; from < len(at); k++ {
		to := from
		for to < len(at) && p.radii[to] > p.radii[from]/2 {
			to++
		}
		if k == len(p.room.grids) {
			p.room.grids = append(p.room.grids, grid{})
		}
		p.room.grids[k].fill(at, from, to)
		from = to
	}
	return p.room.grids[:k]
}

func (g *grid) fill(at []point, from, to int) {
	g.from, g.to, g.left, g.low = from, to, math.Inf(1), math.Inf(1)
	right, high := math.Inf(-1), math.Inf(-1)
	for _, q := range at[from:to] {
		g.left, right = math.Min(g.left, q.x), math.Max(right, q.x)
		g.low, high = math.Min(g.low, q.y), math.Max(high, q.y)
	}
	g.wide = int((right-g.left)/cell) + 1
	cells := g.wide * (int((high-g.low)/cell) + 1)
	g.start = append(g.start[:0], make([]int32, cells+1)...)
	for _, q := range at[from:to] {
		g.start[g.of(q)+1]++
	}
	for c := range g.start[1:] {
		g.start[c+1] += g.start[c]
	}
	g.next = append(g.next[:0], g.start...)
	g.list = append(g.list[:0], make([]int32, to-from)...)
	for i := from; i < to; i++ {
		c := g.of(at[i])
		g.list[g.next[c]] = int32(i)
		g.next[c]++
	}
}

func (g *grid) of(q point) int {
	return int((q.y-g.low)/cell)*g.wide + int((q.x-g.left)/cell)
}

// mark sets the bits of the circles before one that are close to it.
func (g *grid) mark(p *press, at []point, i int, found []uint64) {
	reach := p.radii[i] + p.radii[g.from] + slack
	rows := (len(g.start) - 1) / g.wide
	x0, x1 := within(at[i].x-reach-g.left, g.wide), within(at[i].x+reach-g.left, g.wide)
	y0, y1 := within(at[i].y-reach-g.low, rows), within(at[i].y+reach-g.low, rows)
	for y := y0; y <= y1; y++ {
		for _, j := range g.list[g.start[y*g.wide+x0]:g.start[y*g.wide+x1+1]] {
			if int(j) < i && p.close(at, i, int(j)) {
				found[j/64] |= 1 << (j % 64)
			}
		}
	}
}

// within gives the cell at a distance from the first, no further than there are.
func within(d float64, cells int) int {
	return int(math.Max(0, math.Min(d/cell, float64(cells-1))))
}
