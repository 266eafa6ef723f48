package label

import (
	"fmt"
	"math"

	"example.com/loomfolio/layout/caution"
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/fit/marker"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// marginNote is the margin above or below the labels, in mm, from which on a line of text
// goes there: clear of the 5 mm at the edge that printers leave out, and of the labels.
const marginNote = 9

// Sheets are the wires' markers on the shop's own labels, each exactly in its
// place, and before them a sheet to be tried on plain paper; none where the practice
// has no such labels.
func Sheets(a page.Ask) []frame.Page {
	l := &labels{Ask: a}
	on, _ := l.shared()
	pages := l.onSheets(on)
	for i := range pages {
		pages[i].Group = "Label sheets"
	}
	return pages
}

// shared parts the wires' labels into those that go on the shop's labels and those that
// are cut out of paper, each in the order of the cut list.
func (l *labels) shared() (on, off []fitted.Label) {
	p := l.H.Practice.Labels
	for _, x := range l.R.Labels {
		if x.Kind != fitted.WireLabel {
			continue
		}
		if _, ok := l.marker(x).on(float64(x.Long), float64(x.Face), air(x)); x.OnSheet && ok {
			on = append(on, x)
			continue
		}
		if x.OnSheet {
			x.As, x.Face, x.Tube = marker.Made(p.As, x.Round)
			x.Long, x.OnSheet = p.Length, false
		}
		off = append(off, x)
	}
	return on, off
}

// onSheets lays labels on the shop's sheets, after the one to be tried.
func (l *labels) onSheets(on []fitted.Label) []frame.Page {
	s := l.H.Practice.Labels.Sheet
	if s == nil || len(on) == 0 {
		return nil
	}
	pages := make([]frame.Page, s.Count(len(on)))
	marks := make([]sheet.Canvas, len(pages))
	for i, x := range on {
		n, left, top := s.At(i)
		l.onLabel(&marks[n], x, sheet.Rect{X: float64(left), Y: float64(top), W: float64(s.Wide), H: float64(s.High)})
	}
	f := frame.New(float64(s.W), float64(s.H))
	for i := range pages {
		l.margin(&marks[i], fmt.Sprintf("%s, rev. %s · label sheet %d of %d · print at 100 %%, \"fit to page\" off", l.H.Info.Title, l.H.Info.Revision, i+1, len(pages)))
		pages[i] = frame.Page{Frame: f, Title: fmt.Sprintf("Label sheet %d of %d", i+1, len(pages)), Bare: true, Marks: marks[i].Marks}
	}
	if s.Paper == "" {
		return pages
	}
	return append([]frame.Page{{Frame: f, Title: "Label sheet, to be tried on plain paper", Bare: true, Marks: l.trial(s)}}, pages...)
}

// onLabel draws a marker on a label: of a wrapped one the faces stand at the edge that
// comes to lie outside, above a clear tail or else at the lower edge.
func (l *labels) onLabel(c *sheet.Canvas, x fitted.Label, label sheet.Rect) {
	s, high := l.H.Practice.Labels.Sheet, float64(x.Face)
	f := l.set(x, label.W, high)
	upper := sheet.Rect{X: label.X, Y: label.Y, W: label.W, H: high}
	switch {
	case x.As == fitted.Sleeve:
		f.near.draw(c, upper)
		return
	case x.As == fitted.Flag:
		upper.Y += marker.LabelEdge
		lower := upper
		lower.Y += high + float64(marker.FlagBand(x.Round))
		c.Rect(label.X, upper.Bottom(), label.W, lower.Y-upper.Bottom(), sheet.Filled(sheet.Pale))
		f.near.turned(c, upper)
		f.far.draw(c, lower)
		return
	case s.Clear == 0:
		upper.Y = label.Bottom() - marker.LabelEdge - 2*high
	default:
		upper.Y += marker.LabelEdge
	}
	f.near.draw(c, upper)
	f.far.draw(c, sheet.Rect{X: upper.X, Y: upper.Bottom(), W: upper.W, H: high})
}

// margin sets a line above the labels and the caution below them, or both on the one side
// that has room; where there is room for one line alone it is the first, and on a roll there is none.
func (l *labels) margin(c *sheet.Canvas, text string) {
	at := marginLines(l.H.Practice.Labels.Sheet)
	for i, texts := range [][]string{{text}, caution.Short(l.H)} {
		if i < len(at) {
			l.marginLine(c, at[i], texts)
		}
	}
}

// marginLines are the base lines of at most two lines of text beside the labels.
func marginLines(s *harness.LabelSheet) []float64 {
	last := float64(s.Top+unit.Millimetre(s.Down-1)*s.PitchDown) + float64(s.High)
	first, below := last+2+sheet.SizeNote*typeface.CapHeight, roomFor(float64(s.H)-last)
	switch roomFor(float64(s.Top)) {
	case 0:
		return []float64{first, first + marginLine}[:below]
	case 1:
		return []float64{float64(s.Top) - 2, first}[:1+min(below, 1)]
	}
	return []float64{float64(s.Top) - 2 - marginLine, float64(s.Top) - 2}
}

// marginLine sets the first text that fits, beside the labels.
func (l *labels) marginLine(c *sheet.Canvas, y float64, texts []string) {
	s := l.H.Practice.Labels.Sheet
	x := max(float64(s.Left), 6)
	c.Text(x, y, frame.Fitting(texts, sheet.SizeNote, float64(s.W)-x-6), sheet.Plain(sheet.SizeNote))
}

// marginLine is from one line of the margin to the next, mm.
const marginLine = 3.6

// roomFor is how many lines go in a margin, two at most.
func roomFor(mm float64) int {
	return min(max(0, 1+int(math.Floor((mm-marginNote)/marginLine))), 2)
}

// trial shows where the labels are, with their numbers, and two bars to measure.
func (l *labels) trial(s *harness.LabelSheet) []sheet.Mark {
	var c sheet.Canvas
	for i := range s.Each() {
		x, y := s.Place(i)
		r := sheet.Rect{X: float64(x), Y: float64(y), W: float64(s.Wide), H: float64(s.High)}
		c.Rect(r.X, r.Y, r.W, r.H, sheet.Outline(sheet.Solid(sheet.Thin)))
		number := fmt.Sprint(i + 1)
		if i+1 < s.First {
			number += " used up"
		}
		c.Text(r.X+labelPad, r.Y+labelPad+sheet.SizeNote*typeface.CapHeight, typeface.Fit(number, sheet.Regular, sheet.SizeNote, r.W-2*labelPad), sheet.Plain(sheet.SizeNote))
	}
	w, h := min(110, float64(s.W)-20), 88.0
	r := sheet.Rect{X: (float64(s.W) - w) / 2, Y: (float64(s.H) - h) / 2, W: w, H: h}
	c.Rect(r.X, r.Y, r.W, r.H, sheet.Both(sheet.Solid(sheet.Medium), sheet.White))
	in := r.Inset(5)
	in.Y = frame.Paragraph(&c, in, "Try this sheet first", sheet.Strong(sheet.SizeHead)) + 1
	text := "Print this sheet on plain paper at 100 %, \"fit to page\" off. Both bars must measure what they say. Then lay it on a label sheet and hold both before the light: each outline must lie on its label."
	in.Y = frame.Paragraph(&c, in, text, sheet.Plain(sheet.SizeBody)) + 3
	frame.Paragraph(&c, in.Below(in.Y+31), caution.Short(l.H)[0], sheet.Plain(sheet.SizeBody))
	l.bars(&c, in)
	return c.Marks
}

// bars draws one bar level and one plumb.
func (l *labels) bars(c *sheet.Canvas, r sheet.Rect) {
	long, says := 50.0, "50 mm"
	if l.H.Sheet.Imperial {
		long, says = 1.5*page.MillimetresInInch, "1 1/2 in"
	}
	high, tall := 25.0, "25 mm"
	if l.H.Sheet.Imperial {
		high, tall = page.MillimetresInInch, "1 in"
	}
	x, y := r.X+1.5, r.Y+1.5
	line, end := sheet.Solid(sheet.Medium), sheet.Solid(sheet.Thin)
	c.Line(x, y, x+long, y, line)
	c.Line(x+long, y-1.5, x+long, y+1.5, end)
	c.Line(x, y, x, y+high, line)
	c.Line(x, y-1.5, x, y+1.5, end)
	c.Line(x-1.5, y, x+1.5, y, end)
	c.Line(x-1.5, y+high, x+1.5, y+high, end)
	c.Text(x+long+2.5, y+sheet.SizeBody*typeface.CapHeight/2, says, sheet.Plain(sheet.SizeBody))
	c.Text(x+3, y+high/2+sheet.SizeBody*typeface.CapHeight/2, tall, sheet.Plain(sheet.SizeBody))
}

// onShopLabels says what is printed on the shop's labels, and how they are fitted.
func (l *labels) onShopLabels(on, off int) {
	s := l.H.Practice.Labels.Sheet
	if s == nil || on == 0 {
		return
	}
	size := func(mm unit.Millimetre) string { return page.Firm(unit.CalliperText(mm, l.H.Sheet.Imperial)) }
	text := page.Counted(on, "wire marker") + ", first those of the first wire of the cut list, row by row, on "
	if s.Paper == "" {
		text += fmt.Sprintf("a roll %s wide, one every %s (%s): the first pages of this file, to be printed by themselves. ", size(s.High), size(s.PitchAcross),
			page.Counted(s.Count(on), "strip"))
	} else {
		text += fmt.Sprintf("%s of %d × %d labels of %s × %s, %s, which stand before these; the first sheet is tried on plain paper. ",
			page.Counted(s.Count(on), "sheet"), s.Across, s.Down, size(s.Wide), size(s.High), s.Paper)
		if s.First > 1 {
			text += fmt.Sprintf("The first sheet begins at label %d. ", s.First)
		}
	}
	l.Remark(text + l.onto(s, off))
}

// onto says how a label goes on a wire.
func (l *labels) onto(s *harness.LabelSheet, off int) string {
	text := "One with a grey band is a flag: fold it over the wire at the band. "
	switch {
	case l.H.Practice.Labels.As == fitted.Sleeve:
		text = "The sleeve goes on before the terminal. "
	case s.Clear > 0:
		text += "Any other goes round the wire with its printed part first and the clear tail over it. "
	default:
		text += "Any other goes round the wire with its blank edge first, the text outside. "
	}
	if off > 0 {
		text += page.Counted(off, "marker") + " for which these labels do not serve stand below, to be cut out."
	}
	return text
}
