package table

import (
	"math"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

// headLines wraps a header cell: the title, then the unit in regular type.
func (s *Settled) headLines(i int) []line {
	c := s.t.Columns[i]
	room := s.w[i] - 2*s.t.padX()
	var lines []line
	for _, text := range typeface.Wrap(c.Title, sheet.Bold, sheet.SizeNote, room) {
		lines = append(lines, line{text, sheet.Bold, sheet.SizeNote, sheet.Ink, false})
	}
	if c.Unit != "" {
		for _, text := range typeface.Wrap(c.Unit, sheet.Regular, sheet.SizeNote, room) {
			lines = append(lines, line{text, sheet.Regular, sheet.SizeNote, sheet.Grey, false})
		}
	}
	return lines
}

func (s *Settled) headHeight() float64 {
	if s.t.NoHead {
		return 0
	}
	h := 0.0
	for i := range s.t.Columns {
		h = math.Max(h, box{lines: s.headLines(i)}.textHeight())
	}
	return h + 2*s.t.padY()
}

// drawHead sets the header, the cells on a common foot line, and the rule under it.
func (f *flow) drawHead() {
	if f.t.NoHead {
		return
	}
	if !f.drawn {
		f.y += f.head
		return
	}
	x := f.area.X
	for i, c := range f.t.Columns {
		b := box{column: i, w: f.w[i], lines: f.headLines(i)}
		y := f.y + f.head - f.t.padY() - b.textHeight()
		f.drawLines(b, x, y, plain(c.Align))
		x += f.w[i]
	}
	f.y += f.head
	f.rule(f.y, sheet.Thick, sheet.Ink)
}

// plain is the alignment of text in a column of numbers.
func plain(a Align) Align {
	if a == Decimal {
		return Right
	}
	return a
}

func (f *flow) rule(y, width float64, c sheet.Colour) {
	f.marks.Line(f.area.X, y, f.area.X+sum(f.w), y, sheet.Solid(width).In(c))
}

// draw places a wrapped row at the current height.
func (f *flow) draw(l laid) {
	if f.drawn {
		f.drawRow(l)
	}
	f.y += l.h
	f.empty = false
	f.since++
	if l.row.Kind == Group {
		f.since = 0
		f.group = &l.row
	}
	if f.drawn {
		f.foot(l.row.Kind)
	}
}

func (f *flow) drawRow(l laid) {
	f.ground(l)
	if l.row.Anchor != "" {
		f.marks.Anchor(l.row.Anchor, f.area.X, f.y)
	}
	for _, b := range l.boxes {
		f.drawBox(b, l)
	}
}

// foot sets the rule under a row; in a tight table every fifth one is heavier, to keep the place, unless all are even.
func (f *flow) foot(k Kind) {
	switch {
	case k == Group || k == Plain && f.t.Tight && !f.t.Even && f.since%5 == 0:
		f.rule(f.y, sheet.Medium, sheet.Ink)
	case k == Plain:
		f.rule(f.y, sheet.Hair, sheet.Rule)
	}
}

// ground lays the pale band and the rule of a sum under the text.
func (f *flow) ground(l laid) {
	if l.row.Kind == Plain && !f.t.NoZebra && f.since%2 == 1 {
		f.under.Rect(f.area.X, f.y, sum(f.w), l.h, sheet.Filled(sheet.Pale))
	}
	if l.row.Kind == Sum {
		f.rule(f.y, sheet.Medium, sheet.Ink)
	}
}

func (f *flow) drawBox(b box, l laid) {
	x := f.area.X + b.x
	align := Left
	if b.column >= 0 {
		align = f.t.Columns[b.column].Align
	} else if b.column == -2 {
		align = Right
	}
	if d := b.cell.Draw; d != nil {
		dx := f.t.padX()
		if alone := len(b.lines) == 0; alone && align == Centre {
			dx = (b.w - d.W) / 2
		} else if alone && align != Left {
			dx = b.w - d.W - f.t.padX()
		}
		d.Draw(&f.marks, sheet.Rect{X: x + dx, Y: f.y + f.drawTop(b, l), W: d.W, H: d.H})
		b.w -= b.cell.indent()
		x += b.cell.indent()
	}
	f.drawLines(b, x, f.y+f.textTop(b, l), align)
	if b.cell.Link != "" {
		f.marks.Link(sheet.Rect{X: f.area.X + b.x, Y: f.y, W: b.w + b.cell.indent(), H: l.h}, b.cell.Link)
	}
}

// textTop puts the text of a row at its top, a heading's at its foot.
func (f *flow) textTop(b box, l laid) float64 {
	if l.row.Kind == Group {
		return l.h - l.pad - b.textHeight()
	}
	return l.pad + f.sunk(b, l)
}

// sunk is how far smaller text of a tight row is set lower, so that its first line stands on that of the row.
func (f *flow) sunk(b box, l laid) float64 {
	if !f.t.Tight || len(b.lines) == 0 {
		return 0
	}
	large := b.lines[0].size
	for _, o := range l.boxes {
		if len(o.lines) > 0 {
			large = math.Max(large, o.lines[0].size)
		}
	}
	return (large - b.lines[0].size) * (leading + typeface.CapHeight) / 2
}

// drawTop centres a drawing on the first line of the text beside it, or of the row.
func (f *flow) drawTop(b box, l laid) float64 {
	size := f.t.size(b.cell)
	middle := l.pad + size*leading/2
	return math.Max(l.pad/2, math.Min(middle-b.cell.Draw.H/2, l.h-b.cell.Draw.H-l.pad/2))
}

func (f *flow) drawLines(b box, x, y float64, a Align) {
	for _, l := range b.lines {
		// capitals stand in the middle of their line
		base := y + l.size*(leading+typeface.CapHeight)/2
		style := sheet.Style{Size: l.size, Face: l.face, Colour: l.colour}
		switch {
		case l.number:
			f.drawNumber(b, l, x, base, style)
		case a == Centre:
			f.marks.Text(x+b.w/2, base, l.s, style.At(sheet.Centre))
		case a == Right || a == Decimal:
			f.marks.Text(x+b.w-f.t.padX(), base, l.s, style.At(sheet.Right))
		default:
			f.marks.Text(x+f.t.padX(), base, l.s, style)
		}
		y += l.size * leading
	}
}

// drawNumber hangs a number on the decimal point of its column; where the column had
// to be narrower than its numbers ask for, it moves so far that it stays inside.
func (f *flow) drawNumber(b box, l line, x, base float64, style sheet.Style) {
	p := f.points[b.column]
	before, _ := cut(l.s)
	at := x + b.w - f.t.padX() - p.after - typeface.Width(before, l.face, l.size)
	most := x + b.w - f.t.padX() - typeface.Width(l.s, l.face, l.size)
	at = math.Max(x+f.t.padX(), math.Min(at, most))
	f.marks.Text(at, base, l.s, style)
}
