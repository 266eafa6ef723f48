// Package trouble lays out the sheets by which a fault is found years later: a ladder of
// readings for every load, what dies together, what is live when, ways of the current that
// nobody meant.
//
// In: page.Ask, of which it reads the proof. Out: the pages, none where nothing was proved.
// Anchors set here: sheet/faults, ladder/REF of a load's part, ladder/POINT of what feeds several. All
// lengths are mm.
package trouble

import (
	"fmt"
	"math"
	"slices"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
)

// Anchor is that of the first sheet.
const Anchor = "sheet/faults"

// Faults are the sheets to find faults by; the customer gets the ladders alone.
func Faults(a page.Ask) []frame.Page {
	p := &a.R.Proof
	if len(p.Ladders) == 0 && len(p.Live) == 0 && len(p.Together) == 0 {
		return nil
	}
	t := tellerOf(a)
	s := page.Open(a.Upright(), "Fault finding", Anchor, "")
	t.setLadders(s)
	if a.For != page.Customer {
		t.setTogether(s)
		t.setLive(s)
		t.setSneaks(s)
		t.setTrees(s)
	}
	return s.Close()
}

// intro is how a ladder is read.
const intro = "Load connected and on, in the state named; black lead on battery %s. Go down the ladder: a right reading clears all lines above it, the first wrong one names its causes. " +
	"A name alone: open, or with some volts lost a poor joint in it; of a fuse, itself or its contacts. To ground: touches ground. 12D to 17J: the two touch. A plug: both its sides read the same. Blown: by what, in which state. Welded: does not open. " +
	"All right: the load itself; if it is only weak, a joint within the limits, to be read across each part. " +
	"Feeds: engine off, or “running”; 11.2/13.0 is off/running. Meter only, no test lamp. After a repair begin again. A reading that a circuit's diagram does not name at its foot: come here."

func (t teller) setLadders(s *page.Book) {
	cards := t.ladders()
	if len(cards) == 0 {
		return
	}
	s.Say(fmt.Sprintf(intro, t.say.Earthed()), page.Quiet())
	s.Down(1)
	n := abreast(cards, s.Room.W)
	for len(cards) > 0 {
		wide := page.ColumnWide(s.Room.W, n, cardGap)
		put, rest := poured(cards, n, wide, s.Room.H, true)
		if len(rest) == 0 {
			put = evenly(cards, n, wide, s.Room.H)
		}
		setPut(s, put)
		if cards = rest; len(cards) > 0 {
			s.Turn()
		}
	}
}

// put is a piece of a card in its place, from the corner of the room.
type put struct {
	set
	x, y float64
	wide float64
}

// poured sets cards down n columns of a height; one that finds no room whole is cut between its
// lines, if it may, where enough of it has room. It gives the cards that are left.
func poured(cards []card, n int, wide, high float64, cuts bool) (out []put, rest []card) {
	rest = slices.Clone(cards)
	for column := range n {
		y := 0.0
		for len(rest) > 0 {
			one, left, whole := rest[0].at(wide), card{}, true
			if one.high > high-y+1e-6 {
				var ok bool
				if one, left, ok = rest[0].cut(wide, high-y); y > 0 && !(ok && cuts) {
					break
				}
				whole = len(left.lines) == 0
			}
			out = append(out, put{one, (wide + cardGap) * float64(column), y, wide})
			y += one.high + rowGap
			if whole {
				rest = rest[1:]
			} else {
				rest[0] = left
			}
		}
	}
	return out, rest
}

// evenly pours cards down columns that are as low as they can be, to a millimetre; none is cut
// where that makes them little lower.
func evenly(cards []card, n int, wide, high float64) []put {
	whole, tall := lowest(cards, n, wide, high, false)
	if cut, low := lowest(cards, n, wide, high, true); whole == nil || low < tall-mostCut {
		return cut
	}
	return whole
}

// mostCut is how much lower the columns must be for the sake of a cut, mm.
const mostCut = 3.0

// lowest finds the least height in which all cards stand, nil where none up to this does.
func lowest(cards []card, n int, wide, high float64, cuts bool) ([]put, float64) {
	var best []put
	for low := 0.0; high-low > 1; {
		mid := (low + high) / 2
		if best == nil {
			mid = high
		}
		if try, rest := poured(cards, n, wide, mid, cuts); len(rest) == 0 && within(try, mid) {
			best, high = try, mid
		} else if best == nil {
			return nil, 0
		} else {
			low = mid
		}
	}
	return best, high
}

// within tells whether no piece reaches below a height.
func within(all []put, high float64) bool {
	return !slices.ContainsFunc(all, func(p put) bool { return p.y+p.high > high+1e-6 })
}

// setPut draws pieces of cards.
func setPut(s *page.Book, all []put) {
	deepest := 0.0
	for _, p := range all {
		p.draw(&s.C, sheet.Rect{X: s.Room.X + p.x, Y: s.Room.Y + p.y, W: p.wide, H: p.high})
		deepest = math.Max(deepest, p.y+p.high+rowGap)
	}
	s.Down(math.Min(deepest, s.Room.H))
}

// worthwhile is how much lower more columns must be for their sake, mm: wide cards read better.
const worthwhile = 40.0

// abreast is the number of columns in which the cards take little paper.
func abreast(cards []card, room float64) int {
	best, least := 1, math.Inf(1)
	for n := 1; n <= page.Abreast(room, leastWide, cardGap); n++ {
		high := 0.0
		for _, c := range cards {
			high += c.at(page.ColumnWide(room, n, cardGap)).high + rowGap
		}
		if high/float64(n) < least-worthwhile {
			best, least = n, high/float64(n)
		}
	}
	return best
}

// leastWide is the width below which no card is set, mm.
const leastWide = 40
