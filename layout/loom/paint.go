package loom

import (
	"fmt"
	"math"
	"slices"

	"example.com/loomfolio/layout/loom/laid"

	"example.com/loomfolio/layout/loom/branch"
	"example.com/loomfolio/layout/loom/plane"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/unit"
)

// paint draws a part of the map with the rows over and under it.
func (a drawer) paint(c *sheet.Canvas, d *Drawing) {
	for i, l := range d.Tree.Legs {
		a.paintLeg(c, d.Lines[i], a.Half(&d.Legs, i), l)
		at, _ := d.Lines[i].At(d.Lines[i].Length() / 2)
		c.Anchor(a.RunAnchor(l.Run), at.X, at.Y)
	}
	for n := range d.Tree.Nodes {
		a.paintNode(c, d, n)
	}
	for i := range d.Tree.Legs {
		for _, s := range a.Spots(&d.Legs, i) {
			c.Circle(s.At.X, s.At.Y, laid.Dot, sheet.Both(sheet.Solid(sheet.Medium).In(sheet.White), sheet.Ink))
		}
	}
	for _, l := range d.labels {
		if l.Leader != nil {
			c.Line(l.Leader.A.X, l.Leader.A.Y, l.Leader.B.X, l.Leader.B.Y, sheet.Solid(sheet.Thin))
		}
		l.Block.Draw(c, l.Area, l.Right, a.Link)
	}
	if d.of > 1 {
		c.Text(d.Area.X, d.Area.Y-d.above()+sheet.SizeHead*typeface.CapHeight, a.partTitle(d), sheet.Strong(sheet.SizeHead))
	}
	d.paintSides(c)
}

// partTitle names a part of a map by the ends of its trunk, and its scale.
func (a drawer) partTitle(d *Drawing) string {
	trunk := d.Limbs[0]
	name := func(n int) string { return a.H.Places[d.Tree.Nodes[n].Place].Name }
	return fmt.Sprintf("Part %d of %d: %s – %s, %s", d.part, d.of, name(trunk.Nodes[0]), name(trunk.End()), d.scaleWords())
}

func (d *Drawing) scaleWords() string {
	if d.Scale == 0 {
		return "not to scale"
	}
	return "scale 1:" + trim(d.Scale)
}

// paintSides names the sides of the vehicle at the edges of a part.
func (d *Drawing) paintSides(c *sheet.Canvas) {
	over, under := d.Area.Y-edgeHigh/2-0.5, d.Area.Bottom()+edgeHigh/2
	middle := d.Area.X + d.Area.W/2
	if d.Front {
		sideWord(c, plane.Point{X: d.Area.X, Y: over}, "front", 180, sheet.Left)
	}
	if d.Rear {
		sideWord(c, plane.Point{X: d.Area.Right(), Y: over}, "rear", 0, sheet.Right)
	}
	if d.Right {
		sideWord(c, plane.Point{X: middle, Y: over}, "right", 270, sheet.Left)
	}
	if d.Left {
		sideWord(c, plane.Point{X: middle, Y: under}, "left", 90, sheet.Left)
	}
}

// sideWord sets a word with an arrow in a direction, from an edge inwards.
func sideWord(c *sheet.Canvas, at plane.Point, word string, deg float64, align sheet.Align) {
	const long, half = 3.2, 1.4
	style := sheet.Strong(sheet.SizeBody).At(align)
	in := 1.0
	if align == sheet.Right {
		in = -1
	}
	mid := plane.Point{X: at.X + in*long/2, Y: at.Y}
	tip, foot := plane.Toward(mid, deg, long/2), plane.Toward(mid, deg, -long/2)
	c.Polygon([]plane.Point{tip, plane.Toward(foot, deg+90, half), plane.Toward(foot, deg-90, half)}, sheet.Filled(sheet.Ink))
	c.Text(at.X+in*(long+1.6), at.Y+style.Size*typeface.CapHeight/2, word, style)
}

// paintNode draws a breakout or an end.
func (a drawer) paintNode(c *sheet.Canvas, d *Drawing, n int) {
	at, node := d.Node(n), d.Tree.Nodes[n]
	fill := sheet.White
	c.Circle(at.X, at.Y, nodeRadius, sheet.Both(sheet.Solid(sheet.Thick), fill))
	if node.Arrives {
		c.Line(at.X-nodeRadius*0.7, at.Y-nodeRadius*0.7, at.X+nodeRadius*0.7, at.Y+nodeRadius*0.7, sheet.Solid(sheet.Thin))
		c.Line(at.X-nodeRadius*0.7, at.Y+nodeRadius*0.7, at.X+nodeRadius*0.7, at.Y-nodeRadius*0.7, sheet.Solid(sheet.Thin))
		return
	}
	if !node.Repeated {
		c.Anchor("place/"+a.H.Places[node.Place].Key, at.X, at.Y)
	}
}

// paintLeg draws a branch as a band in the manner of its cover.
func (a drawer) paintLeg(c *sheet.Canvas, l plane.Line, half float64, g branch.Leg) {
	run := a.H.Runs[g.Run]
	if g.Closing {
		c.Polyline(l, closingLine)
		return
	}
	paintBand(c, l, half, run.Cover)
	if run.Flexes {
		wave(c, l, half)
	}
}

var closingLine = sheet.Dashed(sheet.Thick, 2, 1.4)

// paintBand draws a line as thick as its bundle, in the manner of its cover.
func paintBand(c *sheet.Canvas, l plane.Line, half float64, name string) {
	tint := laid.Tint(name)
	c.Polyline(l, sheet.Stroke{Width: 2*half + 0.1, Colour: sheet.Ink})
	c.Polyline(l, sheet.Stroke{Width: 2*half - 0.5, Colour: tint})
	for _, s := range l.Segments() {
		cover(c, s, half-0.25, name)
	}
}

// cover draws the pattern of a cover into a band: crossed lines for braid, ribs
// for conduit, slanted turns for tape, one line for a tube, none for bare wires.
func cover(c *sheet.Canvas, s plane.Segment, half float64, name string) {
	step := max(1.6, half*1.3)
	slants := map[string][]float64{"braid": {half, -half}, "conduit": {0}, "tape": {half * 0.8}}[name]
	deg := plane.Heading(s.A, s.B)
	pen := sheet.Solid(sheet.Hair)
	for x := step; x < s.Length()-step*0.6; x += step {
		at := plane.Toward(s.A, deg, x)
		for _, slant := range slants {
			p, q := plane.Toward(plane.Toward(at, deg, slant), deg+90, half), plane.Toward(plane.Toward(at, deg, -slant), deg-90, half)
			c.Line(p.X, p.Y, q.X, q.Y, pen)
		}
	}
	if name == "tube" {
		c.Line(s.A.X, s.A.Y, s.B.X, s.B.Y, pen)
	}
}

// wave marks the middle of a leg that bends in use.
func wave(c *sheet.Canvas, l plane.Line, half float64) {
	long := l.Length()
	reach := min(long*0.3, 9)
	var points []plane.Point
	for x := -reach; x <= reach; x += 0.5 {
		at, deg := l.At(long/2 + x)
		points = append(points, plane.Toward(at, deg+90, (half+0.2)*0.7*math.Sin(x*2*math.Pi/4.5)))
	}
	c.Polyline(points, sheet.Rounded(1.7).In(sheet.White))
	c.Polyline(points, sheet.Rounded(0.6))
}

// legend says under the parts on a sheet how to read them, and gives where it ends.
func (a drawer) legend(c *sheet.Canvas, parts []Drawing, r sheet.Rect) (bottom float64) {
	x, y := r.X, r.Y+4
	c.Line(r.X, y-3, r.Right(), y-3, sheet.Solid(sheet.Thin).In(sheet.Rule))
	for _, name := range a.covers(parts) {
		paintBand(c, plane.Line{{X: x, Y: y}, {X: x + 11, Y: y}}, 1.6, name)
		x = a.caption(c, x+13.5, y, coverWords(name))
	}
	if a.some(parts, func(l branch.Leg) bool { return a.H.Runs[l.Run].Flexes }) {
		l := plane.Line{{X: x, Y: y}, {X: x + 11, Y: y}}
		paintBand(c, l, 1.6, "")
		wave(c, l, 1.6)
		x = a.caption(c, x+13.5, y, "flexes in use")
	}
	if a.some(parts, func(l branch.Leg) bool { return l.Closing }) {
		c.Line(x, y, x+11, y, closingLine)
		a.caption(c, x+13.5, y, "closes a ring")
	}
	a.marks(c, parts, sheet.Rect{X: r.X, Y: y + 5.5, W: r.W})
	return y + 5.5 + 3.5
}

// marks is the lower row of the legend: nodes, splices, and the scales.
func (a drawer) marks(c *sheet.Canvas, parts []Drawing, r sheet.Rect) {
	x, y := r.X, r.Y
	c.Circle(x+nodeRadius+0.3, y, nodeRadius, sheet.Both(sheet.Solid(sheet.Thick), sheet.White))
	x = a.caption(c, x+5, y, "breakout or end")
	if a.some(parts, func(l branch.Leg) bool { return len(a.Along(l.Run)) > 0 }) {
		c.Circle(x+laid.Dot, y, laid.Dot, sheet.Filled(sheet.Ink))
		x = a.caption(c, x+4.5, y, "splice")
	}
	a.caption(c, x, y, a.thickText(parts))
	a.bar(c, parts, r)
}

// some tells whether some leg on a sheet is such.
func (a drawer) some(parts []Drawing, such func(branch.Leg) bool) bool {
	return slices.ContainsFunc(parts, func(d Drawing) bool { return slices.ContainsFunc(d.Tree.Legs, such) })
}

// caption sets a text of the legend and gives where the next thing may stand.
func (a drawer) caption(c *sheet.Canvas, x, y float64, s string) float64 {
	style := sheet.Plain(sheet.SizeBody)
	c.Text(x, y+style.Size*typeface.CapHeight/2, s, style)
	return x + typeface.Width(s, style.Face, style.Size) + 5
}

// thickText says how thick branches are drawn.
func (a drawer) thickText(parts []Drawing) string {
	var scales []string
	for _, d := range parts {
		if s := "1:" + trim(d.Thick); !slices.Contains(scales, s) {
			scales = append(scales, s)
		}
	}
	least := page.Either(a.H.Sheet.Imperial, fmt.Sprintf("%.2f in", laid.Thinnest/page.MillimetresInInch), trim(laid.Thinnest)+" mm")
	return fmt.Sprintf("branch widths at %s, at least %s", page.And(scales), least)
}

func trim(x float64) string { return fmt.Sprintf("%g", x) }

// bar draws the bar of the scale at the right end of the legend, and says the scale;
// where the parts on the sheet have several, each has said its own.
func (a drawer) bar(c *sheet.Canvas, parts []Drawing, r sheet.Rect) {
	d := &parts[0]
	if slices.ContainsFunc(parts, func(o Drawing) bool { return o.Scale != d.Scale }) {
		return
	}
	style := sheet.Strong(sheet.SizeBody).At(sheet.Right)
	base := r.Y + style.Size*typeface.CapHeight/2
	if d.Scale == 0 {
		c.Text(r.Right(), base, "Not to scale: go by the lengths", style)
		return
	}
	whole, pieces := a.barLength(d.Scale)
	long := whole / d.Scale
	end := a.Length(unit.Millimetre(whole))
	right := r.Right() - typeface.Width(end, sheet.Regular, style.Size) - 1.5
	for i := range pieces {
		step := long / float64(pieces)
		paint := sheet.Both(sheet.Solid(sheet.Thin), sheet.White)
		if i%2 == 0 {
			paint = sheet.Both(sheet.Solid(sheet.Thin), sheet.Ink)
		}
		c.Rect(right-long+step*float64(i), r.Y-0.9, step, 1.8, paint)
	}
	c.Text(r.Right(), base, end, sheet.Plain(sheet.SizeBody).At(sheet.Right))
	c.Text(right-long-2, base, "Scale 1:"+trim(d.Scale), style)
}

// barLength is a round length of the loom that is 30 to 60 mm on the sheet, and
// into how many parts it is divided.
func (a drawer) barLength(scale float64) (mm float64, parts int) {
	rounds := []float64{20, 50, 100, 200, 500, 1000, 2000, 5000}
	if a.H.Sheet.Imperial {
		rounds = []float64{25.4, 50.8, 6 * 25.4, 304.8, 2 * 304.8, 3 * 304.8, 5 * 304.8, 10 * 304.8}
	}
	mm = rounds[0]
	for _, r := range rounds {
		if r/scale <= 60 {
			mm = r
		}
	}
	return mm, 4
}

// covers lists the covers on a sheet, in the order of its legs.
func (a drawer) covers(parts []Drawing) []string {
	var out []string
	for _, d := range parts {
		for _, l := range d.Tree.Legs {
			if name := a.H.Runs[l.Run].Cover; !slices.Contains(out, name) {
				out = append(out, name)
			}
		}
	}
	return out
}

func coverWords(name string) string {
	if name == "" || name == "none" {
		return "no cover"
	}
	return name
}
