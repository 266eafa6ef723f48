package bench

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// end is one end of a wire at the part where it lands.
type end struct {
	wire harness.WireID
	fitted.End
}

// ended is a part with the wire ends that land on it, by terminal; the part is
// nil for the bodywork.
type ended struct {
	part *harness.Part
	ends []end
}

// Terminals is the work at every wire end, part by part.
func Terminals(a page.Ask) []frame.Page {
	if len(a.R.Ends) == 0 {
		return nil
	}
	b := page.OpenLoose(a.Upright(), "Terminals and crimps", "sheet/terminals",
		"Every wire end, part by part"+elsewhere(a)+". Pull-out force after "+page.And(pullsOf(a).names)+".")
	b.Section("At every end, in this order", workTable(a.H.Sheet.Imperial))
	b.Section("Ends by part", endTable(a))
	for _, s := range doubts(a) {
		b.Remark(s)
	}
	if t := screenTable(a); len(t.Rows) > 0 {
		b.Section("Ends of screens and cables", t)
	}
	if len(a.R.Stacks) > 0 {
		b.Section("Studs with several rings", stackTable(a))
		b.Remark("Torques are dry, and each for the material and place under it alone: what the part's own sheet says goes first.")
	}
	if len(a.R.Lots) > 0 {
		b.Section("Pull test, lot by lot", lotTable(a))
		b.Remark("A lot is one barrel, one wire and one tool: whatever the ring or tab in front of it. Crimp two spare ones at least, insulation grip open, and pull each " +
			"to the force, then on until it fails; write down what it held (MIL-T-7928: two specimens at least, " + pullSpeed(a.H.Sheet.Imperial) +
			" a minute). A splice is pulled at its thinnest wire, and so is a receptacle with several wires in it, crimped as in the harness.")
	}
	b.Section("Fittings in all", fittingTable(a))
	return b.Close()
}

// elsewhere says where the ends in splices stand.
func elsewhere(a page.Ask) string {
	if len(used(a.R.Splices)) == 0 {
		return ""
	}
	return "; those in splices: " + a.Where("sheet/splices")
}

// doubts are the sizes that two sleeves claim, or none, each with what was decided.
func doubts(a page.Ask) []string {
	var out []string
	for _, two := range a.R.Ends {
		for _, e := range two {
			if e.Doubt != "" && !slices.Contains(out, e.Doubt) {
				out = append(out, e.Doubt)
			}
		}
	}
	slices.Sort(out)
	for i := range out {
		out[i] = page.Capital(out[i]) + "."
	}
	return out
}

// fittingRoom keeps the longest crimp and its range in one line, mm.
const fittingRoom = 41

// endTable has one row an end, so two a wire.
func endTable(a page.Ask) *table.Table {
	t := &table.Table{Columns: []table.Column{
		{Title: "Terminal"},
		{Title: "Wire", Unit: "gauge"},
		{Title: "Colour", Unit: "base/tracer", Min: page.ColourRoom},
		{Title: "Fitting", Unit: "crimp, wire range; shrink and boot go on first", Min: fittingRoom, Weight: 1},
		{Title: "Strip", Unit: page.SizeUnit(a.H.Sheet.Imperial), Align: table.Decimal},
		{Title: "Pull-out", Unit: pullUnit(a.H.Sheet.Imperial), Min: 16.5, Align: table.Right},
		{Title: "Crimp", Align: table.Centre},
		{Title: "Pull", Align: table.Centre},
	}}
	seen := map[harness.WireID]bool{}
	forces := pullsOf(a)
	for _, at := range endsByPart(a) {
		t.Rows = append(t.Rows, partHeading(a, at))
		for _, e := range at.ends {
			row := endRow(a, e, forces)
			if !seen[e.wire] {
				row.Anchor, seen[e.wire] = "end/"+a.H.Wires[e.wire].Name, true
			}
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}

// endsByPart gathers the ends in the order in which a builder comes to them:
// place by place, part by part, terminal by terminal; the bodywork comes last. Ends in
// splices are not among them: they have a sheet of their own.
func endsByPart(a page.Ask) []ended {
	at := make([][]end, len(a.H.Terminals))
	for id, ends := range a.R.Ends {
		w := &a.H.Wires[id]
		at[w.From] = append(at[w.From], end{w.ID, ends[0]})
		at[w.To] = append(at[w.To], end{w.ID, ends[1]})
	}
	var parts []ended
	for i := range a.H.Parts {
		p := ended{part: &a.H.Parts[i]}
		for _, t := range p.part.Terminals {
			p.ends = append(p.ends, at[t]...)
		}
		if len(p.ends) > 0 && p.part.Kind != harness.Splice {
			parts = append(parts, p)
		}
	}
	slices.SortStableFunc(parts, func(x, y ended) int { return byPlace(x.part) - byPlace(y.part) })
	if len(at[harness.Chassis]) > 0 {
		parts = append(parts, ended{ends: at[harness.Chassis]})
	}
	return parts
}

// byPlace puts parts without a place of their own behind the others.
func byPlace(p *harness.Part) int {
	if p.Place == harness.None {
		return math.MaxInt32
	}
	return int(p.Place)
}

func partHeading(a page.Ask, at ended) table.Row {
	if at.part == nil {
		return table.Heading("Chassis", page.Counted(len(at.ends), "end"))
	}
	row := table.Heading(page.Dotted(at.part.Ref, page.Called(at.part)), page.Dotted(page.PlaceOf(a, at.part), page.Counted(len(at.ends), "end")))
	row.Cells[0].Link = a.Link("part/" + at.part.Ref)
	return row
}

func endRow(a page.Ask, e end, forces pulls) table.Row {
	name := a.H.Wires[e.wire].Name
	return table.Row{Cells: []table.Cell{
		table.Strong(terminalName(a.H, e.Terminal)),
		{S: page.Firm(name), Bold: true, Note: page.Firm(a.Gauge(e.wire)), Link: a.Link("wire/" + name)},
		page.ColourCell(a, e.wire),
		fittingCell(a, e.End),
		page.Strip(a, e.End),
		forces.cell(e.Pull, e.PullList),
		crimpBox(e.End), {Draw: table.TickBox()},
	}}
}

// crimpBox is a box to tick for each fitting; wires that share one have it once.
func crimpBox(e fitted.End) table.Cell {
	if e.Second {
		return table.Text("–")
	}
	return table.Cell{Draw: table.TickBox()}
}

// pullSpeed is how far the puller moves in a minute (MIL-T-7928).
func pullSpeed(imperial bool) string {
	if imperial {
		return "1 to 2" + page.NoBreak + "in"
	}
	return "25 to 50" + page.NoBreak + "mm"
}

// fittingCell has the fitting and under it the crimp; a number and die of the shop's own go first.
func fittingCell(a page.Ask, e fitted.End) table.Cell {
	note := page.List(", ", e.Crimp, page.Ranged(e.Size), grip(e.Over, a.H.Sheet.Imperial))
	if len(e.With) > 0 {
		note += "\nin one with " + page.WireNames(a, e.With)
	}
	if e.Drain != "" {
		note += "\nin one with the drain of " + page.Firm(e.Drain)
	}
	if e.Shrink != "" {
		note += "\nshrink " + page.List(", ", page.Firm(e.Shrink), page.Firm(page.Piece(e.ShrinkLen, a.H.Sheet.Imperial)))
	}
	if e.Boot {
		note += "\nboot: live, no fuse before it"
	}
	if e.Part == "" {
		return table.Noted(e.Fitting, note)
	}
	die := e.Die
	if die != "" {
		die = "die " + die
	}
	return table.Noted(e.Fitting+": "+page.Firm(e.Part), page.List("\n", note, page.List(", ", e.Tool, die)))
}

// terminalName is the terminal within its part; a part with one alone has none.
func terminalName(h *harness.Harness, t harness.TerminalID) string {
	if n := h.Terminals[t].Name; n != "" {
		return n
	}
	return h.Terminals[t].Full
}

// kind is a fitting as it is counted.
type kind struct{ fitting, crimp, size string }

// fittingTable counts the fittings; the ends in a splice share one.
func fittingTable(a page.Ask) *table.Table {
	t := &table.Table{Rigid: true, Columns: []table.Column{
		{Title: "Fitting"}, {Title: "Crimp"}, {Title: "Wire range"}, {Title: "Pieces", Align: table.Decimal},
	}}
	order, count := fittings(a)
	all := 0
	for _, k := range order {
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{
			table.Strong(k.fitting), table.Text(k.crimp), table.Text(page.Ranged(k.size)), table.Strong(fmt.Sprint(count[k])),
		}})
		all += count[k]
	}
	t.Rows = append(t.Rows, table.Row{Kind: table.Sum, Cells: []table.Cell{{S: "All fittings", Span: 3}, table.Text(fmt.Sprint(all))}})
	return t
}

func fittings(a page.Ask) (order []kind, count map[kind]int) {
	count = map[kind]int{}
	add := func(k kind) {
		if count[k] == 0 {
			order = append(order, k)
		}
		count[k]++
	}
	for _, two := range a.R.Ends {
		for _, e := range two {
			if p := a.H.PartOf(e.Terminal); (p == nil || p.Kind != harness.Splice) && !e.Second {
				add(kind{e.Fitting, e.Crimp, e.Size})
			}
		}
	}
	for _, s := range used(a.R.Splices) {
		add(kind{"splice", page.Ranged(s.Size), ""})
	}
	slices.SortFunc(order, func(x, y kind) int {
		return cmp.Or(unit.Natural(x.fitting, y.fitting), unit.Natural(x.crimp, y.crimp), unit.Natural(x.size, y.size))
	})
	return order, count
}
