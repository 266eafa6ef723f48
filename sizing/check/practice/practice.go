// Package practice turns what a description says of the shop's practice into the
// model's: what is not written takes its default, and what no shop can mean is a
// problem. It also knows the words that are the practice's: wire families, colours
// and functions.
package practice

import (
	"example.com/loomfolio/sizing/check/say"
	"example.com/loomfolio/sizing/colour/convention"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Of merges the written practice into the built-in one. The sheet gives the paper of
// labels, and the units in which lengths are rounded and told.
func Of(written describe.Practice, sheet harness.Sheet) (harness.Practice, source.Problems) {
	c := &reader{written: written, sheet: sheet, out: plain(written)}
	c.slack()
	c.colours()
	for _, class := range written.Drop {
		c.out.Drop[class.Name.Text] = class.Limit.V
	}
	c.wire()
	c.buying()
	c.buy()
	c.fuses()
	c.screen()
	c.cableTypes()
	for _, w := range []read.Word{written.Ground, written.Feed} {
		Colour(&c.Report, w)
	}
	Insulation(&c.Report, &c.out, written.Insulation)
	return c.out, c.Problems
}

// reader carries the practice while it grows.
type reader struct {
	say.Report
	written describe.Practice
	sheet   harness.Sheet
	out     harness.Practice
}

// plain takes over what needs no resolving.
func plain(p describe.Practice) harness.Practice {
	return harness.Practice{
		Drop:         rating.DropLimits(),
		Insulation:   p.Insulation.Or("thin-wall-125"),
		Smallest:     p.Smallest.V,
		Mixed:        p.Mixed.V,
		FuseLoad:     p.FuseLoad.Or(0.75),
		Method:       p.Method.Or("computed"),
		Ampacity:     p.Ampacity.Or("computed"),
		Pull:         p.Pull.Or("ul-486a"),
		Spare:        p.Spare.Or(0.10), // common practice, no source
		GroundColour: p.Ground.Or(customary(p.Customs, "BK", func(s convention.Set) string { return s.Ground })),
		FeedColour:   p.Feed.Or(customary(p.Customs, "RD", func(s convention.Set) string { return s.Feed })),
		ColourChange: p.Change.Or("change"),
		Insist:       p.Insist.Text == "always",
	}
}

// slack is what wires are cut longer, in whole figures on a rule of the sheet's units.
func (c *reader) slack() {
	eachEnd, roundUp := unit.Millimetre(50), unit.Millimetre(5)
	if c.sheet.Imperial {
		eachEnd, roundUp = 2*25.4, 25.4/4
	}
	s := c.written.Slack
	c.out.EachEnd, c.out.Dress, c.out.RoundUp = s.EachEnd.Or(eachEnd), s.Dress.Or(0.05), s.RoundUp.Or(roundUp)
}

func (c *reader) colours() {
	c.out.Palette = c.palette(c.written.Palette)
	if c.out.Insist && (len(c.written.Customs) == 0 || c.written.Customs[0].Word.Text == "none") {
		c.Fail("no-convention", c.written.Insist.Span, "add conventions: british, or another", "the colours of conventions are to be kept always, and none is named")
	}
	for _, s := range c.written.Customs {
		if s.Word.Text != "none" {
			c.out.Conventions = append(c.out.Conventions, harness.Convention{Set: s.Word.Text, Own: c.customs(s.Own)})
		}
	}
}

// wire takes over what is on the shelf: wire, how it is sold, types and terminals of
// the shop's own.
func (c *reader) wire() {
	for _, s := range c.written.Stock {
		c.out.Stock = append(c.out.Stock, c.stock(s))
	}
	for _, l := range c.written.Sold {
		c.out.Sold = append(c.out.Sold, l.V)
	}
	for _, t := range c.written.WireTypes {
		c.out.WireTypes = append(c.out.WireTypes, wireType(t))
	}
	for _, t := range c.written.Terminals {
		c.out.Terminals = append(c.out.Terminals, c.shopTerminal(t))
	}
}

// screen says how twists are laid and what screens are made of.
func (c *reader) screen() {
	p := c.written
	c.out.Lay, c.out.ScreenAs = p.Twist.Lay.V, p.Screen.As.Or("braid")
	c.out.ScreenWall = p.Screen.Wall.Or(rating.ScreenOf(c.out.ScreenAs).Wall)
}

func (c *reader) stock(s describe.StockLine) harness.Stock {
	out := harness.Stock{Gauge: s.Gauge.V}
	for _, col := range s.Colours {
		base, tracer := Colour(&c.Report, col.Colour)
		line := harness.StockColour{Base: base, Tracer: tracer}
		for _, l := range col.Left {
			line.Left = append(line.Left, l.V)
		}
		out.Colours = append(out.Colours, line)
	}
	return out
}

func wireType(t describe.WireType) harness.WireType {
	out := harness.WireType{Name: t.Name.Text, Class: t.Class.V}
	for _, s := range t.Sizes {
		out.Sizes = append(out.Sizes, harness.WireTypeSize{
			Size: s.Size.V, Area: s.Area.V, Diameter: s.Diameter.V, Resistance: s.Resistance.V,
		})
	}
	return out
}
