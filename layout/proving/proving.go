// Package proving lays out the test sheets: how the finished wiring is proved with a cheap
// meter, in the order of the work: before power, first power, with power, key off.
//
// In: page.Ask with the results' Proof. Out: the pages, none where nothing is asked. It
// holds that no figure is computed here: limits are rounded outward to what a meter shows,
// points with one limit stand on one line, place by place, and every line has room for what
// was read or a box to tick. Where no test lamp may be used a point has its sign.
//
// Anchors set here: sheet/tests.
package proving

import (
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// Anchor is that of the first test sheet.
const Anchor = "sheet/tests"

// Sizes, mm.
const (
	leadWide    = 5.4 // of the column of boxes and letters
	leastBeep   = 38  // of a column of what must beep
	leastColumn = 80  // of one of running lists
)

// sheets are the test sheets while they are filled.
type sheets struct {
	page.Ask
	p     *proof.Proof
	b     *page.Book
	meter map[harness.TerminalID]bool // where no test lamp may be used
	sided map[harness.TerminalID]bool // the sides of a cavity that read differently
}

// Tests are the test sheets.
func Tests(a page.Ask) []frame.Page {
	s := of(a)
	if !s.any() {
		return nil
	}
	s.b = page.Open(a.Upright(), "Tests", Anchor, "Write what you read, tick what beeps. A reading outside its limits: stop, find out why, begin that step again.")
	s.tools()
	s.beeps()
	s.rest()
	return signed(s.b.Close(), a)
}

// of gathers what the sheets look up.
func of(a page.Ask) *sheets {
	s := &sheets{Ask: a, p: &a.R.Proof, meter: map[harness.TerminalID]bool{}, sided: map[harness.TerminalID]bool{}}
	for _, x := range s.p.Points {
		s.meter[x.At] = !x.Lamp
	}
	s.sides()
	return s
}

// rest sets all that follows the beeps, in columns of running lists.
func (s *sheets) rest() {
	n := page.Abreast(s.b.Room.W, leastColumn, page.ColumnGap)
	l := newList(s.b.ColumnWide(n), leadWide)
	s.apart(l)
	s.states(l)
	s.power(l)
	s.volts(l)
	s.legs(l)
	s.parts(l)
	s.currents(l)
	s.untold(l)
	if len(l.Rows) > 0 {
		s.b.Spread(&l.Table, n, 30)
	}
}

// any tells whether anything is asked.
func (s *sheets) any() bool {
	return len(s.p.Before.Beeps)+len(s.p.Power)+len(s.p.Sections)+len(s.p.Through) > 0
}

// signed gives each page, beside its heading, room for who tested and when.
func signed(pages []frame.Page, a page.Ask) []frame.Page {
	const name, day = 38.0, 24.0
	style := sheet.Plain(sheet.SizeNote)
	for i := range pages {
		f := pages[i].Frame
		size := sheet.SizeHead
		if i == 0 {
			size = sheet.SizeTitle
		}
		c := sheet.Canvas{Marks: pages[i].Marks}
		base := f.Body.Y + f.Taken + size*typeface.CapHeight
		if i > 0 {
			base = f.Body.Y + size*typeface.CapHeight
		}
		x := f.Body.Right()
		for _, field := range []struct {
			word string
			wide float64
		}{{"on", day}, {"Tested by", name}} {
			c.Line(x-field.wide, base+0.6, x, base+0.6, sheet.Solid(sheet.Thin))
			x -= field.wide + 1.2
			c.Text(x, base, field.word, style.At(sheet.Right))
			x -= typeface.Width(field.word, style.Face, style.Size) + 3
		}
		pages[i].Marks = c.Marks
	}
	return pages
}
