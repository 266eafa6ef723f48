package guide

import (
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/symbol"
	"example.com/loomfolio/layout/typeface"
)

// symbols draws the symbols that occur in this packet with their words, the high ones
// first, each kind role by role; the role of each is told by its edge.
func symbols(a page.Ask, s *page.Book) {
	used := symbol.Occurring(a.H)
	var all []symbol.Example
	words := "A tile is a part, the numbers on its edge its terminals, those at the left face the live side. Its edge tells its role:"
	for _, g := range symbol.Key() {
		met := false
		for _, e := range g.Examples {
			if used[e.Words] {
				all = append(all, e)
				met = true
			}
		}
		if met {
			words += " " + g.Title + ": " + g.Words + "."
		}
	}
	var high, low []symbol.Example
	for _, e := range all {
		if e.Tile.H > lowest {
			high = append(high, e)
		} else {
			low = append(low, e)
		}
	}
	rows := append(symbolRows(high, s.Room.W), symbolRows(low, s.Room.W)...)
	s.Head2("Symbols", words, rows[0].high())
	for _, row := range rows {
		s.Need(row.high())
		row.draw(&s.C, s.Room)
		s.Down(row.high())
	}
}

// lowest is the height of a symbol in a diagram, mm, up to which it stands with the low ones.
const lowest = 15

// row is symbols side by side.
type row []field

// field is the place of a symbol in its row: from the left of the room, and wide; its
// words stand beside its tile, or under a high one.
type field struct {
	symbol.Example
	x, w float64
}

func (f field) under() bool { return f.Tile.H > lowest }

func fieldOf(e symbol.Example) field {
	if f := (field{Example: e}); f.under() {
		return field{Example: e, w: max(tileWide(e), twoLines(e)+1.6)}
	}
	return field{Example: e, w: tileWide(e) + twoLines(e) + 2.4}
}

// twoLines is the least width at which a symbol's words take two lines at most.
func twoLines(e symbol.Example) float64 {
	words := string(e.Words)
	width := typeface.Longest(words, sheet.Regular, sheet.SizeBody)
	for len(typeface.Wrap(words, sheet.Regular, sheet.SizeBody, width)) > 2 {
		width++
	}
	return width + 0.1
}

// symbolRows sets symbols one behind the other, as many in a row as fit, and shares what is
// left in a row among them.
func symbolRows(all []symbol.Example, width float64) []row {
	var rows []row
	x := width
	for _, e := range all {
		f := fieldOf(e)
		if x+f.w > width && x > 0 {
			rows, x = append(rows, nil), 0
		}
		f.x = x
		x += f.w
		rows[len(rows)-1] = append(rows[len(rows)-1], f)
	}
	widest := 0.0
	for i, r := range rows {
		end := r[len(r)-1].x + r[len(r)-1].w
		more := (width - end) / float64(len(r))
		if i > 0 && i == len(rows)-1 {
			more = min(more, widest) // the last row stands under the others
		}
		widest = more
		for k := range r {
			r[k].x += more * float64(k)
			r[k].w += more
		}
	}
	return rows
}

// words is where the words of a symbol stand.
func (f field) words(r sheet.Rect) sheet.Rect {
	if f.under() {
		return sheet.Rect{X: r.X + f.x + 0.8, Y: r.Y, W: f.w - 1.6}
	}
	left := f.Tile.W*tileScale + 1.6
	return sheet.Rect{X: r.X + f.x + left, Y: r.Y, W: f.w - left - 0.8}
}

// rowClear is the clear under a row, wordClear that between a tile and the words under it.
const rowClear, wordClear = 1.1, 0.9

// tiles is the height of a row's tiles, text that of its words.
func (r row) tiles() float64 {
	high := 0.0
	for _, f := range r {
		high = max(high, f.Tile.H*tileScale)
	}
	return high
}

func (r row) text() float64 {
	high := 0.0
	for _, f := range r {
		high = max(high, page.TextHeight(string(f.Words), sheet.Plain(sheet.SizeBody), f.words(sheet.Rect{}).W))
	}
	return high
}

// high is the height of a row with its words and the clear under it.
func (r row) high() float64 {
	if r[0].under() {
		return r.tiles() + wordClear + r.text() + rowClear
	}
	return max(r.tiles(), r.text()) + rowClear
}

func (r row) draw(c *sheet.Canvas, room sheet.Rect) {
	style, tiles := sheet.Plain(sheet.SizeBody), r.tiles()
	for _, f := range r {
		at := f.words(room)
		if f.under() {
			c.Add(f.tile(room.X+f.x+(f.w-f.Tile.W*tileScale)/2, room.Y+tiles-f.Tile.H*tileScale)...)
			at.Y += tiles + wordClear
			page.Centred(c, at, string(f.Words), style)
			continue
		}
		high := r.high() - rowClear
		c.Add(f.tile(room.X+f.x, room.Y+(high-f.Tile.H*tileScale)/2)...)
		at.Y += (high - page.TextHeight(string(f.Words), style, at.W)) / 2
		frame.Paragraph(c, at, string(f.Words), style)
	}
}

// tile is the symbol with its upper left corner at a point.
func (f field) tile(x, y float64) []sheet.Mark {
	return sheet.Move(sheet.Scale(f.Tile.Marks, tileScale), x, y)
}

// tileScale makes a symbol a little smaller than in a diagram: the text on it has
// the size of notes.
const tileScale = sheet.SizeNote / sheet.SizeBody

// tileWide is the least width of a symbol's field.
func tileWide(e symbol.Example) float64 { return e.Tile.W*tileScale + 0.8 }
