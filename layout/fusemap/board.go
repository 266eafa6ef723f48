package fusemap

import (
	"math"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/harness"
)

// board is a fuse panel as one stands before it: its cards in their rows.
type board struct {
	ref, title, remark string
	rows               [][]card
	wide               bool // a row is too long for cards in place
}

const (
	boardPad = 2.5
	boardGap = 6.0 // between panels side by side
	bandGap  = 2.0 // above and below them
)

func boardOf(a page.Ask, p *harness.Part, cards []card) board {
	b := board{ref: p.Ref, title: a.Named(p), remark: "Positions read left to right"}
	b.rows, b.wide = panelRows(a, p, cards)
	if at := a.At(p); at != "" {
		b.remark = "In: " + at + ". " + b.remark
	}
	if feeds := feedWords(p); feeds != "" {
		b.remark += ". " + feeds
	}
	b.remark += "."
	return b
}

// fits tells whether the panel goes on one sheet with so many cards across, if need
// be with cards that leave to the list what the panel's user can do without.
func (b board) fits(s *page.Book, across int) bool {
	w := boardCard(s.Room.W, across, 1)
	return b.short().high(w) <= s.Rest().H-bandGap
}

// short is the panel with cards that say less.
func (b board) short() board {
	rows := make([][]card, len(b.rows))
	for i, row := range b.rows {
		for _, c := range row {
			c.short = true
			rows[i] = append(rows[i], c)
		}
	}
	b.rows = rows
	return b
}

// width is a panel's width where its cards have one.
func (b board) width(card float64) float64 {
	n := float64(len(b.rows[0]))
	return n*card + (n-1)*cardGap + 2*boardPad
}

// headHigh is the height of title and remark over the panel.
func (b board) headHigh(card float64) float64 {
	w := b.width(card)
	return page.TextHeight(b.title, sheet.Strong(sheet.SizeHead), w) + page.TextHeight(b.remark, page.Quiet(), w) + 1.6
}

// high is the height of a panel with its title.
func (b board) high(card float64) float64 {
	high := b.headHigh(card) + 2*boardPad - cardGap
	for _, row := range b.rows {
		high += cardsHigh(row, card) + cardGap
	}
	return high
}

// boardCard is the width of a card where so many stand in so many panels side by side.
func boardCard(room float64, across, boards int) float64 {
	room -= 2*boardPad*float64(boards) + (boardGap-cardGap)*float64(boards-1)
	return cardWide(room, max(across, 4))
}

func columnsOf(band []board) int {
	n := 0
	for _, b := range band {
		n += len(b.rows[0])
	}
	return n
}

// setBand sets panels side by side on one sheet.
func setBand(s *page.Book, band []board) {
	w := boardCard(s.Room.W, columnsOf(band), len(band))
	band = shortened(s, band, w)
	over := 0.0
	for _, b := range band {
		over = math.Max(over, b.headHigh(w))
	}
	high := bandHigh(band, w)
	s.Need(high + 2*bandGap)
	if !s.Fresh() {
		s.Down(bandGap)
	}
	x := s.Room.X
	for _, b := range band {
		b.draw(s, x, w, over)
		x += b.width(w) + boardGap
	}
	s.Down(high + bandGap)
}

// shortened gives panels with cards that say less where the others have no room on
// any sheet, or where they alone find room on the one that is being filled.
func shortened(s *page.Book, band []board, w float64) []board {
	var short []board
	for _, b := range band {
		short = append(short, b.short())
	}
	left := s.Room.H - 2*bandGap
	switch full := bandHigh(band, w); {
	case full > s.Rest().H-bandGap, full > left && bandHigh(short, w) <= left:
		return short
	}
	return band
}

func bandHigh(band []board, w float64) float64 {
	over, face := 0.0, 0.0
	for _, b := range band {
		over = math.Max(over, b.headHigh(w))
		face = math.Max(face, b.high(w)-b.headHigh(w))
	}
	return over + face
}

// draw sets title, remark and the panel's face with its cards from x on; the face
// begins so far below.
func (b board) draw(s *page.Book, x, card, over float64) {
	r := sheet.Rect{X: x, Y: s.Room.Y, W: b.width(card)}
	s.C.Anchor("panel/"+b.ref, r.X, r.Y)
	y := frame.Paragraph(&s.C, r, b.title, sheet.Strong(sheet.SizeHead))
	frame.Paragraph(&s.C, r.Below(y), b.remark, page.Quiet())
	r.Y += over
	face := b.high(card) - b.headHigh(card)
	s.C.RoundRect(r.X, r.Y, r.W, face, 2.6, sheet.Both(sheet.Solid(sheet.Heavy), sheet.Pale))
	y = r.Y + boardPad
	for _, row := range b.rows {
		row = levelled(row, card)
		high := cardsHigh(row, card)
		for i, c := range row {
			c.draw(&s.C, sheet.Rect{X: r.X + boardPad + float64(i)*(card+cardGap), Y: y, W: card, H: high})
		}
		y += high + cardGap
	}
}
