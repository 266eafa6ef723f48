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
}

// cell is a field of the strip; x and w are shares of its width.
type cell struct {
	row, rows   int
	x, w        float64
	label, text string
	strong      bool
}

// cells lays the fields out in two rows: what the sheet is above, who and when below.
func (b Block) cells() []cell {
	sheetNo := ""
	if b.Sheet > 0 {
		sheetNo = fmt.Sprintf("%d of %d", b.Sheet, b.Of)
	}
	return []cell{
		{0, 1, 0, .31, "Title", b.Title, true},
		{1, 1, 0, .31, "Owner", b.Owner, false},
		{0, 1, .31, .29, "Document", b.Type, true},
		{0, 1, .60, .235, "Vehicle", b.Ident, false},
		{0, 1, .835, .165, "Sheet", sheetNo, true},
		{1, 1, .31, .145, "Built by", b.Creator, false},
		{1, 1, .455, .145, "Checked by", b.Approval, false},
		{1, 1, .60, .065, "Rev.", b.Revision, true},
		{1, 1, .665, .135, "Date of issue", b.Date, false},
		{1, 1, .80, .20, "Description", digest(b.Digest), false},
	}
}

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
	f.drawStrip(c, b)
	c.Rect(f.Line.X, f.Line.Y, f.Line.W, f.Line.H, sheet.Outline(sheet.Solid(sheet.Heavy)))
}

const (
	pad       = 1.4  // left of the text of a field
	labelSize = 2.49 // capitals of 1.8 mm, the smallest height of ISO 3098-1
	leastSize = 2.2  // a value that is too long shrinks so far before it is cut
)

func (f Frame) drawStrip(c *sheet.Canvas, b Block) {
	high := f.Strip.H / 2
	c.Line(f.Strip.X, f.Strip.Y, f.Strip.Right(), f.Strip.Y, sheet.Solid(sheet.Medium))
	c.Line(f.Strip.X, f.Strip.Y+high, f.Strip.Right(), f.Strip.Y+high, sheet.Solid(sheet.Thin))
	for _, cell := range b.cells() {
		x, y := f.Strip.X+cell.x*f.Strip.W, f.Strip.Y+float64(cell.row)*high
		if cell.x > 0 {
			c.Line(x, y, x, y+high, sheet.Solid(sheet.Thin))
		}
		cell.draw(c, sheet.Rect{X: x, Y: y, W: cell.w * f.Strip.W, H: high})
	}
}

func (c cell) draw(canvas *sheet.Canvas, r sheet.Rect) {
	canvas.Text(r.X+pad, r.Y+1.1+labelSize*typeface.CapHeight, c.label, sheet.Plain(labelSize).In(sheet.Grey))
	face := sheet.Regular
	if c.strong {
		face = sheet.Bold
	}
	room := r.W - 2*pad
	size := typeface.Shrink(c.text, face, sheet.SizeBody, leastSize, room)
	text := typeface.Fit(c.text, face, size, room)
	canvas.Text(r.X+pad, r.Bottom()-1.7, text, sheet.Style{Size: size, Face: face, Colour: sheet.Ink})
}

const (
	tick     = 3.5 // zone marks outside the frame
	zoneSize = sheet.SizeBody
)

// drawZones sets letters and numbers in the middle of the border along the frame.
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
		for _, x := range []float64{f.Line.X - 3, f.Line.Right() + 3} {
			c.Text(x, y+step/2+half, letter(i), style)
		}
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
	c.Line(f.Line.Right(), y, f.Line.Right()+l, y, s)
}
