package guide

import (
	"math"
	"slices"

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
	for len(items) > 0 {
		if s.Room.H < leastFlow && !s.Fresh() {
			s.Turn()
		}
		w := columnWide(s)
		starts, high := balanced(items, columns, w, s.Room.H)
		end := 0.0
		for i := range columns {
			y := s.Room.Y
			for _, t := range items[starts[i]:starts[i+1]] {
				y = t.set(&s.C, sheet.Rect{X: s.Room.X + float64(i)*(w+lookupGap), Y: y, W: w, H: high})
			}
			end = math.Max(end, y)
		}
		items = items[starts[columns]:]
		s.Room = s.Room.Below(end)
		if len(items) > 0 {
			s.Turn()
		}
	}
}

// balanced gives the items with which each column begins, and behind the last column what is left
// over; the columns are as low as whole items make them, and no higher than the room.
func balanced(items []item, n int, width, room float64) (starts []int, high float64) {
	highs := make([]float64, len(items))
	for i, t := range items {
		highs[i] = t.high(width)
	}
	low, high := slices.Max(highs)-0.1, room
	starts = filled(items, highs, n, room)
	if starts[n] < len(items) {
		return starts, room
	}
	for high-low > 0.2 {
		mid := (low + high) / 2
		if even := filled(items, highs, n, mid); even[n] == len(items) {
			starts, high = even, mid
		} else {
			low = mid
		}
	}
	return starts, high
}

// filled fills columns of a height one after the other; one item at least stands in the first.
func filled(items []item, highs []float64, n int, high float64) []int {
	starts := []int{0}
	at := 0
	for range n {
		for y := 0.0; at < len(items) && (y+highs[at] <= high || at == 0); at++ {
			y += highs[at]
		}
		starts = append(starts, at)
	}
	return starts
}
