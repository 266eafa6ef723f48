package loom

import (
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
)

// Sheets are the sheets of the loom: the map, and under it, or on sheets of its own where
// it does not fit, the list of the runs.
func Sheets(a page.Ask, parts []Drawing) []frame.Page {
	if len(parts) == 0 {
		return nil
	}
	d := drawer{Ask: a}
	b := page.Open(a.Landscape(), mapTitle, "sheet/loom", d.mapSays())
	for i := 0; i < len(parts); {
		n := 1
		for i+n < len(parts) && parts[i+n].sheet == parts[i].sheet {
			n++
		}
		if i > 0 {
			b.Turn()
		}
		d.sheetOf(b, parts[i:i+n])
		i += n
	}
	d.list(b)
	return b.Close()
}

// sheetOf paints the parts that stand on one sheet, and their legend.
func (a drawer) sheetOf(b *page.Book, parts []Drawing) {
	for i := range parts {
		a.paint(&b.C, &parts[i])
	}
	last := &parts[len(parts)-1]
	top := last.area.Bottom() + last.below() + 1.5
	bottom := a.legend(&b.C, parts, sheet.Rect{X: b.Room.X, Y: top, W: b.Room.W})
	b.Down(bottom + listGap - b.Room.Y)
}
