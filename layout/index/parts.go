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
		t.Rows = append(t.Rows, group(a, a.H.Places[i].Name, a.PartsAt(harness.PlaceID(i)), a.PhotoAt(&a.H.Places[i]))...)
	}
	for i := range a.H.Runs {
		if parts := a.PartsAlong(harness.RunID(i)); len(parts) > 0 {
			t.Rows = append(t.Rows, group(a, along(a, harness.RunID(i)), parts, page.Photo{})...)
		}
	}
	t.Rows = append(t.Rows, group(a, "No place given", lost(a), page.Photo{})...)
	if wires := a.WiresOn(harness.Chassis); len(wires) > 0 {
		t.Rows = append(t.Rows, table.Heading("Bodywork", ""), row(table.Cell{S: "chassis " + page.WireNames(a, wires), Span: 2}))
	}
	return t
}

// along names a run: "Along run D, Gearbox tunnel – Dash".
func along(a page.Ask, id harness.RunID) string {
	r := &a.H.Runs[id]
	return "Along run " + page.Letter(id) + ", " + a.H.Places[r.From].Name + " – " + a.H.Places[r.To].Name
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

// group is a heading with the place's photograph, and the parts under it by reference.
func group(a page.Ask, head string, parts []harness.PartID, photo page.Photo) []table.Row {
	parts = slices.Clone(parts)
	slices.SortStableFunc(parts, func(x, y harness.PartID) int { return unit.Natural(a.H.Parts[x].Ref, a.H.Parts[y].Ref) })
	var rows []table.Row
	for _, id := range parts {
		p := a.Part(id)
		anchor, _ := more(a, p)
		rows = append(rows, row(table.Cell{S: page.Firm(p.Ref), Bold: true, Link: a.Link("part/" + p.Ref)}, table.Cell{S: about(a, p), Link: a.Link(anchor), Draw: pictured(a, p)}))
	}
	if len(rows) == 0 && !photo.There() {
		return nil
	}
	heading := table.Heading(head, "")
	heading.Cells[1].Draw = photo.Drawing()
	return append([]table.Row{heading}, rows...)
}

// How large the photograph of a part becomes beside its words, mm.
const (
	photoWide = 30
	photoHigh = 18
)

// pictured is the photograph of a part that no other sheet shows; nil where there is none.
func pictured(a page.Ask, p *harness.Part) *table.Drawing {
	if anchor, _ := more(a, p); anchor != "" {
		return nil
	}
	return a.PhotoOf(p).Within(photoWide, photoHigh).Drawing()
}

func row(cells ...table.Cell) table.Row { return table.Row{Cells: cells} }

// about is a part in words: its name, where it is drawn and where more stands of it, and the
// wire at each terminal.
func about(a page.Ask, p *harness.Part) string {
	drawn := ""
	if a.Link("part/"+p.Ref) != "" {
		drawn = at(a, "part/"+p.Ref)
	}
	if anchor, word := more(a, p); anchor != "" {
		drawn = page.List(", ", drawn, page.Firm(word+" "+at(a, anchor)))
	}
	if ladder := "ladder/" + p.Ref; a.Link(ladder) != "" {
		drawn = page.List(", ", drawn, page.Firm("ladder "+at(a, ladder)))
	}
	head := page.List(", ", page.Called(p), rating(a, p, ""), drawn)
	return page.List(": ", head, strings.Join(terminals(a, p), ", "))
}

// more is the anchor of what another sheet has of a part, and the word for that sheet; "" where there is none.
func more(a page.Ask, p *harness.Part) (anchor, word string) {
	for _, s := range elsewhere {
		if a.Link(s[0]+p.Ref) != "" {
			return s[0] + p.Ref, s[1]
		}
	}
	return "", ""
}

// elsewhere are the sheets that have more of a part, by their anchors and a word for each.
var elsewhere = [...][2]string{
	{"connector/", "faces"}, {"ground/", "grounds"}, {"splice/", "splices"}, {"panel/", "fuses"}, {"relay/", "fuses"}, {"fuse/", "fuses"},
}

// terminals is the wires at each terminal of a part, of a plug's cavity those in both halves, and
// the rating of the fuse in a panel's position.
func terminals(a page.Ask, p *harness.Part) []string {
	var out []string
	last := ""
	for _, t := range p.Terminals {
		x, wires := &a.H.Terminals[t], names(a, t)
		switch {
		case x.Cavity != "" && x.Cavity == last:
			out[len(out)-1] += "|" + page.Or(wires, "–")
		case x.Cavity != "":
			out = append(out, page.Firm(x.Cavity)+page.NoBreak+page.Or(wires, "–"))
		case wires != "":
			out = append(out, page.List(page.NoBreak, page.Firm(x.Name), rating(a, p, x.Name), wires))
		}
		last = x.Cavity
	}
	return slices.DeleteFunc(out, func(s string) bool { return strings.HasSuffix(s, page.NoBreak+"–|–") })
}

// names are the wires on a terminal.
func names(a page.Ask, t harness.TerminalID) string {
	return strings.ReplaceAll(page.WireNames(a, a.WiresOn(t)), ", ", page.NoBreak)
}

// rating is that of the fuse in a panel's position, or of an in-line one, which has none.
func rating(a page.Ask, p *harness.Part, position string) string {
	if position == "" && p.Panel != nil {
		return ""
	}
	for _, i := range a.FusesOf(p.ID) {
		if f := &a.R.Fuses[i]; f.Position == position {
			return page.Firm(f.Rating.String())
		}
	}
	return ""
}
