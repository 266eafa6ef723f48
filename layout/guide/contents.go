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

// unplaced is what found no room on the cover's first sheet.
type unplaced struct {
	list  []Entry
	notes string
}

// middle fills the cover between its head and the cautions: the totals, how many
// findings are open, the list of sheets, the notes. What finds no room is given back.
func middle(a page.Ask, s *page.Book, list []Entry, foot float64) unplaced {
	left := unplaced{list, strings.TrimSpace(a.H.Info.Notes)}
	s.Room.H = foot - 2 - s.Room.Y
	tiles(s, totals(a))
	verdict(a, s)
	if high := contents(a, s, list); high > 0 {
		left.list = nil
		s.Down(high + 3)
	}
	style := sheet.Plain(sheet.SizeBody)
	high := sheet.SizeHead*typeface.Leading + page.TextHeight(left.notes, style, s.Room.W)
	if left.notes == "" || high > s.Room.H {
		return left
	}
	y := frame.Paragraph(&s.C, s.Room, "Notes", sheet.Strong(sheet.SizeHead))
	frame.Paragraph(&s.C, s.Room.Below(y), left.notes, style)
	left.notes = ""
	return left
}

// total is one figure of the cover: "54", "wires".
type total struct{ value, what string }

const tileHigh = 11.5

// tiles sets the totals side by side in one row, each as wide as its words ask for.
func tiles(s *page.Book, all []total) {
	wides := make([]float64, len(all))
	sum := 0.0
	for i, t := range all {
		wides[i] = 3 + math.Max(typeface.Width(t.value, sheet.Bold, sheet.SizeHead), typeface.Width(t.what, sheet.Regular, sheet.SizeNote))
		sum += wides[i]
	}
	c := &s.C
	x := s.Room.X
	for i, t := range all {
		w := wides[i] * s.Room.W / sum
		if i > 0 {
			c.Line(x, s.Room.Y+1, x, s.Room.Y+tileHigh-1, sheet.Solid(sheet.Hair).In(sheet.Rule))
		}
		value := typeface.Shrink(t.value, sheet.Bold, sheet.SizeHead, sheet.SizeBody, w-1.6)
		c.Text(x+w/2, s.Room.Y+5, t.value, sheet.Strong(value).At(sheet.Centre))
		c.Text(x+w/2, s.Room.Y+9.6, typeface.Fit(t.what, sheet.Regular, sheet.SizeNote, w-1), page.Quiet().At(sheet.Centre))
		x += w
	}
	s.Down(tileHigh + 2)
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

// verdict says in a box how many findings are open and where they stand.
func verdict(a page.Ask, s *page.Book) {
	text, link := tally(a.R.Findings, a.R.Accepted), ""
	if len(a.R.Findings)+len(a.R.Accepted) > 0 {
		link = a.Link("sheet/findings")
		if w := a.Where("sheet/findings"); w != "" {
			text += "; they are listed on " + strings.Split(w, ",")[0]
		}
	}
	style := sheet.Strong(sheet.SizeBody)
	high := page.TextHeight(text, style, s.Room.W-5) + 3
	width := sheet.Medium
	if a.R.Findings.HasErrors() {
		text, width = text+". Do not build from this packet before the errors are settled", sheet.Heavy
		high = page.TextHeight(text, style, s.Room.W-5) + 3
	}
	r := sheet.Rect{X: s.Room.X, Y: s.Room.Y, W: s.Room.W, H: high}
	s.C.RoundRect(r.X, r.Y, r.W, r.H, 1, sheet.Outline(sheet.Solid(width)))
	frame.Paragraph(&s.C, sheet.Rect{X: r.X + 2.5, Y: r.Y + 1.5, W: r.W - 5}, text+".", style)
	if link != "" {
		s.C.Link(r, link)
	}
	s.Down(high + 2)
}

// contents sets the list of sheets in two columns and gives the height that it
// takes; where body type finds no room it is set in the smaller size, and where
// that finds none either nothing is set and the height is 0.
func contents(a page.Ask, s *page.Book, list []Entry) float64 {
	const gap = 8
	rows := append([]Entry{{Title: "Cover and cautions", Anchor: "sheet/cover", Sheet: 1}}, list...)
	half := (len(rows) + 1) / 2
	w := (s.Room.W - gap) / 2
	for _, size := range []float64{sheet.SizeBody, sheet.SizeNote} {
		left, right := contentsTable(a, rows[:half], size).Settle(w), contentsTable(a, rows[half:], size).Settle(w)
		high := math.Max(left.Height(), right.Height())
		if high > s.Room.H {
			continue
		}
		for i, t := range []*table.Settled{left, right} {
			area := sheet.Rect{X: s.Room.X + float64(i)*(w+gap), Y: s.Room.Y, W: w, H: s.Room.H}
			s.C.Add(t.Flow(area, area)[0].Marks...)
		}
		return high
	}
	return 0
}

func contentsTable(a page.Ask, list []Entry, size float64) *table.Table {
	t := &table.Table{Size: size, Columns: []table.Column{{Title: "Sheet", Align: table.Right, Min: 15}, {Title: "What is on it", Weight: 1}}}
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
