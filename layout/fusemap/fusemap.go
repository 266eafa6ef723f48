// Package fusemap lays out the fuse map: each fuse and panel as one stands before it,
// the sockets of the relays, and what stops when a fuse is out.
//
// In: page.Ask. Out: the pages, none where there are neither fuses nor relays. Every
// position of a panel stands once; a fuse is never shown without the most that it may be.
// Anchors set here: sheet/fuse-map, fuse/NAME, panel/REF, relay/REF. All lengths are mm.
package fusemap

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/fault/outage"
	"example.com/loomfolio/sizing/harness"
)

// FuseMap draws the in-line fuses and breakers with where they are, each panel as
// one stands before it, the sockets of the relays, and lists what stops when a fuse
// is out.
func FuseMap(a page.Ask) []frame.Page {
	if len(a.R.Fuses) == 0 && len(a.R.Relays) == 0 {
		return nil
	}
	s := page.Open(a.Landscape(), "Fuse map", "sheet/fuse-map", "As you stand before it, lid off. Never fit a larger fuse than the card allows: the thinnest wire behind it would burn first.")
	cards := cardsOf(a)
	inline(a, s, cards)
	panels(a, s, cards)
	relays(a, s)
	outs(a, s)
	return s.Close()
}

const (
	cardGap  = 2.5
	mostWide = 8  // positions in a row of a panel that are drawn in place; a wider panel gets a plan
	perRow   = 6  // cards in a row where they are not in place
	leastOut = 25 // height that must follow a heading
)

// panels sets the fuse panels, small ones side by side.
func panels(a page.Ask, s *page.Book, cards []card) {
	var band []board
	flush := func() {
		if len(band) > 0 {
			setBand(s, band)
		}
		band = nil
	}
	for i := range a.H.Parts {
		p := &a.H.Parts[i]
		if p.Panel == nil {
			continue
		}
		b := boardOf(a, p, cards)
		switch {
		case b.wide || !b.fits(s, len(b.rows[0])):
			flush()
			scattered(s, b)
		case len(band) > 0 && columnsOf(band)+len(b.rows[0]) > perRow:
			flush()
			band = []board{b}
		default:
			band = append(band, b)
		}
	}
	flush()
}

// scattered sets a panel that has no room for its cards in place: a small plan of
// the whole first, then the cards in their order.
func scattered(s *page.Book, b board) {
	first := inRows(followed(b.rows))[0]
	high := planHigh*float64(len(b.rows)) + 3 + cardsHigh(first, cardWide(s.Room.W, max(len(first), 4)))
	s.Head2(b.title, b.remark, high)
	s.C.Anchor("panel/"+b.ref, s.Room.X, s.Room.Y)
	plan(s, b.rows)
	cardRows(s, followed(b.rows))
}

// followed are the cards of the rows one after another, without spare positions
// and without the blanks that make the rows equally long.
func followed(rows [][]card) []card {
	var all []card
	for _, row := range rows {
		for _, c := range row {
			if !c.spare && !c.none {
				all = append(all, c)
			}
		}
	}
	return all
}

// panelRows makes the cards of a panel in its rows, all rows of one length; wide
// when a row is too long for cards in place.
func panelRows(a page.Ask, p *harness.Part, cards []card) (rows [][]card, wide bool) {
	most, used := 0, usedPositions(a, p)
	for _, names := range p.Panel.Layout {
		most = max(most, len(names))
	}
	for _, names := range p.Panel.Layout {
		row := make([]card, most)
		for i := range row {
			row[i] = card{none: true}
			if i < len(names) {
				row[i] = card{number: names[i], spare: true, anchor: "fuse/" + p.Ref + "." + names[i]}
				if k, ok := used[names[i]]; ok {
					row[i] = cards[k]
					row[i].number = names[i]
				}
			}
		}
		rows = append(rows, row)
	}
	return rows, most > mostWide
}

func feedWords(p *harness.Part) string {
	var words []string
	for _, f := range p.Panel.Feeds {
		if len(f.Positions) > 0 {
			words = append(words, fmt.Sprintf("Feed %s supplies %s", f.Name, page.Ranges(f.Positions)))
		}
	}
	return strings.Join(words, "; ")
}

// usedPositions finds the fuses of a panel that feed something, by position.
func usedPositions(a page.Ask, p *harness.Part) map[string]int {
	out := map[string]int{}
	for _, i := range a.FusesOf(p.ID) {
		f := &a.R.Fuses[i]
		if _, twice := out[f.Position]; !twice && len(f.Feeds)+len(f.Wires) > 0 {
			out[f.Position] = i
		}
	}
	return out
}

// cardsOf makes the cards of all fuses.
func cardsOf(a page.Ask) []card {
	cards := make([]card, len(a.R.Fuses))
	for i, f := range a.R.Fuses {
		cards[i] = fuseCard(a, f, a.R.Outages[i])
	}
	return cards
}

// fuseCard says everything about a fuse.
func fuseCard(a page.Ask, f chosen.Fuse, out outage.Outage) card {
	c := card{
		anchor: "fuse/" + f.Name, number: f.Name,
		fuse: page.Fuse{Body: f.Body, Colour: f.BodyColour, Rating: ratingWords(f), Breaker: f.Breaker},
	}
	c.feeds, c.works = feeds(a, out)
	if out.Shared {
		c.foot = append(c.foot, "one of several supplies")
	}
	if f.Amps > 0 {
		c.foot = append(c.foot, "runs "+page.Amps(float64(f.Amps))+" A")
	}
	if f.Smallest >= 0 && int(f.Smallest) < len(a.H.Wires) {
		c.foot = append(c.foot, strings.TrimSpace("thinnest wire "+a.H.Wires[f.Smallest].Name+", "+strings.ReplaceAll(a.Gauge(f.Smallest), " ", "\u00a0")))
	}
	if words := breakerWords(f.Type); words != "" {
		c.foot = append(c.foot, words)
	}
	if f.MostAllowed > 0 {
		c.never = "never above " + f.MostAllowed.String()
	}
	return c
}

// breakerWords says what a breaker does once it has opened, by its type in SAE J553.
func breakerWords(kind string) string {
	switch kind {
	case "1":
		return "closes by itself: a fault makes it cycle, like a loose joint"
	case "2":
		return "stays open while it has power"
	case "3":
		return "reset by hand"
	}
	return ""
}

func ratingWords(f chosen.Fuse) string {
	if f.Rating <= 0 {
		return "?"
	}
	return f.Rating.String()
}

// feeds says in plain words what a fuse feeds, and what it works through relays.
func feeds(a page.Ask, out outage.Outage) (direct, works []string) {
	direct = page.LoadNames(a, own(a, out))
	works = page.LoadNames(a, out.Behind())
	if len(direct) == 0 {
		for _, n := range out.Stops { // coils alone
			if e, ok := a.ElementNamed(n); ok {
				direct = append(direct, a.Plain(a.Part(e.Part)))
			}
		}
		if len(works) > 0 {
			works[0] = "by relay: " + works[0]
		}
	} else if len(works) > 0 {
		works[0] = "by relay: " + works[0]
	}
	return direct, works
}

// inline sets the fuses and breakers that sit in the loom.
func inline(a page.Ask, s *page.Book, all []card) {
	var cards []card
	for i, f := range a.R.Fuses {
		p := a.Part(f.Part)
		if p == nil || p.Panel != nil {
			continue
		}
		c := all[i]
		c.place = a.At(p)
		if p.Name != p.Ref {
			c.place = strings.TrimSuffix(p.Name+", "+c.place, ", ")
		}
		cards = append(cards, c)
	}
	if len(cards) == 0 {
		return
	}
	first := inRows(cards)[0]
	s.Head("In-line fuses and breakers", cardsHigh(first, cardWide(s.Room.W, max(len(first), 4))))
	cardRows(s, cards)
}

// inRows deals cards without a fixed place into rows as equal as can be.
func inRows(cards []card) [][]card {
	rows := (len(cards) + perRow - 1) / perRow
	if rows == 0 {
		return nil
	}
	return slices.Collect(slices.Chunk(cards, (len(cards)+rows-1)/rows))
}

// cardRows sets cards that have no fixed place, so many in a row.
func cardRows(s *page.Book, cards []card) {
	rows := inRows(cards)
	for _, row := range rows {
		cardRow(s, row, max(len(rows[0]), 4))
	}
}

// cardRow sets cards side by side, as wide as so many in a row allow.
func cardRow(s *page.Book, row []card, columns int) {
	w := cardWide(s.Room.W, columns)
	row = levelled(row, w)
	high := cardsHigh(row, w)
	s.Need(high)
	for i, c := range row {
		c.draw(&s.C, sheet.Rect{X: s.Room.X + float64(i)*(w+cardGap), Y: s.Room.Y, W: w, H: high})
	}
	s.Down(high + cardGap)
}

// cardWide is the width of a card where so many stand in a row.
func cardWide(room float64, columns int) float64 {
	return math.Min(62, (room-cardGap*float64(columns-1))/float64(columns))
}

// cardsHigh is the height that a row of cards needs.
func cardsHigh(row []card, w float64) float64 {
	high := 0.0
	for _, c := range levelled(row, w) {
		high = math.Max(high, c.high(w))
	}
	return high
}

// levelled sets the numbers of a whole row over the fuses when one of them finds no room beside.
func levelled(row []card, w float64) []card {
	stacked := false
	for _, c := range row {
		stacked = stacked || !c.none && !c.beside(w)
	}
	out := slices.Clone(row)
	for i := range out {
		out[i].stacked = stacked
	}
	return out
}

const planHigh = 12.5

// plan draws a wide panel small, as wide as its rows ask for: each position with its number, rating and colour.
func plan(s *page.Book, rows [][]card) {
	w := math.Min(30, s.Room.W/float64(len(rows[0])))
	s.Need(planHigh*float64(len(rows)) + 3)
	for _, row := range rows {
		for i, c := range row {
			if !c.none {
				c.small(&s.C, sheet.Rect{X: s.Room.X + float64(i)*w, Y: s.Room.Y, W: w, H: planHigh}.Inset(0.6))
			}
		}
		s.Down(planHigh)
	}
	s.Down(3)
}
