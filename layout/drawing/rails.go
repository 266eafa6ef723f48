package drawing

import (
	"math"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/symbol"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
)

// Sizes of the overview, mm.
const (
	leastWide = 72.0 // of a column
	gutter    = 11.0 // to the right of each column, for the lines between rails
	lanes     = 7.0  // above the columns
	nextLine  = 4.1
	railIn    = 3.5 // from the column's edge to the rail's middle
	stub      = 4.0 // from the rail to the words
	deeper    = 5.0 // what stands below a circuit is moved in
	refWide   = 13.0
)

// pace is how close the rows of the overview stand, mm.
type pace struct {
	row, head, gap float64
}

// paces are tried in this order; the first is taken that needs the fewest sheets.
var paces = []pace{{row: 5.6, head: 8, gap: 5}, {row: 5, head: 7.5, gap: 4}, {row: 4.6, head: 6.8, gap: 3}}

// overview draws what feeds what: supplies, panels and bars as rails from which
// their circuits hang in order, with lines from a circuit to the rails that it
// feeds, on as many sheets as that takes.
func (s *sheets) overview() []Drawing {
	all := s.railsOf(s.feeders())
	if len(s.h.Circuits) < 2 || len(all) == 0 {
		return nil
	}
	const title, sub = "Overview", "what feeds what; at each circuit its first fuse, and the sheet and zone in which it is drawn"
	area := s.area(title, sub)
	columns := max(1, int(area.W/(leastWide+gutter)))
	wide := area.W/float64(columns) - gutter
	for i := range all {
		for j := range all[i].rows {
			r := &all[i].rows[j]
			r.words = wordsIn(circuitName(s.h.Circuits[r.circuit]), wide-wordsAt(all[i], *r)-refWide)
		}
	}
	var pages [][]rail
	for _, p := range paces {
		for i := range all {
			all[i].pace = p
		}
		if placed := placeRails(all, area, columns, wide); pages == nil || len(placed) < len(pages) {
			pages = placed
		}
	}
	var out []Drawing
	for _, page := range pages {
		var c sheet.Canvas
		s.between(&c, page, area, wide)
		for _, r := range page {
			s.drawRail(&c, r, !s.drawnOn(page, r))
		}
		out = append(out, Drawing{Title: title, Subtitle: sub, Marks: c.Marks, Area: area})
	}
	return out
}

// wordsAt is how far from the column's edge a row's words begin.
func wordsAt(r rail, x row) float64 {
	at := railIn + stub + deeper*float64(x.deep)
	w := typeface.Width(x.label, sheet.Bold, sheet.SizeBody)
	for _, o := range r.rows {
		if x.deep == 0 && o.deep == 0 {
			w = math.Max(w, typeface.Width(o.label, sheet.Bold, sheet.SizeBody))
		}
	}
	if w > 0 {
		at += w + 1.8
	}
	if x.fuse != "" {
		at += fuseWide(x.fuse) + 1.5
	}
	return at
}

func (p pace) high(x row) float64 { return p.row + nextLine*float64(len(x.words)-1) }

// placeRails puts rails into the columns of one sheet after another. One that would be
// parted with few circuits goes to the next column whole.
func placeRails(all []rail, area sheet.Rect, columns int, wide float64) [][]rail {
	out := [][]rail{nil}
	top := area.Y + lanes
	column, y := 0, top
	turn := func() {
		if column, y = column+1, top; column == columns {
			column = 0
			out = append(out, nil)
		}
	}
	for _, r := range all {
		for {
			n, high := r.upTo(area.Bottom() - y)
			if n < len(r.rows) && n < 4 && y > top {
				turn()
				continue
			}
			n = max(n, 1)
			now := r
			now.rows, now.column = r.rows[:n], column
			now.at = sheet.Rect{X: area.X + float64(column)*(wide+gutter), Y: y, W: wide, H: high}
			out[len(out)-1] = append(out[len(out)-1], now.set())
			y += high + r.pace.gap
			if r.rows, r.continued = r.rows[n:], true; len(r.rows) == 0 {
				break
			}
			turn()
		}
	}
	return out
}

// upTo is how many rows a height holds with the heading, and what they take.
func (r rail) upTo(room float64) (n int, high float64) {
	high = r.pace.head
	for _, x := range r.rows {
		if high+r.pace.high(x) > room {
			break
		}
		high += r.pace.high(x)
		n++
	}
	return n, high
}

// set gives the rail's rows their heights.
func (r rail) set() rail {
	y := r.at.Y + r.pace.head
	rows := make([]row, len(r.rows))
	for i, x := range r.rows {
		x.y = y + r.pace.row/2
		y += r.pace.high(x)
		rows[i] = x
	}
	r.rows = rows
	return r
}

// drawRail draws a rail's heading, its bar and its rows.
func (s *sheets) drawRail(c *sheet.Canvas, r rail, told bool) {
	s.heading(c, r, told)
	if len(r.rows) == 0 {
		return
	}
	x := r.at.X + railIn
	bar := sheet.Rect{X: x - symbol.RailWide/2, Y: r.at.Y + r.pace.head - 1, W: symbol.RailWide, H: r.last(0) + r.pace.row/2 - r.at.Y - r.pace.head + 0.4}
	if r.part < 0 {
		symbol.Chassis(c, bar)
	} else {
		c.RoundRect(bar.X, bar.Y, bar.W, bar.H, 1, sheet.Filled(sheet.Ink))
	}
	for deep := 1; deep <= r.deepest(); deep++ {
		s.branches(c, r, deep)
	}
	for _, row := range r.rows {
		s.drawRow(c, r, row)
	}
}

func (r rail) deepest() int {
	most := 0
	for _, x := range r.rows {
		most = max(most, x.deep)
	}
	return most
}

// last is the height of the last row at some depth.
func (r rail) last(deep int) float64 {
	y := r.at.Y
	for _, x := range r.rows {
		if x.deep == deep {
			y = x.y
		}
	}
	return y
}

// branches draws the upright lines from a circuit to those that it feeds in turn.
func (s *sheets) branches(c *sheet.Canvas, r rail, deep int) {
	x := r.at.X + railIn + deeper*float64(deep)
	from := 0.0
	for i, row := range r.rows {
		switch {
		case row.deep < deep:
			from = row.y + 2.2 + nextLine*float64(len(row.words)-1)
		case row.deep == deep:
			if i == 0 {
				from = row.y
			}
			c.Line(x, from, x, row.y, sheet.Solid(0.35))
			from = row.y
		}
	}
}

// heading names the part; where no line leads to it, it says what feeds it.
func (s *sheets) heading(c *sheet.Canvas, r rail, told bool) {
	box := sheet.Rect{X: r.at.X, Y: r.at.Y, W: r.at.W, H: r.pace.head - 1}
	base := box.Y + box.H/2 + sheet.SizeBody*typeface.CapHeight/2
	if r.part < 0 {
		c.Text(box.X, base, "Grounds and signals", sheet.Strong(sheet.SizeBody))
		return
	}
	p := &s.h.Parts[r.part]
	symbol.Edge(c, kind.RoleOf(p.Kind), box)
	name, aside := p.Ref, s.place(p)
	if p.Name != p.Ref {
		name += " · " + p.Name
	}
	if r.continued {
		name, aside = name+", continued", ""
	}
	if told && len(r.fedBy) > 0 && !r.continued {
		aside = "fed by " + s.h.Circuits[r.fedBy[0]].Number
		if s.h.Circuits[r.fedBy[0]].Number == "" {
			aside = "fed by " + s.h.Circuits[r.fedBy[0]].Name
		}
	}
	name = fit(name, sheet.Bold, box.W-8)
	c.Text(box.X+4, base, name, sheet.Strong(sheet.SizeBody))
	if room := box.W - 10 - typeface.Width(name, sheet.Bold, sheet.SizeBody); aside != "" && typeface.Width(aside, sheet.Regular, sheet.SizeBody) <= room {
		c.Text(box.Right()-3.5, base, aside, sheet.Plain(sheet.SizeBody).At(sheet.Right).In(sheet.Grey))
	}
}

// drawRow draws a circuit: a stub in its wire's colours, terminal, fuse, name, sheet.
func (s *sheets) drawRow(c *sheet.Canvas, r rail, x row) {
	base := x.y + sheet.SizeBody*typeface.CapHeight/2
	left := r.at.X + railIn + deeper*float64(x.deep)
	if w := s.stubWire(x.tap); w >= 0 {
		c.Line(left+0.2, x.y, left+stub-0.6, x.y, sheet.Solid(1.3))
		c.Line(left+0.2, x.y, left+stub-0.6, x.y, sheet.Solid(0.8).In(rgb(s.pair(w).Base)))
	} else {
		c.Line(left, x.y, left+stub-0.6, x.y, sheet.Solid(0.35))
	}
	c.Text(left+stub, base, x.label, sheet.Strong(sheet.SizeBody))
	at := r.at.X + wordsAt(r, x)
	if x.fuse != "" {
		fuseChip(c, at-1.5-fuseWide(x.fuse), x.y, x.fuse)
	}
	for i, words := range x.words {
		c.Text(at, base+nextLine*float64(i), words, sheet.Plain(sheet.SizeBody))
	}
	c.Text(r.at.Right(), base, brief(s.circuitAnchor(x.circuit)), sheet.Plain(sheet.SizeBody).At(sheet.Right).In(sheet.Grey))
}

// stubWire is the wire with which a circuit begins at a terminal.
func (s *sheets) stubWire(t tap) harness.WireID {
	if t.terminal < 0 {
		return harness.None
	}
	if _, onward := s.liveWires(t.terminal, setOf(s.h.Circuits[t.circuit].Wires)); len(onward) > 0 {
		return onward[0]
	}
	return harness.None
}

func fuseWide(rating string) float64 {
	return math.Max(9, typeface.Width(rating, sheet.Bold, sheet.SizeBody)+2.4)
}

// fuseChip is a fuse with its rating, centred on a height.
func fuseChip(c *sheet.Canvas, x, y float64, rating string) {
	const high, cut = 4.3, 1
	w := fuseWide(rating)
	c.Polygon([]sheet.Point{
		{X: x + cut, Y: y - high/2}, {X: x + w - cut, Y: y - high/2}, {X: x + w, Y: y - high/2 + cut}, {X: x + w, Y: y + high/2 - cut},
		{X: x + w - cut, Y: y + high/2}, {X: x + cut, Y: y + high/2}, {X: x, Y: y + high/2 - cut}, {X: x, Y: y - high/2 + cut},
	}, sheet.Both(sheet.Solid(0.25), sheet.White))
	c.Text(x+w/2, y+sheet.SizeBody*typeface.CapHeight/2, rating, sheet.Strong(sheet.SizeBody).At(sheet.Centre))
}

func (s *sheets) circuitAnchor(c harness.CircuitID) string {
	return "circuit/" + s.h.Circuits[c].Key
}
