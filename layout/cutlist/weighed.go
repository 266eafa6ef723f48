package cutlist

import (
	"fmt"
	"strings"

	"example.com/loomfolio/layout/cutlist/tradeoff"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
)

// Widths of what stands under the list, mm.
const (
	chartWide     = 62.0
	sumColumn     = 78.0
	circuitColumn = 50.0
)

// weighedOf is what was weighed for what is bought.
func weighedOf(a page.Ask) tradeoff.Sheet {
	return tradeoff.Sheet{P: &a.R.Purchase, Imperial: a.H.Sheet.Imperial, Circuit: func(key string) string {
		for i := range a.H.Circuits {
			if c := &a.H.Circuits[i]; c.Key == key {
				return page.List(" ", c.Number, page.Or(c.Name, c.Key))
			}
		}
		return key
	}}
}

// weighed sets what was weighed and what was taken, with the picture beside the rows.
func weighed(a page.Ask, b *page.Book) {
	s := weighedOf(a)
	if !s.There() {
		return
	}
	choices(b, s)
	b.Say(s.Taken(), sheet.Strong(sheet.SizeBody))
	b.Down(0.6)
	b.Table(s.Notes(sleeveSheet(a), tools(a)))
}

// choices sets the rows of what was weighed with the picture beside them, under their heading.
func choices(b *page.Book, s tradeoff.Sheet) {
	t := s.Choices()
	if len(t.Rows) == 0 {
		b.Head(tradeoff.Heading, 10)
		return
	}
	wide := b.Room.W
	if s.ChartHigh(0) > 0 {
		wide -= chartWide + page.ColumnGap
	}
	set := t.Settle(wide)
	rows := set.Height()
	picture := s.ChartHigh(rows)
	b.Head(tradeoff.Heading, max(rows, picture))
	at := b.Room
	if picture > 0 {
		s.Chart(&b.C, sheet.Rect{X: at.X, Y: at.Y, W: chartWide, H: picture})
		at.X, at.W = at.X+chartWide+page.ColumnGap, wide
	}
	b.C.Add(set.FlowIn(func(int) sheet.Rect { return at })[0].Marks...)
	b.Down(max(rows, picture) + 1)
}

// sleeveSheet is where the pairs stand that only their sleeves tell apart, "" where there are none.
func sleeveSheet(a page.Ask) string {
	if len(a.R.Purchase.Pairs) == 0 || numbered(a) {
		return ""
	}
	return page.Or(a.Where("sheet/tracing"), a.Where("sheet/wires"))
}

// tools names the crimping tools that the loom needs, with the number of crimps for each.
func tools(a page.Ask) string {
	var names []string
	for _, t := range a.R.Tools {
		names = append(names, fmt.Sprintf("%s (%s)", t.Name, page.Counted(t.Crimps, "crimp")))
	}
	return strings.Join(names, "; ")
}

// costs sets what is paid by group and by circuit, where there are prices.
func costs(a page.Ask, b *page.Book) {
	s := weighedOf(a)
	if !s.There() || !s.Priced() {
		return
	}
	spread := func(t *table.Table, wide float64) {
		if len(t.Rows) > 0 {
			t.Pad = closePad
			b.Down(1)
			b.Spread(t, page.Abreast(b.Room.W, wide, page.ColumnGap), 0)
		}
	}
	spread(s.Groups(), sumColumn)
	spread(s.Circuits(), circuitColumn)
}
