package cutlist

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
)

// wholeSpan is the columns right of the boxes to tick.
const wholeSpan = 11

// unitRows are the rows of what is handled as one: a heading for each unit, what is cut
// of it beside its wires, its wires, its spare cores, and the work where its screen or
// sheath ends.
func unitRows(a page.Ask) []table.Row {
	var rows []table.Row
	for i := range a.H.Units {
		u, made := &a.H.Units[i], &a.R.Units[i]
		if len(a.Made(u.Wires)) == 0 {
			continue
		}
		rows = append(rows, table.Heading(unitName(u, made), unitSums(a, u, made)))
		if row, ok := wholeRow(a, u, made); ok {
			rows = append(rows, row)
		}
		for _, w := range u.Wires {
			row := cutRow(a, w, "")
			if u.Type != nil {
				asCore(&row, &u.Type.Cores[a.H.Wires[w].Core])
			}
			if size(a, u) == "" {
				row.Cells[2].Note = page.List("\n", row.Cells[2].Note, page.Firm(a.Gauge(w)))
			}
			rows = append(rows, row)
		}
		rows = append(rows, unitEnds(a, u, made)...)
	}
	return rows
}

// asCore marks a wire's row as a core: it is cut with its cable.
func asCore(row *table.Row, core *harness.Core) {
	row.Cells[0] = table.Cell{Note: "core"}
	row.Cells[3] = table.Cell{Note: page.Firm(core.Mark)}
}

// size is the size and insulation of a unit's wires, "" where they differ.
func size(a page.Ask, u *harness.Unit) string {
	text := func(w harness.WireID) string {
		return page.List(" ", a.Gauge(w), page.Wall(a.R.Wires[w].Insulation))
	}
	if len(u.Wires) == 0 || slices.ContainsFunc(u.Wires, func(w harness.WireID) bool { return text(w) != text(u.Wires[0]) }) {
		return ""
	}
	return text(u.Wires[0])
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
	first := page.Counted(len(u.Wires), "wire")
	if u.Type != nil {
		first = fmt.Sprintf("%d of %s", len(u.Wires), page.Counted(len(u.Type.Cores), "core"))
	}
	parts := []string{page.List(" of ", first, size(a, u)), page.Span(made.Length, imperial) + " finished"}
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
	tick := table.Cell{Draw: table.TickBox()}
	if harness.BuiltUnit(u, a.R.Kept) {
		tick = table.Cell{Note: "built"}
	}
	what, long := "sheath and cores", made.Length
	if u.Kind == harness.Screened {
		what, long = made.Screen, made.ScreenLen
	}
	return table.Row{Cells: []table.Cell{
		tick, {S: what, Bold: true, Size: sheet.SizeNote, Span: 2}, table.Text(cutLength(a, long)),
		{S: "from " + page.Refs(a, made.Parts[0]) + " to " + page.Refs(a, made.Parts[1]), Span: 8},
	}}, true
}

// unitEnds are the spare cores of a unit, and the work where its screen or sheath ends.
func unitEnds(a page.Ask, u *harness.Unit, made *fitted.Unit) []table.Row {
	if made.Back[0] == 0 {
		return nil
	}
	var rows []table.Row
	for end := range 2 {
		boot := ""
		if made.Boot != "" {
			boot = "heat-shrink " + page.Firm(made.Boot) + ", " + page.Piece(made.BootLen, a.H.Sheet.Imperial) + " long, over the end"
		}
		text := "At " + page.Refs(a, made.Parts[end]) + ": " + page.List("; ", "cut back "+page.Piece(made.Back[end], a.H.Sheet.Imperial), endWork(a, u, made, end), boot)
		rows = append(rows, table.Row{Cells: []table.Cell{{Draw: table.TickBox()}, {S: text, Size: sheet.SizeNote, Span: wholeSpan}}})
	}
	return rows
}

// endWork says what is done where a screen or a sheath ends.
func endWork(a page.Ask, u *harness.Unit, made *fitted.Unit, end int) string {
	var out []string
	if u.HasScreen() {
		out = append(out, drainWork(a, made, end))
	}
	switch spare := page.SpareCores(a.H, u); len(a.H.Spare(u)) {
	case 0:
	case 1:
		out = append(out, "fold spare core "+spare+" back over the sheath and insulate it")
	default:
		out = append(out, "fold spare cores "+spare+" back over the sheath and insulate them")
	}
	if len(out) == 0 {
		return "cut the sheath off square, no core nicked"
	}
	return strings.Join(out, "; ")
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
			reach = page.List(" ", ", with "+page.Span(d.Length, a.H.Sheet.Imperial)+" of wire", page.Firm(d.From))
		}
		return "drain, sleeved" + reach + ", to " + at + ": " + page.List(", ", d.Fitting.Fitting, d.Fitting.Crimp, page.Ranged(d.Fitting.Size))
	}
	return "cut the screen off and insulate it: it is grounded at the other end alone"
}
