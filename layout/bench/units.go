package bench

import (
	"fmt"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/unit"
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
		if spare := spareCores(a.H, u); spare != "" {
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
	parts = append(parts, span(made.Length, imperial)+" finished")
	for _, t := range made.Twists {
		parts = append(parts, layText(t, imperial))
	}
	return strings.Join(append(parts, wide(a, made)), ", ")
}

// span is a length with its unit: "1 155 mm", or "3 ft 9 1/2 in".
func span(mm unit.Millimetre, imperial bool) string { return page.Firm(unit.LengthText(mm, imperial)) }

// layText says how a twist is laid: "lay 30.5 mm".
func layText(t route.Twist, imperial bool) string {
	return "lay" + page.NoBreak + page.Piece(t.Lay, imperial)
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

func spareCores(h *harness.Harness, u *harness.Unit) string {
	var out []string
	for _, i := range h.Spare(u) {
		out = append(out, page.Firm(fitted.CoreName(&u.Type.Cores[i])))
	}
	return strings.Join(out, ", ")
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

// screenTable is the work at the ends of screens and sheaths, one row an end.
func screenTable(a page.Ask) *table.Table {
	imperial := a.H.Sheet.Imperial
	t := &table.Table{Columns: []table.Column{
		{Title: "Unit"},
		{Title: "End", Unit: "at", Weight: 0.5},
		{Title: "Cut back", Unit: page.SizeUnit(imperial), Align: table.Decimal},
		{Title: "Screen, sheath, spare cores", Weight: 1},
		{Title: "Shrink", Unit: "over the end", Min: 30},
		{Title: "Done", Align: table.Centre},
	}}
	for i := range a.H.Units {
		u, made := &a.H.Units[i], &a.R.Units[i]
		if made.Back[0] == 0 {
			continue
		}
		for end := range 2 {
			boot := table.Text(page.OrDash(made.Boot))
			if made.Boot != "" {
				boot.Note = page.Piece(made.BootLen, imperial) + " long"
			}
			t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{
				table.Noted(page.Firm(u.Name), string(u.Kind)), {S: page.Refs(a, made.Parts[end])},
				table.Text(strings.TrimSuffix(page.Size(made.Back[end], imperial), " in")), table.Text(endWork(a, u, made, end)), boot, {Draw: table.TickBox()},
			}})
		}
	}
	return t
}

// endWork says what is done where a screen or a sheath ends.
func endWork(a page.Ask, u *harness.Unit, made *fitted.Unit, end int) string {
	var out []string
	if u.HasScreen() {
		out = append(out, drainWork(a, made, end))
	}
	if spare := spareCores(a.H, u); spare != "" {
		out = append(out, "fold back and insulate "+spare)
	}
	if len(out) == 0 {
		return "cut the sheath off square, no core nicked"
	}
	return page.Capital(strings.Join(out, "; "))
}

// drainWork says where the drain goes at an end, or that there is none.
func drainWork(a page.Ask, made *fitted.Unit, end int) string {
	for _, d := range made.Drains {
		if d.End != end {
			continue
		}
		at := page.Firm(a.H.Terminals[d.Terminal].Full)
		if d.With != harness.None {
			return "drain, sleeved, to " + at + ": into the crimp of " + page.Firm(a.H.Wires[d.With].Name)
		}
		reach := ""
		if d.Length > 0 {
			reach = ", with " + span(d.Length, a.H.Sheet.Imperial) + " of wire"
		}
		return "drain, sleeved" + reach + ", to " + at + ": " + page.List(", ", d.Fitting.Fitting, d.Fitting.Crimp, page.Ranged(d.Fitting.Size))
	}
	return "cut the screen off and insulate it: it is earthed at the other end alone"
}

// unitSteps are the units in the build order.
func unitSteps(a page.Ask) []table.Row {
	var rows []table.Row
	for i := range a.H.Units {
		u, made := &a.H.Units[i], &a.R.Units[i]
		for _, t := range made.Twists {
			rows = append(rows, work("Twist "+t.Name, page.List("; ", page.WireNames(a, t.Wires), layText(t, a.H.Sheet.Imperial), span(made.Length, a.H.Sheet.Imperial)+" finished")))
		}
		switch u.Kind {
		case harness.Screened:
			rows = append(rows, work("Screen "+u.Name, page.List("; ", page.WireNames(a, u.Wires), made.Screen+" "+span(made.ScreenLen, a.H.Sheet.Imperial), earthedAt(a, made))))
		case harness.Cabled:
			rows = append(rows, work("Cable "+u.Name, page.List("; ", "cut "+span(made.Length, a.H.Sheet.Imperial), sheathBack(a, made), spareWork(a.H, u), earthedAt(a, made))))
		}
	}
	return rows
}

// earthedAt says where a screen is earthed; "" where it is nowhere, or is none.
func earthedAt(a page.Ask, made *fitted.Unit) string {
	for _, d := range made.Drains {
		return "earthed at " + page.Firm(a.H.Terminals[d.Terminal].Full) + " alone"
	}
	return ""
}

func sheathBack(a page.Ask, made *fitted.Unit) string {
	var out []string
	for end, back := range made.Back {
		out = append(out, page.Piece(back, a.H.Sheet.Imperial)+" at "+page.Refs(a, made.Parts[end]))
	}
	return "sheath back " + strings.Join(out, ", ")
}

func spareWork(h *harness.Harness, u *harness.Unit) string {
	if spare := spareCores(h, u); spare != "" {
		return "spare: " + spare
	}
	return ""
}

// inUnit says in short which core a wire is, or what it is twisted and screened with.
func inUnit(a page.Ask, id harness.WireID) string {
	if u := a.UnitOf(id); u != nil && u.Type != nil {
		return "core " + page.Firm(u.Type.Cores[a.H.Wires[id].Core].Mark) + " of " + page.Firm(u.Name)
	}
	return together(a, id)
}

// shade is what stands under a swatch in the cut list, whose headings tell the units.
func shade(a page.Ask, id harness.WireID) table.Cell {
	c := page.SwatchCell(a.Pair(id))
	c.Note = page.List("\n", short(a.Pair(id)), asFound(a.R.Colours[id]))
	return c
}
