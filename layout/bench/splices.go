package bench

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Splices is a card a splice: where it lies, what joins from which side, and what holds it.
func Splices(a page.Ask) []frame.Page {
	joints := used(a)
	if len(joints) == 0 {
		return nil
	}
	k := kindOf(joints)
	b := page.Open(a.Upright(), "Splices", "sheet/splices", k.words()+" → leaves towards that place.")
	b.Remark("First figure: total conductor area, which the barrel or the next size up holds (NASA-STD-8739.4 19.11). Not in runs that flex, nor in battery cables (17 NYCRR 720.6(b)); " +
		"staggered, tied on both sides (NASA workmanship guidance 4.07), " + page.Piece(10, a.H.Sheet.Imperial) + " apart (common practice, no source).")
	n := page.Abreast(b.Room.W, leastCard, cardGap)
	wide := (b.Room.W - cardGap*float64(n-1)) / float64(n)
	var cards []page.Card
	for _, s := range joints {
		cards = append(cards, spliceCards(a, s, k, wide, b.Rest().H)...)
	}
	b.Cards(n, cardGap, cardGap, cards)
	return b.Close()
}

// used leaves out splices on which no wire ends.
func used(a page.Ask) []fitted.Splice {
	return slices.DeleteFunc(slices.Clone(a.R.Splices), func(s fitted.Splice) bool { return len(a.Made(s.Wires)) == 0 })
}

// alike is what all splices have in common, so that it is said once over them.
type alike struct{ bare, lined bool }

// The words that are left out of each splice where all have them.
const (
	uninsulated = "uninsulated "
	lined       = " adhesive-lined"
)

func kindOf(joints []fitted.Splice) alike {
	k := alike{true, true}
	for _, s := range joints {
		k.bare = k.bare && strings.HasPrefix(s.Size, uninsulated)
		k.lined = k.lined && strings.HasSuffix(s.Shrink, lined)
	}
	return k
}

// words says it: "Uninsulated barrels, adhesive-lined heat-shrink, slid on first."
func (k alike) words() string {
	tube, barrels := "heat-shrink", "joints"
	if k.lined {
		tube = strings.TrimSpace(lined) + " heat-shrink"
	}
	if k.bare {
		barrels = uninsulated + "barrels"
	}
	return page.Capital(barrels) + ", " + tube + ", slid on first."
}

// holds are the lines on what holds a splice, each worked off by itself; first the barrel, then the tube.
func holds(a page.Ask, s fitted.Splice, k alike) []string {
	size, shrink := s.Size, s.Shrink
	if k.bare {
		size = strings.TrimPrefix(size, uninsulated)
	}
	if k.lined {
		shrink = strings.TrimSuffix(shrink, lined)
	}
	tube := "no listed heat-shrink fits; tape it"
	if shrink != "" {
		tube = "heat-shrink " + page.Firm(shrink+", ") + page.Piece(s.ShrinkLen, a.H.Sheet.Imperial)
	}
	return []string{page.List(", ", area(s.AreaSum, a.H.Sheet.Imperial)+" in "+page.Dashed(size), s.Number, die(s.Die)) + ".", page.Sentence(tube)}
}

// area is a total conductor area: "2.75 mm²", or circular mils.
func area(sum unit.SquareMillimetre, imperial bool) string {
	if imperial {
		return circularMils(sum)
	}
	return page.Trimmed(float64(sum), 2) + page.NoBreak + "mm²"
}

// cares are what is to be seen to while a splice is laid; none where nothing is.
func cares(a page.Ask, s fitted.Splice) []string {
	var out []string
	for _, words := range []string{beside(a, s), staggered(a, s, "Staggered")} {
		if words != "" {
			out = append(out, words+".")
		}
	}
	return out
}

func die(d string) string {
	if d == "" {
		return ""
	}
	return "die " + d
}

// staggered says, behind a word for it, how far a splice is moved so that none lie side by side; "" where it stays.
func staggered(a page.Ask, s fitted.Splice, word string) string {
	if s.Shift == 0 || s.Into < 0 {
		return ""
	}
	p, run := &a.H.Parts[s.Part], &a.H.Runs[s.Into]
	by := unit.LengthText(max(s.Shift, -s.Shift), a.H.Sheet.Imperial)
	toward := run.To
	if p.Along == nil && run.To == p.Place || p.Along != nil && s.Shift < 0 {
		toward = run.From
	}
	return word + ": move it " + page.Firm(by) + " along run " + page.Letter(run.ID) + " towards " + a.H.Places[toward].Name
}

// circularMils is an area in the unit of gauge tables: that of a circle a
// thousandth of an inch across, to the nearest ten.
func circularMils(area unit.SquareMillimetre) string {
	mil := page.MillimetresInInch / 1000
	return fmt.Sprintf("%.0f%scircular mils", math.Round(float64(area)/(math.Pi/4*mil*mil)/10)*10, page.NoBreak)
}

// beside says which wires share a side, so that the tube grips.
func beside(a page.Ask, s fitted.Splice) string {
	if len(s.Beside) == 0 {
		return ""
	}
	var names []string
	for _, w := range s.Beside {
		names = append(names, page.Firm(a.H.Wires[w].Name))
	}
	return "Bring " + page.And(names) + " out together, so that the heat-shrink grips"
}

// side is the wires that leave a splice towards one place; those that end where it lies lead nowhere.
type side struct {
	toward string
	wires  []harness.WireID
}

// sides parts a splice's wires by the place that they lead to, those towards
// the start of its run first.
func sides(a page.Ask, s fitted.Splice) []side {
	var out []side
	for _, w := range s.Wires {
		toward := toward(a, s.Part, w)
		i := slices.IndexFunc(out, func(o side) bool { return o.toward == toward })
		if i < 0 {
			i = len(out)
			out = append(out, side{toward: toward})
		}
		out[i].wires = append(out[i].wires, w)
	}
	return out
}

// toward is the place towards which a wire leaves a splice, "" where it ends at the splice's own.
func toward(a page.Ask, part harness.PartID, w harness.WireID) string {
	p := &a.H.Parts[part]
	places := a.R.Ways[w].Places
	if a.H.Terminals[a.H.Wires[w].From].Part != part {
		places = slices.Clone(places)
		slices.Reverse(places)
	}
	if len(places) > 0 && places[0] == p.Place {
		places = places[1:]
	}
	switch {
	case len(places) > 0:
		return a.H.Places[places[0]].Name
	case p.Along != nil:
		return a.H.Places[along(a, part, w)].Name
	}
	return ""
}

// along is the end of its run to which a wire leads that ends in another splice of the run.
func along(a page.Ask, part harness.PartID, w harness.WireID) harness.PlaceID {
	here := a.H.Parts[part].Along
	run := a.H.Runs[here.Run]
	other := a.H.PartOf(a.H.Wires[w].To)
	if other != nil && other.ID == part {
		other = a.H.PartOf(a.H.Wires[w].From)
	}
	if other != nil && other.Along != nil && other.Along.Run == here.Run && other.Along.Distance < here.Distance {
		return run.From
	}
	return run.To
}
