package page

import (
	"math"

	"example.com/loomfolio/layout/sheet"
)

// Card is one of several blocks that stand in columns; its area is High high.
type Card struct {
	High float64
	Draw func(c *sheet.Canvas, area sheet.Rect)
}

// Cards sets cards in n columns, across mm clear between those and gap mm under each, down the
// first column, then down the next; none is parted. On the last sheet the columns are as even as
// they can be, so that they end as high up as may be. A card that is higher than a sheet is not made lower.
func (b *Book) Cards(n int, across, gap float64, cards []Card) {
	for len(cards) > 0 {
		if cards = b.Deal(n, across, gap, cards); len(cards) > 0 {
			b.Turn()
		}
	}
}

// Deal is Cards for one sheet alone, the next where none has room on this one: it gives the cards that are left.
func (b *Book) Deal(n int, across, gap float64, cards []Card) []Card {
	n = max(1, n)
	fit := fitting(cards, n, gap, b.Room.H)
	if fit == 0 && !b.Fresh() {
		b.Turn()
		fit = fitting(cards, n, gap, b.Room.H)
	}
	fit = max(fit, 1)
	high := b.Room.H
	if fit == len(cards) {
		high = evenly(cards, n, gap, high)
	}
	wide := ColumnWide(b.Room.W, n, across)
	b.Down(b.setCards(cards[:fit], sheet.Rect{W: wide, H: high}, across, gap))
	return cards[fit:]
}

// ColumnWide is the width of one of n columns of a room, across mm clear between them.
func ColumnWide(room float64, n int, across float64) float64 {
	return (room - across*float64(n-1)) / float64(n)
}

// Even is the least height, to a twentieth of a millimetre, in which cards stand in n columns, the gap
// under the last of each not counted.
func Even(cards []Card, n int, gap float64) float64 {
	low, high := 0.0, 0.0
	for _, c := range cards {
		high += c.High + gap
	}
	for high-low > 0.05 {
		if mid := (low + high) / 2; fitting(cards, n, gap, mid) == len(cards) {
			high = mid
		} else {
			low = mid
		}
	}
	return high
}

// Abreast is how many columns of at least a width stand side by side in the room, gap mm apart.
func Abreast(room, least, gap float64) int { return max(1, int((room+gap)/(least+gap))) }

// setCards draws cards down columns of a size and gives how far down they reach.
func (b *Book) setCards(cards []Card, column sheet.Rect, across, gap float64) float64 {
	x, y, deepest := 0.0, 0.0, 0.0
	for _, card := range cards {
		if y > 0 && y+card.High > column.H+1e-6 {
			x, y = x+column.W+across, 0
		}
		card.Draw(&b.C, sheet.Rect{X: b.Room.X + x, Y: b.Room.Y + y, W: column.W, H: card.High})
		y += card.High + gap
		deepest = math.Max(deepest, y)
	}
	return deepest
}

// fitting is how many of the cards stand in n columns of a height.
func fitting(cards []Card, n int, gap, high float64) int {
	column, y := 1, 0.0
	for i, card := range cards {
		if y > 0 && y+card.High > high+1e-6 {
			column, y = column+1, 0
		}
		if column > n || card.High > high+1e-6 {
			return i
		}
		y += card.High + gap
	}
	return len(cards)
}

// evenly is the least height of n columns that hold all cards, where this height does.
func evenly(cards []Card, n int, gap, high float64) float64 {
	least := high
	for from := range cards {
		sum := -gap
		for _, card := range cards[from:] {
			if sum += gap + card.High; sum < least && fitting(cards, n, gap, sum) == len(cards) {
				least = sum
			}
		}
	}
	return least
}
