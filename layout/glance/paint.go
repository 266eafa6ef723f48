package glance

import (
	"math"

	"example.com/loomfolio/layout/diagram/chart"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/symbol"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
)

// painter draws a chart from its top left corner.
type painter struct {
	a page.Ask
	m *model
	d *Drawn
}

func (p *painter) paint(c *sheet.Canvas) {
	for i, s := range p.m.spots {
		p.group(c, s, p.d.chart.Groups[i], p.d.chart.Names[i])
	}
	for i, w := range p.m.wires {
		p.wire(c, w.ID, p.d.chart.Paths[i])
	}
	for i := range p.a.H.Parts {
		p.tile(c, &p.a.H.Parts[i], p.d.chart.Tiles[i])
	}
	for i, w := range p.m.wires {
		p.flag(c, w.ID, p.d.chart.Flags[i])
	}
}

var groupFill = sheet.Colour{R: 0xee, G: 0xf1, B: 0xf4}

// group draws a place as a pale box with its name.
func (p *painter) group(c *sheet.Canvas, s spot, r sheet.Rect, at sheet.Point) {
	c.RoundRect(r.X, r.Y, r.W, r.H, 3, sheet.Filled(groupFill))
	st := sheet.Strong(sheet.SizeBody)
	for i, line := range s.lines() {
		c.Text(at.X, at.Y+1.2+headLine*float64(i)+st.Size*typeface.CapHeight, line, st)
	}
}

// Lines of wires, mm: finer than on the diagrams, since they lie closer.
const (
	rim    = 0.15 // round the colour
	corner = 1.1
)

// wide is the width of a wire's colour, in the three steps of the diagrams.
func (p *painter) wide(w harness.WireID) float64 {
	steps := map[float64]float64{page.ThinLine: 0.55, page.MediumLine: 0.75, page.HeavyLine: 1}
	if int(w) >= len(p.a.R.Wires) {
		return steps[page.MediumLine]
	}
	return steps[page.LineWeight(float64(p.a.R.Wires[w].Area))]
}

// halo is the white at each side of a line, which parts it from those that it crosses and
// leaves its neighbours whole.
func halo(wide float64) float64 { return min(0.25, chart.Pitch-wide-2*rim) }

// wire draws a line in its colours, with round corners.
func (p *painter) wire(c *sheet.Canvas, w harness.WireID, points []sheet.Point) {
	pair, wide := p.a.Pair(w), p.wide(w)
	c.Add(rounded(points, sheet.Stroke{Width: wide + 2*rim + 2*halo(wide), Colour: sheet.White}))
	var dash []float64
	if p.a.H.Wires[w].Existing {
		dash = []float64{symbol.OwnDash, symbol.OwnGap}
	}
	c.Add(rounded(points, sheet.Stroke{Width: wide + 2*rim, Colour: sheet.Ink, Dash: dash}))
	base := sheet.Rule
	if pair.Base != "" {
		base = page.Shade(pair.Base)
	}
	c.Add(rounded(points, sheet.Stroke{Width: wide, Colour: base, Dash: dash}))
	if pair.Tracer != "" {
		c.Add(rounded(points, sheet.Stroke{Width: wide * 0.5, Colour: page.Shade(pair.Tracer), Dash: []float64{2, 1.4}}))
	}
}

// rounded is a path through points whose corners are rounded as far as its pieces allow.
func rounded(points []sheet.Point, s sheet.Stroke) sheet.Path {
	path := sheet.Path{Start: points[0], Stroke: &s}
	for i := 1; i < len(points)-1; i++ {
		a, b, d := points[i-1], points[i], points[i+1]
		r := math.Min(corner, math.Min(far(a, b), far(b, d))/2)
		from, to := toward(b, a, r), toward(b, d, r)
		c1, c2 := toward(from, b, r*0.5523), toward(to, b, r*0.5523)
		path.Segs = append(path.Segs, sheet.Seg{P: from}, sheet.Seg{P: to, C1: &c1, C2: &c2})
	}
	path.Segs = append(path.Segs, sheet.Seg{P: points[len(points)-1]})
	return path
}

func far(a, b sheet.Point) float64 { return math.Abs(a.X-b.X) + math.Abs(a.Y-b.Y) }

// toward is the point so far from a in the direction of b.
func toward(a, b sheet.Point, d float64) sheet.Point {
	k := d / math.Max(far(a, b), 1e-9)
	return sheet.Point{X: a.X + k*(b.X-a.X), Y: a.Y + k*(b.Y-a.Y)}
}

// tile draws a part: its edge by role, its pictogram, reference and name.
func (p *painter) tile(c *sheet.Canvas, part *harness.Part, r sheet.Rect) {
	t := p.m.tile(part, p.d.shown)
	symbol.Edge(c, kind.RoleOf(part.Kind), r)
	ref := sheet.Strong(sheet.SizeBody)
	if p.d.shown == bare {
		c.Text(r.X+(r.W+inset(part))/2, r.Y+(r.H+ref.Size*typeface.CapHeight)/2, part.Ref, ref.At(sheet.Centre))
	} else {
		x, y := r.X+inset(part)+tilePad+symbol.SmallSide/2, r.Y+(r.H-t.words())/2
		symbol.Small(c, p.a.H, part, x, r.Y+r.H/2)
		x += symbol.SmallSide/2 + tilePad
		c.Text(x, y+0.6+ref.Size*typeface.CapHeight, part.Ref, ref)
		for i, s := range t.name {
			c.Text(x, y+refHigh+nameHigh*float64(i)+0.5+sheet.SizeNote*typeface.CapHeight, s, sheet.Plain(sheet.SizeNote))
		}
	}
	if to := p.a.Link("part/" + part.Ref); to != "" {
		c.Link(r, to)
	}
}

// flag draws a wire's name, and its colours' letters, on its line.
func (p *painter) flag(c *sheet.Canvas, w harness.WireID, r sheet.Rect) {
	f := p.m.flag(w, p.d.shown)
	if f.name == "" {
		return
	}
	base := r.Y + (r.H+sheet.SizeNote*typeface.CapHeight)/2
	thin := sheet.Solid(sheet.Thin)
	c.Rect(r.X, r.Y, f.nameWide(), r.H, sheet.Both(thin, sheet.Ink))
	c.Text(r.X+f.nameWide()/2, base, f.name, sheet.Strong(sheet.SizeNote).At(sheet.Centre).In(sheet.White))
	if f.spec != "" {
		c.Rect(r.X+f.nameWide(), r.Y, f.specWide(), r.H, sheet.Both(thin, sheet.White))
		c.Text(r.X+f.nameWide()+f.specWide()/2, base, f.spec, sheet.Plain(sheet.SizeNote).At(sheet.Centre))
	}
	for _, to := range []string{"drawn/" + f.name, "wire/" + f.name} {
		if p.a.Link(to) != "" {
			c.Link(r, to)
			return
		}
	}
}
