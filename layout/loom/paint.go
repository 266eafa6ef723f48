package loom

import (
	"fmt"
	"math"
	"slices"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// paint draws a laid map with its legend.
func (a drawer) paint(c *sheet.Canvas, d *Drawing) {
	for i, l := range d.tree.legs {
		a.paintLeg(c, d.lines[i], a.half(d, i), l)
		at, _ := d.lines[i].at(d.lines[i].length() / 2)
		c.Anchor(a.RunAnchor(l.run), at.X, at.Y)
	}
	for n := range d.tree.nodes {
		a.paintNode(c, d, n)
	}
	for i := range d.tree.legs {
		for _, s := range a.spots(d, i) {
			c.Circle(s.at.X, s.at.Y, dot, sheet.Both(sheet.Solid(sheet.Medium).In(sheet.White), sheet.Ink))
		}
	}
	for _, l := range d.labels {
		if l.leader != nil {
			c.Line(l.leader.a.X, l.leader.a.Y, l.leader.b.X, l.leader.b.Y, sheet.Solid(sheet.Thin))
		}
		l.block.draw(c, l.area, l.right)
	}
	a.legend(c, d)
}

// dot is the radius of a splice.
const dot = 1.5

// spot is a splice where it lies on the sheet.
type spot struct {
	part *harness.Part
	at   point
}

// spots are the splices along a leg.
func (a drawer) spots(d *Drawing, i int) []spot {
	var out []spot
	l := d.tree.legs[i]
	for _, p := range a.along(l.run) {
		share := float64(p.Along.Distance) / max(l.mm, 1)
		if d.start[i] != l.from {
			share = 1 - share
		}
		at, _ := d.lines[i].at(share * d.lines[i].length())
		out = append(out, spot{p, at})
	}
	return out
}

// paintNode draws a breakout or an end.
func (a drawer) paintNode(c *sheet.Canvas, d *Drawing, n int) {
	at, node := d.node(n), d.tree.nodes[n]
	fill := sheet.White
	c.Circle(at.X, at.Y, nodeRadius, sheet.Both(sheet.Solid(sheet.Thick), fill))
	if node.arrives {
		c.Line(at.X-nodeRadius*0.7, at.Y-nodeRadius*0.7, at.X+nodeRadius*0.7, at.Y+nodeRadius*0.7, sheet.Solid(sheet.Thin))
		c.Line(at.X-nodeRadius*0.7, at.Y+nodeRadius*0.7, at.X+nodeRadius*0.7, at.Y-nodeRadius*0.7, sheet.Solid(sheet.Thin))
		return
	}
	if !node.repeated {
		c.Anchor("place/"+a.H.Places[node.place].Key, at.X, at.Y)
	}
}

// paintLeg draws a branch as a band in the manner of its cover.
func (a drawer) paintLeg(c *sheet.Canvas, l line, half float64, g leg) {
	run := a.H.Runs[g.run]
	if g.closing {
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
func paintBand(c *sheet.Canvas, l line, half float64, name string) {
	tint, ok := tints[name]
	if !ok {
		tint = sheet.White
	}
	c.Polyline(l, sheet.Stroke{Width: 2*half + 0.1, Colour: sheet.Ink})
	c.Polyline(l, sheet.Stroke{Width: 2*half - 0.5, Colour: tint})
	for _, s := range l.segments() {
		cover(c, s, half-0.25, name)
	}
}

// tints lie under the pattern of a cover; they differ in grey as well.
var tints = map[string]sheet.Colour{
	"braid":   {R: 0xc9, G: 0xd6, B: 0xe4},
	"conduit": {R: 0xd9, G: 0xd9, B: 0xd9},
	"tape":    {R: 0xee, G: 0xe3, B: 0xc4},
	"tube":    {R: 0xb9, G: 0xcf, B: 0xb9},
}

// cover draws the pattern of a cover into a band: crossed lines for braid, ribs
// for conduit, slanted turns for tape, one line for a tube, none for bare wires.
func cover(c *sheet.Canvas, s segment, half float64, name string) {
	step := max(1.6, half*1.3)
	slants := map[string][]float64{"braid": {half, -half}, "conduit": {0}, "tape": {half * 0.8}}[name]
	deg := heading(s.a, s.b)
	pen := sheet.Solid(sheet.Hair)
	for x := step; x < s.length()-step*0.6; x += step {
		at := toward(s.a, deg, x)
		for _, slant := range slants {
			p, q := toward(toward(at, deg, slant), deg+90, half), toward(toward(at, deg, -slant), deg-90, half)
			c.Line(p.X, p.Y, q.X, q.Y, pen)
		}
	}
	if name == "tube" {
		c.Line(s.a.X, s.a.Y, s.b.X, s.b.Y, pen)
	}
}

// wave marks the middle of a leg that bends in use.
func wave(c *sheet.Canvas, l line, half float64) {
	long := l.length()
	reach := min(long*0.3, 9)
	var points []point
	for x := -reach; x <= reach; x += 0.5 {
		at, deg := l.at(long/2 + x)
		points = append(points, toward(at, deg+90, (half+0.2)*0.7*math.Sin(x*2*math.Pi/4.5)))
	}
	c.Polyline(points, sheet.Rounded(1.7).In(sheet.White))
	c.Polyline(points, sheet.Rounded(0.6))
}

// legend says under the map how to read it.
func (a drawer) legend(c *sheet.Canvas, d *Drawing) {
	x, y := d.area.X, d.area.Bottom()+4.5
	c.Line(d.area.X, y-3, d.area.Right(), y-3, sheet.Solid(sheet.Thin).In(sheet.Rule))
	for _, name := range a.covers(d) {
		paintBand(c, line{{X: x, Y: y}, {X: x + 11, Y: y}}, 1.6, name)
		x = a.caption(c, x+12.5, y, coverWords(name))
	}
	if a.flexing(d) {
		l := line{{X: x, Y: y}, {X: x + 11, Y: y}}
		paintBand(c, l, 1.6, "")
		wave(c, l, 1.6)
		x = a.caption(c, x+12.5, y, "bends in use")
	}
	if slices.ContainsFunc(d.tree.legs, func(l leg) bool { return l.closing }) {
		c.Line(x, y, x+11, y, closingLine)
		a.caption(c, x+12.5, y, "closes a ring")
	}
	y += 6
	x = d.area.X
	c.Circle(x+nodeRadius+0.3, y, nodeRadius, sheet.Both(sheet.Solid(sheet.Thick), sheet.White))
	x = a.caption(c, x+5, y, "breakout or end")
	if a.splicesAlong(d) {
		c.Circle(x+dot, y, dot, sheet.Filled(sheet.Ink))
		x = a.caption(c, x+4.5, y, "splice")
	}
	a.caption(c, x, y, a.thickText(d))
	a.bar(c, d, y)
}

// caption sets a text of the legend and gives where the next thing may stand.
func (a drawer) caption(c *sheet.Canvas, x, y float64, s string) float64 {
	style := sheet.Plain(sheet.SizeBody)
	c.Text(x, y+style.Size*typeface.CapHeight/2, s, style)
	return x + typeface.Width(s, style.Face, style.Size) + 5
}

func (a drawer) thickText(d *Drawing) string {
	return fmt.Sprintf("⌀ of branches 1:%s, at least %s mm", trim(d.thick), trim(thinnest))
}

func trim(x float64) string { return fmt.Sprintf("%g", x) }

// bar draws the bar of the scale at the right end of the legend.
func (a drawer) bar(c *sheet.Canvas, d *Drawing, y float64) {
	style := sheet.Strong(sheet.SizeBody).At(sheet.Right)
	if d.Scale == 0 {
		c.Text(d.area.Right(), y+style.Size*typeface.CapHeight/2, "Not to scale: the lengths count", style)
		return
	}
	whole, parts := a.barLength(d.Scale)
	long := whole / d.Scale
	text := fmt.Sprintf("Scale 1:%s", trim(d.Scale))
	end := a.length(unit.Millimetre(whole))
	right := d.area.Right() - typeface.Width(end, sheet.Regular, style.Size) - 1.5
	for i := range parts {
		step := long / float64(parts)
		paint := sheet.Both(sheet.Solid(sheet.Thin), sheet.White)
		if i%2 == 0 {
			paint = sheet.Both(sheet.Solid(sheet.Thin), sheet.Ink)
		}
		c.Rect(right-long+step*float64(i), y-0.9, step, 1.8, paint)
	}
	base := y + style.Size*typeface.CapHeight/2
	c.Text(d.area.Right(), base, end, sheet.Plain(sheet.SizeBody).At(sheet.Right))
	c.Text(right-long-2, base, text, style)
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

// covers lists the covers on a map, in the order of its legs.
func (a drawer) covers(d *Drawing) []string {
	var out []string
	for _, l := range d.tree.legs {
		if name := a.H.Runs[l.run].Cover; !slices.Contains(out, name) {
			out = append(out, name)
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

func (a drawer) flexing(d *Drawing) bool {
	return slices.ContainsFunc(d.tree.legs, func(l leg) bool { return a.H.Runs[l.run].Flexes })
}

func (a drawer) splicesAlong(d *Drawing) bool {
	return slices.ContainsFunc(d.tree.legs, func(l leg) bool { return len(a.along(l.run)) > 0 })
}
