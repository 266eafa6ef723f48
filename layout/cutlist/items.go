package cutlist

import (
	"math"
	"slices"
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
	kind        string // what it and those after it share, of the first of these
	inner       bool   // it is of the kind of the entry before it, and stays with that
	what        string
	use         users  // what it is for
	need, buy   string // buy alone where as much is needed; need alone where nothing is bought
	price       string // "" for a line to write it on
	priced      bool   // there is a column for it
}

// mostUnder is how many entries stay together under what they share.
const mostUnder = 9

// goesOn marks what goes on from the entries before.
const goesOn = ", continued"

// Sizes of an entry, mm.
const (
	boxRoom   = 5.6
	entryGap  = 0.8
	headAbove = 1.3
)

// entries are the items in their groups, for a column of a width. Wire by the length stands there already, reel by reel.
func entries(a page.Ask, wide float64) []entry {
	var out []entry
	for _, group := range itemGroups(a) {
		var some []entry
		for _, item := range group {
			some = append(some, entryOf(a, item))
		}
		some = gathered(some, wide)
		some[0].group, some[0].rule = groupName(group[0].Group), groupRule(group[0].Group, a.H.Sheet.Imperial)
		out = append(out, some...)
	}
	return out
}

// itemGroups are the items, group by group.
func itemGroups(a page.Ask) [][]fitted.Item {
	var out [][]fitted.Item
	for _, item := range a.R.Shopping {
		if item.Group == "wire" && len(a.R.Reels) > 0 {
			continue
		}
		if n := len(out); n == 0 || out[n-1][0].Group != item.Group {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], item)
	}
	return out
}

// entryOf is one item as it is printed.
func entryOf(a page.Ask, item fitted.Item) entry {
	e := entry{what: page.Dashed(item.What), use: usersOf(a, item.For), priced: priced(a)}
	e.need, e.buy = amounts(item, a.H.Sheet.Imperial)
	if item.Priced {
		e.price = money(item.Sum)
	} else if !item.Bought() {
		e.price = "–"
	}
	return e
}

// gathered puts the entries that go on alike after their first comma under that text, of the others those
// that are alike up to their last, or up to a size, where that takes less room: under "red insulated, 0.5 – 1.5 mm²"
// stand the spades and the rings, under "switch, 2 positions" those for each current. What is alone stands before them.
func gathered(all []entry, wide float64) []entry {
	var out []entry
	for _, part := range []func(string) (own, kind string){afterFirst, beforeLast, beforeSize} {
		var some []entry
		some, all = shared(all, wide, part)
		out = append(out, some...)
	}
	return append(all, out...)
}

// afterFirst parts a text at its first comma: what is before it is an entry's own.
func afterFirst(s string) (own, kind string) {
	own, kind, _ = strings.Cut(s, ", ")
	return own, kind
}

// beforeLast parts a text at its last comma: what is behind it is an entry's own.
func beforeLast(s string) (own, kind string) {
	if i := strings.LastIndex(s, ", "); i > 0 {
		return s[i+2:], s[:i]
	}
	return s, ""
}

// beforeSize parts a text before its first word with a figure: "stud boot over", "M8 ring with 4 mm² cable".
func beforeSize(s string) (own, kind string) {
	figure := strings.IndexAny(s, "0123456789")
	if figure < 0 {
		return s, ""
	}
	word := strings.LastIndexByte(s[:figure], ' ') + 1
	return s[word:], strings.TrimRight(s[:word], ", ")
}

// shared takes out the entries that share a kind, by a way to part their text, each kind under its heading.
func shared(all []entry, wide float64, part func(string) (own, kind string)) (out, alone []entry) {
	kinds := map[string][]entry{}
	var order []string
	for _, e := range all {
		_, kind := part(e.what)
		if kinds[kind] == nil {
			order = append(order, kind)
		}
		kinds[kind] = append(kinds[kind], e)
	}
	for _, kind := range order {
		some := kinds[kind]
		short := slices.Clone(some)
		for i := range short {
			short[i].what, _ = part(short[i].what)
			short[i].inner = true
		}
		short = headed(short, page.Capital(kind))
		if kind != "" && heights(short, wide) < heights(some, wide) {
			out = append(out, short...)
		} else {
			alone = append(alone, some...)
		}
	}
	return out, alone
}

// headed sets a kind over entries, and over so many again.
func headed(some []entry, kind string) []entry {
	for i := 0; i < len(some); i += mostUnder {
		some[i].kind, some[i].inner = kind, false
		kind = strings.TrimSuffix(kind, goesOn) + goesOn
	}
	return some
}

// heights is how high some entries are together in a width.
func heights(all []entry, wide float64) float64 {
	sum := 0.0
	for _, e := range all {
		sum += e.high(wide)
	}
	return sum
}

// groupName is a group's heading.
func groupName(group string) string {
	if group == "shrink" {
		return "Heat-shrink"
	}
	return page.Capital(group)
}

// amounts is how much of an item is needed, and what is bought, as packs where there are several:
// "need 22:" and "3 × 10 pcs".
func amounts(item fitted.Item, imperial bool) (need, buy string) {
	need = "need " + quantity(item, imperial)
	if !item.Bought() {
		return need, ""
	}
	whole := item
	whole.Count = item.Buy
	buy = quantity(whole, imperial)
	if quantity(item, imperial) == buy {
		return "", buy
	}
	if item.Unit == "pcs" {
		need = "need " + page.Trimmed(item.Count, 0)
	}
	if packs := item.Buy / max(item.Pack, 1e-9); item.Pack > 0 && packs > 1.5 && (item.Unit == "m" || item.Pack > 1) {
		one := item
		one.Count = item.Pack
		buy = page.Firm(page.Trimmed(packs, 0) + " × " + quantity(one, imperial))
	}
	return need + ":", buy
}

// itemCards sets each entry as wide as a column; a group's heading stays with its first, and what is
// named under a kind with that.
func itemCards(a page.Ask, wide float64) []page.Card {
	var cards []page.Card
	for all := entries(a, wide); len(all) > 0; {
		n := 1
		for n < len(all) && all[n].inner {
			n++
		}
		some := all[:n]
		cards = append(cards, page.Card{High: heights(some, wide), Draw: func(c *sheet.Canvas, r sheet.Rect) {
			for _, e := range some {
				r.H = e.high(wide)
				e.draw(c, r)
				r.Y += r.H
			}
		}})
		all = all[n:]
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
	high := page.TextHeight(e.kind, sheet.Plain(sheet.SizeBody), wide)
	if e.kind != "" {
		high += entryGap
	}
	if e.group == "" {
		return high
	}
	high += headAbove + page.LineHigh + 1
	if !e.beside(wide) {
		high += page.TextHeight(e.rule, page.Quiet(), wide)
	}
	return high
}

// beside tells whether the rule of a group stands beside its heading.
func (e entry) beside(wide float64) bool {
	return typeface.Width(e.group, sheet.Bold, sheet.SizeBody)+2+typeface.Width(e.rule, sheet.Regular, sheet.SizeNote) <= wide
}

// last is how wide the last line of what is bought is, in a width.
func (e entry) last(in float64) float64 {
	lines := typeface.Wrap(e.what, sheet.Regular, sheet.SizeBody, in)
	return typeface.Width(lines[len(lines)-1], sheet.Regular, sheet.SizeBody)
}

// lines are how the rest of an entry stands with what is bought, in a width.
type lines struct {
	amounts bool    // beside the last line of what is bought; else under it
	use     string  // what it is for, shortened where that is many
	beside  bool    // it too
	under   float64 // how wide it may be where it stands under it
}

func (e entry) lines(in float64) lines {
	free := in - e.last(in) - 1 - e.amountWide()
	if free < 0 {
		under := in - e.amountWide()
		return lines{use: e.use.within(under), under: under}
	}
	use := e.use.within(free - 2)
	if typeface.Width(use, sheet.Regular, sheet.SizeNote)+2 <= free {
		return lines{amounts: true, use: use, beside: true}
	}
	return lines{amounts: true, use: e.use.within(in), under: in}
}

func (e entry) high(wide float64) float64 {
	in := wide - boxRoom
	l := e.lines(in)
	high := e.headHigh(wide) + page.TextHeight(e.what, sheet.Plain(sheet.SizeBody), in) + entryGap
	switch {
	case l.beside || l.amounts && l.use == "":
		return high
	case l.amounts:
		return high + page.TextHeight(l.use, page.Quiet(), l.under)
	}
	return high + math.Max(page.LineHigh, page.TextHeight(l.use, page.Quiet(), l.under))
}

func (e entry) draw(c *sheet.Canvas, r sheet.Rect) {
	if e.group != "" || e.kind != "" {
		e.drawHead(c, r)
		r = r.Below(r.Y + e.headHigh(r.W))
	}
	box := table.TickBox()
	box.Draw(c, sheet.Rect{X: r.X, Y: r.Y + 0.8, W: box.W, H: box.H})
	in := sheet.Rect{X: r.X + boxRoom, Y: r.Y + 0.4, W: r.W - boxRoom, H: r.H}
	l := e.lines(in.W)
	y := frame.Paragraph(c, in, e.what, sheet.Plain(sheet.SizeBody))
	base := y - page.LineHigh + sheet.SizeBody*(typeface.CapHeight+0.12)
	if !l.amounts {
		base += page.LineHigh
	}
	e.amounts(c, r.Right(), base)
	switch {
	case l.beside:
		c.Text(in.X+e.last(in.W)+2, base, l.use, page.Quiet())
	case l.use != "":
		if !l.amounts {
			y += (page.LineHigh - page.NoteHigh) / 2
		}
		frame.Paragraph(c, sheet.Rect{X: in.X, Y: y, W: l.under}, l.use, page.Quiet())
	}
	c.Line(r.X, r.Bottom()-0.1, r.Right(), r.Bottom()-0.1, sheet.Solid(sheet.Hair).In(sheet.Rule))
}

// drawHead sets the heading of a group with the rule by which it is counted, and what the entries
// under it share.
func (e entry) drawHead(c *sheet.Canvas, r sheet.Rect) {
	if e.group != "" {
		at := r.Below(r.Y + headAbove)
		under := r.Below(frame.Paragraph(c, at, e.group, sheet.Strong(sheet.SizeBody)))
		if e.rule != "" && e.beside(r.W) {
			c.Text(r.Right(), at.Y+sheet.SizeBody*(typeface.CapHeight+0.12), e.rule, page.Quiet().At(sheet.Right))
		} else if e.rule != "" {
			under = under.Below(frame.Paragraph(c, under, e.rule, page.Quiet()))
		}
		c.Line(r.X, under.Y+0.3, r.Right(), under.Y+0.3, sheet.Solid(sheet.Medium))
		r = r.Below(under.Y + 1)
	}
	if e.kind != "" {
		frame.Paragraph(c, sheet.Rect{X: r.X, Y: r.Y + 0.4, W: r.W, H: r.H}, e.kind, sheet.Plain(sheet.SizeBody))
	}
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
