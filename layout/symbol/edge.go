package symbol

import (
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness/kind"
)

// edge draws a tile's outline by its role.
func (p *pen) edge(role kind.Role, x, y, w, h float64) {
	switch role {
	case kind.Supplies:
		p.box(x, y, w, h, 0)
		p.Rect(x, y, 1.6, h, sheet.Filled(sheet.Ink))
	case kind.Protects:
		const c = 2.5
		p.shape(x+c, y, x+w-c, y, x+w, y+c, x+w, y+h-c, x+w-c, y+h, x+c, y+h, x, y+h-c, x, y+c)
	case kind.Switches:
		p.openSides(x, y, w, h)
	case kind.Works:
		p.box(x, y, w, h, 4)
	default:
		p.box(x, y, w, h, 0)
	}
}

// openSides leaves the left and the right edge away but for their corners; the
// lower edge is heavy.
func (p *pen) openSides(x, y, w, h float64) {
	const c = 2
	p.Rect(x, y, w, h, sheet.Filled(sheet.White))
	p.path(x, y+c, x, y, x+w, y, x+w, y+c)
	p.path(x, y+h-c, x, y+h, x+w, y+h, x+w, y+h-c)
	p.Line(x, y+h, x+w, y+h, sheet.Solid(0.8))
}

// tabWidth is the width of a tab with a terminal's name on it.
func tabWidth(name string) float64 {
	return max(tab, typeface.Width(name, sheet.Bold, text)+1.6)
}

// tab draws a terminal's tab centred on an edge; an unused one is drawn dashed.
func (p *pen) tab(x, y, h float64, name string, used bool) {
	w := tabWidth(name)
	s := sheet.Rounded(weight)
	if !used {
		s = sheet.Dashed(0.25, 0.8, 0.7).In(sheet.Grey)
	}
	p.RoundRect(x-w/2, y-h/2, w, h, 1, sheet.Both(s, sheet.White))
	p.word(x, y, name, used)
}

// Edge draws the outline of a role about an area, for other drawings than tiles.
func Edge(c *sheet.Canvas, role kind.Role, r sheet.Rect) {
	var p pen
	p.edge(role, r.X, r.Y, r.W, r.H)
	c.Add(p.Marks...)
}
