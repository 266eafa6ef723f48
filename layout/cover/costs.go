package cover

import (
	"fmt"
	"math"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/purchase"
	"example.com/loomfolio/sizing/unit"
)

// costs is what is still to be bought and what it weighs, in a line below the totals, which have the
// hours and the money; nothing where all is built.
func costs(a page.Ask, s *page.Book) part {
	text, style := costText(a), sheet.Plain(sheet.SizeNote)
	if text == "" {
		return part{}
	}
	high := page.TextHeight(text, style, s.Room.W)
	return part{high + 1.6, func() {
		frame.Paragraph(&s.C, s.Room, text, style)
		if link := a.Link("sheet/shopping"); link != "" {
			s.C.Link(sheet.Rect{X: s.Room.X, Y: s.Room.Y, W: s.Room.W, H: high}, link)
		}
	}}
}

func costText(a page.Ask) string {
	c, imperial := &a.R.Purchase.Cost, a.H.Sheet.Imperial
	if c.Minutes == 0 && c.Metres == 0 {
		return ""
	}
	weight := []string{"wire with insulation " + unit.MassText(c.Wire, imperial)}
	if c.Cable > 0 {
		weight = append(weight, "cables "+unit.MassText(c.Cable, imperial))
	}
	if c.Cover > 0 {
		weight = append(weight, "covers about "+unit.MassText(roughly(c.Cover), imperial))
	}
	return page.Dotted(toBuy(c, imperial), strings.Join(weight, ", "), unpriced(c))
}

// toBuy is "To buy: 308 m of wire on 100 reels, 1139 pieces".
func toBuy(c *purchase.Cost, imperial bool) string {
	return "To buy: " + page.Firm(longLength(unit.Millimetre(c.Metres*1000), imperial)) + " of wire on " + unit.Counted(c.Reels, "reel") + ", " + unit.Counted(c.Pieces, "piece")
}

// unpriced says how many lines the money does not hold; "" where it holds all, or no line has a price.
func unpriced(c *purchase.Cost) string {
	if !c.Priced || c.Unpriced == 0 {
		return ""
	}
	return unit.Counted(c.Unpriced, "line") + " without a price"
}

// roughly is a mass that is known within a third, to a tenth.
func roughly(g unit.Gram) unit.Gram {
	step := math.Pow10(int(math.Floor(math.Log10(math.Max(float64(g), 1)))) - 1)
	return unit.Gram(math.Round(float64(g)/step) * step)
}

// spent are the totals of work and money; none where nothing is left to do.
func spent(c *purchase.Cost) []total {
	var out []total
	if c.Minutes > 0 {
		out = append(out, total{value: hours(c), what: "to build, about"})
	}
	if c.Priced {
		out = append(out, total{value: strings.TrimSpace(fmt.Sprintf("%s %.2f", c.Currency, c.Money)), what: "to buy"})
	}
	return out
}

// hours is how long the building takes, within what it may be off: "34 h ± 10 h".
func hours(c *purchase.Cost) string {
	places := 0
	if c.Minutes < 600 {
		places = 1
	}
	h := c.Minutes / 60
	return page.Firm(page.Trimmed(h, places) + " h ± " + page.Trimmed(h*c.Spread, places) + " h")
}
