// Package quick lays out the quick page for the glove box: where the power is cut, which fuse
// is for what, what to look at first when lamps are dead, and how a battery comes off and is helped.
//
// In: page.Ask. Out: one upright page for up to 60 fuses, further ones beyond. It speaks to a driver:
// places and plain names, no wire and no terminal number that is not printed on the vehicle. Anchor
// set here: sheet/quick. All lengths are mm.
package quick

import (
	"example.com/loomfolio/layout/caution"
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

// mostLines is how many lines the loads of one fuse take at the most, where there is room.
const mostLines = 3

// Quick is the quick page; none where there are neither fuses nor batteries.
func Quick(a page.Ask) []frame.Page {
	if len(a.R.Fuses) == 0 && len(a.Sources()) == 0 {
		return nil
	}
	var pages []frame.Page
	for lines := mostLines; lines > 0; lines-- {
		if pages = laid(a, lines); len(pages) == 1 {
			return pages
		}
	}
	return pages
}

// laid is the page with so many lines a fuse at the most.
func laid(a page.Ask, lines int) []frame.Page {
	s := page.Open(a.Upright(), "Quick page", "sheet/quick", "For the glove box: find the fuse, cut the power, start again")
	s.Columns(2)
	block(s, "Cut the power", power(a))
	s.Next()
	block(s, deadTitle(a), dead(a))
	s.Columns(1)
	fuses(a, s, lines)
	s.Columns(2)
	block(s, "Spare fuses to carry", spares(a))
	block(s, "Live where one does not expect it", live(a))
	s.Next()
	block(s, "Battery off, jump start", battery(a))
	s.Columns(1)
	s.Remark(caution.Short(a.H)[0])
	return s.Close()
}

// block sets a heading with its lines, each hung on a point; nothing where there are none.
func block(s *page.Book, title string, lines []string) {
	if len(lines) == 0 {
		return
	}
	s.Head(title, 2*sheet.SizeBody*typeface.Leading)
	for _, line := range lines {
		item(s, line)
	}
	s.Down(1)
}

const hang = 3.2 // from the point to the words

// item sets one line with a point before it; it is not parted where it has room whole.
func item(s *page.Book, text string) {
	style := sheet.Plain(sheet.SizeBody)
	w := s.Room.W - hang
	s.Need(page.TextHeight(text, style, w))
	s.C.Circle(s.Room.X+1, s.Room.Y+style.Size*0.48, 0.6, sheet.Filled(sheet.Ink))
	y := frame.Paragraph(&s.C, sheet.Rect{X: s.Room.X + hang, Y: s.Room.Y, W: w}, text, style)
	s.Down(min(y-s.Room.Y+0.6, s.Room.H))
}
