package tradeoff

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/purchase"
	"example.com/loomfolio/sizing/unit"
)

// mostWork is how many kinds of work are named with their time; all are in the figures.
const mostWork = 2

// counted says what the loom comes to beside its metres and copper: pieces, masses; "" where nothing was counted.
func (s Sheet) counted() string {
	c := &s.P.Cost
	var parts []string
	if c.Pieces > 0 {
		parts = append(parts, page.Trimmed(float64(c.Pieces), 0)+" pieces")
	}
	for _, m := range []struct {
		mass unit.Gram
		of   string
	}{
		{c.Wire, "of wire with its insulation"}, {c.Cable, "of cable"}, {c.Cover, "of covers, tape and tube"},
	} {
		if m.mass > 0 {
			parts = append(parts, s.weight(m.mass)+" "+m.of)
		}
	}
	return strings.Join(parts, ", ")
}

// work says how long it takes to build, and what takes most of that; "" where nothing was counted.
func (s Sheet) work() string {
	c := &s.P.Cost
	if c.Minutes <= 0 {
		return ""
	}
	text := "about " + hours(c.Minutes)
	if c.Spread > 0 {
		text += fmt.Sprintf(" ± %.0f"+page.NoBreak+"%%", c.Spread*100)
	}
	if most := s.most(); most != "" {
		text += ", most of it: " + most
	}
	return text
}

// most names the kinds of work that take longest: "lay a wire on the board or in the vehicle (6.7 h), …".
func (s Sheet) most() string {
	all := slices.Clone(s.P.Cost.Operation)
	slices.SortStableFunc(all, func(a, b purchase.Operation) int { return cmp.Compare(b.Minutes, a.Minutes) })
	var out []string
	for _, o := range all[:min(mostWork, len(all))] {
		if o.Minutes > 0 {
			out = append(out, named(o)+" ("+hours(o.Minutes)+")")
		}
	}
	return strings.Join(out, ", ")
}

// named is a kind of work in few words, without what it takes in or the sizes it is for.
func named(o purchase.Operation) string {
	name, _, _ := strings.Cut(page.Or(o.Name, o.Key), ":")
	name, _, _ = strings.Cut(name, " for ")
	return name
}

// hours prints minutes as what they are good for: "45 min", "1.9 h", "34 h".
func hours(minutes float64) string {
	switch h := minutes / 60; {
	case minutes < 1:
		return "<1" + page.NoBreak + "min"
	case minutes < 59.5:
		return fmt.Sprintf("%.0f"+page.NoBreak+"min", minutes)
	case h < 9.95:
		return page.Trimmed(h, 1) + page.NoBreak + "h"
	default:
		return fmt.Sprintf("%.0f"+page.NoBreak+"h", math.Round(h))
	}
}

// Priced tells whether there are prices to sum.
func (s Sheet) Priced() bool { return s.P.Cost.Priced }

// money says what all comes to: "EUR 612.40, but for 12 lines without a price".
func (s Sheet) money() string {
	if !s.Priced() {
		return ""
	}
	c := &s.P.Cost
	text := page.Firm(page.List(" ", c.Currency, page.Figure(c.Money, 2)))
	if c.Unpriced > 0 {
		text += fmt.Sprintf(", but for %s without a price", page.Counted(c.Unpriced, "line"))
	}
	return text
}

// Groups is the table of what is paid by group of the list.
func (s Sheet) Groups() *table.Table {
	t := &table.Table{Tight: true, Columns: []table.Column{
		{Title: "By group", Weight: 1}, {Title: "Length", Unit: page.LongUnit(s.Imperial), Align: table.Decimal}, {Title: "Pieces", Align: table.Decimal},
		{Title: "Mass", Unit: s.massUnit(), Align: table.Decimal}, {Title: "Price", Unit: s.P.Cost.Currency, Align: table.Decimal},
	}}
	for _, r := range s.P.Cost.Groups {
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{
			table.Text(page.Capital(r.Name)), orDash(r.Metres > 0, page.Bare(unit.Millimetre(r.Metres*1000), s.Imperial)), orDash(r.Pieces > 0, page.Trimmed(float64(r.Pieces), 0)),
			orDash(r.Mass > 0, page.Figure(s.mass(r.Mass), 2)), orDash(r.Money > 0, page.Figure(r.Money, 2)),
		}})
	}
	return t
}

// Circuits is the table of what is paid by circuit.
func (s Sheet) Circuits() *table.Table {
	t := &table.Table{Tight: true, Columns: []table.Column{{Title: "By circuit", Weight: 1}, {Title: "Price", Unit: s.P.Cost.Currency, Align: table.Decimal}}}
	for _, r := range s.P.Cost.Circuits {
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Text(s.Circuit(r.Name)), orDash(r.Money > 0, page.Figure(r.Money, 2))}})
	}
	return t
}

func orDash(there bool, text string) table.Cell {
	if !there {
		return table.Text("–")
	}
	return table.Text(text)
}

// left says in a line what is left of the wire after the build.
func (s Sheet) left() string {
	sum, n, longest := unit.Millimetre(0), 0, unit.Millimetre(0)
	for _, l := range s.P.Left {
		n += len(l.Lengths)
		for _, mm := range l.Lengths {
			sum, longest = sum+mm, max(longest, mm)
		}
	}
	if n == 0 {
		return ""
	}
	return fmt.Sprintf("%s in %s of %s, the longest %s; to paste as stock: loomfolio figures FILE --stock", page.Metres(sum, s.Imperial),
		page.Counted(n, "length"), page.Counted(len(s.P.Left), "reel"), page.Metres(longest, s.Imperial))
}
