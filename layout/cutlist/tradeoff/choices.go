package tradeoff

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
)

// Choices is the table of what was weighed, one row a choice, of many those that matter; no rows where there was no choice.
func (s Sheet) Choices() *table.Table {
	t := &table.Table{Tight: true, Columns: []table.Column{
		{}, {Title: "Sizes", Align: table.Decimal}, {Title: "Reels", Align: table.Decimal}, {Title: "Copper", Unit: s.massUnit(), Align: table.Decimal},
		{Title: "Sleeve", Unit: "parts + runs", Align: table.Right}, {Title: "Sum", Unit: s.sumUnit(), Align: table.Decimal}, {Title: "Which sizes", Unit: s.sizeUnit(), Weight: 1},
	}}
	rows := s.rows()
	if len(rows) < 2 || s.brief() {
		return t
	}
	for _, p := range rows {
		t.Rows = append(t.Rows, s.row(p))
	}
	return t
}

// brief tells whether the choices are so few, and none refused, that a line tells them.
func (s Sheet) brief() bool {
	points := s.points()
	return len(points) < leastPoints && !slices.ContainsFunc(points, point.refused)
}

// others tells in a line what was weighed beside the one taken; "" where that has rows.
func (s Sheet) others() string {
	if !s.brief() {
		return ""
	}
	var out []string
	for _, p := range s.points() {
		if !p.taken {
			out = append(out, page.Firm(fmt.Sprintf("%s, %s, %s", page.Counted(len(p.Sizes), "size"), page.Counted(p.Reels, "reel"), s.weight(p.Copper)))+", sum "+s.sum(p))
		}
	}
	if len(out) == 0 {
		return ""
	}
	return strings.Join(out, "; ") + "; taken: " + s.sum(point{s.taken(), true})
}

// sumUnit is what the sums are counted in.
func (s Sheet) sumUnit() string {
	if s.P.Weights.Money {
		return page.Or(s.P.Cost.Currency, "money")
	}
	return "reels"
}

func (s Sheet) row(p point) table.Row {
	which := table.Cell{S: sizesOf(p.Sizes), Size: sheet.SizeNote}
	if p.refused() {
		which.Note = "refused: " + p.Refused
	}
	pairs := "–"
	if parts, runs := p.PartPairs+p.RuleParts, p.RunPairs+p.RuleRuns; s.numbers() {
		pairs = "all"
	} else if parts+runs > 0 {
		pairs = page.Firm(fmt.Sprintf("%d + %d", parts, runs))
	}
	cells := []table.Cell{
		{Draw: p.mark()}, table.Text(fmt.Sprint(len(p.Sizes))), table.Text(fmt.Sprint(p.Reels)), table.Text(page.Figure(s.mass(p.Copper), 2)),
		table.Text(pairs), table.Text(s.sum(p)), which,
	}
	for i := range cells {
		cells[i].Bold = p.taken
	}
	return table.Row{Cells: cells}
}

// sum is what the objective came to.
func (s Sheet) sum(p point) string {
	if s.P.Weights.Money {
		return page.Figure(p.Sum, 2)
	}
	return page.Figure(p.Sum, 1)
}

// mark is the point's sign in the picture, for its row.
func (p point) mark() *table.Drawing {
	return &table.Drawing{W: 3.2, H: 3.2, Draw: func(c *sheet.Canvas, area sheet.Rect) {
		p.draw(c, sheet.Point{X: area.X + area.W/2, Y: area.Y + area.H/2})
	}}
}

// Sizes of a point's sign, mm.
const (
	signTaken = 1.4 // half a side
	signRound = 0.9 // radius
	signCross = 0.9 // half an arm
)

// draw sets a point's sign: a full square where it was taken, a cross where refused, else a ring.
func (p point) draw(c *sheet.Canvas, at sheet.Point) {
	switch {
	case p.taken:
		c.Rect(at.X-signTaken, at.Y-signTaken, 2*signTaken, 2*signTaken, sheet.Both(sheet.Solid(sheet.Thin), sheet.Ink))
	case p.refused():
		c.Line(at.X-signCross, at.Y-signCross, at.X+signCross, at.Y+signCross, sheet.Solid(sheet.Medium))
		c.Line(at.X-signCross, at.Y+signCross, at.X+signCross, at.Y-signCross, sheet.Solid(sheet.Medium))
	default:
		c.Circle(at.X, at.Y, signRound, sheet.Both(sheet.Solid(sheet.Medium), sheet.White))
	}
}
