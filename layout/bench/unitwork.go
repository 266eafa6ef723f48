package bench

import (
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
)

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
	if spare := page.SpareCores(a.H, u); spare != "" {
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
			reach = ", with " + page.Span(d.Length, a.H.Sheet.Imperial) + " of wire"
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
			rows = append(rows, work("Twist "+t.Name, page.List("; ", page.WireNames(a, t.Wires), page.LayText(t, a.H.Sheet.Imperial), page.Span(made.Length, a.H.Sheet.Imperial)+" finished")))
		}
		switch u.Kind {
		case harness.Screened:
			rows = append(rows, work("Screen "+u.Name, page.List("; ", page.WireNames(a, u.Wires), made.Screen+" "+page.Span(made.ScreenLen, a.H.Sheet.Imperial), earthedAt(a, made))))
		case harness.Cabled:
			rows = append(rows, work("Cable "+u.Name, page.List("; ", "cut "+page.Span(made.Length, a.H.Sheet.Imperial), sheathBack(a, made), spareWork(a.H, u), earthedAt(a, made))))
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
	if spare := page.SpareCores(h, u); spare != "" {
		return "spare: " + spare
	}
	return ""
}
