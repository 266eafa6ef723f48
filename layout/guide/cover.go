// Package guide lays out the sheets that say what the harness is and how the others are
// read: the cover with its cautions and findings, and the reading guide.
//
// In: page.Ask, which is the model, the results, the paper and the reader. Out:
// the pages of one kind of sheet. It holds that no text is cut off or lies on another:
// what does not fit goes on the next sheet, drawings take the height that their words
// need, and colour is always accompanied by its name. All lengths are mm.
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
	s := page.Open(a.Upright(), coverTitle(a), "sheet/cover", "Wiring packet"+forVehicle(a)+reader(a.For))
	identity(a, s)
	supply(a, s)
	foot := cautions(a, s)
	unplaced := middle(a, s, list, foot)
	pages := s.Close()
	pages[0].Title = "Cover"
	return append(pages, findings(a, unplaced)...)
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
func identity(a page.Ask, s *page.Book) {
	i := a.H.Info
	facts := [][2]string{
		{"Vehicle", i.VehicleName}, {"Revision", i.Revision},
		{"Identity", i.VehicleIdentity}, {"Date", i.Date},
		{"Customer", i.Customer}, {"Built by", i.Builder},
	}
	if i.CheckedBy != "" {
		facts = append(facts, [2]string{"", ""}, [2]string{"Checked by", i.CheckedBy})
	}
	t := &table.Table{NoHead: true, NoZebra: true, Columns: []table.Column{{Min: 20, Max: 20}, {Weight: 3}, {Min: 24, Max: 24}, {Weight: 2}}}
	for k := 0; k < len(facts); k += 2 {
		row := table.Row{}
		for _, f := range facts[k : k+2] {
			label := table.Cell{S: f[0], Colour: &sheet.Grey}
			row.Cells = append(row.Cells, label, table.Strong(orLine(f)))
		}
		t.Rows = append(t.Rows, row)
	}
	s.Table(t)
}

// orLine is what a fact says; a dash for what is not given.
func orLine(fact [2]string) string {
	if fact[0] != "" && fact[1] == "" {
		return "–"
	}
	return fact[1]
}

func reader(who string) string {
	return map[string]string{
		page.Bench:    ", sheets for the bench: for who builds it",
		page.Customer: ", sheets for the customer: for who gets the car",
		page.Archive:  ", archive: every sheet, with its description inside the file",
	}[who]
}

// supply says volts, polarity and return in a heavy box, for they spoil most when misread.
func supply(a page.Ask, s *page.Book) {
	sys := a.H.System
	const pictogram = 26
	inner := sheet.Rect{X: s.Room.X + 4 + pictogram, Y: s.Room.Y + 2.6, W: s.Room.W - 8 - pictogram}
	head := fmt.Sprintf("%s · %s · %s", sys.Volts, polarity(a), returning(a))
	big, small := sheet.Strong(typeface.Shrink(head, sheet.Bold, 6.2, sheet.SizeHead, inner.W)), sheet.Plain(sheet.SizeBody)
	text := polarityWords(a)
	high := 5.2 + page.TextHeight(head, big, inner.W) + page.TextHeight(text, small, inner.W)
	high = max(high, 19)
	c := &s.C
	c.RoundRect(s.Room.X, s.Room.Y, s.Room.W, high, 1.5, sheet.Both(sheet.Solid(sheet.Heavy), sheet.Pale))
	battery(c, sheet.Rect{X: s.Room.X + 4, Y: s.Room.Y + (high-13)/2, W: pictogram - 5, H: 13}, sys)
	y := frame.Paragraph(c, inner, head, big)
	frame.Paragraph(c, inner.Below(y), text, small)
	s.Down(high + 3)
}

func polarity(a page.Ask) string {
	if a.H.System.PositiveEarth {
		return "POSITIVE GROUND (positive earth)"
	}
	return "negative ground"
}

func returning(a page.Ask) string {
	if a.H.System.WiredReturn {
		return "wired return"
	}
	return "return through the chassis"
}

// polarityWords says which post is which; of bodywork alone where it is the return.
func polarityWords(a page.Ask) string {
	earthed, live := "negative (−)", "positive (+)"
	if a.H.System.PositiveEarth {
		earthed, live = live, earthed
	}
	words := fmt.Sprintf("The battery's %s post is joined to the bodywork; the %s post is live.", earthed, live)
	if a.H.System.WiredReturn {
		words = fmt.Sprintf("Every return is a wire of its own, back to the battery's %s post; the frame carries no current. The %s post is live.", earthed, live)
	}
	if a.H.System.PositiveEarth {
		words += " Polarised parts (radio, diode, electronic module) must be made for positive ground."
	}
	if a.H.System.Running > 0 {
		words += fmt.Sprintf(" Charging voltage with the engine running: %s.", a.H.System.Running)
	}
	return words
}

// battery draws the box with its two posts; the earthed one leads to the ground sign, where
// the bodywork is the return.
func battery(c *sheet.Canvas, r sheet.Rect, sys harness.System) {
	box := sheet.Rect{X: r.X, Y: r.Y + 2.4, W: r.W - 4, H: r.H - 2.4}
	plus, minus := box.X+box.W*0.76, box.X+box.W*0.24
	for _, x := range []float64{plus, minus} {
		c.Rect(x-1.5, r.Y, 3, 3, sheet.Both(sheet.Solid(sheet.Medium), sheet.White))
	}
	c.RoundRect(box.X, box.Y, box.W, box.H, 0.8, sheet.Both(sheet.Solid(sheet.Thick), sheet.White))
	c.Text(minus, box.Y+6.4, "−", sheet.Strong(sheet.SizeTitle).At(sheet.Centre))
	c.Text(plus, box.Y+6.4, "+", sheet.Strong(sheet.SizeTitle).At(sheet.Centre))
	if sys.WiredReturn {
		return
	}
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

// tally is "Open findings: 1 error, 2 warnings, 1 accepted".
func tally(found source.Problems, accepted []source.Accepted) string {
	counted := source.Counted(found, accepted)
	if len(found) == 0 {
		return "No open findings" + strings.TrimPrefix(counted, "no findings")
	}
	return "Open findings: " + counted
}
