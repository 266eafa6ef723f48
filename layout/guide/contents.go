package guide

import (
	"fmt"
	"math"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// total is one figure of the cover: "54", "wires".
type total struct{ value, what string }

const tileHigh = 10.5

// tiles sets the totals side by side in one row, each as wide as its words ask for.
func tiles(a page.Ask, s *page.Book) part {
	all := totals(a)
	wides := make([]float64, len(all))
	sum := 0.0
	for i, t := range all {
		wides[i] = 3 + math.Max(typeface.Width(t.value, sheet.Bold, sheet.SizeHead), typeface.Width(t.what, sheet.Regular, sheet.SizeNote))
		sum += wides[i]
	}
	return part{tileHigh + 2.5, func() {
		x := s.Room.X
		for i, t := range all {
			w := wides[i] * s.Room.W / sum
			tile(&s.C, sheet.Rect{X: x, Y: s.Room.Y, W: w, H: tileHigh}, t, i > 0)
			x += w
		}
	}}
}

// tile sets one total, behind a rule where another stands before it.
func tile(c *sheet.Canvas, r sheet.Rect, t total, rule bool) {
	if rule {
		c.Line(r.X, r.Y+0.8, r.X, r.Bottom()-0.8, sheet.Solid(sheet.Hair).In(sheet.Rule))
	}
	value := typeface.Shrink(t.value, sheet.Bold, sheet.SizeHead, sheet.SizeBody, r.W-1.6)
	c.Text(r.X+r.W/2, r.Y+4.6, t.value, sheet.Strong(value).At(sheet.Centre))
	c.Text(r.X+r.W/2, r.Y+9.2, typeface.Fit(t.what, sheet.Regular, sheet.SizeNote, r.W-1), page.Quiet().At(sheet.Centre))
}

func totals(a page.Ask) []total {
	h, r := a.H, a.R
	var length unit.Millimetre
	for _, w := range r.Ways {
		length += w.Length
	}
	var copper unit.Gram
	for _, reel := range r.Reels {
		copper += reel.Copper
	}
	breakers := 0
	for _, f := range r.Fuses {
		if f.Breaker {
			breakers++
		}
	}
	all := []total{
		{fmt.Sprint(len(h.Circuits)), "circuits"}, {fmt.Sprint(len(h.Wires)), "wires"},
		{longLength(length, h.Sheet.Imperial), "of wire"}, {copper.String(), "of copper"},
		{fmt.Sprint(len(r.Loads)), "loads"}, {fmt.Sprint(len(r.Fuses) - breakers), "fuses"},
	}
	for _, k := range []struct {
		what string
		n    int
	}{{"breakers", breakers}, {"relays", len(r.Relays)}, {"grounds", count(h, harness.Ground)}, {"splices", count(h, harness.Splice)}, {"connectors", count(h, harness.Connector)}} {
		if k.n > 0 || k.what != "breakers" {
			all = append(all, total{fmt.Sprint(k.n), k.what})
		}
	}
	return all
}

// longLength is the sum of many lengths: metres, or feet.
func longLength(mm unit.Millimetre, imperial bool) string {
	if imperial {
		return page.Figure(float64(mm)/304.8, 0) + " ft"
	}
	return page.Figure(float64(mm)/1000, 1) + " m"
}

func count(h *harness.Harness, k harness.Kind) int {
	n := 0
	for i := range h.Parts {
		if h.Parts[i].Kind == k {
			n++
		}
	}
	return n
}

// verdict says in one line how many findings are open and where they stand; in a heavy box where not all is well.
func verdict(a page.Ask, s *page.Book) part {
	text, link, width := tally(a.R.Findings, a.R.Accepted), "", sheet.Thin
	if len(a.R.Findings)+len(a.R.Accepted) > 0 {
		link, width = a.Link("sheet/findings"), sheet.Medium
		if w := a.Where("sheet/findings"); w != "" {
			text += "; they are listed on " + strings.Split(w, ",")[0]
		}
	}
	if a.R.Findings.HasErrors() {
		text, width = text+". Do not build from this packet before the errors are settled", sheet.Heavy
	}
	style := sheet.Strong(sheet.SizeBody)
	high := page.TextHeight(text+".", style, s.Room.W-5) + 3
	return part{high + 2.5, func() {
		r := sheet.Rect{X: s.Room.X, Y: s.Room.Y, W: s.Room.W, H: high}
		s.C.RoundRect(r.X, r.Y, r.W, r.H, 1, sheet.Outline(sheet.Solid(width)))
		frame.Paragraph(&s.C, sheet.Rect{X: r.X + 2.5, Y: r.Y + 1.5, W: r.W - 5}, text+".", style)
		if link != "" {
			s.C.Link(r, link)
		}
	}}
}

// noteBlock is what the description says beside.
func noteBlock(a page.Ask, s *page.Book) part {
	text, style := strings.TrimSpace(a.H.Info.Notes), sheet.Plain(sheet.SizeBody)
	if text == "" {
		return part{}
	}
	high := sheet.SizeHead*typeface.Leading + page.TextHeight(text, style, s.Room.W)
	return part{high + 2.5, func() {
		y := frame.Paragraph(&s.C, s.Room, "Notes", sheet.Strong(sheet.SizeHead))
		frame.Paragraph(&s.C, s.Room.Below(y), text, style)
	}}
}

const (
	contentsColumns = 3
	contentsGap     = 6
)

// contents is the list of sheets, read down three columns.
func contents(a page.Ask, s *page.Book, list []Entry) part {
	rows := append([]Entry{{Title: "Cover and cautions", Anchor: "sheet/cover", Sheet: 1}}, list...)
	each := (len(rows) + contentsColumns - 1) / contentsColumns
	w := (s.Room.W - contentsGap*(contentsColumns-1)) / contentsColumns
	var laid []*table.Settled
	high := 0.0
	for ; len(rows) > 0; rows = rows[min(each, len(rows)):] {
		t := contentsTable(a, rows[:min(each, len(rows))]).Settle(w)
		laid = append(laid, t)
		high = math.Max(high, t.Height())
	}
	return part{high + 3, func() {
		for i, t := range laid {
			area := sheet.Rect{X: s.Room.X + float64(i)*(w+contentsGap), Y: s.Room.Y, W: w, H: high + 1}
			s.C.Add(t.Flow(area, area)[0].Marks...)
		}
	}}
}

func contentsTable(a page.Ask, list []Entry) *table.Table {
	t := &table.Table{NoHead: true, NoZebra: true, Columns: []table.Column{{Align: table.Right, Min: 15, Max: 15}, {Weight: 1}}}
	for _, e := range list {
		link := a.Link(e.Anchor)
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{{S: numbers(e), Bold: true, Link: link}, {S: e.Title, Link: link}}})
	}
	return t
}

// numbers is the range of sheets: "5" or "5–8".
func numbers(e Entry) string {
	if e.Count < 2 {
		return fmt.Sprint(e.Sheet)
	}
	return fmt.Sprintf("%d–%d", e.Sheet, e.Sheet+e.Count-1)
}
