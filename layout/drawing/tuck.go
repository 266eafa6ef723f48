package drawing

import (
	"math"

	"example.com/loomfolio/layout/diagram"
	"example.com/loomfolio/layout/sheet"
)

// The points to measure stand under a circuit's strips, or, where the circuit has a row
// of a sheet to itself, tucked under that part of its last strips which leaves room.

// tucked is where the points stand, from the block's left edge and from the top of the
// last row of strips.
type tucked struct {
	x, y, w float64
	found   bool
}

// spread is a strip of a row with its place across and its layout at the width that it gets.
type spread struct {
	st     *strip
	x      float64
	layout *diagram.Layout
}

// spreadOver sets the strips of a row over a width as far as they may be.
func spreadOver(row []placed, wide float64) []spread {
	left := wide - sideGap*float64(len(row)-1)
	for _, p := range row {
		left -= p.layout.Least
	}
	var out []spread
	x := 0.0
	for _, p := range row {
		w := p.layout.Least + math.Min(math.Max(p.layout.W-p.layout.Least, 0), math.Max(left, 0)/float64(len(row)))
		out = append(out, spread{p.st, x, p.layout.Wide(w)})
		x += w + sideGap
	}
	return out
}

// covered is what a strip covers, with its rails.
func (v version) covered(l *diagram.Layout) []sheet.Rect {
	var out []sheet.Rect
	for i, n := range v.graph.nodes {
		for _, r := range n.tile.Solid {
			out = append(out, sheet.Rect{X: l.Nodes[i].X + r.X, Y: l.Nodes[i].Y + r.Y, W: r.W, H: r.H})
		}
	}
	for _, path := range l.Paths {
		for i := 1; i < len(path); i++ {
			a, b := path[i-1], path[i]
			out = append(out, sheet.Rect{X: math.Min(a.X, b.X), Y: math.Min(a.Y, b.Y), W: math.Abs(a.X - b.X), H: math.Abs(a.Y - b.Y)}.Inset(-1.2))
		}
	}
	for _, f := range l.Flags {
		out = append(out, sheet.Rect(f))
	}
	st := &strip{graph: v.graph, layout: l}
	for _, key := range st.railKeys() {
		var bar sheet.Rect
		for _, r := range st.entries(key) {
			bar = bar.Union(r)
		}
		out = append(out, bar)
	}
	return out
}

// shares of the width that the points may take, the widest first.
var footShares = []float64{1, 0.8, 0.65, 0.55, 0.45, 0.36}

// footAir is the white above the points, mm.
const footAir = 0.9

// tuck finds the place of the points with which a block that has a row to itself is lowest.
func (s *sheets) tuck(b *block, x *shape) {
	if len(b.dead.points) == 0 {
		return
	}
	last := x.rows[len(x.rows)-1]
	var covered []sheet.Rect
	for i, sp := range spreadOver(last, s.body.W) {
		for _, r := range last[i].covered(sp.layout) {
			r.X += sp.x
			covered = append(covered, r)
		}
	}
	high := rowHigh(last)
	least := high + s.footHigh(b, s.body.W)
	for _, share := range footShares {
		w := share * s.body.W
		if w < footLeast(b.dead) {
			continue
		}
		for _, left := range []float64{0, s.body.W - w} {
			at := tucked{x: left, w: w, found: true}
			for _, r := range covered {
				if r.X < left+w+1 && r.Right() > left-1 {
					at.y = math.Max(at.y, r.Bottom())
				}
			}
			if total := math.Max(high, at.y+s.footHigh(b, w)); total < least-0.5 {
				least, x.foot = total, at
			}
		}
	}
	if x.foot.found {
		x.h += least - high - s.footHigh(b, x.w)
		x.w = s.body.W
	}
}
