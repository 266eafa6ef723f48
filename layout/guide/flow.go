package guide

import (
	"math"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

// item is a short piece of text that flows down columns: a name and what is said of it,
// under a section's heading where it is the first of one.
type item struct {
	head, remark string
	label        string // bold, at the beginning of the text
	text         string
	hang         float64 // where the lines of the text begin; 0: behind the label, and at the column's edge from the second line on
	size         float64 // of the text
	clear        float64 // under it
	words        []word  // a line that is set already, in the place of label and text
}

// word is a piece of such a line.
type word struct {
	x    float64
	text string
	face sheet.Face
}

// headed sets a section's heading, with a remark, on the first of its items, and some clear under the last.
func headed(head, remark string, items []item) []item {
	if len(items) > 0 {
		items[0].head, items[0].remark = head, remark
		items[len(items)-1].clear += sectionClear
	}
	return items
}

// sectionClear is the white under a section, mm.
const sectionClear = 1.4

// high is how high the item becomes at a width.
func (t item) high(width float64) float64 {
	var unseen sheet.Canvas
	return t.set(&unseen, sheet.Rect{W: width})
}

// set draws it at the top of an area and gives where it ends, with the clear under it.
func (t item) set(c *sheet.Canvas, r sheet.Rect) float64 {
	y := r.Y
	if t.head != "" {
		y = heading(c, r, t.head, t.remark)
	}
	y = t.body(c, sheet.Rect{X: r.X, Y: y, W: r.W})
	return y + t.clear
}

// body sets the label and the text behind it, or the words of a line, and gives where they end.
func (t item) body(c *sheet.Canvas, r sheet.Rect) float64 {
	next := r.Y + t.size*typeface.Leading
	base := r.Y + t.size*(typeface.CapHeight+0.12)
	for _, w := range t.words {
		c.Text(r.X+w.x, base, w.text, sheet.Style{Size: t.size, Face: w.face, Colour: sheet.Ink})
	}
	if len(t.words) > 0 {
		return next
	}
	style, strong := sheet.Plain(t.size), sheet.Strong(t.size)
	c.Text(r.X, base, t.label, strong)
	if t.hang > 0 {
		return math.Max(next, frame.Paragraph(c, sheet.Rect{X: r.X + t.hang, Y: r.Y, W: r.W - t.hang}, t.text, style))
	}
	after := typeface.Width(t.label, strong.Face, strong.Size) + 0.5*t.size
	first, rest := leading(t.text, style, r.W-after)
	c.Text(r.X+after, base, first, style)
	if rest == "" {
		return next
	}
	return frame.Paragraph(c, sheet.Rect{X: r.X, Y: next, W: r.W}, rest, style)
}

// leading parts a text into what fits a first line and the rest.
func leading(text string, style sheet.Style, width float64) (first, rest string) {
	end := 0
	for _, piece := range typeface.Pieces(text) {
		if typeface.Width(text[:end]+piece, style.Face, style.Size) > width+1e-6 {
			break
		}
		end += len(piece)
	}
	return text[:end], text[end:]
}

// leastFlow is the least height of columns at the foot of a sheet.
const leastFlow = 24

// Columns of what one looks up.
const (
	columns   = 3
	lookupGap = 4
)

// columnWide is the width of a column.
func columnWide(s *page.Book) float64 { return page.ColumnWide(s.Room.W, columns, lookupGap) }

// columned lets items flow down columns that end at about one height, sheet by sheet.
func columned(s *page.Book, items []item) {
	if s.Room.H < leastFlow && !s.Fresh() {
		s.Turn()
	}
	s.Cards(columns, lookupGap, 0, cardsOf(items, columnWide(s)))
}

// cardsOf are items as they are set in a column of a width, none of them parted.
func cardsOf(items []item, width float64) []page.Card {
	cards := make([]page.Card, len(items))
	for i, t := range items {
		cards[i] = page.Card{High: t.high(width), Draw: func(c *sheet.Canvas, r sheet.Rect) { t.set(c, r) }}
	}
	return cards
}
