package frame

import (
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

// Heading sets the title and a line under it at the top of the body, or under what is taken of it; both
// wrap. It gives the body that is left. An empty subtitle takes no room.
func (f Frame) Heading(c *sheet.Canvas, title, subtitle string) sheet.Rect {
	y := f.Body.Y + f.Taken
	for _, s := range typeface.Wrap(title, sheet.Bold, sheet.SizeTitle, f.Body.W) {
		c.Text(f.Body.X, y+sheet.SizeTitle*typeface.CapHeight, s, sheet.Strong(sheet.SizeTitle))
		y += sheet.SizeTitle * 1.2
	}
	if subtitle != "" {
		y = Paragraph(c, sheet.Rect{X: f.Body.X, Y: y, W: f.Body.W}, subtitle, sheet.Plain(sheet.SizeBody).In(sheet.Grey))
	}
	return f.Body.Below(y + 2.5)
}

// Running is the heading of a further sheet of a kind: smaller, and without a subtitle.
func (f Frame) Running(c *sheet.Canvas, title string) sheet.Rect {
	const size = sheet.SizeHead
	y := f.Body.Y
	for _, s := range typeface.Wrap(title, sheet.Bold, size, f.Body.W) {
		c.Text(f.Body.X, y+size*typeface.CapHeight, s, sheet.Strong(size))
		y += size * 1.2
	}
	return f.Body.Below(y + 1.5)
}

// Paragraph sets wrapped text from the top left of an area and gives the height
// where it ends; it may reach below the area, so compare.
func Paragraph(c *sheet.Canvas, r sheet.Rect, s string, style sheet.Style) (bottom float64) {
	y := r.Y
	for _, line := range typeface.Wrap(s, style.Face, style.Size, r.W) {
		c.Text(r.X, y+style.Size*typeface.CapHeight+style.Size*0.12, line, style)
		y += style.Size * typeface.Leading
	}
	return y
}

// Page is one sheet before it is numbered.
type Page struct {
	Frame  Frame
	Title  string   // document type in the title block, and the bookmark
	Group  string   // bookmark of the level above; "" for none
	Also   []string // further bookmarks: what stands under the first on this sheet
	Groups []string // the groups of sheets that it belongs to
	Tabs   []string // their thumb tabs
	Bare   bool     // no frame and no title block: it is printed on what is labelled
	Bottom float64  // where what stands on it ends, so that more may follow; 0: nothing may
	Marks  []sheet.Mark
}

// Bind numbers the pages and draws their frames; b holds what all sheets share.
func Bind(pages []Page, b Block) []sheet.Sheet {
	sheets := make([]sheet.Sheet, 0, len(pages))
	b.Of = len(pages)
	tabs := tabsOf(pages)
	for i, p := range pages {
		b.Sheet, b.Type = i+1, p.Title
		var c sheet.Canvas
		c.Add(p.Marks...)
		if !p.Bare {
			p.Frame.Draw(&c, b)
			p.Frame.drawTabs(&c, p.Tabs, tabs)
		}
		sheets = append(sheets, sheet.Sheet{W: p.Frame.W, H: p.Frame.H, Title: p.Title, Group: p.Group, Also: p.Also, No: i + 1, Marks: c.Marks})
	}
	return sheets
}

// Place is where an anchor stands, for references such as "sheet 7, C3".
type Place struct {
	Sheet int // from 1
	Zone  string
}

// Places finds the anchors of all pages, by name.
func Places(pages []Page) map[string]Place {
	places := map[string]Place{}
	for i, p := range pages {
		for _, m := range p.Marks {
			if a, ok := m.(sheet.Anchor); ok {
				places[a.Name] = Place{i + 1, p.Frame.Zone(a.X, a.Y)}
			}
		}
	}
	return places
}
