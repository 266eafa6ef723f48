// Package bench lays out the sheets that a builder works from: the cut list,
// the terminals with their crimps, the splices, the labels at their true size, the
// runs of loom, the order of building and the shopping list.
//
// In: page.Ask, the model with everything computed for it. Out: the pages of
// one kind of sheet, none when there is nothing to say. It holds that every
// wire has one row in the cut list and one at each of its two ends, that no
// figure is computed here beyond sums and counts, and that colour is never
// the only carrier of a fact. Lengths are printed in mm and m, or in feet and
// inches where the description asks for them; forces in newtons and pounds.
//
// Anchors set here: sheet/cut-list, sheet/terminals, sheet/splices, sheet/labels,
// sheet/runs, sheet/tracing, sheet/build-order, sheet/shopping, wire/NAME, end/NAME and splice/REF.
package bench

import (
	"fmt"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/layout/typeface"
)

// gap is the clear space between two blocks of a sheet, mm.
const gap = 4

// book fills the pages of one kind of sheet from the top.
type book struct {
	frame    frame.Frame
	name     string
	subtitle string
	canvas   sheet.Canvas
	area     sheet.Rect // what is left of the page
	pages    []frame.Page
}

// open begins a kind of sheet; the subtitle stands on each of its pages.
func open(f frame.Frame, name, anchor, subtitle string) *book {
	b := &book{frame: f, name: name, subtitle: subtitle}
	b.canvas.Anchor(anchor, f.Body.X, f.Body.Y)
	b.area = f.Heading(&b.canvas, name, subtitle)
	return b
}

// turn goes to a further page.
func (b *book) turn() {
	b.pages = append(b.pages, frame.Page{Frame: b.frame, Marks: b.canvas.Marks})
	b.canvas = sheet.Canvas{}
	b.area = b.frame.Heading(&b.canvas, b.name+", continued", b.subtitle)
}

// rest is what a further page has room for.
func (b *book) rest() sheet.Rect {
	var scratch sheet.Canvas
	return b.frame.Heading(&scratch, b.name+", continued", b.subtitle)
}

// table sets a table over as many pages as it needs.
func (b *book) table(t *table.Table) { b.flow(t.Settle(b.area.W)) }

func (b *book) flow(t *table.Settled) {
	bottom := b.area.Y
	for i, part := range t.Flow(b.area, b.rest()) {
		if i > 0 {
			b.turn()
		}
		b.canvas.Add(part.Marks...)
		bottom = part.Bottom
	}
	b.area = b.area.Below(bottom + gap)
}

// section sets a table under a heading; the two are never parted, and a table
// that fits a whole page is not cut for the sake of a few rows.
func (b *book) section(head string, t *table.Table) {
	const high = sheet.SizeHead * 1.5
	set := t.Settle(b.area.W)
	whole := high + set.Height()
	if need := min(whole, b.rest().H/3); need > b.area.H || whole <= b.rest().H && b.strays(set, high) {
		b.turn()
	}
	b.canvas.Text(b.area.X, b.area.Y+sheet.SizeHead*typeface.CapHeight, head, sheet.Strong(sheet.SizeHead))
	b.area = b.area.Below(b.area.Y + high)
	b.flow(set)
}

// strays tells whether only the last few rows of a table under its heading would
// go to a further page.
func (b *book) strays(t *table.Settled, heading float64) bool {
	rest := b.rest()
	parts := t.Flow(b.area.Below(b.area.Y+heading), rest)
	return len(parts) == 2 && parts[1].Bottom-rest.Y < rest.H/4
}

// remark sets a paragraph of small text; it is not parted.
func (b *book) remark(s string) {
	style := sheet.Plain(sheet.SizeNote).In(sheet.Grey)
	lines := len(typeface.Wrap(s, style.Face, style.Size, b.area.W))
	if float64(lines)*style.Size*typeface.Leading > b.area.H {
		b.turn()
	}
	bottom := frame.Paragraph(&b.canvas, b.area, s, style)
	b.area = b.area.Below(bottom + gap)
}

// close gives the pages; several of them share a bookmark and are numbered.
func (b *book) close() []frame.Page {
	pages := append(b.pages, frame.Page{Frame: b.frame, Marks: b.canvas.Marks})
	for i := range pages {
		pages[i].Title = b.name
		if len(pages) > 1 {
			pages[i].Title = fmt.Sprintf("%s (%d of %d)", b.name, i+1, len(pages))
			pages[i].Group = b.name
		}
	}
	return pages
}
