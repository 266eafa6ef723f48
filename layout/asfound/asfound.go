// Package asfound lays out the sheet of an old loom as it was found: what is known of it,
// what to trace next with room to write where it leads, the fuses of which nobody knows all
// that they feed, and the readings beside what they should be.
//
// In: page.Ask with the results' Proof.Found. Out: the pages, none where all is known and
// nothing was measured. No figure is computed here. Anchors set here: sheet/as-found.
package asfound

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/unit"
)

// Anchor is that of the first sheet.
const Anchor = "sheet/as-found"

// pad is over and under a row, mm.
const pad = 0.7

// sheets are the sheets while they are filled.
type sheets struct {
	page.Ask
	f *proof.Found
	b *page.Book
}

// Sheets are the sheets of a loom as found.
func Sheets(a page.Ask) []frame.Page {
	s := &sheets{Ask: a, f: &a.R.Proof.Found}
	if !s.f.Any() {
		return nil
	}
	s.b = page.Open(a.Upright(), "As found", Anchor, s.known())
	s.live()
	s.trace()
	s.fuses()
	s.readings()
	s.stretches()
	pages := s.b.Close()
	if len(pages) > 1 {
		pages[0].Bottom = 0 // what is live stands on one sheet with what is traced first
	}
	return pages
}

// known counts what is known of the loom.
func (s *sheets) known() string {
	ends, boxes, open := 0, 0, map[harness.WireID]bool{}
	for i := range s.f.Open {
		o := &s.f.Open[i]
		if o.Box {
			boxes++
		} else {
			ends++
			for _, w := range o.Wires {
				open[w] = true
			}
		}
	}
	text := fmt.Sprintf("%d of %s traced from end to end", len(s.H.Wires)-len(open), unit.Counted(len(s.H.Wires), "wire"))
	if ends > 0 {
		text += fmt.Sprintf("; %s not traced", unit.Counted(ends, "end"))
	}
	if boxes > 0 {
		text += "; " + counted(boxes, "box unknown", "boxes unknown")
	}
	if n := len(s.f.Measured); n > 0 {
		text += fmt.Sprintf("; %s, %d as they should be", unit.Counted(n, "reading"), s.f.Agree())
	}
	return text + "."
}

func counted(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}

// live says which ends are live, those without a fuse first.
func (s *sheets) live() {
	var bare, fused []string
	for i := range s.f.Open {
		o := &s.f.Open[i]
		if !o.Live() || o.Box {
			continue
		}
		if o.Fuse == "" {
			bare = append(bare, s.wired(o))
		} else {
			fused = append(fused, fmt.Sprintf("%s by %s", s.wired(o), o.Fuse))
		}
	}
	if len(bare) > 0 {
		s.b.Say("Live with no fuse known before "+either(len(bare) == 1, "it", "them")+": "+page.And(bare)+". Battery off before you touch "+either(len(bare) == 1, "it", "them")+"; insulate every loose end; put a fuse at the source.", sheet.Strong(sheet.SizeBody))
	}
	if len(fused) > 0 {
		s.b.Say("Live: "+page.And(fused)+". Pull that fuse before you trace; insulate an end that hangs loose.", sheet.Plain(sheet.SizeBody))
	}
	if len(bare)+len(fused) > 0 {
		s.b.Down(2)
	}
}

func either(first bool, a, b string) string {
	if first {
		return a
	}
	return b
}

// wired names an end with its wire: "?1 (2C GN/BK)".
func (s *sheets) wired(o *proof.Question) string {
	name := s.Part(o.Part).Ref
	var wires []string
	for _, w := range o.Wires {
		wires = append(wires, strings.TrimSpace(s.H.Wires[w].Name+" "+s.colour(w)))
	}
	return page.Firm(name + " (" + strings.Join(wires, ", ") + ")")
}

// colour is that of a wire as it is described; "" where nobody said it.
func (s *sheets) colour(w harness.WireID) string {
	x := &s.H.Wires[w]
	base, tracer := x.Base, x.Tracer
	if base == "" {
		base, tracer = x.Found.Base, x.Found.Tracer
	}
	if tracer == "" {
		return base
	}
	return base + "/" + tracer
}

// trace lists all open questions in the order in which they are best settled.
func (s *sheets) trace() {
	if len(s.f.Open) == 0 {
		return
	}
	t := &table.Table{Pad: pad, Columns: []table.Column{
		{}, {Title: "Trace next", Min: 24}, {Title: "Wires, from", Min: 26}, {Title: "Why", Weight: 1}, {Title: "Points", Align: table.Right}, {Title: "Leads to", Min: 42},
	}}
	for i := range s.f.Open {
		o := &s.f.Open[i]
		p := s.Part(o.Part)
		what := table.Cell{S: p.Ref, Bold: true, Link: s.Link("part/" + p.Ref)}
		if p.Name != p.Ref && p.Name != "not traced" {
			what.Note = p.Name
		}
		t.Rows = append(t.Rows, table.Row{High: 9, Cells: []table.Cell{
			{Draw: table.TickBox()}, what, table.Text(s.wires(o)), table.Text(page.Sentence(o.Why)), table.Text(fmt.Sprint(o.Points)), {Draw: table.Blank(40)},
		}})
	}
	s.b.Section("What to trace next", t)
	s.b.Remark("Points: live with no fuse known before it 20, live behind a fuse 3; 3 for each load that hangs on it alone; 2 for each fuse and each reading that cannot be judged without it; " +
		"1 for each wire, and each time that the ends which look like it double (judgement, not published). What nobody knows draws nothing in any figure of this packet.")
}

// wires tells the wires of a question with the point from which each comes.
func (s *sheets) wires(o *proof.Question) string {
	var out []string
	for _, id := range o.Wires {
		w := &s.H.Wires[id]
		far := w.From
		if s.H.Terminals[far].Part == o.Part {
			far = w.To
		}
		size := ""
		if w.Gauge.Given() {
			size = w.Gauge.String()
		}
		out = append(out, page.Firm(page.List(" ", w.Name, s.colour(id), size))+", "+s.H.Terminals[far].Full)
	}
	return strings.Join(out, "\n")
}

// fuses lists the fuses of which nobody knows all that they feed.
func (s *sheets) fuses() {
	if len(s.f.Blind) == 0 {
		return
	}
	t := &table.Table{Tight: true, Columns: []table.Column{
		{Title: "Fuse"}, {Title: "Rating", Align: table.Right}, {Title: "Known to draw", Unit: "A", Align: table.Right}, {Title: "Not known what it draws", Weight: 1}, {Title: "Read", Unit: "A", Min: 20},
	}}
	for _, b := range s.f.Blind {
		f := &s.R.Fuses[b.Fuse]
		rating := page.Firm(f.Rating.String())
		if !b.Given {
			rating += " chosen"
		}
		var parts []string
		for _, id := range b.Parts {
			parts = append(parts, s.Part(id).Ref)
		}
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{{S: f.Name, Bold: true, Link: s.Link("fuse/" + f.Name)}, table.Text(rating), table.Text(page.Amps(float64(f.Amps))), table.Text(strings.Join(parts, ", ")), {Draw: table.Blank(16)}}})
	}
	s.b.Section("Fuses of which not all is known", t)
}

// verdicts are what the sheet says for a verdict.
var verdicts = map[proof.Verdict]string{
	proof.Agrees: "as it should be", proof.Low: "too low", proof.High: "too high", proof.OffState: "not in this state",
	proof.Unsettled: "open", proof.Coarse: "cannot tell", proof.Opposed: "two readings differ",
}

// readings sets every reading beside what it should be.
func (s *sheets) readings() {
	if len(s.f.Measured) == 0 {
		return
	}
	t := &table.Table{Tight: true, Columns: []table.Column{
		{Title: "Point"}, {Title: "State"}, {Title: "Read", Align: table.Right}, {Title: "Should be", Align: table.Right}, {Title: "Verdict", Weight: 1, Min: 50}, {Title: "Again", Min: 18},
	}}
	for i := range s.f.Measured {
		m, x := &s.f.Measured[i], &s.H.Measured[i]
		state := "battery off"
		if !x.Dead {
			state = s.H.States[x.State].Name
		}
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{
			{S: s.point(x), Bold: true}, table.Text(state), {S: read(x), Bold: m.Verdict != proof.Agrees}, table.Text(should(x, m)),
			table.Text(page.List(": ", verdicts[m.Verdict], m.Says)), {Draw: table.Blank(14)},
		}})
	}
	s.b.Section("Readings", t)
	s.b.Remark("Volts against battery " + either(s.H.System.PositiveEarth, "+", "−") + " unless two points are named. Should be: the worst case of a sound loom as described; a cheap meter's own error is allowed for besides.")
}

func (s *sheets) point(x *harness.Reading) string {
	at := page.Firm(s.H.Terminals[x.At].Full)
	if x.Against != harness.None {
		at += " to " + page.Firm(s.H.Terminals[x.Against].Full)
	}
	return at
}

// stretches says where to look, the likeliest joint first, each with a box to tick.
func (s *sheets) stretches() {
	if len(s.f.Stretches) == 0 {
		return
	}
	t := &table.Table{Pad: pad, Columns: []table.Column{{Title: "Where"}, {Title: "Lost", Unit: "V", Align: table.Right}, {Title: "Explained", Unit: "V", Align: table.Right}, {Title: "Look at, the likeliest first", Weight: 1}, {Title: "Read across", Unit: "V", Min: 24}}}
	for i := range s.f.Stretches {
		x := &s.f.Stretches[i]
		where := page.Firm(s.H.Terminals[x.From].Full) + " to " + page.Firm(s.H.Terminals[x.To].Full)
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{
			table.Noted(where, s.H.States[x.State].Name), table.Text(fmt.Sprintf("%.2f", float64(x.Lost))), table.Text(fmt.Sprintf("%.2f", float64(x.Explains))), table.Text(s.look(x)), {Draw: table.Blank(20)},
		}})
	}
	s.b.Section("Where more is lost than the wires can explain", t)
}

// look names the joints of a stretch.
func (s *sheets) look(x *proof.Stretch) string {
	const most = 5
	var out []string
	for _, p := range x.Suspects[:min(most, len(x.Suspects))] {
		text := p.What
		if len(x.Suspects) > 1 {
			text += fmt.Sprintf(" %.0f"+page.NoBreak+"%%", 100*p.Share)
		}
		out = append(out, text)
	}
	text := page.Capital(strings.Join(out, ", ")) + "."
	if more := len(x.Suspects) - most; more > 0 {
		text = strings.TrimSuffix(text, ".") + fmt.Sprintf(", and %d more.", more)
	}
	if len(x.Draws) > 0 {
		var names []string
		for _, id := range x.Draws {
			names = append(names, s.Part(id).Ref)
		}
		text += fmt.Sprintf(" Or what nobody knows draws %s more: pull off %s and read again.", page.Firm(unit.Amps(float64(x.Needs)).String()), page.And(slices.Compact(names)))
	}
	return text
}
