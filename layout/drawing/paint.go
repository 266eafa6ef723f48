package drawing

import (
	"cmp"
	"slices"
	"strings"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/symbol"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
)

// draw places the blocks of one sheet.
func (s *sheets) draw(p leaf) Drawing {
	d := Drawing{Circuits: p.circuitsOn(), Title: s.title(p), Area: s.body}
	var c sheet.Canvas
	for i, row := range p {
		for _, b := range row {
			x, y := s.body.X+b.at, s.body.Y+b.y
			if i > 0 {
				c.Line(x, y-blockGap/2, x+b.wide, y-blockGap/2, sheet.Solid(0.25).In(sheet.Rule))
			}
			s.drawBlock(&c, b, x, y)
			s.drawNotes(&c, b, x, y)
			for _, st := range b.b.strips {
				d.Wires = append(d.Wires, s.mine(st)...)
			}
		}
	}
	d.Marks = c.Marks
	return d
}

// drawBlock sets the head, the strips and the points of a block.
func (s *sheets) drawBlock(c *sheet.Canvas, b setBlock, x, y float64) {
	s.states = b.b.states
	for _, id := range b.b.circuits {
		c.Anchor("circuit/"+s.h.Circuits[id].Key, x, y)
	}
	base := y + 0.9 + sheet.SizeHead*typeface.CapHeight
	c.Text(x, base, s.blockName(b.b), sheet.Strong(sheet.SizeHead))
	lines := s.headLines(b.b, b.wide)
	for i, line := range lines {
		if i == 0 {
			c.Text(x+s.nameWide(b.b)+4, base, line, sheet.Plain(sheet.SizeNote).In(sheet.Grey))
			continue
		}
		c.Text(x, base+headLeads*float64(i), line, sheet.Plain(sheet.SizeNote).In(sheet.Grey))
	}
	if len(b.b.back) > 0 && b.b.first {
		symbol.Line{S: backWords, Items: b.b.back, Grey: true, Note: true}.Put(c, x, base+headLeads*float64(max(len(lines), 1)), sheet.Left)
	}
	y += s.headHigh(b.b, lines)
	for i, row := range b.x.rows {
		for _, sp := range spreadOver(row, b.wide) {
			sp.st.take(row[slices.IndexFunc(row, func(p placed) bool { return p.st == sp.st })].version)
			sp.st.layout = sp.layout
			s.drawStrip(c, sp.st, x+sp.x, y)
		}
		if at := b.x.foot; at.found && i == len(b.x.rows)-1 {
			s.foot(c, b.b, x+at.x, y+at.y, at.w)
			return
		}
		y += rowHigh(row) + stripGap
	}
	s.foot(c, b.b, x, y-stripGap, b.wide)
}

// drawStrip draws rails and wires, then tiles, then flags.
func (s *sheets) drawStrip(c *sheet.Canvas, st *strip, x, y float64) {
	var own sheet.Canvas
	s.rails(&own, st)
	for i, w := range st.graph.wires {
		s.drawWire(&own, w, st.layout.Paths[i])
	}
	mine := setOf(s.mine(st))
	for i, n := range st.graph.nodes {
		at := st.layout.Nodes[i]
		own.Add(sheet.Move(n.tile.Marks, at.X, at.Y)...)
		s.anchors(&own, st, i, mine)
	}
	for i, w := range st.graph.wires {
		if st.graph.Wires[i].Flag > 0 {
			f := s.flag(w, st.form)
			f.lent = !mine[w]
			s.drawFlag(&own, f, st.layout.Flags[i])
			if r := st.layout.Flags[i]; mine[w] {
				own.Anchor("drawn/"+s.h.Wires[w].Name, r.X, r.Y)
			} else {
				own.Link(sheet.Rect(r), "drawn/"+s.h.Wires[w].Name)
			}
		}
	}
	c.Add(sheet.Move(own.Marks, x, y)...)
}

// anchors sets what references to a tile lead to: its part, and each pin with the
// circuits whose wires land there.
func (s *sheets) anchors(c *sheet.Canvas, st *strip, i int, mine set) {
	n, at := st.graph.nodes[i], st.layout.Nodes[i]
	if n.kind == asTag {
		if n.tile.Pins != nil && n.part == harness.None && st.lent.tagged[n.from] {
			c.Anchor(tagAnchor(s.h, n.from, st), at.X, at.Y)
		}
		return
	}
	if n.part >= 0 && s.home[n.part] == st {
		c.Anchor("part/"+s.h.Parts[n.part].Ref, at.X+n.tile.W/2, at.Y+n.tile.H/2)
	}
	for _, p := range n.tile.Pins {
		own, _ := mine.only(append(slices.Clone(s.use[p.Terminal].in), s.use[p.Terminal].out...))
		for _, w := range own {
			c.Anchor(s.pinAnchor(p.Terminal, w), at.X+p.X, at.Y+p.Y)
		}
	}
}

// rails draws the supply bars, the bars at the end and the chassis rails of a strip;
// entries of one rail between which nothing stands are one bar.
func (s *sheets) rails(c *sheet.Canvas, st *strip) {
	for _, key := range st.railKeys() {
		var bar sheet.Rect
		for _, r := range st.entries(key) {
			if joint := bar.Union(r); bar == (sheet.Rect{}) || st.free(joint, key) {
				bar = joint
				continue
			}
			drawBar(c, key, bar)
			bar = r
		}
		drawBar(c, key, bar)
	}
}

// chassisAt begins the keys of the chassis rails.
const chassisAt = "chassis "

func drawBar(c *sheet.Canvas, key string, r sheet.Rect) {
	if strings.HasPrefix(key, chassisAt) {
		symbol.Chassis(c, r)
		return
	}
	c.RoundRect(r.X, r.Y, r.W, r.H, 1, sheet.Filled(sheet.Ink))
}

// railKey names the rail of which a node is an entry, "" for none.
func railKey(n node) string {
	switch {
	case n.kind == asRail || n.kind == asEnd:
		return n.key
	case n.kind == asGround && n.tile.Pins[0].Side == symbol.West:
		return chassisAt + "right"
	case n.kind == asGround:
		return chassisAt + "left"
	}
	return ""
}

func (st *strip) railKeys() []string {
	var keys []string
	for _, n := range st.graph.nodes {
		if k := railKey(n); k != "" && !slices.Contains(keys, k) {
			keys = append(keys, k)
		}
	}
	return keys
}

// entries are the places of a rail's bar at its entries, from top to bottom.
func (st *strip) entries(key string) []sheet.Rect {
	var out []sheet.Rect
	for i, n := range st.graph.nodes {
		if railKey(n) != key {
			continue
		}
		at := st.layout.Nodes[i]
		r := sheet.Rect{X: at.X, Y: at.Y, W: symbol.RailWide, H: n.tile.H}
		if n.tile.Pins[0].Side == symbol.West {
			r.X = at.X + n.tile.W - symbol.RailWide
		}
		out = append(out, r)
	}
	slices.SortFunc(out, func(a, b sheet.Rect) int { return cmp.Compare(a.Y, b.Y) })
	return out
}

// free tells whether no tile but entries of a rail stands in an area.
func (st *strip) free(r sheet.Rect, key string) bool {
	for i, n := range st.graph.nodes {
		if at := st.layout.Nodes[i]; railKey(n) != key && r.Meets(sheet.Rect{X: at.X, Y: at.Y, W: n.tile.W, H: n.tile.H}) {
			return false
		}
	}
	return true
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
