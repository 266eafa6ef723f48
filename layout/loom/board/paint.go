package board

import (
	"slices"

	"example.com/loomfolio/layout/loom/laid"

	"example.com/loomfolio/layout/loom/branch"
	"example.com/loomfolio/layout/loom/plane"

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
		for j, l := range d.Tree.Legs {
			b.paintFill(&c, d.Lines[j], b.Half(d, j), l)
		}
		b.paintBreaks(&c, d)
		b.paintNails(&c, d)
	}
	for _, l := range b.labels {
		if l.Leader != nil {
			c.Line(l.Leader.A.X, l.Leader.A.Y, l.Leader.B.X, l.Leader.B.Y, sheet.Solid(sheet.Medium))
		}
		l.Block.Draw(&c, l.Area, l.Right, nil)
	}
	return c.Marks
}

const edgeWidth = sheet.Medium

// paintEdges draws the edges of all legs; the fills lie on them, so that nothing
// is seen of them where legs meet.
func (b *board) paintEdges(c *sheet.Canvas, d *laid.Legs) {
	edge := sheet.Solid(edgeWidth)
	for j, l := range d.Lines {
		half := b.Half(d, j)
		if d.Tree.Legs[j].Closing {
			c.Polyline(l, sheet.Dashed(sheet.Heavy, 6, 4))
			continue
		}
		for _, p := range l[1 : len(l)-1] {
			c.Polygon(disk(p, half), sheet.Outline(edge))
		}
		for _, s := range l.Segments() {
			c.Polygon(s.Strip(half), sheet.Outline(edge))
		}
	}
}

// paintFill fills a leg inside its edges, with a tick every 100 mm, or every
// 4 inches, from where its line begins.
func (b *board) paintFill(c *sheet.Canvas, l plane.Line, half float64, g branch.Leg) {
	if g.Closing {
		return
	}
	tint := laid.Tint(b.H.Runs[g.Run].Cover)
	half -= edgeWidth / 2
	for _, p := range l[1 : len(l)-1] {
		c.Polygon(disk(p, half), sheet.Filled(tint))
	}
	for _, s := range l.Segments() {
		c.Polygon(s.Strip(half), sheet.Filled(tint))
	}
	for mm := b.tick(); mm < l.Length(); mm += b.tick() {
		at, deg := l.At(mm)
		p, q := plane.Toward(at, deg+90, half), plane.Toward(at, deg-90, half)
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
func (b *board) paintBreaks(c *sheet.Canvas, d *laid.Legs) {
	for i, l := range d.Tree.Legs {
		for _, g := range l.Gaps {
			at, deg := breakAt(d, i, g)
			half := b.Half(d, i)
			before, after := jagged(plane.Toward(at, deg, -breakWide/2), deg, half), jagged(plane.Toward(at, deg, breakWide/2), deg, half)
			blank := slices.Clone(after)
			slices.Reverse(blank)
			c.Polygon(append(slices.Clone(before), blank...), sheet.Filled(sheet.White))
			c.Polyline(before, sheet.Solid(sheet.Medium))
			c.Polyline(after, sheet.Solid(sheet.Medium))
		}
	}
}

// across is the middle of a break from side to side.
func (b *board) across(d *laid.Legs, i int, g branch.Gap) plane.Segment {
	at, deg := breakAt(d, i, g)
	side := b.Half(d, i) + breakOver
	return plane.Segment{A: plane.Toward(at, deg-90, side), B: plane.Toward(at, deg+90, side)}
}

// jagged is a line across a branch with a tooth in its middle.
func jagged(at plane.Point, deg, half float64) plane.Line {
	side := half + breakOver
	tooth := min(2.5, side)
	across := func(mm, along float64) plane.Point { return plane.Toward(plane.Toward(at, deg+90, mm), deg, along) }
	return plane.Line{across(-side, 0), across(-tooth/2, 0), across(-tooth/4, 1.6), across(tooth/4, -1.6), across(tooth/2, 0), across(side, 0)}
}

// paintNails draws a nail at each breakout, end and bend, and the splices.
func (b *board) paintNails(c *sheet.Canvas, d *laid.Legs) {
	for i, l := range d.Lines {
		for _, p := range l[1 : len(l)-1] {
			c.Circle(p.X, p.Y, bendNail, sheet.Both(sheet.Solid(sheet.Medium), sheet.White))
			c.Circle(p.X, p.Y, 0.6, sheet.Filled(sheet.Ink))
		}
		for _, s := range b.Spots(d, i) {
			c.Circle(s.At.X, s.At.Y, max(laid.Dot, b.Half(d, i)), sheet.Filled(sheet.Ink))
		}
	}
	for n := range d.Tree.Nodes {
		p := d.Node(n)
		c.Circle(p.X, p.Y, nail, sheet.Both(sheet.Solid(sheet.Thick), sheet.White))
		c.Line(p.X-nail, p.Y, p.X+nail, p.Y, sheet.Solid(sheet.Thin))
		c.Line(p.X, p.Y-nail, p.X, p.Y+nail, sheet.Solid(sheet.Thin))
	}
}

// paintCut draws the way of free wires past a nail, and the mark at which they are cut.
func (b *board) paintCut(c *sheet.Canvas, cut cut) {
	c.Line(cut.A.X, cut.A.Y, cut.B.X, cut.B.Y, sheet.Dashed(sheet.Thin, 3, 2))
	deg := plane.Heading(cut.A, cut.B)
	p, q := plane.Toward(cut.B, deg+90, 6), plane.Toward(cut.B, deg-90, 6)
	c.Line(p.X, p.Y, q.X, q.Y, sheet.Solid(sheet.Thick))
}
