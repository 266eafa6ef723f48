package cutlist

import (
	"fmt"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/harness"
)

// mostNear is how many pairs are printed for one plug; the others are farther apart.
const mostNear = 4

// mostTold is how many pairs on the sleeve are told in a sentence under the wires, without a list of their own.
const mostTold = 4

// sleeved is the distance from which colours tell two wires apart at all, in CIEDE2000 units: below it the number decides.
const sleeved = 12

// Tracing names the wires that are easily taken for each other, at a part or in one plug, and
// what tells them apart; none where there are no such wires, and none for the customer.
func Tracing(a page.Ask) []frame.Page {
	if a.For == page.Customer || !traced(a) {
		return nil
	}
	if fewer(a) {
		return tracingFew(a)
	}
	b := page.OpenLoose(a.Upright(), "Tracing by colour", "sheet/tracing", "Wires that are easily taken for each other. The number on the sleeve always decides.")
	b.Remark(page.List(" ", promise(a), alike(a), confusions(a), "Distances are CIEDE2000, the smallest over normal sight, red-green and blue-yellow colour blindness and dim light, in two sets of insulation colours: "+
		"20 and more is clear; 12 to 20 asks for good light; below 12 go by the number sleeve. Wires whose copper areas differ by 2.5 times or more are not compared."))
	if t := nearTable(a); len(t.Rows) > 0 {
		b.Table(t)
	}
	bands(a, b)
	return b.Close()
}

// tracingFew is Tracing where reels are saved: the pairs on the sleeve alone.
func tracingFew(a page.Ask) []frame.Page {
	b := page.OpenLoose(a.Upright(), "Tracing by colour", "sheet/tracing", page.Or(pairsHead(a), "No pairs")+" look alike where they meet: go by the number sleeve.")
	b.Remark(page.List(" ", byRule(a), heldApart(a), confusions(a)))
	if t := pairTable(a); len(t.Rows) > 0 {
		b.Spread(t, page.Abreast(b.Room.W, pairColumn, page.ColumnGap), 0)
	}
	bands(a, b)
	return b.Close()
}

// bands sets the bundles in which colours repeat, where there are some.
func bands(a page.Ask, b *page.Book) {
	if t := bandTable(a); len(t.Rows) > 0 {
		b.Section("Wires tied apart under coloured bands", t)
		b.Remark("Where a run has more wires than colours, each bundle has every colour once (MIL-STD-681F 5.1.3). Put the bands on before the bundles are laid together.")
	}
}

// traced tells whether there is anything to list.
func traced(a page.Ask) bool {
	if numbered(a) {
		return false
	}
	if fewer(a) {
		return len(pairTable(a).Rows) > mostTold || len(bandTable(a).Rows) > 0
	}
	return len(nearTable(a).Rows)+len(bandTable(a).Rows) > 0
}

// tracingRule is what is said of the colours where no sheet is needed for them.
func tracingRule(a page.Ask) string {
	if traced(a) {
		return ""
	}
	if numbered(a) {
		return "Colours tell no wires apart: go by the number sleeve."
	}
	if fewer(a) {
		return page.List(" ", onSleeve(a), byRule(a), heldApart(a), confusions(a))
	}
	return page.List(" ", promise(a), alike(a), confusions(a))
}

// alike names the wires of one colour that meet, each pair where it does first: only their numbers tell them apart.
func alike(a page.Ask) string {
	var out []string
	seen := map[pair]bool{}
	add := func(where string, near []colour.Near) {
		for _, n := range near {
			if p := (pair{n.A, n.B}); a.Pair(n.A) == a.Pair(n.B) && !seen[p] {
				seen[p] = true
				out = append(out, page.Firm(a.H.Wires[n.A].Name+" and "+a.H.Wires[n.B].Name)+" ("+page.Firm(where)+")")
			}
		}
	}
	for i, s := range a.R.Tracing.Parts {
		add(a.H.Parts[i].Ref, s.Near)
	}
	for i, s := range a.R.Tracing.Runs {
		add("run "+page.Letter(harness.RunID(i)), s.Near)
	}
	if len(out) == 0 {
		return ""
	}
	return "Of one colour, so go by the number sleeve: " + strings.Join(out, ", ") + "."
}

// pair is two wires that meet.
type pair [2]harness.WireID

// promise says how far apart the colours are, and could be at best.
func promise(a page.Ask) string {
	r := a.R.Tracing
	if r.Smallest == 0 {
		return ""
	}
	best := ""
	if r.Bound > 0 {
		best = fmt.Sprintf(", of %.1f possible at best", max(r.Bound, r.Smallest))
	}
	rule := ""
	if r.Settled > 0 && r.Settled < r.Smallest {
		rule = fmt.Sprintf("; those that are settled by rule or by a cable, %.1f", r.Settled)
	}
	return fmt.Sprintf("Where wires of two colours meet, these are at least %.1f apart%s%s: %s.", r.Smallest, best, rule, colour.Standing(r.Smallest))
}

// confusions names the colours of this loom that look alike to some, in words for a reader who cannot see them.
func confusions(a page.Ask) string {
	var out []string
	for _, c := range colour.Confusions(a.H, usedLetters(a)) {
		out = append(out, fmt.Sprintf("%s and %s %s (%.1f)", colour.Name(c.A), colour.Name(c.B), c.Sight, c.Distance))
	}
	if len(out) == 0 {
		return ""
	}
	return "Plain colours that look alike: " + strings.Join(out, ", ") + "."
}

// usedLetters lists the colours that stand on any wire, in the palette's order.
func usedLetters(a page.Ask) []string {
	used := map[string]bool{}
	for _, c := range a.R.Colours {
		used[c.Pair.Base], used[c.Pair.Tracer] = true, true
	}
	var out []string
	for _, l := range colour.Letters() {
		if used[l] {
			out = append(out, l)
		}
	}
	return out
}

// nearTable lists what colour hardly tells apart, parts first, then runs; of a plug also
// what asks for good light. Wires of one colour stand in the remark.
func nearTable(a page.Ask) *table.Table {
	t := &table.Table{Tight: true, Company: true, Columns: []table.Column{
		{Title: "Wire"}, {Title: ""}, {Title: "and"}, {Title: ""},
		{Title: "What tells them apart", Weight: 1}, {Title: "Most alike"}, {Title: "Apart", Align: table.Decimal},
	}}
	seen := map[pair]bool{}
	for i, s := range a.R.Tracing.Parts {
		p := &a.H.Parts[i]
		nearRows(a, t, page.Dotted(p.Ref, page.Called(p)), page.PlaceOf(a, p), fresh(a, s.Near, p.Kind == harness.Connector, seen))
	}
	for i, s := range a.R.Tracing.Runs {
		nearRows(a, t, runName(a, harness.RunID(i)), "", fresh(a, s.Near, false, seen))
	}
	return t
}

func runName(a page.Ask, id harness.RunID) string {
	r := &a.H.Runs[id]
	return "Run " + page.Letter(id) + ", " + a.H.Places[r.From].Name + " – " + a.H.Places[r.To].Name
}

// fresh are the pairs that are to be listed and are not yet.
func fresh(a page.Ask, near []colour.Near, plug bool, seen map[pair]bool) []colour.Near {
	var out []colour.Near
	for _, n := range near {
		if p := (pair{n.A, n.B}); (plug || n.Distance < sleeved) && a.Pair(n.A) != a.Pair(n.B) && !seen[p] {
			seen[p] = true
			out = append(out, n)
		}
	}
	return out
}

func nearRows(a page.Ask, t *table.Table, heading, where string, near []colour.Near) {
	if len(near) == 0 {
		return
	}
	t.Rows = append(t.Rows, table.Heading(heading, where))
	for i, n := range near {
		if i >= mostNear && n.Distance >= sleeved {
			rest := fmt.Sprintf("%s more here, at least %.1f apart: check in good light", page.Counted(len(near)-i, "pair"), n.Distance)
			t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{{S: rest, Size: sheet.SizeNote, Span: len(t.Columns)}}})
			return
		}
		t.Rows = append(t.Rows, nearRow(a, n))
	}
}

func nearRow(a page.Ask, n colour.Near) table.Row {
	tells := table.Cell{S: tellsApart(a.Pair(n.A), a.Pair(n.B)), Size: sheet.SizeNote}
	if n.Distance < sleeved {
		tells.S += ": go by the number sleeve"
	}
	return table.Row{Cells: []table.Cell{
		traceCell(a, n.A), briefly(a.Pair(n.A)), traceCell(a, n.B), briefly(a.Pair(n.B)),
		tells, {S: string(n.Sight), Size: sheet.SizeNote}, table.Text(fmt.Sprintf("%.1f", n.Distance)),
	}}
}

func traceCell(a page.Ask, w harness.WireID) table.Cell {
	name := a.H.Wires[w].Name
	return table.Cell{S: page.Firm(name), Bold: true, Link: a.Link("wire/" + name)}
}

// briefly is a short swatch with its letters.
func briefly(p colour.Pair) table.Cell {
	return table.Cell{S: page.OrDash(p.String()), Bold: true, Size: sheet.SizeNote, Draw: page.ShortSwatch(p)}
}

// tellsApart says in words where two wires differ.
func tellsApart(p, q colour.Pair) string {
	stripe := func(x colour.Pair) string {
		if x.Tracer == "" {
			return "no stripe"
		}
		return colour.Name(x.Tracer) + " stripe"
	}
	switch {
	case p.Base == q.Base:
		return stripe(p) + " or " + stripe(q)
	case p.Tracer == q.Tracer:
		return colour.Name(p.Base) + " or " + colour.Name(q.Base)
	}
	return colour.Name(p.Base) + ", " + stripe(p) + ", or " + colour.Name(q.Base) + ", " + stripe(q)
}

// bandTable lists the bundles of runs in which colours repeat.
func bandTable(a page.Ask) *table.Table {
	t := &table.Table{Tight: true, Columns: []table.Column{
		{Title: "Bundle", Align: table.Decimal}, {Title: "Band"}, {Title: "Wires", Weight: 1},
	}}
	for i, s := range a.R.Tracing.Runs {
		if len(s.Bundles) == 0 {
			continue
		}
		t.Rows = append(t.Rows, table.Heading(runName(a, harness.RunID(i)), ""))
		for _, b := range s.Bundles {
			band := briefly(colour.Pair{Base: b.Band})
			band.S += " " + page.Firm(colour.Name(b.Band))
			t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Text(fmt.Sprint(b.Number)), band, table.Text(page.WireNames(a, b.Wires))}})
		}
	}
	return t
}
