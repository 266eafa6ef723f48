// Package bench lays out the sheets that a builder works from: the splices and the
// order of building.
//
// In: page.Ask, the model with everything computed for it. Out: the pages of
// one kind of sheet, none when there is nothing to say. It holds that no figure is
// computed here beyond sums and counts, that colour is never the only carrier of a fact,
// and that what runs, wires and ends say of themselves is not said again. Lengths are
// printed in mm and m, or in feet and inches where the description asks for them.
//
// Anchors set here: sheet/splices, sheet/build-order and splice/REF.
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

// closePad is the clear space over and under a row of one line, mm.
const closePad = 0.4

// BuildOrder is the way from cut wire to finished loom: the steps with what they
// are for in this harness, and what is closed on the bench or only in the vehicle.
func BuildOrder(a page.Ask) []frame.Page {
	if toMake(a) == 0 || len(a.R.Ends) == 0 {
		return nil
	}
	b := page.Open(a.Upright(), "Build order", "sheet/build-order", "What is done one after the other, and what stays open until it has passed its hole."+repeated(a))
	b.Spread(stepTable(a), page.Abreast(b.Room.W, leastCard, page.ColumnGap), 0)
	if t := wallTable(a); len(t.Rows) > 0 {
		b.Whole("Bulkheads", bulkheadWords(a.H.Sheet.Imperial), t)
	}
	b.Whole("Ends, place by place", "Tail: how far wires hang out of the loom, slack counted; of a given length it is whatever that leaves.", finishTable(a))
	return b.Close()
}

// bulkheadWords says what the holes of the table are.
func bulkheadWords(imperial bool) string {
	return "The hole is the least that passes the finished ends, and splices with what hangs behind them, one after the other, housings off. " +
		"A grommet narrower than it goes on before the ends are fitted, and its seat must pass them too; without one the hole clears the loom by " +
		clearance(imperial) + " all round (FAA AC 43.13-1B 11-115)."
}

func clearance(imperial bool) string {
	if imperial {
		return "3/8" + page.NoBreak + "in"
	}
	return "9.5" + page.NoBreak + "mm"
}

// stepTable has one row a piece of work, numbered by its kind.
func stepTable(a page.Ask) *table.Table {
	t := &table.Table{NoHead: true, NoZebra: true, Tight: true, Pad: closePad, Columns: []table.Column{{Align: table.Centre}, {Max: 24}, {Weight: 1}}}
	n := 0
	group := func(head, remark string, rows []table.Row) {
		if len(rows) > 0 {
			n++
			t.Rows = append(append(t.Rows, table.Heading(fmt.Sprintf("%d  %s", n, head), remark)), rows...)
		}
	}
	group("Cut and mark", a.Where("sheet/wires"), cutSteps(a))
	group("Twists, screens and cables", "before anything is laid", unitSteps(a))
	group("Lay on the board", "the trunk first", laySteps(a))
	group("Splice", a.Where("sheet/splices"), spliceSteps(a))
	group("Cover, heat-shrink on first", a.Where("sheet/runs"), coverSteps(a))
	group("Ends, place by place", a.Where("sheet/wires"), []table.Row{work("Fit the ends", "closed on the bench: table below")})
	group("Test on the board", page.List("; ", "nothing connected", a.Where("sheet/tests")), proofSteps(a))
	group("Into the vehicle", "", vehicleSteps(a))
	return t
}

func work(what, which string) table.Row {
	return table.Row{Cells: []table.Cell{{Draw: table.TickBox()}, table.Strong(what), table.Text(which)}}
}

// cutSteps counts the wires to cut by size; their lengths stand with the wires.
func cutSteps(a page.Ask) []table.Row {
	var words []string
	wall := ""
	for _, group := range page.Gauges(a.R.Reels) {
		sum := page.Total(group)
		text := page.Firm(fmt.Sprintf("%d of %s", sum.ToCut(), group[0].Gauge))
		if group[0].Insulation != wall {
			wall = group[0].Insulation
			text += ", " + page.Wall(wall)
		}
		if sum.ToCut() > 0 {
			words = append(words, text)
		}
	}
	var rows []table.Row
	if len(words) > 0 {
		rows = append(rows, work("Size by size", strings.Join(words, "; ")))
	}
	return append(rows, work("Both ends", page.Counted(2*toMake(a), "marker")+"; heat-shrink and markers go on before any fitting"))
}

// laySteps puts the runs in the order of laying: the one with most wires, then
// always the one with most wires of those that join what is laid.
func laySteps(a page.Ask) []table.Row {
	var rows []table.Row
	for _, r := range layOrder(a) {
		run := &a.H.Runs[r.Run]
		rows = append(rows, work("Run "+page.Letter(run.ID), page.List(": ", a.H.Places[run.From].Name+" – "+a.H.Places[run.To].Name,
			page.Counted(len(r.Wires), "wire")+flexing(run))))
	}
	return rows
}

// repeated says what to do where wires of one colour lie together because few reels are bought: their colour
// tells none of them, so that each is marked as it is cut and rung out before it is joined; "" where none do.
func repeated(a page.Ask) string {
	if !a.H.Practice.Buy.Fewest() {
		return ""
	}
	return " Colours repeat: mark each wire at both ends as it is cut, ring it out before it is joined."
}

func flexing(r *harness.Run) string {
	if r.Flexes {
		return "; flexes in use, no splice"
	}
	return ""
}

// toMake counts the wires that are made here.
func toMake(a page.Ask) int { return len(a.H.Wires) - len(a.Own()) }

// madeRuns are the runs with the wires that are made here.
func madeRuns(a page.Ask) []fitted.Run {
	out := slices.Clone(a.R.Runs)
	for i := range out {
		out[i].Wires = a.Made(out[i].Wires)
	}
	return slices.DeleteFunc(out, func(r fitted.Run) bool { return len(r.Wires) == 0 })
}

func layOrder(a page.Ask) []fitted.Run {
	left := madeRuns(a)
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

// spliceSteps names the splices; each has its boxes on its own card.
func spliceSteps(a page.Ask) []table.Row {
	var all, moved []string
	for _, s := range used(a) {
		ref := page.Firm(a.H.Parts[s.Part].Ref)
		all = append(all, ref)
		if staggered(a, s, "") != "" {
			moved = append(moved, ref)
		}
	}
	if len(all) == 0 {
		return nil
	}
	stagger := ""
	if len(moved) > 0 {
		stagger = "staggered: " + page.And(moved)
	}
	return []table.Row{work("Make "+page.Counted(len(all), "splice"), page.List("; ", page.And(all), stagger))}
}

// coverSteps has a row a kind of cover with its runs, in the order of laying; how wide it is
// and what goes over its ends stands with the runs.
func coverSteps(a page.Ask) []table.Row {
	over := map[string][]fitted.Run{}
	var order []string
	for _, r := range layOrder(a) {
		if r.CoverName == "" {
			continue
		}
		if over[r.CoverName] == nil {
			order = append(order, r.CoverName)
		}
		over[r.CoverName] = append(over[r.CoverName], r)
	}
	var rows []table.Row
	for _, cover := range order {
		rows = append(rows, work(page.Capital(cover), runLetters(over[cover])))
	}
	return rows
}

// proofSteps are what a meter tells before anything is built in (common practice, no source).
func proofSteps(a page.Ask) []table.Row {
	rows := []table.Row{
		work("Continuity", "each of the "+page.Counted(toMake(a), "wire")+" end to end, near 0"+page.NoBreak+"Ω; pull at both ends meanwhile (common practice, no source)"),
		work("Shorts", "each wire against its neighbours in a housing or splice: open circuit, unless the diagrams join them"),
	}
	if slices.ContainsFunc(a.H.Units, func(u harness.Unit) bool { return u.HasScreen() }) {
		rows = append(rows, work("Screens", "each against the wires under it: open circuit"))
	}
	return rows
}

// vehicleSteps are what is left to do in the vehicle, the battery last.
func vehicleSteps(a page.Ask) []table.Row {
	var rows []table.Row
	if runs := walled(a); len(runs) > 0 {
		rows = append(rows, work("Bulkheads", "pull through "+page.List("; ", runLetters(runs), "table below")))
	}
	if open := stillOpen(a); len(open) > 0 {
		rows = append(rows, work("Open ends", "fit "+page.List(", ", page.Refs(a, open), a.Where("sheet/wires"))))
	}
	rows = append(rows, work("Clamp, tie", page.List("; ", a.Where("sheet/runs"), "cable ties alone are not supports (FAA AC 43.13-1B 11-96o)")))
	if a.Grounded() {
		rows = append(rows, work("Grounds", page.Or(a.Where("sheet/grounds"), "every point, before the battery")))
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

// stillOpen are the parts with a housing that stays open until a run has passed its hole,
// in the order of the description.
func stillOpen(a page.Ask) []harness.PartID {
	var out []harness.PartID
	for _, r := range walled(a) {
		out = append(out, r.Open...)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// walled are the runs that pass from one zone into another.
func walled(a page.Ask) []fitted.Run {
	return slices.DeleteFunc(madeRuns(a), func(r fitted.Run) bool { return !r.Wall })
}

func wallTable(a page.Ask) *table.Table {
	imperial := a.H.Sheet.Imperial
	t := &table.Table{Tight: true, Pad: closePad, Columns: []table.Column{
		{Title: "Done", Align: table.Centre},
		{Title: "Run", Align: table.Centre},
		{Title: "Between", Weight: 1},
		{Title: "Pull from", Weight: 1},
		{Title: "Hole for ends", Unit: page.SizeUnit(imperial), Align: table.Decimal},
		{Title: "Grommet", Unit: page.SizeUnit(imperial), Align: table.Decimal},
		{Title: "No grommet", Unit: page.SizeUnit(imperial), Align: table.Decimal},
		{Title: "Fit housings afterwards", Weight: 1},
	}}
	for _, r := range walled(a) {
		run := &a.H.Runs[r.Run]
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{
			{Draw: table.TickBox()},
			{S: page.Letter(r.Run), Bold: true, Link: a.Link(a.RunAnchor(r.Run))},
			table.Text(a.H.Places[run.From].Zone + " and " + a.H.Places[run.To].Zone),
			table.Text(a.H.Places[r.PassFrom].Name),
			page.Bore(r.Hole, imperial), page.Bore(r.Grommet, imperial), page.Bore(r.Clear, imperial),
			table.Text(page.OrDash(page.Refs(a, r.Open))),
		}})
	}
	return t
}

// finishTable has one row a place and tail: whose ends are closed on the bench, and, where
// there are any, which housings stay off until their run has passed its bulkhead.
func finishTable(a page.Ask) *table.Table {
	t := &table.Table{Tight: true, Pad: closePad, Columns: []table.Column{
		{Title: "Done", Align: table.Centre},
		{Title: "Place", Min: 30},
		{Title: "Tail", Unit: page.LengthUnit(a.H.Sheet.Imperial), Align: table.Right, Min: 15},
		{Title: "Closed on the bench", Unit: "ends", Weight: 1},
	}}
	open := stillOpen(a)
	if len(open) > 0 {
		t.Columns = append(t.Columns, table.Column{Title: "Stays open", Unit: "see bulkheads", Min: 24})
	}
	by := endsByPart(a)
	for first := 0; first < len(by); {
		last := first
		for last < len(by) && sameSpot(by[first], by[last]) {
			last++
		}
		for _, group := range byReach(a, by[first:last]) {
			row := finishRow(a, group, open)
			row.Cells = row.Cells[:len(t.Columns)]
			t.Rows = append(t.Rows, row)
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

func finishRow(a page.Ask, parts []ended, open []harness.PartID) table.Row {
	var closed, left []string
	for _, p := range parts {
		switch {
		case p.part == nil:
			closed = append(closed, fmt.Sprintf("chassis%s(%d)", page.NoBreak, len(p.ends)))
		case slices.Contains(open, p.part.ID):
			left = append(left, fmt.Sprintf("%s%s(%d)", page.Firm(p.part.Ref), page.NoBreak, len(p.ends)))
		default:
			closed = append(closed, fmt.Sprintf("%s%s(%d)", page.Firm(p.part.Ref), page.NoBreak, len(p.ends)))
		}
	}
	return table.Row{Cells: []table.Cell{
		{Draw: table.TickBox()}, table.Strong(spot(a, parts[0].part)), table.Text(away(a, parts[0])),
		table.Text(page.OrDash(strings.Join(closed, ", "))), table.Text(page.OrDash(strings.Join(left, ", "))),
	}}
}

// spot names where a part's ends are.
func spot(a page.Ask, p *harness.Part) string {
	switch {
	case p == nil:
		return "Chassis"
	case p.Place == harness.None || page.PlaceOf(a, p) == "":
		return "No place given"
	}
	return page.PlaceOf(a, p)
}

// away is the reach in figures; of a part without a place nothing is known.
func away(a page.Ask, e ended) string {
	if e.part == nil || e.part.Place == harness.None {
		return "–"
	}
	return page.Length(reach(a, e), a.H.Sheet.Imperial)
}
