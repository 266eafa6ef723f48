package layout

import (
	"slices"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/sheet"
)

// stackGap is what lies between two groups on one sheet, with a rule in its middle, mm.
const stackGap = 7

// leastBegun is how much room is left at least for a group of several sheets to begin on that of the one
// before, mm.
const leastBegun = 60

// stack is a group of sheets as it is laid out alone, and how it is with its first sheet begun further down.
type stack struct {
	pages []frame.Page
	again func(above float64) []frame.Page // nil where it always begins a sheet
}

// stacked puts groups one after the other. One that is a single sheet, and whose content finds room
// under that of the sheet before, goes there; one of several begins there where that saves a sheet. It
// gives the pages, and the number of the sheet on which each group begins.
func stacked(groups []stack) (pages []frame.Page, starts []int) {
	for _, g := range groups {
		n := len(pages)
		switch {
		case n > 0 && len(g.pages) == 1 && room(pages[n-1], g.pages[0]):
			pages[n-1] = under(pages[n-1], g.pages[0])
			starts = append(starts, n)
		case n > 0 && g.saves(pages[n-1]):
			begun := g.again(above(pages[n-1]))
			pages[n-1] = joined(pages[n-1], begun[0], begun[0].Marks, begun[0].Bottom)
			pages = append(pages, begun[1:]...)
			starts = append(starts, n)
		default:
			starts = append(starts, n+1)
			pages = append(pages, g.pages...)
		}
	}
	return pages, starts
}

// above is how far down its body a page is filled, with the space under it.
func above(p frame.Page) float64 { return p.Bottom + stackGap - p.Frame.Body.Y }

// saves tells whether a group is a sheet shorter where it begins on that of the group before.
func (g stack) saves(p frame.Page) bool {
	if g.again == nil || len(g.pages) < 2 || p.Bottom == 0 || p.Frame.Lying() || p.Frame.First || g.pages[0].Frame.Lying() {
		return false
	}
	if p.Frame.Body.H-above(p) < leastBegun {
		return false
	}
	begun := g.again(above(p))
	return len(begun) <= len(g.pages) && begun[0].Bottom > 0
}

// room tells whether a page's content fits under that of another.
func room(p, q frame.Page) bool {
	if p.Bottom == 0 || q.Bottom == 0 || p.Frame.Lying() != q.Frame.Lying() || p.Frame.W != q.Frame.W {
		return false
	}
	return p.Bottom+stackGap+q.Bottom-q.Frame.Body.Y <= p.Frame.Body.Bottom()
}

// under sets a page's content under that of another.
func under(p, q frame.Page) frame.Page {
	dy := p.Bottom + stackGap - q.Frame.Body.Y
	return joined(p, q, sheet.Move(q.Marks, p.Frame.Body.X-q.Frame.Body.X, dy), q.Bottom+dy)
}

// joined is a page with the marks of another under its own, a rule between them.
func joined(p, q frame.Page, marks []sheet.Mark, bottom float64) frame.Page {
	var c sheet.Canvas
	c.Add(p.Marks...)
	body := p.Frame.Body
	c.Line(body.X, p.Bottom+stackGap/2-1, body.Right(), p.Bottom+stackGap/2-1, sheet.Solid(sheet.Medium))
	c.Add(marks...)
	p.Marks, p.Bottom = c.Marks, bottom
	p.Also = append(slices.Clip(p.Also), heading(q))
	p.Title += " · " + q.Title
	p.Groups = append(slices.Clip(p.Groups), q.Groups...)
	p.Tabs = append(slices.Clip(p.Tabs), q.Tabs...)
	return p
}
