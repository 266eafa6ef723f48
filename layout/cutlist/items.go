package cutlist

import (
	"math"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/fit/fitted"
)

// entry is an item of the list as it is printed: what it is on the first line, what it is for
// and how much on the next.
type entry struct {
	group, rule string // of the first of a group; "" of the others
	what, use   string
	need, buy   string // buy alone where as much is needed; need alone where nothing is bought
	price       string // "" for a line to write it on
	priced      bool   // there is a column for it
}

// Sizes of an entry, mm.
const (
	boxRoom   = 5.6
	entryGap  = 1.0
	headAbove = 1.8
	lineHigh  = sheet.SizeBody * typeface.Leading
	noteHigh  = sheet.SizeNote * typeface.Leading
)

// entries are the items in their groups. Wire by the length stands there already, reel by reel.
func entries(a page.Ask) []entry {
	var out []entry
	group := ""
	imperial := a.H.Sheet.Imperial
	for _, item := range a.R.Shopping {
		if item.Group == "wire" && len(a.R.Reels) > 0 {
			continue
		}
		e := entry{what: page.Dashed(item.What), use: item.For, priced: priced(a)}
		e.need, e.buy = amounts(item, imperial)
		if item.Group != group {
			group = item.Group
			e.group, e.rule = groupName(group), groupRule(group, imperial)
		}
		if item.Priced {
			e.price = money(item.Sum)
		} else if !bought(item) {
			e.price = "–"
		}
		out = append(out, e)
	}
	return out
}

// groupName is a group's heading.
func groupName(group string) string {
	if group == "shrink" {
		return "Heat-shrink"
	}
	return page.Capital(group)
}

// amounts is how much of an item is needed, with the packs that make up what is bought, and
// that: "need 22 pcs, 3 × 10:" and "30 pcs".
func amounts(item fitted.Item, imperial bool) (need, buy string) {
	need = "need " + quantity(item, imperial)
	if !bought(item) {
		return need, ""
	}
	whole := item
	whole.Count = item.Buy
	buy = quantity(whole, imperial)
	if packs := item.Buy / max(item.Pack, 1e-9); item.Pack > 0 && (item.Unit == "pcs" && item.Pack > 1 || item.Unit == "m" && packs > 1.5) {
		one := item
		one.Count = item.Pack
		return need + ", " + page.Firm(page.Trimmed(packs, 0)+" × "+strings.TrimSuffix(quantity(one, imperial), page.NoBreak+item.Unit)) + ":", buy
	}
	if quantity(item, imperial) == buy {
		return "", buy
	}
	return need + ":", buy
}

// itemCards sets each entry as wide as a column; a group's heading stays with its first.
func itemCards(a page.Ask, wide float64) []page.Card {
	var cards []page.Card
	for _, e := range entries(a) {
		cards = append(cards, page.Card{High: e.high(wide), Draw: e.draw})
	}
	return cards
}

// amountWide is the room of the amounts at the right of the second line.
func (e entry) amountWide() float64 {
	wide := 0.0
	if e.priced {
		wide = priceRoom + 2
	}
	if e.need != "" {
		wide += typeface.Width(e.need, sheet.Regular, sheet.SizeNote) + 1.4
	}
	if e.buy != "" {
		wide += typeface.Width(e.buy, sheet.Bold, sheet.SizeBody) + 1.4
	}
	return wide
}

func (e entry) headHigh(wide float64) float64 {
	if e.group == "" {
		return 0
	}
	return headAbove + lineHigh + page.TextHeight(e.rule, page.Quiet(), wide) + 1
}

// last is how wide the last line of what is bought is, in a width.
func (e entry) last(in float64) float64 {
	lines := typeface.Wrap(e.what, sheet.Regular, sheet.SizeBody, in)
	return typeface.Width(lines[len(lines)-1], sheet.Regular, sheet.SizeBody)
}

// lines tells what stands beside the last line of what is bought, in a width: the amounts, and what it
// is for; and how wide the latter may be where it stands under it.
func (e entry) lines(in float64) (amounts, use bool, under float64) {
	free := in - e.last(in) - 1
	if free < e.amountWide() {
		return false, e.use == "", in - e.amountWide()
	}
	return true, typeface.Width(e.use, sheet.Regular, sheet.SizeNote)+2 <= free-e.amountWide(), in
}

func (e entry) high(wide float64) float64 {
	in := wide - boxRoom
	amounts, use, under := e.lines(in)
	high := e.headHigh(wide) + page.TextHeight(e.what, sheet.Plain(sheet.SizeBody), in) + entryGap
	switch {
	case amounts && use:
		return high
	case amounts:
		return high + page.TextHeight(e.use, page.Quiet(), under)
	}
	return high + math.Max(lineHigh, page.TextHeight(e.use, page.Quiet(), under))
}

func (e entry) draw(c *sheet.Canvas, r sheet.Rect) {
	if e.group != "" {
		e.drawHead(c, r)
		r = r.Below(r.Y + e.headHigh(r.W))
	}
	box := table.TickBox()
	box.Draw(c, sheet.Rect{X: r.X, Y: r.Y + 0.8, W: box.W, H: box.H})
	in := sheet.Rect{X: r.X + boxRoom, Y: r.Y + 0.4, W: r.W - boxRoom, H: r.H}
	amounts, use, under := e.lines(in.W)
	y := frame.Paragraph(c, in, e.what, sheet.Plain(sheet.SizeBody))
	base := y - lineHigh + sheet.SizeBody*(typeface.CapHeight+0.12)
	if !amounts {
		base += lineHigh
	}
	e.amounts(c, r.Right(), base)
	switch {
	case e.use != "" && use:
		c.Text(in.X+e.last(in.W)+2, base, e.use, page.Quiet())
	case e.use != "":
		if !amounts {
			y += (lineHigh - noteHigh) / 2
		}
		frame.Paragraph(c, sheet.Rect{X: in.X, Y: y, W: under}, e.use, page.Quiet())
	}
	c.Line(r.X, r.Bottom()-0.1, r.Right(), r.Bottom()-0.1, sheet.Solid(sheet.Hair).In(sheet.Rule))
}

// drawHead sets the heading of a group with the rule by which it is counted.
func (e entry) drawHead(c *sheet.Canvas, r sheet.Rect) {
	at := r.Below(frame.Paragraph(c, r.Below(r.Y+headAbove), e.group, sheet.Strong(sheet.SizeBody)))
	if e.rule != "" {
		at = at.Below(frame.Paragraph(c, at, e.rule, page.Quiet()))
	}
	c.Line(r.X, at.Y+0.3, r.Right(), at.Y+0.3, sheet.Solid(sheet.Medium))
}

// amounts sets need, buy and price from the right.
func (e entry) amounts(c *sheet.Canvas, x, base float64) {
	if e.priced {
		if e.price == "" {
			c.Line(x-priceRoom, base+0.4, x, base+0.4, sheet.Solid(sheet.Thin))
		} else {
			c.Text(x, base, e.price, sheet.Plain(sheet.SizeBody).At(sheet.Right))
		}
		x -= priceRoom + 2
	}
	if wide := typeface.Width(e.buy, sheet.Bold, sheet.SizeBody) + 1.4; e.need != "" && e.buy != "" {
		c.Text(x-wide, base, e.need, page.Quiet().At(sheet.Right))
	} else if e.need != "" {
		c.Text(x, base, e.need, page.Quiet().At(sheet.Right))
	}
	if e.buy != "" {
		c.Text(x, base, e.buy, sheet.Strong(sheet.SizeBody).At(sheet.Right))
	}
}
