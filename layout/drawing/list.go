package drawing

import (
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
)

// list writes a strip's wires line by line.
func (s *sheets) list(st *strip) []Drawing {
	const line, column = 6.0, 85.0
	d := Drawing{Title: circuitName(s.h.Circuits[st.circuits[0]]), Subtitle: "listed wire by wire: no diagram of these could be laid out", Circuits: st.circuits, Wires: st.wires}
	d.Area = s.area(d.Title, d.Subtitle)
	var out []Drawing
	var c sheet.Canvas
	c.Anchor("circuit/"+s.h.Circuits[st.circuits[0]].Key, d.Area.X, d.Area.Y)
	x, y := d.Area.X, d.Area.Y+line
	for _, w := range st.wires {
		if y > d.Area.Bottom() {
			x, y = x+column, d.Area.Y+line
		}
		if x+column > d.Area.Right() {
			d.Marks = c.Marks
			out = append(out, d)
			c, x, y = sheet.Canvas{}, d.Area.X, d.Area.Y+line
		}
		s.listWire(&c, x, y, column, w)
		y += line
	}
	d.Marks = c.Marks
	return append(out, d)
}

func (s *sheets) listWire(c *sheet.Canvas, x, y, wide float64, id harness.WireID) {
	w := s.h.Wires[id]
	c.Anchor("drawn/"+w.Name, x, y)
	c.Text(x, y, w.Name, sheet.Strong(sheet.SizeBody))
	ends := s.h.Terminals[w.From].Full + " → " + s.h.Terminals[w.To].Full
	c.Text(x+12, y, typeface.Fit(ends, sheet.Regular, sheet.SizeBody, wide-46), sheet.Plain(sheet.SizeBody))
	c.Text(x+wide-4, y, s.spec(id), sheet.Plain(sheet.SizeBody).At(sheet.Right))
}
