package loom

import (
	"slices"

	"example.com/loomfolio/layout/sheet"
)

// paintBoard draws the whole board in its own mm.
func (b *board) paintBoard() []sheet.Mark {
	var c sheet.Canvas
	for _, cut := range b.cuts {
		b.paintCut(&c, cut)
	}
	for i := range b.trees {
		d := &b.trees[i]
		b.paintEdges(&c, d)
		for j, l := range d.tree.legs {
			b.paintFill(&c, d.lines[j], b.half(d, j), l)
		}
		b.paintBreaks(&c, d)
		b.paintNails(&c, d)
	}
	for _, l := range b.labels {
		if l.leader != nil {
			c.Line(l.leader.a.X, l.leader.a.Y, l.leader.b.X, l.leader.b.Y, sheet.Solid(sheet.Medium))
		}
		l.block.draw(&c, l.area, l.right, nil)
	}
	return c.Marks
}

const edgeWidth = sheet.Medium

// paintEdges draws the edges of all legs; the fills lie on them, so that nothing
// is seen of them where legs meet.
func (b *board) paintEdges(c *sheet.Canvas, d *Drawing) {
	edge := sheet.Solid(edgeWidth)
	for j, l := range d.lines {
		half := b.half(d, j)
		if d.tree.legs[j].closing {
			c.Polyline(l, sheet.Dashed(sheet.Heavy, 6, 4))
			continue
		}
		for _, p := range l[1 : len(l)-1] {
			c.Polygon(disk(p, half), sheet.Outline(edge))
		}
		for _, s := range l.segments() {
			c.Polygon(s.strip(half), sheet.Outline(edge))
		}
	}
}

// strip is the outline of a straight piece with a width on both sides.
func (s segment) strip(half float64) []point {
	deg := heading(s.a, s.b)
	return []point{toward(s.a, deg+90, half), toward(s.b, deg+90, half), toward(s.b, deg-90, half), toward(s.a, deg-90, half)}
}

// paintFill fills a leg inside its edges, with a tick every 100 mm, or every
// 4 inches, from where its line begins.
func (b *board) paintFill(c *sheet.Canvas, l line, half float64, g leg) {
	if g.closing {
		return
	}
	tint, ok := tints[b.H.Runs[g.run].Cover]
	if !ok {
		tint = sheet.White
	}
	half -= edgeWidth / 2
	for _, p := range l[1 : len(l)-1] {
		c.Polygon(disk(p, half), sheet.Filled(tint))
	}
	for _, s := range l.segments() {
		c.Polygon(s.strip(half), sheet.Filled(tint))
	}
	for mm := b.tick(); mm < l.length(); mm += b.tick() {
		at, deg := l.at(mm)
		p, q := toward(at, deg+90, half), toward(at, deg-90, half)
		c.Line(p.X, p.Y, q.X, q.Y, sheet.Solid(sheet.Thin))
	}
}

// tick is the length that is marked over and over, and of the bar to check the print.
func (b *board) tick() float64 {
	if b.H.Sheet.Imperial {
		return 4 * 25.4
	}
	return 100
}

const (
	breakWide = 5   // between the two lines of a break, mm
	breakOver = 2.5 // how far they reach past the branch
)

// paintBreaks draws the sign of what is left out: two jagged lines across the branch, with
// nothing between them.
func (b *board) paintBreaks(c *sheet.Canvas, d *Drawing) {
	for i, l := range d.tree.legs {
		for _, g := range l.gaps {
			at, deg := d.breakAt(i, g)
			half := b.half(d, i)
			before, after := jagged(toward(at, deg, -breakWide/2), deg, half), jagged(toward(at, deg, breakWide/2), deg, half)
			blank := slices.Clone(after)
			slices.Reverse(blank)
			c.Polygon(append(slices.Clone(before), blank...), sheet.Filled(sheet.White))
			c.Polyline(before, sheet.Solid(sheet.Medium))
			c.Polyline(after, sheet.Solid(sheet.Medium))
		}
	}
}

// across is the middle of a break from side to side.
func (b *board) across(d *Drawing, i int, g gap) segment {
	at, deg := d.breakAt(i, g)
	side := b.half(d, i) + breakOver
	return segment{toward(at, deg-90, side), toward(at, deg+90, side)}
}

// jagged is a line across a branch with a tooth in its middle.
func jagged(at point, deg, half float64) line {
	side := half + breakOver
	tooth := min(2.5, side)
	across := func(mm, along float64) point { return toward(toward(at, deg+90, mm), deg, along) }
	return line{across(-side, 0), across(-tooth/2, 0), across(-tooth/4, 1.6), across(tooth/4, -1.6), across(tooth/2, 0), across(side, 0)}
}

// paintNails draws a nail at each breakout, end and bend, and the splices.
func (b *board) paintNails(c *sheet.Canvas, d *Drawing) {
	for i, l := range d.lines {
		for _, p := range l[1 : len(l)-1] {
			c.Circle(p.X, p.Y, bendNail, sheet.Both(sheet.Solid(sheet.Medium), sheet.White))
			c.Circle(p.X, p.Y, 0.6, sheet.Filled(sheet.Ink))
		}
		for _, s := range b.spots(d, i) {
			c.Circle(s.at.X, s.at.Y, max(dot, b.half(d, i)), sheet.Filled(sheet.Ink))
		}
	}
	for n := range d.tree.nodes {
		p := d.node(n)
		c.Circle(p.X, p.Y, nail, sheet.Both(sheet.Solid(sheet.Thick), sheet.White))
		c.Line(p.X-nail, p.Y, p.X+nail, p.Y, sheet.Solid(sheet.Thin))
		c.Line(p.X, p.Y-nail, p.X, p.Y+nail, sheet.Solid(sheet.Thin))
	}
}

// paintCut draws the way of free wires past a nail, and the mark at which they are cut.
func (b *board) paintCut(c *sheet.Canvas, cut cut) {
	c.Line(cut.a.X, cut.a.Y, cut.b.X, cut.b.Y, sheet.Dashed(sheet.Thin, 3, 2))
	deg := heading(cut.a, cut.b)
	p, q := toward(cut.b, deg+90, 6), toward(cut.b, deg-90, 6)
	c.Line(p.X, p.Y, q.X, q.Y, sheet.Solid(sheet.Thick))
}
