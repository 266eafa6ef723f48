package layout

import (
	"slices"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/sheet"
)

// stackGap is what lies between two groups on one sheet, with a rule in its middle, mm.
const stackGap = 7

// stacked puts groups one after the other. One that is a single sheet, and whose content finds room
// under that of the sheet before, goes there: small groups share a sheet. It gives the pages, and
// the number of the sheet on which each group begins.
func stacked(groups [][]frame.Page) (pages []frame.Page, starts []int) {
	for _, g := range groups {
		if n := len(pages); n > 0 && len(g) == 1 && room(pages[n-1], g[0]) {
			pages[n-1] = under(pages[n-1], g[0])
			starts = append(starts, n)
			continue
		}
		starts = append(starts, len(pages)+1)
		pages = append(pages, g...)
	}
	return pages, starts
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
	var c sheet.Canvas
	c.Add(p.Marks...)
	body := p.Frame.Body
	c.Line(body.X, p.Bottom+stackGap/2-1, body.Right(), p.Bottom+stackGap/2-1, sheet.Solid(sheet.Medium))
	dy := p.Bottom + stackGap - q.Frame.Body.Y
	c.Add(sheet.Move(q.Marks, body.X-q.Frame.Body.X, dy)...)
	p.Marks, p.Bottom = c.Marks, q.Bottom+dy
	p.Also = append(slices.Clip(p.Also), heading(q))
	p.Title += " · " + q.Title
	p.Groups = append(slices.Clip(p.Groups), q.Groups...)
	p.Tabs = append(slices.Clip(p.Tabs), q.Tabs...)
	return p
}
