package cutlist

import (
	"fmt"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
)

// unitRows are the rows of the cut list for what is handled as one: a heading for
// each unit, what is cut of it beside its wires, its wires, and its spare cores.
func unitRows(a page.Ask) []table.Row {
	var rows []table.Row
	for i := range a.H.Units {
		u, made := &a.H.Units[i], &a.R.Units[i]
		rows = append(rows, table.Heading(unitName(u, made), unitSums(a, u, made)))
		if row, ok := wholeRow(a, u, made); ok {
			rows = append(rows, row)
		}
		for _, w := range u.Wires {
			row := cutRow(a, w)
			if u.Type != nil {
				asCore(&row, &u.Type.Cores[a.H.Wires[w].Core])
			}
			rows = append(rows, row)
		}
		if spare := page.SpareCores(a.H, u); spare != "" {
			rows = append(rows, table.Row{Cells: []table.Cell{{}, {S: "Spare cores: " + spare + ": fold them back over the sheath at both ends and insulate them", Span: 7}}})
		}
	}
	return rows
}

// asCore marks a wire's row as a core: it is cut with its cable.
func asCore(row *table.Row, core *harness.Core) {
	row.Cells[0] = table.Cell{Note: "core"}
	row.Cells[1].Note = "core " + page.Firm(core.Mark) + "\n" + page.Firm(core.Size.String())
	row.Cells[3] = table.Text("–")
}

// unitName is a unit in words: "Twist and screen · crank", "Cable tow · trailer".
func unitName(u *harness.Unit, made *fitted.Unit) string {
	switch {
	case u.Kind == harness.Cabled:
		return page.Dotted("Cable "+u.Name, u.Type.Name)
	case u.Kind == harness.Screened && len(made.Twists) > 0:
		return page.Dotted("Twist and screen", u.Name)
	}
	return page.Dotted(page.Capital(string(u.Kind)), u.Name)
}

// unitSums says how a unit is made, at the right of its heading.
func unitSums(a page.Ask, u *harness.Unit, made *fitted.Unit) string {
	imperial := a.H.Sheet.Imperial
	parts := []string{page.Counted(len(u.Wires), "wire")}
	if u.Type != nil {
		parts = []string{fmt.Sprintf("%d of %s", len(u.Wires), page.Counted(len(u.Type.Cores), "core"))}
	}
	parts = append(parts, page.Span(made.Length, imperial)+" finished")
	for _, t := range made.Twists {
		parts = append(parts, page.LayText(t, imperial))
	}
	return strings.Join(append(parts, wide(a, made)), ", ")
}

func wide(a page.Ask, made *fitted.Unit) string {
	return page.Across(made.Diameter, a.H.Sheet.Imperial).S + page.NoBreak + page.SizeUnit(a.H.Sheet.Imperial) + " across"
}

// wholeRow is what is cut of a unit beside its wires: the cable, or the screen.
func wholeRow(a page.Ask, u *harness.Unit, made *fitted.Unit) (table.Row, bool) {
	if u.Kind == harness.Twisted {
		return table.Row{}, false
	}
	imperial := a.H.Sheet.Imperial
	tick := table.Cell{Draw: table.TickBox()}
	if harness.BuiltUnit(u, a.R.Kept) {
		tick = table.Cell{Note: "built"}
	}
	what, long := table.Noted("sheath", "and all in it"), made.Length
	if u.Kind == harness.Screened {
		what, long = table.Noted(made.Screen, "over them"), made.ScreenLen
	}
	row := table.Row{Cells: []table.Cell{tick, what, {}, table.Strong(page.Length(long, imperial))}}
	for end := range 2 {
		back := table.Text(strings.TrimSuffix(page.Size(made.Back[end], imperial), " in"))
		back.Note = "back"
		row.Cells = append(row.Cells, back, endOfUnit(a, u, made, end))
	}
	return row, true
}

// endOfUnit says at which parts a unit ends, and what becomes of its screen there.
func endOfUnit(a page.Ask, u *harness.Unit, made *fitted.Unit, end int) table.Cell {
	c := table.Text("at " + page.Refs(a, made.Parts[end]))
	if u.HasScreen() {
		c.Note = screenAt(a, made, end)
	}
	return c
}

// screenAt says whether a screen is earthed at an end, or insulated.
func screenAt(a page.Ask, made *fitted.Unit, end int) string {
	for _, d := range made.Drains {
		if d.End == end {
			return "screen earthed at " + page.Firm(a.H.Terminals[d.Terminal].Full)
		}
	}
	return "screen insulated"
}

// cableTable sums what is cut and bought of each type of cable.
func cableTable(a page.Ask) *table.Table {
	imperial := a.H.Sheet.Imperial
	t := &table.Table{Columns: []table.Column{
		{Title: "Cable", Unit: "type", Weight: 1}, {Title: "Which", Weight: 1},
		{Title: "Cut", Unit: page.LongUnit(imperial), Align: table.Decimal}, {Title: "Buy", Unit: page.LongUnit(imperial), Align: table.Decimal},
		{Title: "Left over", Unit: page.LongUnit(imperial), Align: table.Decimal},
	}}
	for i := range a.R.Cables {
		c := &a.R.Cables[i]
		var names []string
		for _, id := range c.Units {
			names = append(names, page.Firm(a.H.Units[id].Name))
		}
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{
			table.Text(fitted.CableName(c.Type, imperial)), table.Text(strings.Join(names, ", ")),
			table.Text(page.Bare(c.Need, imperial)), table.Strong(page.BareToBuy(c.Buy, imperial)), table.Text(page.Bare(c.Buy-c.Need, imperial)),
		}})
	}
	return t
}

// shade is what stands under a swatch in the cut list, whose headings tell the units.
func shade(a page.Ask, id harness.WireID) table.Cell {
	c := page.SwatchCell(a.Pair(id))
	c.Note = page.List("\n", page.ShortColour(a.Pair(id)), page.AsFound(a.R.Colours[id]))
	return c
}
