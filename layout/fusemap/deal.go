package fusemap

import (
	"math"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
)

// leastWide is the width below which no card is set.
const leastWide = 76.0

// group is cards that follow one another, set alike.
type group struct {
	cards []card
	side  side
}

func groupOf(cards []card) group { return group{cards, sideOf(cards)} }

// columns is the number of columns in which the cards take the least height of a
// room, and that height.
func (g group) columns(room float64) (n int, high float64) {
	most := max(1, int((room+cardGap)/(leastWide+cardGap)))
	n, high = 1, math.Inf(1)
	for i := 1; i <= min(most, len(g.cards)); i++ {
		if h := dealt(g.heights(wide(room, i)), i); h < high-0.01 {
			n, high = i, h
		}
	}
	return n, high
}

// wide is the width of a card where so many stand abreast.
func wide(room float64, n int) float64 { return (room - cardGap*float64(n-1)) / float64(n) }

// heights are those of the cards at a width, the gap under each with it.
func (g group) heights(w float64) []float64 {
	out := make([]float64, len(g.cards))
	for i, c := range g.cards {
		out[i] = c.high(w, g.side) + rowGap
	}
	return out
}

// dealt is the least height, to a twentieth of a millimetre, in which cards stand in so
// many columns, one after another down each.
func dealt(heights []float64, n int) float64 {
	low, high := 0.0, 0.0
	for _, h := range heights {
		high += h
	}
	for high-low > 0.05 {
		if try := (low + high) / 2; filled(heights, n, try) == len(heights) {
			high = try
		} else {
			low = try
		}
	}
	return high
}

// filled is how many of the cards stand in so many columns of a height.
func filled(heights []float64, n int, limit float64) int {
	i := 0
	for range n {
		for h := 0.0; i < len(heights) && h+heights[i] <= limit+1e-6; i++ {
			h += heights[i]
		}
	}
	return i
}

// set sets the cards down the columns, over as many sheets as they take.
func (g group) set(s *page.Book) {
	for len(g.cards) > 0 {
		n, high := g.columns(s.Room.W)
		w := wide(s.Room.W, n)
		if high > s.Room.H+rowGap {
			if n, w = g.most(s.Room.W); filled(g.heights(w), n, s.Room.H+rowGap) == 0 && !s.Fresh() {
				s.Turn()
				continue
			}
			high = s.Room.H + rowGap
		}
		done := g.column(s, n, w, high)
		g.cards = g.cards[done:]
		if len(g.cards) > 0 {
			s.Turn()
		}
	}
}

// most are as many columns as there is room for, and their width.
func (g group) most(room float64) (int, float64) {
	n := max(1, min(int((room+cardGap)/(leastWide+cardGap)), len(g.cards)))
	return n, wide(room, n)
}

// column draws cards down columns of a height, and tells how many; one at least.
func (g group) column(s *page.Book, n int, w, high float64) int {
	heights := g.heights(w)
	i, deep := 0, 0.0
	for k := range n {
		for h := 0.0; i < len(heights) && (h+heights[i] <= high+1e-6 || i == 0); i++ {
			r := sheet.Rect{X: s.Room.X + float64(k)*(w+cardGap), Y: s.Room.Y + h, W: w, H: heights[i] - rowGap}
			g.cards[i].draw(&s.C, r, g.side)
			h += heights[i]
			deep = math.Max(deep, h)
		}
	}
	s.Down(math.Min(deep, s.Room.H))
	return i
}
