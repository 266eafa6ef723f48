package guide

import (
	"cmp"
	"slices"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/symbol"
	"example.com/loomfolio/layout/typeface"
)

// symbols draws the symbols that occur in this packet with their words, the high ones
// first and low ones beside them, each kind role by role; the role of each is told by its edge.
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
	shelves := shelved(byHeight(all), s.Room.W)
	s.Head2("Symbols", words, shelves[0].high())
	for _, f := range shelves {
		s.Need(f.high() + shelfClear)
		f.draw(&s.C, s.Room)
		s.Down(f.high() + shelfClear)
	}
}

// byHeight puts high symbols before those of middle height, and these before low ones.
func byHeight(all []symbol.Example) []symbol.Example {
	rank := func(e symbol.Example) int {
		switch {
		case under(e):
			return 0
		case e.Tile.H > low:
			return 1
		}
		return 2
	}
	all = slices.Clone(all)
	slices.SortStableFunc(all, func(a, b symbol.Example) int {
		if x := cmp.Compare(rank(a), rank(b)); x != 0 || !under(a) {
			return x
		}
		return cmp.Compare(b.Tile.H, a.Tile.H)
	})
	return all
}

const (
	high = 24 // of a symbol in a diagram, mm, above which its words stand under it, else beside it
	low  = 16 // of one that is no higher than most

	tileScale  = sheet.SizeNote / sheet.SizeBody // a symbol is a little smaller than in a diagram: the text on it has the size of notes
	wordClear  = 0.9                             // between a tile and the words under it
	stackClear = 0.8                             // between symbols over one another
	stackOver  = 1.5                             // what low ones may add to the height of a shelf
	shelfClear = 1
)

// under tells whether a symbol's words stand under its tile.
func under(e symbol.Example) bool { return e.Tile.H > high }

func symbolHigh(e symbol.Example) float64 { return e.Tile.H * tileScale }

// leastWide is the least width of a symbol with its words, which take so many lines at most.
func leastWide(e symbol.Example, lines int) float64 {
	if tile := e.Tile.W*tileScale + 0.8; under(e) {
		return max(tile, wordsWide(e, lines)+1.6)
	}
	return e.Tile.W*tileScale + wordsWide(e, lines) + 2.4
}

// wordsWide is the least width at which a symbol's words take so many lines at most.
func wordsWide(e symbol.Example, lines int) float64 {
	words := string(e.Words)
	width := typeface.Longest(words, sheet.Regular, sheet.SizeBody)
	for len(typeface.Wrap(words, sheet.Regular, sheet.SizeBody, width)) > lines {
		width++
	}
	return width + 0.1
}

// wordsOf is where the words of a symbol stand, from the left of a field so wide.
func wordsOf(e symbol.Example, wide float64) sheet.Rect {
	if under(e) {
		return sheet.Rect{X: 0.8, W: wide - 1.6}
	}
	left := e.Tile.W*tileScale + 1.6
	return sheet.Rect{X: left, W: wide - left - 0.8}
}

// textHigh is the height of a symbol's words in a field so wide.
func textHigh(e symbol.Example, wide float64) float64 {
	return page.TextHeight(string(e.Words), sheet.Plain(sheet.SizeBody), wordsOf(e, wide).W)
}

// cell is a symbol with its words under it, or a few with their words beside them over one another.
type cell struct {
	x, w float64 // from the left of the room, and wide
	all  []symbol.Example
}

// high is the height of those over one another.
func (l cell) high() float64 {
	sum := stackClear * float64(len(l.all)-1)
	for _, e := range l.all {
		sum += max(symbolHigh(e), textHigh(e, l.w))
	}
	return sum
}

// shelf is cells side by side.
type shelf []cell

// tiles is the height of the tiles that stand over their words.
func (f shelf) tiles() (high float64) {
	for _, l := range f {
		if under(l.all[0]) {
			high = max(high, symbolHigh(l.all[0]))
		}
	}
	return high
}

// high is the height of a shelf.
func (f shelf) high() float64 {
	most, tiles := 0.0, f.tiles()
	for _, l := range f {
		if under(l.all[0]) {
			most = max(most, tiles+wordClear+textHigh(l.all[0], l.w))
		} else {
			most = max(most, l.high())
		}
	}
	return most
}

// takes puts a low symbol under the last of a shelf, if it finds room there with its words in two
// lines, or in three.
func (f shelf) takes(e symbol.Example, width float64) bool {
	last := &f[len(f)-1]
	if under(e) || under(last.all[0]) {
		return false
	}
	for lines := 2; lines <= 3; lines++ {
		grown := cell{last.x, max(last.w, leastWide(e, lines)), append(slices.Clone(last.all), e)}
		if grown.high() <= f.high()+stackOver && grown.x+grown.w <= width {
			*last = grown
			return true
		}
	}
	return false
}

// shelved sets symbols side by side, as many on a shelf as fit, low ones over one another where
// the shelf is high enough, and shares what is left of its width among them.
func shelved(all []symbol.Example, width float64) []shelf {
	var shelves []shelf
	x := width
	for _, e := range all {
		if len(shelves) > 0 && shelves[len(shelves)-1].takes(e, width) {
			last := shelves[len(shelves)-1]
			x = last[len(last)-1].x + last[len(last)-1].w
			continue
		}
		w := leastWide(e, 2)
		if x+w > width {
			shelves, x = append(shelves, nil), 0
		}
		last := &shelves[len(shelves)-1]
		*last = append(*last, cell{x, w, []symbol.Example{e}})
		x += w
	}
	spread(shelves, width)
	return shelves
}

// spread shares what is left of the width of each shelf among its cells; the last shelf stands
// under the others.
func spread(shelves []shelf, width float64) {
	widest := 0.0
	for i, f := range shelves {
		end := f[len(f)-1]
		more := (width - end.x - end.w) / float64(len(f))
		if i > 0 && i == len(shelves)-1 {
			more = min(more, widest)
		}
		widest = max(widest, more)
		for k := range f {
			f[k].x += more * float64(k)
			f[k].w += more
		}
	}
}

func (f shelf) draw(c *sheet.Canvas, room sheet.Rect) {
	high := f.high()
	for _, l := range f {
		if e := l.all[0]; under(e) {
			over(c, e, sheet.Rect{X: room.X + l.x, Y: room.Y, W: l.w}, f.tiles())
			continue
		}
		gap := (high - l.high()) / float64(len(l.all))
		y := room.Y + gap/2
		for _, e := range l.all {
			h := max(symbolHigh(e), textHigh(e, l.w))
			beside(c, e, sheet.Rect{X: room.X + l.x, Y: y, W: l.w, H: h})
			y += h + stackClear + gap
		}
	}
}

// over draws a symbol with its foot so far down, over its words.
func over(c *sheet.Canvas, e symbol.Example, r sheet.Rect, foot float64) {
	c.Add(tileAt(e, r.X+(r.W-e.Tile.W*tileScale)/2, r.Y+foot-symbolHigh(e))...)
	at := wordsOf(e, r.W)
	page.Centred(c, sheet.Rect{X: r.X + at.X, Y: r.Y + foot + wordClear, W: at.W}, string(e.Words), sheet.Plain(sheet.SizeBody))
}

// beside draws a symbol with its words at its right.
func beside(c *sheet.Canvas, e symbol.Example, r sheet.Rect) {
	c.Add(tileAt(e, r.X, r.Y+(r.H-symbolHigh(e))/2)...)
	at := wordsOf(e, r.W)
	y := r.Y + (r.H-textHigh(e, r.W))/2
	frame.Paragraph(c, sheet.Rect{X: r.X + at.X, Y: y, W: at.W}, string(e.Words), sheet.Plain(sheet.SizeBody))
}

// tileAt is a symbol with its upper left corner at a point.
func tileAt(e symbol.Example, x, y float64) []sheet.Mark {
	return sheet.Move(sheet.Scale(e.Tile.Marks, tileScale), x, y)
}
