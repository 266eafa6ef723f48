package cutlist

import (
	"fmt"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/harness"
)

// mostNear is how many pairs are printed for one spot; the others are farther apart.
const mostNear = 4

// Tracing says where wires meet that are not clear apart, what tells them apart
// and to whom they look alike; and how well the colours stand in each run.
func Tracing(a page.Ask) []frame.Page {
	if len(a.R.Tracing.Runs)+len(a.R.Tracing.Parts) == 0 || len(a.H.Wires) == 0 {
		return nil
	}
	b := page.OpenLoose(a.Upright(), "Tracing by colour", "sheet/tracing",
		"Which wires are easily taken for each other where they meet, and what tells them apart. The number on the sleeve always decides.")
	b.Remark("Distances are CIEDE2000, the smallest over normal sight, red-green and blue-yellow weakness and dim light, in two sets of insulation colours. " +
		"20 and more: clear. 12 to 20: check in good light. Below 12: use the number sleeve. Wires that differ 2.5 times in copper are not compared.")
	if t := confusionTable(a); len(t.Rows) > 0 {
		b.Section("Colours of this loom that look alike to some", t)
	}
	if t := nearTable(a); len(t.Rows) > 0 {
		b.Section("Wires that are not clear apart, place by place", t)
	}
	if t := bandTable(a); len(t.Rows) > 0 {
		b.Section("Wires tied apart under coloured bands", t)
		b.Remark("Where a run has more wires than colours, each bundle has every colour once (MIL-STD-681F 5.1.3). Put the bands on before the bundles are laid together.")
	}
	if t := standingTable(a); len(t.Rows) > 0 {
		b.Section("How far apart the colours are", t)
	}
	return b.Close()
}

// confusionTable names the pairs of colours in words, for a reader who cannot see them.
func confusionTable(a page.Ask) *table.Table {
	t := &table.Table{Columns: []table.Column{
		{Title: "Colour", Min: page.ColourRoom}, {Title: "taken for", Min: page.ColourRoom}, {Title: "By whom, when", Weight: 1}, {Title: "Apart", Align: table.Decimal},
	}}
	for _, c := range colour.Confusions(a.H, usedLetters(a)) {
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{
			plainCell(c.A), plainCell(c.B), table.Text(string(c.Sight)), table.Text(fmt.Sprintf("%.1f", c.Distance)),
		}})
	}
	return t
}

func plainCell(letters string) table.Cell {
	c := page.SwatchCell(colour.Pair{Base: letters})
	c.Note = colour.Name(letters)
	return c
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

// nearTable lists parts first, where ends are mixed up, then runs.
func nearTable(a page.Ask) *table.Table {
	t := &table.Table{Columns: []table.Column{
		{Title: "Wire", Align: table.Left}, {Title: "", Min: page.ColourRoom},
		{Title: "and wire", Align: table.Left}, {Title: "", Min: page.ColourRoom},
		{Title: "What tells them apart", Weight: 1}, {Title: "Alike most", Weight: 0.8}, {Title: "Apart", Align: table.Decimal},
	}}
	for i, s := range a.R.Tracing.Parts {
		p := &a.H.Parts[i]
		if !mixedUp(p, s) {
			continue
		}
		nearRows(a, t, page.Dotted(p.Ref, page.Called(p)), page.PlaceOf(a, p), s)
	}
	for i, s := range a.R.Tracing.Runs {
		r := &a.H.Runs[i]
		nearRows(a, t, "Run "+a.H.Places[r.From].Name+" – "+a.H.Places[r.To].Name, "", s)
	}
	return t
}

// mixedUp tells where ends are mixed up: in housings, on panels and bars, and
// wherever only the number tells two wires apart.
func mixedUp(p *harness.Part, s colour.Spot) bool {
	switch p.Kind {
	case harness.Connector, harness.Module, harness.FusePanel, harness.Bus:
		return true
	}
	return len(s.Near) > 0 && s.Near[0].Distance < 12
}

func nearRows(a page.Ask, t *table.Table, heading, where string, s colour.Spot) {
	if len(s.Near) == 0 {
		return
	}
	t.Rows = append(t.Rows, table.Heading(heading, where))
	for i, n := range s.Near {
		if i == mostNear {
			rest := fmt.Sprintf("%s more here, at least %.1f apart: check in good light", page.Counted(len(s.Near)-i, "pair"), n.Distance)
			if n.Distance < 12 {
				rest = fmt.Sprintf("%s more here, at least %.1f apart: use the number sleeves", page.Counted(len(s.Near)-i, "pair"), n.Distance)
			}
			t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{{S: rest, Span: len(t.Columns)}}})
			return
		}
		t.Rows = append(t.Rows, nearRow(a, n))
	}
}

func nearRow(a page.Ask, n colour.Near) table.Row {
	wire := func(w harness.WireID) table.Cell {
		name := a.H.Wires[w].Name
		return table.Cell{S: page.Firm(name), Bold: true, Link: a.Link("wire/" + name)}
	}
	tells := table.Text(tellsApart(a.Pair(n.A), a.Pair(n.B)))
	if n.Distance < 12 {
		tells.Note = n.Words
	}
	return table.Row{Cells: []table.Cell{
		wire(n.A), briefly(a.Pair(n.A)), wire(n.B), briefly(a.Pair(n.B)),
		tells, table.Text(string(n.Sight)), table.Text(fmt.Sprintf("%.1f", n.Distance)),
	}}
}

// briefly is a swatch with its letters; its words stand in the next column.
func briefly(p colour.Pair) table.Cell {
	c := page.SwatchCell(p)
	c.Note = ""
	return c
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
	case p == q:
		return "only the number"
	case p.Base == q.Base:
		return stripe(p) + " or " + stripe(q)
	case p.Tracer == q.Tracer:
		return colour.Name(p.Base) + " or " + colour.Name(q.Base)
	}
	return colour.Name(p.Base) + ", " + stripe(p) + ", or " + colour.Name(q.Base) + ", " + stripe(q)
}

// bandTable lists the bundles of runs in which colours repeat.
func bandTable(a page.Ask) *table.Table {
	t := &table.Table{Columns: []table.Column{
		{Title: "Bundle", Align: table.Decimal}, {Title: "Band", Min: page.ColourRoom}, {Title: "Wires", Weight: 1},
	}}
	for i, s := range a.R.Tracing.Runs {
		if len(s.Bundles) == 0 {
			continue
		}
		r := &a.H.Runs[i]
		t.Rows = append(t.Rows, table.Heading("Run "+a.H.Places[r.From].Name+" – "+a.H.Places[r.To].Name, ""))
		for _, b := range s.Bundles {
			t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Text(fmt.Sprint(b.Number)), plainCell(b.Band), table.Text(page.WireNames(a, b.Wires))}})
		}
	}
	return t
}

// standingTable says for each run how far apart its colours are, and could be.
func standingTable(a page.Ask) *table.Table {
	t := &table.Table{Columns: []table.Column{
		{Title: "Run", Weight: 1}, {Title: "Nets", Align: table.Decimal}, {Title: "Nearest two", Align: table.Decimal}, {Title: "At most possible", Align: table.Decimal}, {Title: "So", Weight: 0.6},
	}}
	for i, s := range a.R.Tracing.Runs {
		if s.Nets < 2 || s.Reached == 0 {
			continue
		}
		r := &a.H.Runs[i]
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{
			table.Text(a.H.Places[r.From].Name + " – " + a.H.Places[r.To].Name), table.Text(fmt.Sprint(s.Nets)),
			table.Strong(fmt.Sprintf("%.1f", s.Reached)), table.Text(atMost(s)), table.Text(colour.Standing(s.Reached)),
		}})
	}
	return t
}

func atMost(s colour.Spot) string {
	if s.Bound <= 0 {
		return "–"
	}
	return fmt.Sprintf("%.1f", max(s.Bound, s.Reached))
}
