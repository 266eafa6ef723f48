package page

import (
	"fmt"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/layout/typeface"
)

// Book is the sheets of one kind while they are filled from the top. What goes on a
// sheet is drawn on its canvas, in the room that is left.
type Book struct {
	Frame   frame.Frame
	C       sheet.Canvas // of the sheet being filled
	Room    sheet.Rect   // what is left of it, or of the column being filled
	top     float64      // where the body begins under the heading
	name    string
	gap     float64 // clear under a block, mm
	columns columns
	pages   []frame.Page
}

// Open starts the first sheet, with its subtitle; the anchor stands at its head.
func Open(f frame.Frame, name, anchor, subtitle string) *Book {
	b := &Book{Frame: f, name: name, gap: 2}
	b.C.Anchor(anchor, f.Body.X, f.Body.Y+f.Taken)
	b.start(f.Heading(&b.C, name, subtitle))
	return b
}

// Gap is the clear space between two blocks of a loose sheet, mm.
const Gap = 4

// OpenLoose is Open for sheets that are worked from one by one, out of their order:
// there is more air between blocks.
func OpenLoose(f frame.Frame, name, anchor, subtitle string) *Book {
	b := Open(f, name, anchor, subtitle)
	b.gap = Gap
	return b
}

func (b *Book) start(room sheet.Rect) {
	b.Room, b.top = room, room.Y
}

// Turn ends the sheet being filled and starts the next.
func (b *Book) Turn() {
	b.pages = append(b.pages, b.page())
	b.C = sheet.Canvas{}
	b.start(b.Frame.Running(&b.C, b.name+", continued"))
	b.columns.restart(b)
}

// page is the sheet as it is filled so far. Where it was begun under another group in vain, its heading
// standing alone, nothing may follow on it.
func (b *Book) page() frame.Page {
	p := frame.Page{Frame: b.Frame, Title: b.name, Bottom: b.deepest(), Marks: b.C.Marks}
	if b.begun() && b.deepest() <= b.top {
		p.Bottom = 0
	}
	return p
}

// Next goes on in the next column, or on the next sheet after the last column.
func (b *Book) Next() {
	if !b.columns.next(b) {
		b.Turn()
	}
}

// Rest is the room on a further sheet, or in a column of it.
func (b *Book) Rest() sheet.Rect {
	var unseen sheet.Canvas
	return b.columns.first(b.Frame.Running(&unseen, b.name+", continued"))
}

// Fresh tells whether nothing stands on the sheet, or in the column, yet but its heading. One that begins under
// another group never is: what does not fit there goes to a sheet of its own.
func (b *Book) Fresh() bool { return b.Room.Y <= b.top && !b.begun() }

// begun tells whether the sheet being filled has something of another group above.
func (b *Book) begun() bool { return b.Frame.Taken > 0 && len(b.pages) == 0 }

// Need goes on in the next column or on the next sheet unless so much height is left, or it is fresh.
func (b *Book) Need(h float64) {
	if h > b.Room.H && !b.Fresh() {
		b.Next()
	}
}

// Down moves on by so much.
func (b *Book) Down(h float64) { b.Room = b.Room.Below(b.Room.Y + h) }

// Head sets a section's heading and keeps it with what follows: so much height.
func (b *Book) Head(text string, follows float64) { b.Head2(text, "", follows) }

// Head2 is Head with a remark in smaller type under it.
func (b *Book) Head2(text, remark string, follows float64) {
	high := TextHeight(text, sheet.Strong(sheet.SizeHead), b.Room.W) + 1
	if remark != "" {
		high += TextHeight(remark, Quiet(), b.Room.W) + 0.6
	}
	if !b.Fresh() {
		b.Need(3 + high + follows)
	}
	if !b.Fresh() {
		b.Down(3)
	}
	b.Say(text, sheet.Strong(sheet.SizeHead))
	if remark != "" {
		b.Say(remark, Quiet())
	}
	b.Down(1)
}

// Say sets a paragraph; it goes on on the next sheet where it must.
func (b *Book) Say(text string, style sheet.Style) {
	for _, line := range typeface.Wrap(text, style.Face, style.Size, b.Room.W) {
		b.Need(style.Size * typeface.Leading)
		b.Room = b.Room.Below(frame.Paragraph(&b.C, b.Room, line, style))
	}
}

// Remark sets a paragraph of small text; it is not parted.
func (b *Book) Remark(text string) {
	b.Need(TextHeight(text, Quiet(), b.Room.W))
	b.Room = b.Room.Below(frame.Paragraph(&b.C, b.Room, text, Quiet()))
	b.Down(b.gap)
}

// Table sets a table over as many sheets as it takes.
func (b *Book) Table(t *table.Table) { b.Flow(t.Settle(b.Room.W)) }

// Flow is Table for one whose columns have their widths already.
func (b *Book) Flow(t *table.Settled) { b.pour(t.FlowIn(b.areas())) }

// pour sets the parts of a table, each in the next column or on the next sheet.
func (b *Book) pour(parts []table.Part) {
	for i, part := range parts {
		if i > 0 {
			b.Next()
		}
		b.C.Add(part.Marks...)
		b.Room = b.Room.Below(part.Bottom)
	}
	b.Down(b.gap)
}

// Whole sets a table that should stay on one sheet, under its heading: both go to
// the next sheet where the rest of this one is too low and the next is not.
func (b *Book) Whole(text, remark string, t *table.Table) {
	set := t.Settle(b.Room.W)
	high := set.Height()
	if high > b.Rest().H-20 {
		high = 25
	}
	b.Head2(text, remark, high)
	b.Flow(set)
}

// Section sets a table under a heading; the two are never parted, and a table
// that fits a whole sheet is not cut for the sake of a few rows.
func (b *Book) Section(head string, t *table.Table) {
	const high = sheet.SizeHead * 1.5
	set := t.Settle(b.Room.W)
	whole := high + set.Height()
	if need := min(whole, b.Rest().H/3); !b.Fresh() && (need > b.Room.H || whole <= b.Rest().H && b.strays(set, high)) {
		b.Next()
	}
	b.C.Text(b.Room.X, b.Room.Y+sheet.SizeHead*typeface.CapHeight, head, sheet.Strong(sheet.SizeHead))
	b.Down(high)
	b.Flow(set)
}

// strays tells whether only the last few rows of a table under its heading would
// go to a further sheet.
func (b *Book) strays(t *table.Settled, heading float64) bool {
	rest := b.Rest()
	parts := t.Flow(b.Room.Below(b.Room.Y+heading), rest)
	return len(parts) == 2 && parts[1].Bottom-rest.Y < rest.H/4
}

// Close gives the sheets; several are numbered and stand under one bookmark.
func (b *Book) Close() []frame.Page {
	pages := append(b.pages, b.page())
	if len(pages) > 1 {
		for i := range pages {
			pages[i].Title = fmt.Sprintf("%s, %d of %d", b.name, i+1, len(pages))
			pages[i].Group = b.name
		}
	}
	return pages
}
