package cover

import (
	"fmt"
	"math"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// total is one figure of the cover: "54", "wires"; it may lead somewhere.
type total struct{ value, what, link string }

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
	return part{tileHigh + 1.6, func() {
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
	if t.link != "" {
		c.Link(r, t.link)
	}
}

// wires counts those that are made, beside those that are there already.
func wires(made, own int) total {
	out := number(made, "wire")
	if own > 0 {
		out.value, out.what = fmt.Sprintf("%d + %d", made, own), "wires, existing"
	}
	return out
}

func totals(a page.Ask) []total {
	h, r := a.H, a.R
	var length unit.Millimetre
	own := len(a.Own())
	for i, w := range r.Ways {
		if !h.Wires[i].Existing {
			length += w.Length
		}
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
		number(len(h.Circuits), "circuit"), wires(len(h.Wires)-own, own),
		{value: longLength(length, h.Sheet.Imperial), what: "of wire"}, {value: unit.MassText(copper, h.Sheet.Imperial), what: "copper"},
		number(len(r.Loads), "load"), number(len(r.Fuses)-breakers, "fuse"),
	}
	for _, k := range []struct {
		what string
		n    int
	}{{"breaker", breakers}, {"relay", len(r.Relays)}, {"ground", count(h, harness.Ground)}, {"splice", count(h, harness.Splice)}, {"connector", count(h, harness.Connector)}} {
		if k.n > 0 || k.what != "breaker" {
			all = append(all, number(k.n, k.what))
		}
	}
	return append(append(all, spent(&r.Purchase.Cost)...), open(a))
}

// number is how many there are of a thing.
func number(n int, one string) total {
	value, what, _ := strings.Cut(unit.Counted(n, one), " ")
	return total{value: value, what: what}
}

// open is how many findings are open, and where they stand.
func open(a page.Ask) total {
	n, what := len(a.R.Findings), "open findings"
	if n == 1 {
		what = "open finding"
	}
	if w := a.Where("sheet/findings"); w != "" && !strings.HasPrefix(w, "sheet 1,") {
		what = strings.TrimPrefix(what, "open ") + ", " + strings.Split(w, ",")[0]
	}
	return total{fmt.Sprint(n), what, a.Link("sheet/findings")}
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

// warning says in a heavy box that there are errors; none where there are none.
func warning(a page.Ask, s *page.Book) part {
	if !a.R.Findings.HasErrors() {
		return part{}
	}
	text := tally(a.R.Findings, a.R.Accepted)
	if w := a.Where("sheet/findings"); w != "" {
		text += "; they are listed on " + strings.Split(w, ",")[0]
	}
	text += ". Do not build from this packet before the errors are settled."
	style := sheet.Strong(sheet.SizeBody)
	high := page.TextHeight(text, style, s.Room.W-5) + 3
	return part{high + 2.5, func() {
		r := sheet.Rect{X: s.Room.X, Y: s.Room.Y, W: s.Room.W, H: high}
		s.C.RoundRect(r.X, r.Y, r.W, r.H, 1, sheet.Outline(sheet.Solid(sheet.Heavy)))
		frame.Paragraph(&s.C, sheet.Rect{X: r.X + 2.5, Y: r.Y + 1.5, W: r.W - 5}, text, style)
		if link := a.Link("sheet/findings"); link != "" {
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
	return part{high + 2, func() {
		y := frame.Paragraph(&s.C, s.Room, "Notes", sheet.Strong(sheet.SizeHead))
		frame.Paragraph(&s.C, s.Room.Below(y), text, style)
	}}
}

const (
	contentsColumns = 3
	contentsGap     = 6
	contentsLine    = 4.3 // from line to line
)

// contents is the list of sheets, read down three columns.
func contents(a page.Ask, s *page.Book, list []Entry) part {
	rows := append([]Entry{{Title: "Cover and cautions", Anchor: "sheet/cover", Sheet: 1}}, list...)
	each := (len(rows) + contentsColumns - 1) / contentsColumns
	w := (s.Room.W - contentsGap*(contentsColumns-1)) / contentsColumns
	var columns [][]Entry
	high := 0.0
	for ; len(rows) > 0; rows = rows[min(each, len(rows)):] {
		columns = append(columns, rows[:min(each, len(rows))])
		high = math.Max(high, entries(a, &sheet.Canvas{}, sheet.Rect{W: w}, columns[len(columns)-1]))
	}
	return part{high + 1.6, func() {
		for i, rows := range columns {
			x := s.Room.X + float64(i)*(w+contentsGap)
			entries(a, &s.C, sheet.Rect{X: x, Y: s.Room.Y, W: w}, rows)
		}
	}}
}

// entries sets lines of the list, the numbers flush right, and gives where they end.
func entries(a page.Ask, c *sheet.Canvas, r sheet.Rect, list []Entry) (bottom float64) {
	number := 0.0
	for _, e := range list {
		number = math.Max(number, typeface.Width(numbers(e), sheet.Bold, sheet.SizeBody))
	}
	style, y := sheet.Plain(sheet.SizeBody), r.Y
	for _, e := range list {
		lines := typeface.Wrap(e.Title, style.Face, style.Size, r.W-number-2.5)
		c.Text(r.X+number, y+3.4, numbers(e), sheet.Strong(style.Size).At(sheet.Right))
		top := y
		for _, line := range lines {
			c.Text(r.X+number+2.5, y+3.4, line, style)
			y += contentsLine
		}
		if link := a.Link(e.Anchor); link != "" {
			c.Link(sheet.Rect{X: r.X, Y: top, W: r.W, H: y - top}, link)
		}
	}
	return y
}

// numbers is the range of sheets: "5" or "5–8".
func numbers(e Entry) string {
	if e.Count < 2 {
		return fmt.Sprint(e.Sheet)
	}
	return fmt.Sprintf("%d–%d", e.Sheet, e.Sheet+e.Count-1)
}
