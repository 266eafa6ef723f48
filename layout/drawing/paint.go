package drawing

import (
	"math"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/symbol"
	"example.com/loomfolio/layout/typeface"
)

// draw places the strips of one sheet.
func (s *sheets) draw(group []*strip) Drawing {
	d := Drawing{Circuits: circuitsOf(group)}
	d.Title, d.Subtitle = s.titles(group)
	d.Area = s.area(d.Title, d.Subtitle)
	var c sheet.Canvas
	band := s.bandHeight(group)
	rows := len(s.rows(group))
	air := max(min((d.Area.H-band-s.needs(group))/float64(rows+1), 14), 0)
	spots, _ := s.arrange(group, air)
	var above *spot
	for i := range spots {
		sp := &spots[i]
		sp.x, sp.y = sp.x+d.Area.X, sp.y+d.Area.Y+air
		sp.st.layout = sp.st.layout.Wide(sp.w)
		if sp.head {
			s.head(&c, sp, len(d.Circuits) > 1)
		}
		c.Anchor(s.stripAnchor(sp.st), sp.x, sp.y)
		if sp.x == d.Area.X {
			joinChassis(&c, above, sp)
			above = sp
		}
		s.drawStrip(&c, sp.st, sp.x, sp.y)
		d.Wires = append(d.Wires, sp.st.wires...)
	}
	s.band(&c, group, sheet.Rect{X: d.Area.X, Y: d.Area.Bottom() - band, W: d.Area.W, H: band})
	d.Marks = c.Marks
	return d
}

// head marks the place of a circuit and sets its name where several share a sheet.
func (s *sheets) head(c *sheet.Canvas, sp *spot, shown bool) {
	circuit := s.h.Circuits[sp.st.circuits[0]]
	if !shown {
		c.Anchor("circuit/"+circuit.Key, sp.x, sp.y)
		return
	}
	y := sp.y - stripHead
	c.Anchor("circuit/"+circuit.Key, sp.x, y)
	c.Text(sp.x, y+sheet.SizeHead*typeface.CapHeight, circuitName(circuit)+s.share[circuit.ID], sheet.Strong(sheet.SizeHead))
}

// drawStrip draws rails and wires, then tiles, then flags.
func (s *sheets) drawStrip(c *sheet.Canvas, st *strip, x, y float64) {
	var own sheet.Canvas
	s.rails(&own, st)
	for i, w := range st.graph.wires {
		s.drawWire(&own, w, st.layout.Paths[i])
	}
	for i, n := range st.graph.nodes {
		at := st.layout.Nodes[i]
		own.Add(sheet.Move(n.tile.Marks, at.X, at.Y)...)
		for _, a := range []string{n.anchor, n.also} {
			if a != "" {
				own.Anchor(a, at.X+n.tile.W/2, at.Y+n.tile.H/2)
			}
		}
	}
	for i, w := range st.graph.wires {
		if w >= 0 && st.graph.Wires[i].Flag > 0 {
			s.drawFlag(&own, s.flag(w, st.form), st.layout.Flags[i])
		}
	}
	c.Add(sheet.Move(own.Marks, x, y)...)
}

// rails draws the supply bars and the chassis rails of a strip.
func (s *sheets) rails(c *sheet.Canvas, st *strip) {
	bars := map[string]sheet.Rect{}
	var keys []string
	for i, n := range st.graph.nodes {
		at := st.layout.Nodes[i]
		key, r := "", sheet.Rect{}
		switch {
		case n.kind == asRail:
			key, r = n.key, sheet.Rect{X: at.X, Y: at.Y, W: symbol.RailWide, H: n.tile.H}
		case n.kind == asGround && n.tile.Pins[0].Side == symbol.West:
			key, r = "right", sheet.Rect{X: at.X + n.tile.W - symbol.RailWide, Y: at.Y, W: symbol.RailWide, H: n.tile.H}
		case n.kind == asGround:
			key, r = "left", sheet.Rect{X: at.X, Y: at.Y, W: symbol.RailWide, H: n.tile.H}
		default:
			continue
		}
		if _, ok := bars[key]; !ok {
			keys = append(keys, key)
		}
		bars[key] = bars[key].Union(r)
	}
	for _, k := range keys {
		if r := bars[k]; k == "right" || k == "left" {
			symbol.Chassis(c, r)
		} else {
			c.RoundRect(r.X, r.Y, r.W, r.H, 1, sheet.Filled(sheet.Ink))
		}
	}
}

// joinChassis draws the chassis rail on from one strip to the next where nothing
// stands between.
func joinChassis(c *sheet.Canvas, above, sp *spot) {
	if above == nil {
		return
	}
	up, down := above.st.chassis(), sp.st.chassis()
	if sp.head && sp.name > up.X {
		return
	}
	if up.H == 0 || down.H == 0 || math.Abs(up.X-down.X) > 0.01 || above.st.beyond(up, true) || sp.st.beyond(down, false) {
		return
	}
	from := above.y + up.Bottom()
	symbol.Chassis(c, sheet.Rect{X: sp.x + up.X, Y: from, W: up.W, H: sp.y + down.Y - from})
}

// chassis is the strip's rail at the right, of no height where it has none.
func (st *strip) chassis() sheet.Rect {
	var r sheet.Rect
	for i, n := range st.graph.nodes {
		if at := st.layout.Nodes[i]; n.kind == asGround && n.tile.Pins[0].Side == symbol.West {
			r = r.Union(sheet.Rect{X: at.X + n.tile.W - symbol.RailWide, Y: at.Y, W: symbol.RailWide, H: n.tile.H})
		}
	}
	return r
}

// beyond tells whether a tile stands below (or above) the rail in its column.
func (st *strip) beyond(r sheet.Rect, below bool) bool {
	for i, n := range st.graph.nodes {
		at := st.layout.Nodes[i]
		if n.kind == asGround || at.X+n.tile.W < r.X-0.5 {
			continue
		}
		if (below && at.Y > r.Y) || (!below && at.Y < r.Bottom()) {
			return true
		}
	}
	return false
}

// refer puts a reference into a text and links it.
func refer(c *sheet.Canvas, t sheet.Text, where, link func(anchor string) string) sheet.Text {
	s, anchor := symbol.Resolve(t.S, where)
	if anchor == "" {
		return t
	}
	t.S = s
	if target := link(anchor); target != "" && s != "" {
		c.Link(typeface.TextBounds(t), target)
	}
	return t
}
