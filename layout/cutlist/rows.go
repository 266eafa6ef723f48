package cutlist

import (
	"fmt"
	"math"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/unit"
)

// The signs of a row.
const (
	given    = "*" // the description says it, nothing computed it
	shrunk   = "§"
	booted   = "‡"
	together = "+"
)

// signs says what the signs mean that stand on the rows of this packet.
func signs(a page.Ask) string {
	out := []string{"C crimped, P pulled"}
	add := func(is bool, words string) {
		if is {
			out = append(out, words)
		}
	}
	add(anyEnd(a, func(e *fitted.End) bool { return e.Shrink != "" }), shrunk+page.NoBreak+"heat-shrink first")
	add(anyEnd(a, func(e *fitted.End) bool { return e.Boot }), booted+page.NoBreak+"fit boot: stud live and unfused")
	add(anyEnd(a, func(e *fitted.End) bool { return len(e.With) > 0 || e.Drain != "" }), together+"12A in one fitting with wire 12A, boxed at one of them")
	add(anyGiven(a), given+page.NoBreak+"given (at the name: the size)")
	return strings.Join(out, "; ") + "."
}

func anyEnd(a page.Ask, is func(*fitted.End) bool) bool {
	for i := range a.R.Ends {
		if is(&a.R.Ends[i][0]) || is(&a.R.Ends[i][1]) {
			return true
		}
	}
	return false
}

func anyGiven(a page.Ask) bool {
	for i := range a.R.Wires {
		if a.R.Wires[i].Given || a.R.Ways[i].Given {
			return true
		}
	}
	return false
}

// wireTable has one row a wire with both its ends, size by size, then unit by unit.
func wireTable(a page.Ask, p plan) *table.Table {
	t := &table.Table{Company: true, Tight: true, Columns: columns(a)}
	for _, group := range page.Gauges(a.R.Reels) {
		t.Rows = append(t.Rows, gaugeRows(a, group, p)...)
	}
	t.Rows = append(t.Rows, unitRows(a)...)
	return t
}

// mostWhere is the greatest width of a terminal's name that is kept in one line, mm.
const mostWhere = 19

func columns(a page.Ask) []table.Column {
	length := table.Column{Title: "Length", Unit: page.LengthUnit(a.H.Sheet.Imperial), Align: table.Decimal}
	if a.H.Sheet.Imperial {
		length.Align, length.Min = table.Right, lengthRoom(a) // feet and inches have no common point
	}
	out := []table.Column{{Title: "Cut"}, {Title: "Wire"}, {Title: "Colour", Min: colourRoom(a)}, length}
	for end := range 2 {
		where := whereRoom(a, end)
		out = append(out,
			table.Column{Title: "End " + string(rune('A'+end)), Min: where, Max: where}, table.Column{Title: "Fitting", Unit: headSign(a, end), Weight: 1},
			table.Column{Unit: "strip"}, table.Column{Title: "C  P"})
	}
	return out
}

// headSign says at the head of the fittings, so on every sheet, what a sign means.
func headSign(a page.Ask, end int) string {
	switch {
	case end == 0 && anyEnd(a, func(e *fitted.End) bool { return e.Shrink != "" }):
		return shrunk + " heat-shrink"
	case end == 1 && anyEnd(a, func(e *fitted.End) bool { return e.Boot }):
		return booted + " stud boot"
	}
	return ""
}

// colourRoom keeps a short swatch and the letters of two colours in one line.
func colourRoom(a page.Ask) float64 {
	room := 0.0
	for i := range a.R.Colours {
		room = max(room, typeface.Width(a.Pair(harness.WireID(i)).String(), sheet.Bold, sheet.SizeNote))
	}
	return room + swatchWide + 1.5 + padding
}

// lengthRoom keeps feet and inches in one line.
func lengthRoom(a page.Ask) float64 {
	room := 0.0
	for _, way := range a.R.Ways {
		room = max(room, widest(lengthText(a, way), sheet.SizeBody))
	}
	return room + padding
}

// padding is that left and right of a cell, mm, with a little to spare.
const padding = 1.9

// whereRoom is how wide the column is in which the terminals of one side stand.
func whereRoom(a page.Ask, end int) float64 {
	room := 0.0
	for i := range a.R.Ends {
		room = max(room, widest(parted(a.H.Terminals[a.R.Ends[i][end].Terminal].Full), sheet.SizeBody))
	}
	return min(room, mostWhere) + padding
}

func widest(s string, size float64) float64 {
	w := 0.0
	for line := range strings.SplitSeq(s, "\n") {
		w = max(w, typeface.Width(line, sheet.Regular, size))
	}
	return w
}

// parted is a terminal's name, after the dot on a second line where it is too long for one.
func parted(full string) string {
	dot := strings.IndexByte(full, '.')
	if dot < 0 || widest(full, sheet.SizeBody) <= mostWhere {
		return full
	}
	return full[:dot+1] + "\n" + full[dot+1:]
}

// gaugeRows are the rows of one size; those of its wires that are in a unit stand
// with that, further on.
func gaugeRows(a page.Ask, group []fitted.Reel, p plan) []table.Row {
	of := a.H.UnitOf()
	var rows []table.Row
	elsewhere := 0
	for i := range group {
		for _, w := range group[i].Wires {
			if of[w] != harness.None {
				elsewhere++
				continue
			}
			rows = append(rows, cutRow(a, w, p[w]))
		}
	}
	if len(rows) == 0 {
		return nil
	}
	head := table.Heading(sizeOf(group[0]), cutSums(group, a.H.Sheet.Imperial))
	if elsewhere > 0 {
		head.Cells[1].S += fmt.Sprintf("; %d of them in twists and screens below", elsewhere)
	}
	return append([]table.Row{head}, rows...)
}

// sizeOf is the size and insulation of a reel: "0.5 mm² · thin wall 125".
func sizeOf(r fitted.Reel) string { return page.Dotted(r.Gauge.String(), page.Wall(r.Insulation)) }

// cutRow is a wire's row; from is the length that it is cut from where it matters.
func cutRow(a page.Ask, id harness.WireID, from string) table.Row {
	w := &a.H.Wires[id]
	name := table.Cell{S: page.Firm(w.Name), Bold: true, Link: a.Link("index/" + w.Name)}
	if a.R.Wires[id].Given {
		name.S += given
	}
	cells := []table.Cell{cutCell(a, id, from), name, shade(a, id), table.Text(lengthText(a, a.R.Ways[id]))}
	for _, e := range a.R.Ends[id] {
		cells = append(cells, endCells(a, &e)...)
	}
	return table.Row{Anchor: "wire/" + w.Name, Cells: cells}
}

// lengthText is how long a wire is cut, with the mark of what is given.
func lengthText(a page.Ask, way route.Way) string {
	s := cutLength(a, way.Length)
	if way.Given {
		s += page.NoBreak + given
	}
	return s
}

// cutLength is a length in one line: "1 155", or "3 ft 9 1/2".
func cutLength(a page.Ask, mm unit.Millimetre) string {
	s := page.Length(mm, a.H.Sheet.Imperial)
	if strings.Contains(s, "ft") {
		s = strings.TrimSuffix(s, " in") // the column has the unit
	}
	return page.Firm(s)
}

// cutCell is a box to tick with the length to cut from, or the word that there is nothing to cut.
func cutCell(a page.Ask, id harness.WireID, from string) table.Cell {
	if kept := a.R.KeptWire(id); kept == harness.Built || kept == harness.Own {
		return table.Cell{Note: string(kept)}
	}
	return table.Cell{Draw: table.TickBox(), S: from, Size: sheet.SizeNote}
}

// shade is a wire's colour, and the one that it has where that is another.
func shade(a page.Ask, id harness.WireID) table.Cell {
	pair := a.Pair(id)
	if pair.Base == "" {
		return table.Text("–")
	}
	return table.Cell{S: pair.String(), Bold: true, Size: sheet.SizeNote, Draw: swatch(pair), Note: page.AsFound(a.R.Colours[id])}
}

// swatch size in a row, mm.
const swatchWide, swatchHigh = 5.4, 3.2

func swatch(p colour.Pair) *table.Drawing {
	return &table.Drawing{W: swatchWide, H: swatchHigh, Draw: func(c *sheet.Canvas, area sheet.Rect) { page.Swatch(c, area, p) }}
}

// endCells are the four cells of an end: where it lands, its fitting, how far it is
// stripped, and the boxes.
func endCells(a page.Ask, e *fitted.End) []table.Cell {
	where := table.Text(parted(a.H.Terminals[e.Terminal].Full))
	if p := a.H.PartOf(e.Terminal); p != nil {
		where.Link = a.Link("part/" + p.Ref)
	}
	return []table.Cell{where, {S: signed(a, e), Size: sheet.SizeNote}, table.Text(strip(a, e)), {Draw: boxes(e)}}
}

// strip is how far an end is stripped.
func strip(a page.Ask, e *fitted.End) string {
	if e.Strip == 0 {
		return "–"
	}
	return strings.TrimSuffix(page.Size(e.Strip, a.H.Sheet.Imperial), " in") // as the lengths before it
}

// signed is the fitting of an end in short with what is to be thought of there.
func signed(a page.Ask, e *fitted.End) string {
	s := short(e)
	if e.Shrink != "" {
		s += " " + shrunk
	}
	if e.Boot {
		s += page.NoBreak + booted
	}
	parts := []string{s}
	for _, w := range e.With {
		parts = append(parts, together+page.Firm(a.H.Wires[w].Name))
	}
	if e.Drain != "" {
		parts = append(parts, together+"drain of "+page.Firm(e.Drain))
	}
	if e.Folded {
		parts = append(parts, "fold back")
	}
	return strings.Join(parts, " ")
}

// The two boxes of an end: the side of one, and the clear space between them, mm.
const (
	boxSide = 3.6
	boxGap  = 1.1
)

// boxes are those to tick when an end is crimped and when it has been pulled; wires that
// share a fitting have one box for its crimp.
func boxes(e *fitted.End) *table.Drawing {
	second := e.Second
	return &table.Drawing{W: 2*boxSide + boxGap, H: boxSide, Draw: func(c *sheet.Canvas, r sheet.Rect) {
		if second {
			y := math.Round((r.Y+r.H/2)*100) / 100
			c.Line(r.X+1, y, r.X+boxSide-1, y, sheet.Solid(sheet.Thin))
		} else {
			table.TickBox().Draw(c, sheet.Rect{X: r.X, Y: r.Y, W: boxSide, H: boxSide})
		}
		table.TickBox().Draw(c, sheet.Rect{X: r.X + boxSide + boxGap, Y: r.Y, W: boxSide, H: boxSide})
	}}
}
