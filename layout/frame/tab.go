package frame

import (
	"slices"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

// Sizes of a thumb tab, mm: it ends where printers still print.
const (
	tabWide = 5.5
	tabGap  = 1.5 // between the places of two tabs
	tabPad  = 1.6 // before and after its word
	mostTab = 30.0
)

// tabsOf lists the groups of the pages in order; each has a place at the edge.
func tabsOf(pages []Page) []string {
	var out []string
	for _, p := range pages {
		for _, t := range p.Tabs {
			if !slices.Contains(out, t) {
				out = append(out, t)
			}
		}
	}
	return out
}

// drawTabs draws the tabs of a sheet, each at its group's place among all, so that they step down
// the edge of the bound packet. A word that is longer than its place reaches over those beside it,
// but never over a tab that the sheet has too.
func (f Frame) drawTabs(c *sheet.Canvas, own, all []string) {
	high := min(f.Line.H/float64(len(all)), mostTab)
	has := func(i int) bool { return i >= 0 && i < len(all) && slices.Contains(own, all[i]) }
	for i, t := range all {
		if !has(i) {
			continue
		}
		at := sheet.Rect{X: f.Line.Right(), Y: f.Line.Y + high*float64(i), W: tabWide, H: high - tabGap}
		if more := typeface.Width(t, sheet.Bold, sheet.SizeNote) + 2*tabPad - at.H; more > 0 && !has(i+1) {
			at.H += more
			at.Y = min(at.Y, f.Line.Bottom()-at.H)
		}
		f.drawTab(c, t, at)
	}
}

func (f Frame) drawTab(c *sheet.Canvas, word string, r sheet.Rect) {
	c.Rect(r.X, r.Y, r.W, r.H, sheet.Filled(sheet.Ink))
	style := sheet.Strong(sheet.SizeNote).In(sheet.White).At(sheet.Centre)
	style.Turn = -90
	half := style.Size * typeface.CapHeight / 2
	c.Text(r.X+r.W/2-half, r.Y+r.H/2, typeface.Fit(word, style.Face, style.Size, r.H-2*tabPad), style)
}
