// Package quick lays out the quick page for the glove box: where the power is cut, which fuse
// is for what, what to look at first when lamps are dead, and how a battery comes off and is helped.
//
// In: page.Ask. Out: one upright page for up to 60 fuses, further ones beyond. It speaks to a driver:
// places and plain names, no wire and no terminal number that is not printed on the vehicle. Anchor
// set here: sheet/quick. All lengths are mm.
package quick

import (
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

// level is how much is said: lines for the loads of one fuse, and for the first of them alone; things of
// one kind that a sentence names; the room over and under a row, mm; and whether parts go without their
// plain names.
type level struct {
	lines, first, names int
	pad                 float64
	brief               bool
}

// levels are tried in order until all stands on one page.
var levels = [...]level{
	{3, 3, 6, 0.5, false}, {2, 2, 6, 0.3, false}, {2, 2, 4, 0.2, false}, {2, 2, 3, 0.05, true},
	{1, 2, 4, 0.2, false}, {1, 2, 3, 0.1, true}, {1, 1, 3, 0.1, true}, {1, 1, 2, 0.05, true},
}

// Quick is the quick page; none where there are neither fuses nor batteries.
func Quick(a page.Ask) []frame.Page {
	if len(a.R.Fuses) == 0 && len(a.Sources()) == 0 {
		return nil
	}
	var pages []frame.Page
	for _, l := range levels {
		if pages = (teller{a, l}).laid(); len(pages) == 1 {
			return pages
		}
	}
	return pages
}

// teller words the page at a level.
type teller struct {
	page.Ask
	level
}

func (t teller) laid() []frame.Page {
	s := page.Open(t.Upright(), "Quick page", "sheet/quick", "")
	s.Columns(2)
	block(s, "Cut the power", t.power())
	s.Next()
	block(s, t.deadTitle(), t.dead())
	s.Columns(1)
	t.fuses(s)
	block(s, "Spare fuses to carry", t.spares())
	s.Columns(2)
	block(s, "Live where one does not expect it", t.live())
	s.Next()
	block(s, "Battery off, jump start", t.battery())
	s.Columns(1)
	return alone(s.Close())
}

// alone keeps other sheets off the page: it goes into the glove box.
func alone(pages []frame.Page) []frame.Page {
	for i := range pages {
		pages[i].Bottom = 0
	}
	return pages
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
	s.Down(min(y-s.Room.Y+0.4, s.Room.H))
}
