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

// at are the cards as they are set at a width.
func (g group) at(w float64) []page.Card {
	out := make([]page.Card, len(g.cards))
	for i, c := range g.cards {
		out[i] = page.Card{High: c.high(w, g.side), Draw: func(canvas *sheet.Canvas, r sheet.Rect) { c.draw(canvas, r, g.side) }}
	}
	return out
}

// columns is the number of columns in which the cards take the least height of a
// room, and that height, the gap under the last ones with it.
func (g group) columns(room float64) (n int, high float64) {
	n, high = 1, math.Inf(1)
	for i := 1; i <= g.most(room); i++ {
		if h := page.Even(g.at(page.ColumnWide(room, i, cardGap)), i, rowGap) + rowGap; h < high-0.01 {
			n, high = i, h
		}
	}
	return n, high
}

// most are as many columns as there is room for.
func (g group) most(room float64) int {
	return min(page.Abreast(room, leastWide, cardGap), len(g.cards))
}

// first is how high the first card is in these, the gap under it with it; 0 where there is none.
func (g group) first(room float64) float64 {
	if len(g.cards) == 0 {
		return 0
	}
	return g.cards[0].high(page.ColumnWide(room, g.most(room), cardGap), g.side) + rowGap
}

// set sets the cards down the columns, over as many sheets as they take: each in the columns in which they
// are lowest, or in as many as there is room for where they go on on the next.
func (g group) set(s *page.Book) {
	for len(g.cards) > 0 {
		n, high := g.columns(s.Room.W)
		if high > s.Room.H+rowGap {
			n = g.most(s.Room.W)
		}
		left := s.Deal(n, cardGap, rowGap, g.at(page.ColumnWide(s.Room.W, n, cardGap)))
		g.cards = g.cards[len(g.cards)-len(left):]
		if len(g.cards) > 0 {
			s.Turn()
		}
	}
}
