package guide

import (
	"math"
	"slices"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/symbol"
	"example.com/loomfolio/layout/typeface"
)

// symbols draws every symbol of the set with its words, by role, as many in a row
// as fit; the words of those that this harness has are bold.
func symbols(a page.Ask, s *sheaf) {
	used := usedSymbols(a)
	s.head2("Symbols", "A tile is a part; the numbers on its edge are its terminals, at the left those where current enters. The edge tells what the part does. Words in bold: this harness has it.", 40)
	for _, g := range symbol.Key() {
		symbolGroup(s, g, used)
	}
	s.down(1)
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
func symbolGroup(s *sheaf, g symbol.Group, used map[symbol.Variant]bool) {
	across := inRow(len(g.Examples), s.room.W)
	w := s.room.W / float64(across)
	rows := slices.Collect(slices.Chunk(g.Examples, across))
	first := rows[0]
	s.need(groupHead + rowHigh(first, used, w))
	s.c.Line(s.room.X, s.room.Y+0.5, s.room.Right(), s.room.Y+0.5, sheet.Solid(sheet.Hair).In(sheet.Rule))
	bold := sheet.Strong(sheet.SizeBody)
	s.c.Text(s.room.X, s.room.Y+4.2, g.Title, bold)
	x := s.room.X + typeface.Width(g.Title, bold.Face, bold.Size) + 2.5
	s.c.Text(x, s.room.Y+4.2, typeface.Fit(g.Words, sheet.Regular, sheet.SizeNote, s.room.Right()-x), sheet.Plain(sheet.SizeNote).In(sheet.Grey))
	s.down(groupHead)
	for _, row := range rows {
		symbolRow(s, row, used, w)
	}
}

// inRow is how many symbols stand in a row: as many as have room for their words,
// or all of a role where a few more would stand alone on a second row.
func inRow(n int, width float64) int {
	roomy := max(4, int(width/28))
	if n > roomy && n <= int(width/21) {
		return n
	}
	return roomy
}

// groupHead is the height of the line that names a role.
const groupHead = 6.4

// symbolRow sets symbols side by side, their words under a common line.
func symbolRow(s *sheaf, row []symbol.Example, used map[symbol.Variant]bool, w float64) {
	high := tilesHigh(row, w)
	whole := rowHigh(row, used, w)
	s.need(whole)
	for i, k := range row {
		scale := tileScale(k.Tile, w)
		x := s.room.X + w*float64(i)
		s.c.Add(sheet.Move(sheet.Scale(k.Tile.Marks, scale), x+(w-k.Tile.W*scale)/2, s.room.Y+(high-k.Tile.H*scale)/2)...)
		centred(&s.c, sheet.Rect{X: x + 1, Y: s.room.Y + high + 1.3, W: w - 2}, string(k.Words), symbolWords(k, used))
	}
	s.down(whole)
}

func symbolWords(k symbol.Example, used map[symbol.Variant]bool) sheet.Style {
	if used[k.Words] {
		return sheet.Strong(sheet.SizeBody)
	}
	return sheet.Plain(sheet.SizeBody)
}

func tilesHigh(row []symbol.Example, w float64) float64 {
	high := 0.0
	for _, k := range row {
		high = math.Max(high, k.Tile.H*tileScale(k.Tile, w))
	}
	return high
}

// rowHigh is the height of a row with its words.
func rowHigh(row []symbol.Example, used map[symbol.Variant]bool, w float64) float64 {
	words := 0.0
	for _, k := range row {
		words = math.Max(words, textHeight(string(k.Words), symbolWords(k, used), w-2))
	}
	return tilesHigh(row, w) + words + 3.4
}

// tileScale makes a symbol a little smaller than in a diagram, so that it fits its field.
func tileScale(t symbol.Tile, w float64) float64 { return math.Min(0.82, (w-3)/t.W) }
