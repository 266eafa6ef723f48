package guide

import (
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/unit"
)

// ReadingGuide explains how to read the packet: wire names and lines, the colours and symbols that
// occur in it, and for who builds it and for the archive units, terminal numbers and the
// design rules; the sources behind the sizes are for the archive alone.
func ReadingGuide(a page.Ask) []frame.Page {
	s := page.Open(a.Upright(), "Reading guide", "sheet/reading-guide", "")
	namesAndColours(a, s)
	symbols(a, s)
	if a.For != page.Customer {
		reference(a, s)
	}
	return s.Close()
}

// namesAndColours sets how a wire is named and drawn beside the colours that occur.
func namesAndColours(a page.Ask, s *page.Book) {
	id, ok := example(a)
	if !ok {
		return
	}
	const share = 0.64
	left, right := s.Room, s.Room
	left.W = (s.Room.W - page.ColumnGap) * share
	right.X += left.W + page.ColumnGap
	right.W -= left.W + page.ColumnGap
	var second sheet.Canvas
	beside := colours(a, &second, right)
	end := wireNames(a, &s.C, left, id) + 0.8
	style := sheet.Plain(sheet.SizeBody)
	if lower := max(end, beside); lower-end < page.TextHeight(wireWords, style, left.W)-page.TextHeight(wireWords, style, s.Room.W) {
		left, end = s.Room, lower
	}
	end = frame.Paragraph(&s.C, left.Below(end), wireWords, style)
	s.C.Add(second.Marks...)
	s.Room = s.Room.Below(max(end, beside))
}

// reference is what one looks up, in the size of notes, down three columns.
func reference(a page.Ask, s *page.Book) {
	items := headed("Units and terms", "", units(a))
	items = append(items, headed("Terminal numbers", designationRemark(a), designations(a))...)
	items = append(items, headed("Design rules used", "Change one and the sizes change.", designRules(a))...)
	if a.For == page.Archive {
		items = append(items, sources(a, columnWide(s))...)
	}
	s.Down(1)
	columned(s, items)
}

// heading sets a section's heading with a remark in an area, and gives where they end.
func heading(c *sheet.Canvas, r sheet.Rect, head, remark string) float64 {
	y := frame.Paragraph(c, r, head, sheet.Strong(sheet.SizeHead)) + 0.4
	if remark != "" {
		y = frame.Paragraph(c, r.Below(y), remark, page.Quiet()) + 0.6
	}
	return y
}

// units says in which units the figures are, and against which point voltages are measured.
func units(a page.Ask) []item {
	length := "mm, sums in metres"
	if a.H.Sheet.Imperial {
		length = "feet and inches, to the nearest eighth of an inch"
	}
	gauge := map[unit.System][2]string{
		unit.Metric: {"Wire sizes", "mm² of copper; a size in mm is a diameter, not an area"},
		unit.AWG:    {"Gauges", "American wire gauge (AWG), by ASTM B258"},
		unit.SAE:    {"Gauges", "SAE gauge (ga), by SAE J1128: a little less copper than the AWG size of the same number"},
	}[a.H.Sheet.Gauge]
	against := "battery negative"
	if a.H.System.PositiveEarth {
		against = "battery positive (this vehicle has positive ground), so live points read below zero"
	}
	return entriesOf([][2]string{
		{"Lengths", length},
		gauge,
		{"A, V, mV", "amperes; volts, millivolts against " + against},
		{"Feed, return", "to a load, back from it"},
		{"Drop", "volts lost in feed and return"},
		{"Ground offset", "volts from a ground to the battery's grounded post"},
		{"FAN.+, K1.30", "a part and its terminal"},
		{"Sheet 7, C3", "row C, column 3 of sheet 7"},
	})
}

// entriesOf makes names in bold with what is said of them behind.
func entriesOf(pairs [][2]string) []item {
	var out []item
	for _, p := range pairs {
		if p[1] != "" {
			out = append(out, item{label: p[0], text: p[1], size: sheet.SizeNote, clear: 0.4})
		}
	}
	return out
}
