package guide

import (
	"math"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/symbol"
	"example.com/loomfolio/layout/typeface"
)

// symbols draws every symbol of the set with its words, by role, as many in a row
// as fit; the words of those that this harness has are bold.
func symbols(a page.Ask, s *page.Book) {
	used := usedSymbols(a)
	s.Head2("Symbols", "A tile is a part; the numbers on its edge are its terminals, at the left those that face the live side. The edge tells what the part does. Words in bold: this harness has it.", 40)
	for _, g := range symbol.Key() {
		symbolGroup(s, g, used)
	}
	s.Down(1)
}

// usedSymbols are the pictograms that the parts of the harness have.
func usedSymbols(a page.Ask) map[symbol.Variant]bool {
	used := map[symbol.Variant]bool{}
	for i := range a.H.Parts {
		used[symbol.VariantOf(a.H, &a.H.Parts[i])] = true
	}
	return used
}

// symbolGroup sets the symbols of one role under a line that names it.
func symbolGroup(s *page.Book, g symbol.Group, used map[symbol.Variant]bool) {
	rows := symbolRows(g.Examples, s.Room.W)
	s.Need(groupHead + rowHigh(rows[0], used))
	s.C.Line(s.Room.X, s.Room.Y+0.5, s.Room.Right(), s.Room.Y+0.5, sheet.Solid(sheet.Hair).In(sheet.Rule))
	bold := sheet.Strong(sheet.SizeBody)
	s.C.Text(s.Room.X, s.Room.Y+4.2, g.Title, bold)
	x := s.Room.X + typeface.Width(g.Title, bold.Face, bold.Size) + 2.5
	s.C.Text(x, s.Room.Y+4.2, typeface.Fit(g.Words, sheet.Regular, sheet.SizeNote, s.Room.Right()-x), sheet.Plain(sheet.SizeNote).In(sheet.Grey))
	s.Down(groupHead)
	for _, row := range rows {
		symbolRow(s, row, used)
	}
}

// field is the place of a symbol in its row: from the left of the room, and wide.
type field struct {
	symbol.Example
	x, w float64
}

// symbolRows sets symbols in columns, a wide one over two, or all of them in one
// row of unlike fields where a few more would stand alone on a second row.
func symbolRows(all []symbol.Example, width float64) [][]field {
	across := max(4, int(width/28))
	if n := len(all); n > across && n <= int(width/21) {
		if row := oneRow(all, width); row != nil {
			return [][]field{row}
		}
	}
	var rows [][]field
	w := width / float64(across)
	col := across
	for _, k := range all {
		span := min(across, int(math.Ceil(tileWide(k)/w)))
		if col+span > across {
			rows, col = append(rows, nil), 0
		}
		last := &rows[len(rows)-1]
		*last = append(*last, field{k, w * float64(col), w * float64(span)})
		col += span
	}
	return rows
}

const leastField = 17.0 // two short words side by side

// oneRow shares a width among symbols, each at least as wide as its tile and its
// longest word; nil where it is too little.
func oneRow(all []symbol.Example, width float64) []field {
	var row []field
	x := 0.0
	for _, k := range all {
		w := math.Max(math.Max(tileWide(k), leastField), typeface.Longest(string(k.Words), sheet.Bold, sheet.SizeBody)+2)
		row = append(row, field{k, x, w})
		x += w
	}
	if x > width {
		return nil
	}
	more := (width - x) / float64(len(row))
	for i := range row {
		row[i].x += more * float64(i)
		row[i].w += more
	}
	return row
}

// groupHead is the height of the line that names a role.
const groupHead = 6.4

// symbolRow sets symbols side by side, their words under a common line.
func symbolRow(s *page.Book, row []field, used map[symbol.Variant]bool) {
	high := tilesHigh(row)
	whole := rowHigh(row, used)
	s.Need(whole)
	for _, f := range row {
		x := s.Room.X + f.x
		s.C.Add(sheet.Move(sheet.Scale(f.Tile.Marks, tileScale), x+(f.w-f.Tile.W*tileScale)/2, s.Room.Y+(high-f.Tile.H*tileScale)/2)...)
		page.Centred(&s.C, sheet.Rect{X: x + 1, Y: s.Room.Y + high + 1.3, W: f.w - 2}, string(f.Words), symbolWords(f.Example, used))
	}
	s.Down(whole)
}

func symbolWords(k symbol.Example, used map[symbol.Variant]bool) sheet.Style {
	if used[k.Words] {
		return sheet.Strong(sheet.SizeBody)
	}
	return sheet.Plain(sheet.SizeBody)
}

func tilesHigh(row []field) float64 {
	high := 0.0
	for _, f := range row {
		high = math.Max(high, f.Tile.H*tileScale)
	}
	return high
}

// rowHigh is the height of a row with its words.
func rowHigh(row []field, used map[symbol.Variant]bool) float64 {
	words := 0.0
	for _, f := range row {
		words = math.Max(words, page.TextHeight(string(f.Words), symbolWords(f.Example, used), f.w-2))
	}
	return tilesHigh(row) + words + 2.9
}

// tileScale makes a symbol a little smaller than in a diagram: the text on it has
// the size of notes.
const tileScale = sheet.SizeNote / sheet.SizeBody

// tileWide is the least width of a symbol's field.
func tileWide(k symbol.Example) float64 { return k.Tile.W*tileScale + 0.8 }
