// Package cover lays out the first sheet, which says what the harness is and on which the
// vehicle is handed over, with its cautions, the list of sheets and the findings.
//
// In: page.Ask, which is the model, the results, the paper and the reader, and the
// list of the other sheets. Out: the cover and the sheets that it runs on to. It holds that
// the cautions always stand on the first sheet, in full, and that no text is cut off or lies
// on another: what does not fit goes on the next sheet. All lengths are mm.
package cover

import (
	"slices"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/source"
)

// Entry is one kind of sheet in the cover's list.
type Entry struct {
	Title  string
	Anchor string // of its first page
	Sheet  int    // number of its first page
	Count  int    // how many pages
}

// Cover is the first sheet: which vehicle it is, its photograph or the outline of its
// loom, the polarity, the totals, the open findings, the list of sheets, the hand-over
// and the cautions in full, which always stand on it. What finds no room follows on further sheets, the findings each with what to do.
func Cover(a page.Ask, list []Entry) []frame.Page {
	a = shown(a)
	s := page.Open(a.Upright().AsFirst(), "Cover", "sheet/cover", "")
	bare(s, "sheet/cover")
	masthead(a, s)
	left := fill(a, s, list)
	pages := s.Close()
	return append(pages, later(a, list, left)...)
}

// bare takes the heading off a book's first sheet, which has one of its own.
func bare(s *page.Book, anchor string) {
	s.C = sheet.Canvas{}
	s.Room = s.Frame.Body
	s.C.Anchor(anchor, s.Room.X, s.Room.Y)
}

// legend draws a frame that its title breaks at the upper left; the title reaches legendUp above it.
func legend(c *sheet.Canvas, r sheet.Rect, title string, line sheet.Stroke) {
	const from, air = 4, 1.2
	style := sheet.Strong(sheet.SizeHead)
	wide := typeface.Width(title, style.Face, style.Size)
	c.Polyline([]sheet.Point{
		{X: r.X + from + wide + air, Y: r.Y}, {X: r.Right(), Y: r.Y}, {X: r.Right(), Y: r.Bottom()},
		{X: r.X, Y: r.Bottom()}, {X: r.X, Y: r.Y}, {X: r.X + from - air, Y: r.Y},
	}, line)
	c.Text(r.X+from, r.Y+legendUp, title, style)
}

// legendUp is how far a frame's title reaches above the frame: half its capitals.
const legendUp = sheet.SizeHead * typeface.CapHeight / 2

// part is one block of the cover: its height with the clear under it, 0 for none.
type part struct {
	high float64
	draw func()
}

// left is what found no room on the cover.
type left struct{ findings, sheets, handOver, notes bool }

// fill sets the blocks of the cover under its head, the cautions last, and gives what
// found no room: the findings go first, since a line in their place leads to them.
func fill(a page.Ask, s *page.Book, list []Entry) (l left) {
	warn, sums := cautions(a, s), tiles(a, s)
	sheets, hand, notes := contents(a, s, list), handOver(a, s), noteBlock(a, s)
	room := s.Room.H - warn.high - sums.high
	said := findingBlock(a, s)
	if said.high == 0 || said.high+sheets.high+hand.high > room {
		said, l.findings = warning(a, s), len(a.R.Findings)+len(a.R.Accepted) > 0
	}
	blocks := []part{sums}
	take := func(p part, lost *bool) {
		if p.high > room {
			*lost = true
		} else if p.high > 0 {
			room -= p.high
			blocks = append(blocks, p)
		}
	}
	take(said, &l.findings)
	take(sheets, &l.sheets)
	take(hand, &l.handOver)
	take(notes, &l.notes)
	if c := costs(a, s); c.high > 0 && c.high <= room { // the shopping list has it all
		blocks = slices.Insert(blocks, 1, c)
	}
	for _, b := range append(blocks, warn) {
		b.draw()
		s.Down(b.high)
	}
	return l
}

// reader says for whom the packet is.
func reader(who string) string {
	return map[string]string{
		page.Bench:    "bench copy: for the person who builds it",
		page.Customer: "customer's copy: stays with the vehicle",
		page.Archive:  "archive copy: all sheets, source file attached",
	}[who]
}

// tally is "Open findings: 1 error, 2 warnings, 1 accepted".
func tally(found source.Problems, accepted []source.Accepted) string {
	counted := source.Counted(found, accepted)
	if len(found) == 0 {
		return "No open findings" + strings.TrimPrefix(counted, "no findings")
	}
	return "Open findings: " + counted
}
