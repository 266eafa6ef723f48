package loom

import (
	"strings"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

// word is a piece of a row that may lead somewhere: to the first of some anchors
// that stands in the packet.
type word struct {
	s  string
	to []string
}

// finder gives an anchor where it stands in the packet, else "".
type finder func(anchor string) string

// target is where a word leads, "" for nowhere; a nil finder knows nothing.
func (w word) target(find finder) string {
	if find == nil {
		return ""
	}
	for _, anchor := range w.to {
		if at := find(anchor); at != "" {
			return at
		}
	}
	return ""
}

// row is one line of a label.
type row struct {
	words []word
	style sheet.Style
}

func (r row) text() string {
	all := make([]string, len(r.words))
	for i, w := range r.words {
		all[i] = w.s
	}
	return strings.Join(all, " ")
}

func (r row) width() float64 { return typeface.Width(r.text(), r.style.Face, r.style.Size) }

// block is the text of a label: rows in one column or several of equal width.
type block struct {
	rows    []row
	columns int // 0: one; the first row stands over all columns
	w, h    float64
	less    float64 // how much less it is liked than the best, as mm of distance
}

const (
	leading = 1.25
	rise    = 0.97 // of the font size: from the top of a row to its base line
	gutter  = 4    // mm between two columns of a label
)

// blockOf measures rows set in columns.
func blockOf(columns int, rows ...row) block {
	b := block{rows: rows, columns: columns}
	head := rows[0].width()
	if columns < 2 {
		for _, r := range rows {
			b.w = max(b.w, r.width())
			b.h += r.style.Size * leading
		}
		return b
	}
	b.h = rows[0].style.Size*leading + float64(b.deep())*rows[len(rows)-1].style.Size*leading
	b.w = max(head, float64(columns)*b.wide()+float64(columns-1)*gutter)
	return b
}

// wide is the width of a column, deep the number of rows in it.
func (b block) wide() float64 {
	wide := 0.0
	for _, r := range b.rows[1:] {
		wide = max(wide, r.width())
	}
	return wide
}

func (b block) deep() int { return (len(b.rows) - 2 + b.columns) / b.columns }

// draw sets the block into its area; the rows lean to the left or right.
func (b block) draw(c *sheet.Canvas, r sheet.Rect, right bool, find finder) {
	y := r.Y
	for i, row := range b.rows {
		x := r.X
		if b.columns > 1 && i > 0 {
			column, down := (i-1)/b.deep(), (i-1)%b.deep()
			x += float64(column) * (b.wide() + gutter)
			y = r.Y + b.rows[0].style.Size*leading + float64(down)*row.style.Size*leading
		} else if right {
			x = r.Right() - row.width()
		}
		row.draw(c, x, y, find)
		y += row.style.Size * leading
	}
}

// draw sets the row from its top left corner, with its links.
func (r row) draw(c *sheet.Canvas, x, y float64, find finder) {
	size := r.style.Size
	c.Text(x, y+rise*size, r.text(), r.style)
	before := ""
	for _, w := range r.words {
		if to := w.target(find); to != "" {
			from := typeface.Width(before, r.style.Face, size)
			c.Link(sheet.Rect{X: x + from, Y: y, W: typeface.Width(w.s, r.style.Face, size), H: size * leading}, to)
		}
		before += w.s + " "
	}
}

func plain(s string) row {
	return row{words: []word{{s: s}}, style: sheet.Plain(sheet.SizeBody)}
}

func strong(s string) row {
	return row{words: []word{{s: s}}, style: sheet.Strong(sheet.SizeBody)}
}

// wrapped breaks words over rows no wider than a width.
func wrapped(words []word, style sheet.Style, width float64) []row {
	text := row{words: words}.text()
	var out []row
	first, from, end := 0, 0, 0 // the word that begins the row, its place in the text, the end of the row
	for i, w := range words {
		next := end + len(w.s)
		if i > 0 {
			next++ // the blank before it
		}
		if i > first && typeface.Width(text[from:next], style.Face, style.Size) > width {
			out = append(out, row{words: words[first:i:i], style: style})
			first, from = i, next-len(w.s)
		}
		end = next
	}
	if len(words) > 0 {
		out = append(out, row{words: words[first:], style: style})
	}
	return out
}

// balanced breaks words over at most n rows that are as alike in width as they can be.
func balanced(words []word, n int) []row {
	style := sheet.Plain(sheet.SizeBody)
	whole := row{words: words, style: style}.width()
	for wide := whole / float64(n); ; wide += 1.5 {
		if rows := wrapped(words, style, wide); len(rows) <= n || wide > whole {
			return rows
		}
	}
}
