package guide

import (
	"fmt"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Entry is one kind of sheet in the cover's list.
type Entry struct {
	Title  string
	Anchor string // of its first page
	Sheet  int    // number of its first page
	Count  int    // how many pages
}

// Cover is the first sheet: what the harness is and for which vehicle, the list
// of sheets, the totals, the cautions in full, and how many findings are open;
// these follow on further sheets, each with what to do. The cautions always stand on the first.
func Cover(a page.Ask, list []Entry) []frame.Page {
	f := a.Upright()
	s := &sheaf{frame: f, name: "Open findings"}
	s.c.Anchor("sheet/cover", f.Body.X, f.Body.Y)
	s.room = f.Heading(&s.c, coverTitle(a), "Wiring packet"+forVehicle(a))
	s.top = s.room.Y
	identity(a, s)
	supply(a, s)
	foot := cautions(a, s)
	notes := middle(a, s, list, foot)
	s.pages = append(s.pages, frame.Page{Frame: f, Title: "Cover", Marks: s.c.Marks})
	if len(list) == 0 && len(a.R.Findings) == 0 && notes == "" {
		return s.pages
	}
	return append(s.pages, findings(a, notes)...)
}

func coverTitle(a page.Ask) string {
	if a.H.Info.Title == "" {
		return "Wiring harness"
	}
	return a.H.Info.Title
}

func forVehicle(a page.Ask) string {
	v := strings.TrimSpace(a.H.Info.VehicleName + " " + a.H.Info.VehicleIdentity)
	if v == "" {
		return ""
	}
	return " for " + v
}

// identity sets the plain facts in two columns; what is not given is a line to write on.
func identity(a page.Ask, s *sheaf) {
	i := a.H.Info
	facts := [][2]string{
		{"Vehicle", i.VehicleName}, {"Revision", i.Revision},
		{"Identity", i.VehicleIdentity}, {"Date", i.Date},
		{"Customer", i.Customer}, {"Built by", i.Builder},
		{"Made for", reader(a.For)}, {"Checked by", i.CheckedBy},
	}
	t := &table.Table{NoHead: true, NoZebra: true, Columns: []table.Column{{Min: 20, Max: 20}, {Weight: 3}, {Min: 24, Max: 24}, {Weight: 2}}}
	for k := 0; k < len(facts); k += 2 {
		row := table.Row{}
		for _, f := range facts[k : k+2] {
			label := table.Cell{S: f[0], Colour: &sheet.Grey}
			row.Cells = append(row.Cells, label, table.Strong(orLine(f[1])))
		}
		t.Rows = append(t.Rows, row)
	}
	s.table(t)
}

func orLine(text string) string {
	if text == "" {
		return "–"
	}
	return text
}

func reader(who string) string {
	return map[string]string{
		page.Bench:    "the bench: who builds it",
		page.Customer: "the customer: who drives it",
		page.Archive:  "the archive: every sheet, with its description inside",
	}[who]
}

// supply says volts, polarity and return in a heavy box, for they spoil most when misread.
func supply(a page.Ask, s *sheaf) {
	sys := a.H.System
	const pictogram = 26
	inner := sheet.Rect{X: s.room.X + 4 + pictogram, Y: s.room.Y + 2.6, W: s.room.W - 8 - pictogram}
	head := fmt.Sprintf("%s · %s · %s", sys.Volts, polarity(a), returning(a))
	big, small := sheet.Strong(typeface.Shrink(head, sheet.Bold, 6.2, sheet.SizeHead, inner.W)), sheet.Plain(sheet.SizeBody)
	text := polarityWords(a)
	high := 5.2 + textHeight(head, big, inner.W) + textHeight(text, small, inner.W)
	high = max(high, 19)
	c := &s.c
	c.RoundRect(s.room.X, s.room.Y, s.room.W, high, 1.5, sheet.Both(sheet.Solid(sheet.Heavy), sheet.Pale))
	battery(c, sheet.Rect{X: s.room.X + 4, Y: s.room.Y + (high-13)/2, W: pictogram - 5, H: 13}, sys)
	y := frame.Paragraph(c, inner, head, big)
	frame.Paragraph(c, inner.Below(y), text, small)
	s.down(high + 3)
}

func polarity(a page.Ask) string {
	if a.H.System.PositiveEarth {
		return "POSITIVE EARTH"
	}
	return "negative earth"
}

func returning(a page.Ask) string {
	if a.H.System.WiredReturn {
		return "wired return"
	}
	return "return through the chassis"
}

func polarityWords(a page.Ask) string {
	earthed, live := "negative (−)", "positive (+)"
	if a.H.System.PositiveEarth {
		earthed, live = live, earthed
	}
	words := fmt.Sprintf("The battery's %s post is joined to the bodywork; the %s post is live.", earthed, live)
	if a.H.System.WiredReturn {
		words += " Every return is a wire of its own: do not use the bodywork as one."
	}
	if a.H.System.PositiveEarth {
		words += " Polarised parts (radio, diode, electronic module) must be made for positive earth."
	}
	if a.H.System.Running > 0 {
		words += fmt.Sprintf(" Charging voltage with the engine running: %s.", a.H.System.Running)
	}
	return words
}

// battery draws the box with its two posts; the earthed one leads to the ground sign.
func battery(c *sheet.Canvas, r sheet.Rect, sys harness.System) {
	box := sheet.Rect{X: r.X, Y: r.Y + 2.4, W: r.W - 4, H: r.H - 2.4}
	plus, minus := box.X+box.W*0.76, box.X+box.W*0.24
	for _, x := range []float64{plus, minus} {
		c.Rect(x-1.5, r.Y, 3, 3, sheet.Both(sheet.Solid(sheet.Medium), sheet.White))
	}
	c.RoundRect(box.X, box.Y, box.W, box.H, 0.8, sheet.Both(sheet.Solid(sheet.Thick), sheet.White))
	c.Text(minus, box.Y+6.4, "−", sheet.Strong(sheet.SizeTitle).At(sheet.Centre))
	c.Text(plus, box.Y+6.4, "+", sheet.Strong(sheet.SizeTitle).At(sheet.Centre))
	earthed := minus
	if sys.PositiveEarth {
		earthed = plus
	}
	c.Polyline([]sheet.Point{{X: earthed, Y: r.Y}, {X: earthed, Y: r.Y - 1.4}, {X: r.Right() - 1, Y: r.Y - 1.4}, {X: r.Right() - 1, Y: r.Y + 7}}, sheet.Solid(sheet.Medium))
	for i, half := range []float64{2.4, 1.5, 0.6} {
		y := r.Y + 7 + 1.1*float64(i)
		c.Line(r.Right()-1-half, y, r.Right()-1+half, y, sheet.Solid(sheet.Medium))
	}
}

// middle sets the sheet list beside the totals between the head and the cautions,
// and the notes under them; what finds no room is given back.
func middle(a page.Ask, s *sheaf, list []Entry, foot float64) (notes string) {
	area := s.room
	area.H = foot - 2 - area.Y
	const gap = 6
	left := sheet.Rect{X: area.X, Y: area.Y, W: (area.W - gap) * 0.56, H: area.H}
	right := sheet.Rect{X: left.Right() + gap, Y: area.Y, W: area.W - gap - left.W, H: area.H}
	bottom := columnTable(&s.c, left, "Sheets", sheetList(a, list))
	bottom = max(bottom, columnTable(&s.c, right, "Totals", totals(a)))
	bottom = max(bottom, verdict(a, &s.c, right.Below(bottomOf(totals(a), right)+3)))
	notes = strings.TrimSpace(a.H.Info.Notes)
	style := sheet.Plain(sheet.SizeBody)
	rest := area.Below(bottom + 3)
	high := sheet.SizeHead*1.25 + textHeight(notes, style, rest.W)
	if notes == "" || high > rest.H {
		return notes
	}
	y := frame.Paragraph(&s.c, rest, "Notes", sheet.Strong(sheet.SizeHead))
	frame.Paragraph(&s.c, rest.Below(y), notes, style)
	return ""
}

const columnHead = sheet.SizeHead*1.25 + 1

func columnTable(c *sheet.Canvas, r sheet.Rect, title string, t *table.Table) float64 {
	y := frame.Paragraph(c, r, title, sheet.Strong(sheet.SizeHead)) + 1
	part := t.Flow(r.Below(y), r.Below(y))[0]
	c.Add(part.Marks...)
	return part.Bottom
}

func bottomOf(t *table.Table, r sheet.Rect) float64 {
	return r.Y + columnHead + t.Height(r.W)
}

func sheetList(a page.Ask, list []Entry) *table.Table {
	t := &table.Table{NoHead: true, Columns: []table.Column{{Align: table.Right, Min: 16, Max: 16}, {Weight: 1}}}
	t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{{S: "1", Bold: true}, {S: "Cover and cautions"}}})
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

func totals(a page.Ask) *table.Table {
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
	t := &table.Table{NoHead: true, Columns: []table.Column{{Weight: 1}, {Align: table.Right}}}
	add := func(what, value string) {
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Text(what), table.Strong(value)}})
	}
	add("Circuits", fmt.Sprint(len(h.Circuits)))
	add("Wires", fmt.Sprint(len(h.Wires)))
	add("Wire, cut length", longLength(length, h.Sheet.Imperial))
	if copper > 0 {
		add("Copper", copper.String())
	}
	add("Loads", fmt.Sprint(len(r.Loads)))
	add("Fuses", fmt.Sprint(len(r.Fuses)-breakers))
	for _, k := range []struct {
		what string
		n    int
	}{{"Circuit breakers", breakers}, {"Relays", len(r.Relays)}, {"Ground points", count(h, harness.Ground)}, {"Splices", count(h, harness.Splice)}, {"Connectors", count(h, harness.Connector)}} {
		if k.n > 0 {
			add(k.what, fmt.Sprint(k.n))
		}
	}
	return t
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
func verdict(a page.Ask, c *sheet.Canvas, r sheet.Rect) float64 {
	text, link := tally(a.R.Findings), ""
	if len(a.R.Findings) > 0 {
		link = a.Link("sheet/findings")
		if w := a.Where("sheet/findings"); w != "" {
			text += "; see " + strings.Split(w, ",")[0]
		}
	}
	style := sheet.Strong(sheet.SizeBody)
	high := textHeight(text, style, r.W-5) + 3
	width := sheet.Medium
	if a.R.Findings.HasErrors() {
		width = sheet.Heavy
	}
	c.RoundRect(r.X, r.Y, r.W, high, 1, sheet.Outline(sheet.Solid(width)))
	frame.Paragraph(c, sheet.Rect{X: r.X + 2.5, Y: r.Y + 1.5, W: r.W - 5}, text, style)
	if link != "" {
		c.Link(sheet.Rect{X: r.X, Y: r.Y, W: r.W, H: high}, link)
	}
	return r.Y + high
}

// tally is "Open: 1 error, 2 warnings".
func tally(found source.Problems) string {
	if len(found) == 0 {
		return "No open findings"
	}
	var words []string
	for _, l := range []source.Level{source.Error, source.Warning, source.Advice} {
		n := found.Count(l)
		switch {
		case n == 0:
		case l == source.Advice:
			words = append(words, fmt.Sprintf("%d of advice", n))
		default:
			words = append(words, page.Counted(n, l.String()))
		}
	}
	return "Open findings: " + page.And(words)
}
