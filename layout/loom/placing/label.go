package placing

import (
	"strings"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

// Word is a piece of a row that may lead somewhere: to the first of some anchors
// that stands in the packet.
type Word struct {
	Said string
	To   []string
}

// finder gives an anchor where it stands in the packet, else "".
type finder func(anchor string) string

// target is where a word leads, "" for nowhere; a nil finder knows nothing.
func (w Word) target(find finder) string {
	if find == nil {
		return ""
	}
	for _, anchor := range w.To {
		if at := find(anchor); at != "" {
			return at
		}
	}
	return ""
}

// Row is one line of a label.
type Row struct {
	Words []Word
	Style sheet.Style
}

// Text is the row as it reads.
func (r Row) Text() string {
	all := make([]string, len(r.Words))
	for i, w := range r.Words {
		all[i] = w.Said
	}
	return strings.Join(all, " ")
}

// Width is that of the printed row, mm.
func (r Row) Width() float64 { return typeface.Width(r.Text(), r.Style.Face, r.Style.Size) }

// Block is the text of a label: rows in one column or several of equal width.
type Block struct {
	Rows    []Row
	columns int // 0: one; the first row stands over all columns
	w, H    float64
	Less    float64 // how much less it is liked than the best, as mm of distance
}

const (
	Leading = 1.25
	Rise    = 0.97 // of the font size: from the top of a row to its base line
	Gutter  = 4    // mm between two columns of a label
)

// BlockOf measures rows set in columns.
func BlockOf(columns int, rows ...Row) Block {
	b := Block{Rows: rows, columns: columns}
	head := rows[0].Width()
	if columns < 2 {
		for _, r := range rows {
			b.w = max(b.w, r.Width())
			b.H += r.Style.Size * Leading
		}
		return b
	}
	b.H = rows[0].Style.Size*Leading + float64(b.deep())*rows[len(rows)-1].Style.Size*Leading
	b.w = max(head, float64(columns)*b.wide()+float64(columns-1)*Gutter)
	return b
}

// wide is the width of a column, deep the number of rows in it.
func (b Block) wide() float64 {
	wide := 0.0
	for _, r := range b.Rows[1:] {
		wide = max(wide, r.Width())
	}
	return wide
}

func (b Block) deep() int { return (len(b.Rows) - 2 + b.columns) / b.columns }

// Draw sets the block into its area; the rows lean to the left or right.
func (b Block) Draw(c *sheet.Canvas, r sheet.Rect, right bool, find finder) {
	y := r.Y
	for i, row := range b.Rows {
		x := r.X
		if b.columns > 1 && i > 0 {
			column, down := (i-1)/b.deep(), (i-1)%b.deep()
			x += float64(column) * (b.wide() + Gutter)
			y = r.Y + b.Rows[0].Style.Size*Leading + float64(down)*row.Style.Size*Leading
		} else if right {
			x = r.Right() - row.Width()
		}
		row.Draw(c, x, y, find)
		y += row.Style.Size * Leading
	}
}

// Draw sets the row from its top left corner, with its links.
func (r Row) Draw(c *sheet.Canvas, x, y float64, find finder) {
	size := r.Style.Size
	c.Text(x, y+Rise*size, r.Text(), r.Style)
	before := ""
	for _, w := range r.Words {
		if to := w.target(find); to != "" {
			from := typeface.Width(before, r.Style.Face, size)
			c.Link(sheet.Rect{X: x + from, Y: y, W: typeface.Width(w.Said, r.Style.Face, size), H: size * Leading}, to)
		}
		before += w.Said + " "
	}
}

// Plain is a row of text in the regular face.
func Plain(s string) Row {
	return Row{Words: []Word{{Said: s}}, Style: sheet.Plain(sheet.SizeBody)}
}

// Strong is a row of text in the bold face.
func Strong(s string) Row {
	return Row{Words: []Word{{Said: s}}, Style: sheet.Strong(sheet.SizeBody)}
}

// Wrapped breaks words over rows no wider than a width.
func Wrapped(words []Word, style sheet.Style, width float64) []Row {
	text := Row{Words: words}.Text()
	var out []Row
	first, from, end := 0, 0, 0 // the word that begins the row, its place in the text, the end of the row
	for i, w := range words {
		next := end + len(w.Said)
		if i > 0 {
			next++ // the blank before it
		}
		if i > first && typeface.Width(text[from:next], style.Face, style.Size) > width {
			out = append(out, Row{Words: words[first:i:i], Style: style})
			first, from = i, next-len(w.Said)
		}
		end = next
	}
	if len(words) > 0 {
		out = append(out, Row{Words: words[first:], Style: style})
	}
	return out
}

// Balanced breaks words over at most n rows that are as alike in width as they can be.
func Balanced(words []Word, n int) []Row {
	style := sheet.Plain(sheet.SizeBody)
	whole := Row{Words: words, Style: style}.Width()
	for wide := whole / float64(n); ; wide += 1.5 {
		if rows := Wrapped(words, style, wide); len(rows) <= n || wide > whole {
			return rows
		}
	}
}
