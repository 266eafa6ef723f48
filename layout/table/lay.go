package table

import (
	"math"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

// point is the room of a column's numbers before and after the decimal point.
type point struct{ before, after float64 }

// line is one line of text in a cell.
type line struct {
	s      string
	face   sheet.Face
	size   float64
	colour sheet.Colour
	number bool // set on the decimal point
}

// box is a cell that has been wrapped.
type box struct {
	cell   Cell
	column int
	x, w   float64 // from the left of the table, padding included
	lines  []line
}

// laid is a row that has been wrapped.
type laid struct {
	row   Row
	boxes []box
	inner float64 // height of the text and the drawings
	pad   float64 // over and under the text
	h     float64 // with it
}

// padded is the row with a padding over and under its text.
func (l laid) padded(pad float64) laid {
	l.pad, l.h = pad, l.high(pad)
	return l
}

// high is the height of the row with a padding.
func (l laid) high(pad float64) float64 {
	h := l.inner + 2*pad
	if l.row.Kind == Group {
		return h + underHeading
	}
	return math.Max(l.row.High, h)
}

// underHeading is the room between a heading and its rule, mm.
const underHeading = 1.6

// lay wraps a row into the settled columns.
func (s *Settled) lay(row Row) laid {
	l := laid{row: row}
	if row.Kind == Group {
		l.boxes = s.layGroup(row)
	} else {
		l.boxes = s.layCells(row)
	}
	l.inner = l.height()
	return l
}

func (s *Settled) layCells(row Row) []box {
	var out []box
	x := 0.0
	for i, w := range s.w {
		c, span := row.at(i)
		if span > 0 {
			b := box{cell: c, column: i, x: x, w: sum(s.w[i:min(i+span, len(s.w))])}
			b.lines = s.t.wrap(b, row.Kind, s.t.Columns[i].Align)
			out = append(out, b)
		}
		x += w
	}
	return out
}

// layGroup sets the heading from the left and its remark from the right; both wrap.
func (s *Settled) layGroup(row Row) []box {
	total := sum(s.w)
	title, remark := Cell{}, Cell{}
	if len(row.Cells) > 0 {
		title = row.Cells[0]
	}
	if len(row.Cells) > 1 {
		remark = row.Cells[1]
	}
	remark.Size = sheet.SizeNote
	title.Bold = true
	right := math.Min(total/2, typeface.Width(remark.S, remark.face(Plain), remark.Size)+remark.indent()+2*s.t.padX())
	switch {
	case remark.Draw != nil: // a drawing is not made narrower
		right = math.Max(right, remark.Draw.W+2*s.t.padX())
	case remark.S == "":
		right = 0
	}
	var out []box
	for i, c := range []Cell{title, remark} {
		b := box{cell: c, column: -1 - i, x: float64(i) * (total - right), w: []float64{total - right, right}[i]}
		b.lines = s.t.wrap(b, Plain, Left)
		out = append(out, b)
	}
	return out
}

func (t *Table) wrap(b box, kind Kind, a Align) []line {
	c := b.cell
	room := b.w - 2*t.padX() - c.indent()
	colour := sheet.Ink
	if c.Colour != nil {
		colour = *c.Colour
	}
	var lines []line
	face, size := c.face(kind), t.size(c)
	if a == Decimal && c.number() && max(c.Span, 1) == 1 && typeface.Width(c.S, face, size) <= room+1e-6 {
		lines = []line{{c.S, face, size, colour, true}}
	} else if c.S != "" {
		for _, s := range typeface.Wrap(c.S, face, size, room) {
			lines = append(lines, line{s, face, size, colour, false})
		}
	}
	if c.Note != "" {
		for _, s := range typeface.Wrap(c.Note, sheet.Regular, sheet.SizeNote, room) {
			lines = append(lines, line{s, sheet.Regular, sheet.SizeNote, sheet.Grey, false})
		}
	}
	return lines
}

// indent is the room that the drawing takes before the text.
func (c Cell) indent() float64 {
	switch {
	case c.Draw == nil:
		return 0
	case c.S == "" && c.Note == "":
		return c.Draw.W
	}
	return c.Draw.W + beside
}

// height is that of the highest box.
func (l laid) height() float64 {
	h := 0.0
	for _, b := range l.boxes {
		h = math.Max(h, b.textHeight())
	}
	return math.Max(h, l.drawn())
}

// drawn is the height of the highest drawing.
func (l laid) drawn() float64 {
	h := 0.0
	for _, b := range l.boxes {
		if b.cell.Draw != nil {
			h = math.Max(h, b.cell.Draw.H)
		}
	}
	return h
}

func (b box) textHeight() float64 {
	h := 0.0
	for _, l := range b.lines {
		h += l.size * leading
	}
	return h
}

// leading is base line to base line within a cell; a little tighter than running text.
const leading = 1.2

// part splits a row after as many lines as fit a height; more tells whether any are left. A
// drawing is not split: where it does not fit, nothing is taken.
func (l laid) part(room float64) (piece, left laid, more bool) {
	if l.drawn()+2*l.pad > room+1e-6 {
		return laid{}, l, true
	}
	piece, left = l, l
	piece.boxes, left.boxes = nil, nil
	taken := false
	for _, b := range l.boxes {
		n, h := 0, 2*l.pad
		for n < len(b.lines) && h+b.lines[n].size*leading <= room+1e-6 {
			h += b.lines[n].size * leading
			n++
		}
		head, tail := b, b
		head.lines, tail.lines = b.lines[:n], b.lines[n:]
		tail.cell.Draw = nil
		taken = taken || n > 0
		more = more || n < len(b.lines)
		piece.boxes, left.boxes = append(piece.boxes, head), append(left.boxes, tail)
	}
	if !taken && more {
		return laid{}, l, true
	}
	piece.h, left.h = math.Min(room, math.Max(l.row.High, piece.height()+2*l.pad)), left.height()+2*l.pad
	left.row.Anchor = ""
	return piece, left, more
}

func sum(w []float64) float64 {
	s := 0.0
	for _, v := range w {
		s += v
	}
	return s
}
