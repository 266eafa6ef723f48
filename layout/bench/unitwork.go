package bench

import (
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
)

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

// earthedAt says where a screen is grounded; "" where it is nowhere, or is none.
func earthedAt(a page.Ask, made *fitted.Unit) string {
	for _, d := range made.Drains {
		return "grounded at " + page.Firm(a.H.Terminals[d.Terminal].Full) + " alone"
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
