package guide

import (
	"math"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/symbol"
)

// symbols draws every symbol of the set with its words, as many in a row as fit.
func symbols(s *sheaf) {
	key := symbol.Key()
	across := max(4, int(s.room.W/28))
	s.head2("Symbols", "A tile is a part; the numbers on its edge are its terminals, at the left those where current enters. The edge tells the role: heavy at the left for supplies, cut corners for protection, open sides for contacts (drawn at rest), round corners for loads.", 30)
	s.down(1.5)
	w := s.room.W / float64(across)
	for i := 0; i < len(key); i += across {
		symbolRow(s, key[i:min(i+across, len(key))], w)
	}
	s.down(1)
}

// symbolRow sets symbols side by side, their words under a common line.
func symbolRow(s *sheaf, row []symbol.Example, w float64) {
	high, words := 0.0, 0.0
	style := sheet.Plain(sheet.SizeBody)
	for _, k := range row {
		high = math.Max(high, k.Tile.H*tileScale(k.Tile, w))
		words = math.Max(words, textHeight(k.Words, style, w-3))
	}
	s.need(high + words + 3.4)
	for i, k := range row {
		scale := tileScale(k.Tile, w)
		x := s.room.X + w*float64(i)
		s.c.Add(sheet.Move(sheet.Scale(k.Tile.Marks, scale), x+(w-k.Tile.W*scale)/2, s.room.Y+(high-k.Tile.H*scale)/2)...)
		centred(&s.c, sheet.Rect{X: x + 1.5, Y: s.room.Y + high + 1.3, W: w - 3}, k.Words, style)
	}
	s.down(high + words + 3.4)
}

// tileScale makes a symbol a little smaller than in a diagram, so that it fits its field.
func tileScale(t symbol.Tile, w float64) float64 { return math.Min(0.82, (w-3)/t.W) }
