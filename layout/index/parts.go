package index

import (
	"slices"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// partTable has one row a part, place by place.
func partTable(a page.Ask) *table.Table {
	t := &table.Table{Tight: true, Pad: rowPad, Size: sheet.SizeNote, NoHead: true, Columns: []table.Column{{}, {Weight: 1}}}
	for i := range a.H.Places {
		t.Rows = append(t.Rows, group(a, a.H.Places[i].Name, a.PartsAt(harness.PlaceID(i)))...)
	}
	for i := range a.H.Runs {
		if parts := a.PartsAlong(harness.RunID(i)); len(parts) > 0 {
			t.Rows = append(t.Rows, group(a, "Along run "+page.Letter(harness.RunID(i))+", "+page.PlaceOf(a, a.Part(parts[0])), parts)...)
		}
	}
	t.Rows = append(t.Rows, group(a, "No place given", lost(a))...)
	if wires := a.WiresOn(harness.Chassis); len(wires) > 0 {
		t.Rows = append(t.Rows, table.Heading("Bodywork", ""), row(table.Cell{S: "chassis", Bold: true}, page.WireNames(a, wires)))
	}
	return t
}

// lost are the parts that are neither at a place nor along a run.
func lost(a page.Ask) []harness.PartID {
	var out []harness.PartID
	for i := range a.H.Parts {
		if p := &a.H.Parts[i]; p.Place == harness.None && p.Along == nil {
			out = append(out, p.ID)
		}
	}
	return out
}

// group is a heading and the parts under it by reference.
func group(a page.Ask, head string, parts []harness.PartID) []table.Row {
	parts = slices.Clone(parts)
	slices.SortStableFunc(parts, func(x, y harness.PartID) int { return unit.Natural(a.H.Parts[x].Ref, a.H.Parts[y].Ref) })
	var rows []table.Row
	for _, id := range parts {
		p := a.Part(id)
		rows = append(rows, row(table.Cell{S: page.Firm(p.Ref), Bold: true, Link: a.Link("part/" + p.Ref)}, about(a, p)))
	}
	if len(rows) == 0 {
		return nil
	}
	return append([]table.Row{table.Heading(head, "")}, rows...)
}

func row(ref table.Cell, text string) table.Row {
	return table.Row{Cells: []table.Cell{ref, table.Text(text)}}
}

// about is a part in words: its name, where it is drawn and where more stands of it, and the
// wire at each terminal.
func about(a page.Ask, p *harness.Part) string {
	drawn := ""
	if a.Link("part/"+p.Ref) != "" {
		drawn = at(a, "part/"+p.Ref)
	}
	head := page.List(", ", page.Called(p), drawn, more(a, p))
	return page.List(": ", head, strings.Join(terminals(a, p), " · "))
}

// sheets are the sheets that have more of a part, by the anchor there and the word for it.
var sheets = []struct{ anchor, word string }{{"connector/", "faces"}, {"ground/", "grounds"}, {"splice/", "splices"}, {"fuse/", "fuse map"}}

// more says which other sheet has a part.
func more(a page.Ask, p *harness.Part) string {
	var out []string
	for _, s := range sheets {
		if a.Link(s.anchor+p.Ref) != "" {
			out = append(out, page.Firm(s.word+" "+at(a, s.anchor+p.Ref)))
		}
	}
	return strings.Join(out, ", ")
}

// terminals is the wires at each terminal of a part, a fuse with its rating.
func terminals(a page.Ask, p *harness.Part) []string {
	var out []string
	for _, t := range p.Terminals {
		if wires := a.WiresOn(t); len(wires) > 0 {
			out = append(out, page.List(page.NoBreak, page.Firm(a.H.Terminals[t].Name), rating(a, p, a.H.Terminals[t].Name), strings.ReplaceAll(page.WireNames(a, wires), ", ", page.NoBreak)))
		}
	}
	return out
}

// rating is that of the fuse in a panel's position.
func rating(a page.Ask, p *harness.Part, position string) string {
	for _, i := range a.FusesOf(p.ID) {
		if f := &a.R.Fuses[i]; f.Position != "" && f.Position == position {
			return page.Firm("(" + f.Rating.String() + ")")
		}
	}
	return ""
}
