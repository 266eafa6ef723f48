package frame

import (
	"fmt"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

// Block is the data of the title block; an empty field stays empty, to be filled in by hand.
type Block struct {
	Owner    string // legal owner: whose vehicle, or who ordered the work
	Title    string // of the document
	Type     string // document type: the name of the sheet
	Ident    string // identification of the vehicle
	Revision string
	Date     string // date of issue, 2026-11-02
	Creator  string // who builds it
	Approval string // who checked it
	Digest   string // of the description; its first 16 characters are printed in two groups
	Sheet    int
	Of       int
	Caution  []string // for the margin, the longest first; the first that fits stands there
}

// cell is a field of the strip; x and w are shares of its width.
type cell struct {
	row, rows   int
	x, w        float64
	label, text string
	style       sheet.Style
}

// cells lays the fields out in two rows: what the sheet is above, who stands for it
// below, and the number of the sheet, which one thumbs for, in the corner.
func (b Block) cells() []cell {
	sheetNo := ""
	if b.Sheet > 0 {
		sheetNo = fmt.Sprintf("%d of %d", b.Sheet, b.Of)
	}
	return []cell{
		{0, 1, 0, .25, "Title", b.Title, bold},
		{1, 1, 0, .25, "Owner", b.Owner, regular},
		{0, 1, .25, .28, "Document", b.Type, bold},
		{0, 1, .53, .20, "Vehicle", b.Ident, regular},
		{0, 1, .73, .13, "Date of issue", b.Date, regular},
		{1, 1, .25, .195, "Built by", b.Creator, regular},
		{1, 1, .445, .185, "Checked by", b.Approval, regular},
		{1, 1, .63, .05, "Rev.", b.Revision, bold},
		{1, 1, .68, .18, "Description", digest(b.Digest), sheet.Plain(sheet.SizeNote)},
		{0, 2, .86, .14, "Sheet", sheetNo, big},
	}
}

var (
	regular = sheet.Plain(sheet.SizeBody)
	bold    = sheet.Strong(sheet.SizeBody)
	big     = sheet.Strong(sheet.SizeHead)
)

func digest(s string) string {
	if len(s) > 16 {
		s = s[:16]
	}
	if len(s) > 8 {
		return s[:8] + " " + s[8:]
	}
	return s
}

// Draw puts the frame, its zones and the title block on a canvas.
func (f Frame) Draw(c *sheet.Canvas, b Block) {
	f.drawZones(c)
	if f.First {
		f.drawStrip(c, b)
	} else {
		f.drawShort(c, b)
	}
	f.drawCaution(c, b.Caution)
	c.Rect(f.Line.X, f.Line.Y, f.Line.W, f.Line.H, sheet.Outline(sheet.Solid(sheet.Heavy)))
}

// cautionAt is the base line of the caution in the filing margin: 5 mm and more from the
// edge, which printers leave out, and clear of punched holes (9 to 15 mm, ISO 838).
const cautionAt = 8.2

// drawCaution sets a line along the filing margin.
func (f Frame) drawCaution(c *sheet.Canvas, texts []string) {
	style := sheet.Plain(sheet.SizeNote).At(sheet.Centre)
	if f.Lying() {
		c.Text(f.Line.X+f.Line.W/2, cautionAt, Fitting(texts, sheet.SizeNote, f.Line.W), style)
		return
	}
	style.Turn = 90
	c.Text(cautionAt, f.Line.Y+f.Line.H/2, Fitting(texts, sheet.SizeNote, f.Line.H), style)
}

// Fitting gives the first of some texts that fits a room in one line, the last cut
// where none does; "" of none.
func Fitting(texts []string, size, room float64) string {
	for _, s := range texts {
		if typeface.Width(s, sheet.Regular, size) <= room {
			return s
		}
	}
	if len(texts) == 0 {
		return ""
	}
	return typeface.Fit(texts[len(texts)-1], sheet.Regular, size, room)
}

// Sizes of the fields, mm.
const (
	pad     = 1.4 // left of the text of a field
	upper   = 9.6 // height of the row that has room for two lines
	leading = 3.0 // between two lines of a value
)

func (f Frame) drawStrip(c *sheet.Canvas, b Block) {
	top, high := [...]float64{0, upper}, [...]float64{upper, f.Strip.H - upper}
	c.Line(f.Strip.X, f.Strip.Y, f.Strip.Right(), f.Strip.Y, sheet.Solid(sheet.Medium))
	for _, cell := range b.cells() {
		r := sheet.Rect{X: f.Strip.X + cell.x*f.Strip.W, Y: f.Strip.Y + top[cell.row], W: cell.w * f.Strip.W, H: high[cell.row]}
		if cell.rows > 1 {
			r.H = f.Strip.H
		}
		if cell.x > 0 {
			c.Line(r.X, r.Y, r.X, r.Bottom(), sheet.Solid(sheet.Thin))
		}
		if cell.row > 0 {
			c.Line(r.X, r.Y, r.Right(), r.Y, sheet.Solid(sheet.Thin))
		}
		cell.draw(c, r)
	}
}

func (c cell) draw(canvas *sheet.Canvas, r sheet.Rect) {
	canvas.Text(r.X+pad, r.Y+1+sheet.SizeLabel*typeface.CapHeight, c.label, sheet.Plain(sheet.SizeLabel).In(sheet.Grey))
	lines, style := c.lines(r.W - 2*pad)
	y := r.Bottom() - 1.2 - float64(c.rows-1)*3.6 - float64(1-c.row)*0.5
	if len(lines) > 1 {
		y = r.Bottom() - 0.95 - leading
	}
	for i, line := range lines {
		canvas.Text(r.X+pad, y+leading*float64(i), line, style)
	}
}

// lines gives a field's value at its size; where it is too long, at that of tables
// or else of notes, on two lines where the field has room for them, and cut after a whole word
// if that does not do.
func (c cell) lines(room float64) ([]string, sheet.Style) {
	style := c.style
	for _, size := range []float64{style.Size, sheet.SizeBody} {
		style.Size = min(size, style.Size)
		if typeface.Width(c.text, style.Face, style.Size) <= room {
			return []string{typeface.Clean(c.text, style.Face)}, style
		}
	}
	style.Size = sheet.SizeNote
	most := 1
	if c.row == 0 && c.rows == 1 {
		most = 2
	}
	lines := typeface.Wrap(c.text, style.Face, style.Size, room)
	if len(lines) > most {
		lines = append(lines[:most-1:most-1], typeface.Fit(lines[most-1]+" …", style.Face, style.Size, room))
	}
	return lines, style
}

const (
	tick     = 3.5 // zone marks outside the frame
	zoneSize = sheet.SizeBody
)

// drawZones sets numbers in the middle of the border above and below the frame, and
// letters left of it; at its right the thumb tabs have their place.
func (f Frame) drawZones(c *sheet.Canvas) {
	across, down := f.Columns(), f.Rows()
	style := sheet.Plain(zoneSize).In(sheet.Grey).At(sheet.Centre)
	half := zoneSize * typeface.CapHeight / 2
	for i := range across {
		step := f.Line.W / float64(across)
		x := f.Line.X + step*float64(i)
		for _, y := range []float64{f.Line.Y - 3, f.Line.Bottom() + 3} {
			c.Text(x+step/2, y+half, fmt.Sprint(i+1), style)
		}
		if i > 0 {
			f.tickAcross(c, x, i*2 == across)
		}
	}
	for i := range down {
		step := f.Line.H / float64(down)
		y := f.Line.Y + step*float64(i)
		c.Text(f.Line.X-3, y+step/2+half, letter(i), style)
		if i > 0 {
			f.tickDown(c, y, i*2 == down)
		}
	}
}

// mark is a zone mark; the one at an axis is the centring mark, heavier and longer.
func mark(centre bool) (length float64, s sheet.Stroke) {
	if centre {
		return tick + 1.5, sheet.Solid(sheet.Heavy)
	}
	return tick, sheet.Solid(sheet.Medium)
}

func (f Frame) tickAcross(c *sheet.Canvas, x float64, centre bool) {
	l, s := mark(centre)
	c.Line(x, f.Line.Y-l, x, f.Line.Y, s)
	c.Line(x, f.Line.Bottom(), x, f.Line.Bottom()+l, s)
}

func (f Frame) tickDown(c *sheet.Canvas, y float64, centre bool) {
	l, s := mark(centre)
	c.Line(f.Line.X-l, y, f.Line.X, y, s)
}
