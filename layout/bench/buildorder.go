// Package bench lays out the sheets that a builder works from: the runs of loom, the
// splices and the order of building.
//
// In: page.Ask, the model with everything computed for it. Out: the pages of
// one kind of sheet, none when there is nothing to say. It holds that no figure is
// computed here beyond sums and counts, and that colour is never the only carrier of a fact. Lengths are printed
// in mm and m, or in feet and inches where the description asks for them; forces in
// newtons and pounds.
//
// Anchors set here: sheet/splices, sheet/runs, sheet/build-order and splice/REF.
package bench

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/layout/caution"
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// BuildOrder is the way from cut wire to finished loom: the steps with what they
// are for in this harness, and what is closed on the bench or only in the vehicle.
func BuildOrder(a page.Ask) []frame.Page {
	if len(a.R.Ends) == 0 {
		return nil
	}
	b := page.OpenLoose(a.Upright(), "Build order", "sheet/build-order", "What is done one after the other, and what stays open until it has passed its hole.")
	b.Section("Steps", stepTable(a))
	if t := wallTable(a); len(t.Rows) > 0 {
		b.Section("Through a wall", t)
		b.Remark("Runs between zones that differ are taken to pass a wall. The hole is the least through which the finished ends, and splices with what hangs behind them, pass one after the other, " +
			"housings off. A grommet that is narrower than that hole goes onto the loom before the ends are fitted, and its seat in the metal must still pass them; " +
			"without a grommet the hole clears the loom by " + clearance(a.H.Sheet.Imperial) +
			" all round (FAA AC 43.13-1B 11-115).")
	}
	b.Section("Ends, place by place", finishTable(a))
	b.Remark("From the loom: how far a part's wires hang out where they leave it, slack counted; a wire whose length is given (* on its row in wires and ends) hangs out as it comes.")
	return b.Close()
}

func clearance(imperial bool) string {
	if imperial {
		return "3/8" + page.NoBreak + "in"
	}
	return "9.5" + page.NoBreak + "mm"
}

// stepTable has one row a piece of work, numbered by its kind.
func stepTable(a page.Ask) *table.Table {
	t := &table.Table{NoZebra: true, Columns: []table.Column{{Title: "Done", Align: table.Centre}, {Title: "What", Min: 46}, {Title: "Which", Weight: 1}}}
	n := 0
	group := func(head, remark string, rows []table.Row) {
		if len(rows) > 0 {
			n++
			t.Rows = append(append(t.Rows, table.Heading(fmt.Sprintf("%d  %s", n, head), remark)), rows...)
		}
	}
	group("Cut and mark", a.Where("sheet/wires"), cutSteps(a))
	group("Twists, screens and cables", "before anything is laid", unitSteps(a))
	group("Lay on the board", "the trunk first, then what branches off it", laySteps(a))
	group("Splice", a.Where("sheet/splices"), spliceSteps(a))
	group("Cover", "shrink and boots on the loom first", coverSteps(a))
	group("Ends", "place by place, below", []table.Row{work("Fit the ends that are closed on the bench", a.Where("sheet/wires"))})
	group("Prove it on the board", "with a meter, nothing connected (common practice, no source)", proofSteps(a))
	group("Into the vehicle", "", vehicleSteps(a))
	return t
}

func work(what, which string) table.Row {
	return table.Row{Cells: []table.Cell{{Draw: table.TickBox()}, table.Strong(what), table.Text(which)}}
}

func cutSteps(a page.Ask) []table.Row {
	var rows []table.Row
	for _, group := range page.Gauges(a.R.Reels) {
		sum := page.Total(group)
		rows = append(rows, work("Cut "+page.Firm(group[0].Gauge.String())+", "+page.Wall(group[0].Insulation), page.List(", ", page.Counted(len(sum.Wires), "wire"), page.Metres(sum.Need, a.H.Sheet.Imperial))))
	}
	return append(rows, work("Mark both ends", page.Counted(2*len(a.H.Wires), "marker")+"; they and the shrink go on before any fitting"))
}

// laySteps puts the runs in the order of laying: the one with most wires, then
// always the one with most wires of those that join what is laid.
func laySteps(a page.Ask) []table.Row {
	var rows []table.Row
	for _, r := range layOrder(a) {
		run := &a.H.Runs[r.Run]
		rows = append(rows, work("Run "+page.Letter(run.ID)+", "+page.Length(run.Length, a.H.Sheet.Imperial)+shortUnit(a.H.Sheet.Imperial),
			page.List(": ", placeName(a.H, run.From)+" – "+placeName(a.H, run.To), page.Counted(len(r.Wires), "wire")+flexing(run))))
	}
	return rows
}

// shortUnit follows a length that is printed without its unit.
func shortUnit(imperial bool) string {
	if imperial {
		return ""
	}
	return page.NoBreak + "mm"
}

func flexing(r *harness.Run) string {
	if r.Flexes {
		return "; bends in use, so no splice in it"
	}
	return ""
}

func layOrder(a page.Ask) []fitted.Run {
	left := slices.DeleteFunc(slices.Clone(a.R.Runs), func(r fitted.Run) bool { return len(r.Wires) == 0 })
	slices.SortStableFunc(left, func(x, y fitted.Run) int { return len(y.Wires) - len(x.Wires) })
	laid := map[harness.PlaceID]bool{}
	var out []fitted.Run
	for len(left) > 0 {
		i := max(0, slices.IndexFunc(left, func(r fitted.Run) bool { return laid[a.H.Runs[r.Run].From] || laid[a.H.Runs[r.Run].To] }))
		run := a.H.Runs[left[i].Run]
		laid[run.From], laid[run.To] = true, true
		out = append(out, left[i])
		left = slices.Delete(left, i, i+1)
	}
	return out
}

func spliceSteps(a page.Ask) []table.Row {
	var rows []table.Row
	for _, s := range used(a.R.Splices) {
		p := &a.H.Parts[s.Part]
		rows = append(rows, work(page.List(", ", p.Ref, page.Called(p)), page.List("; ", s.Where, staggered(a, s, "staggered"), page.Counted(len(s.Wires), "wire"))))
	}
	return rows
}

func coverSteps(a page.Ask) []table.Row {
	var rows []table.Row
	for _, r := range layOrder(a) {
		if r.CoverName == "" {
			continue
		}
		boot := ""
		if r.Boot != "" {
			boot = "over both ends of it shrink " + r.Boot + ", " + page.Piece(r.BootLen, a.H.Sheet.Imperial)
		}
		rows = append(rows, work("Run "+page.Letter(r.Run), page.List("; ", covered(r, a.H.Sheet.Imperial), boot)))
	}
	return rows
}

// covered is what goes over a run: "braid, bore 12 mm", or tape, which has no bore.
func covered(r fitted.Run, imperial bool) string {
	if r.Cover == 0 {
		return r.CoverName
	}
	return r.CoverName + ", bore " + bore(r.Cover, imperial).S + page.NoBreak + page.SizeUnit(imperial)
}

// proofSteps are what a meter tells before anything is built in.
func proofSteps(a page.Ask) []table.Row {
	rows := []table.Row{
		work("Through", "each of the "+page.Counted(len(a.H.Wires), "wire")+" from end to end, near 0"+page.NoBreak+"Ω; pull at both ends meanwhile"),
		work("Apart", "each wire against its neighbours in a housing or splice: open, but where the diagrams join them"),
	}
	if slices.ContainsFunc(a.H.Units, func(u harness.Unit) bool { return u.HasScreen() }) {
		rows = append(rows, work("Screens", "each against the wires under it: open"))
	}
	return rows
}

// vehicleSteps are what is left to do in the vehicle, the battery last.
func vehicleSteps(a page.Ask) []table.Row {
	var rows []table.Row
	if runs := walled(a); len(runs) > 0 {
		rows = append(rows, work("Pass the walls", page.List("; ", runLetters(runs), "table below")))
	}
	if open := openUntil(a); len(open) > 0 {
		rows = append(rows, work("Close what stayed open", page.List(", ", page.Refs(a, stillOpen(a, open)), a.Where("sheet/wires"))))
	}
	rows = append(rows, work("Clamp and tie", page.List("; ", a.Where("sheet/runs"), "a tie never holds the loom up alone (FAA AC 43.13-1B 11-96o)")))
	if a.Grounded() {
		rows = append(rows, work("Grounds", a.Where("sheet/grounds")))
	}
	if caps := harness.Uncapped(a.H); len(caps) > 0 {
		rows = append(rows, work("Cap 87a", "on "+page.Refs(a, caps)+": nothing is joined to it, and it is live while the coil is off"))
	}
	return append(rows, work("Battery last", "the "+caution.LastOn(a.H)+" lead at the very end"))
}

func runLetters(runs []fitted.Run) string {
	letters := make([]string, len(runs))
	for i, r := range runs {
		letters[i] = page.Letter(r.Run)
	}
	if len(letters) == 1 {
		return "run " + letters[0]
	}
	return "runs " + page.And(letters)
}

// stillOpen are the parts with a housing that stays open, in the order of the description.
func stillOpen(a page.Ask, until map[harness.PartID]string) []harness.PartID {
	var out []harness.PartID
	for i := range a.H.Parts {
		if until[a.H.Parts[i].ID] != "" {
			out = append(out, a.H.Parts[i].ID)
		}
	}
	return out
}

// walled are the runs that pass from one zone into another.
func walled(a page.Ask) []fitted.Run {
	return slices.DeleteFunc(slices.Clone(a.R.Runs), func(r fitted.Run) bool { return !r.Wall || len(r.Wires) == 0 })
}

func wallTable(a page.Ask) *table.Table {
	imperial := a.H.Sheet.Imperial
	t := &table.Table{Columns: []table.Column{
		{Title: "Done", Align: table.Centre},
		{Title: "Run", Align: table.Centre},
		{Title: "Wall between", Weight: 1},
		{Title: "Pass from", Weight: 0.5},
		{Title: "Hole for ends", Unit: page.SizeUnit(imperial), Align: table.Decimal},
		{Title: "Grommet bore", Unit: page.SizeUnit(imperial), Align: table.Decimal},
		{Title: "Hole without one", Unit: page.SizeUnit(imperial), Align: table.Decimal},
		{Title: "Housings off until then", Weight: 1},
	}}
	for _, r := range walled(a) {
		run := &a.H.Runs[r.Run]
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{
			{Draw: table.TickBox()},
			{S: page.Letter(r.Run), Bold: true, Link: a.Link(a.RunAnchor(r.Run))},
			table.Noted(a.H.Places[run.From].Zone+" and "+a.H.Places[run.To].Zone, placeName(a.H, run.From)+" – "+placeName(a.H, run.To)),
			table.Text(placeName(a.H, r.PassFrom)),
			bore(r.Hole, imperial), bore(r.Grommet, imperial), bore(r.Clear, imperial),
			table.Text(page.OrDash(page.Refs(a, r.Open))),
		}})
	}
	return t
}

// finishTable has one row a place and distance from the loom: whose ends are
// closed on the bench, which housings stay off, and why.
func finishTable(a page.Ask) *table.Table {
	t := &table.Table{Columns: []table.Column{
		{Title: "Done", Align: table.Centre},
		{Title: "Place", Min: 30},
		{Title: "From the loom", Unit: page.LengthUnit(a.H.Sheet.Imperial), Align: table.Right, Min: 15},
		{Title: "Closed on the bench", Unit: "ends", Weight: 1},
		{Title: "Stays open", Unit: "ends"},
		{Title: "Until", Weight: 0.6},
	}}
	until := openUntil(a)
	by := endsByPart(a)
	for first := 0; first < len(by); {
		last := first
		for last < len(by) && sameSpot(by[first], by[last]) {
			last++
		}
		for i, group := range byReach(a, by[first:last]) {
			t.Rows = append(t.Rows, finishRow(a, group, until, i > 0))
		}
		first = last
	}
	return t
}

func sameSpot(x, y ended) bool {
	return (x.part == nil) == (y.part == nil) && (x.part == nil || x.part.Place == y.part.Place)
}

// reach is how far the ends of a part hang out of the loom; of the bodywork nothing does.
func reach(a page.Ask, e ended) unit.Millimetre {
	if e.part == nil {
		return 0
	}
	return a.H.Reach(e.part)
}

// byReach parts the parts of a place by their reach, the farthest first.
func byReach(a page.Ask, parts []ended) [][]ended {
	parts = slices.Clone(parts)
	slices.SortStableFunc(parts, func(x, y ended) int { return cmp.Compare(reach(a, y), reach(a, x)) })
	var out [][]ended
	for i, p := range parts {
		if i == 0 || reach(a, p) != reach(a, parts[i-1]) {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], p)
	}
	return out
}

func finishRow(a page.Ask, parts []ended, until map[harness.PartID]string, again bool) table.Row {
	var closed, left, why []string
	for _, p := range parts {
		switch {
		case p.part == nil:
			closed = append(closed, fmt.Sprintf("chassis%s(%d)", page.NoBreak, len(p.ends)))
		case until[p.part.ID] != "":
			left = append(left, fmt.Sprintf("%s%s(%d)", page.Firm(p.part.Ref), page.NoBreak, len(p.ends)))
			if reason := until[p.part.ID]; !slices.Contains(why, reason) {
				why = append(why, reason)
			}
		default:
			closed = append(closed, fmt.Sprintf("%s%s(%d)", page.Firm(p.part.Ref), page.NoBreak, len(p.ends)))
		}
	}
	spot := "Chassis"
	if p := parts[0].part; p != nil {
		spot = page.PlaceOf(a, p)
		if spot == "" || p.Place == harness.None {
			spot = "No place given"
		}
	}
	if again {
		spot = ""
	}
	return table.Row{Cells: []table.Cell{
		{Draw: table.TickBox()}, table.Strong(spot), table.Text(away(a, parts[0])), table.Text(page.OrDash(strings.Join(closed, ", "))), table.Text(page.OrDash(strings.Join(left, ", "))), table.Text(page.OrDash(strings.Join(why, "; "))),
	}}
}

// away is the reach in figures; of a part without a place nothing is known.
func away(a page.Ask, e ended) string {
	if e.part == nil || e.part.Place == harness.None {
		return "–"
	}
	return page.Length(reach(a, e), a.H.Sheet.Imperial)
}

// openUntil says of each housing which holes must be passed before it is closed.
func openUntil(a page.Ask) map[harness.PartID]string {
	through := map[harness.PartID][]string{}
	for _, r := range walled(a) {
		for _, p := range r.Open {
			through[p] = append(through[p], page.Firm(fmt.Sprintf("%s (%s %s)", page.Letter(r.Run), bore(r.Hole, a.H.Sheet.Imperial).S, page.SizeUnit(a.H.Sheet.Imperial))))
		}
	}
	out := map[harness.PartID]string{}
	for p, runs := range through {
		out[p] = "run " + runs[0] + " has passed its hole"
		if len(runs) > 1 {
			out[p] = "runs " + page.And(runs) + " have passed their holes"
		}
	}
	return out
}
