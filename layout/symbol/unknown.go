package symbol

import (
	"math"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

// question is the mark of what nobody knows.
func (p *pen) question(cx, cy float64) {
	const size = 2.4 * text
	p.Text(cx, cy+size*typeface.CapHeight/2, "?", sheet.Strong(size).At(sheet.Centre))
}

// smallOpenEnd is a wire that stops at a question mark.
func (p *pen) smallOpenEnd() {
	p.line(-half, 0, 0, 0)
	p.cut(0, 0)
	p.word(3.4, 0, "?", true)
}

// cut is the end of a wire that goes on nobody knows where: a short wave across it.
func (p *pen) cut(x, y float64) { p.plumb(x, y-2.4, 4.8, 0.9, 2) }

// openEnd is the end of a wire that nobody has traced: wires from either side stop at
// waves with a question mark between them.
func openEnd(west, east []Use, caption []Line, form Form) Tile {
	l, endL := stack(west, 5, form.Pitch)
	r, endR := stack(east, 5, form.Pitch)
	c := &canvas{w: 9}
	for i, side := range [][]landed{l, r} {
		edge, stop := 0.0, 3.6
		if i == 1 {
			edge, stop = c.w, c.w-3.6
		}
		for _, at := range side {
			for _, y := range at.rows {
				c.Line(edge, y, stop, y, sheet.Rounded(0.7))
				c.cut(stop, y)
			}
			c.volts(stop, at.rows[len(at.rows)-1]+2.2, at.use.Volts)
		}
	}
	at := c.w - 1.9
	if len(west) == 0 {
		at = 1.9
	}
	if len(west) == 0 || len(east) == 0 {
		c.word(at, 5, "?", true)
	}
	c.pinsAt(l, West)
	c.pinsAt(r, East)
	c.h = math.Max(math.Max(endL, endR), 5) + 3 + under(west, east)
	if len(west) > 0 && len(west[0].Volts) > 0 || len(east) > 0 && len(east[0].Volts) > 0 {
		c.h += voltsLeads
	}
	return c.done(caption, form.jointWords())
}
