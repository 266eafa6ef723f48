package loom

import (
	"slices"
	"strings"

	"example.com/loomfolio/layout/loom/laid"

	"example.com/loomfolio/layout/loom/branch"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/harness"
)

const mapTitle = "Loom map and runs"

// claimed are the sides that some part of the map names.
func claimed(parts []Drawing) (c branch.Claims) {
	for _, d := range parts {
		c.Front, c.Rear = c.Front || d.Front, c.Rear || d.Rear
		c.Left, c.Right = c.Left || d.Left, c.Right || d.Right
	}
	return c
}

// sided tells whether the description says of any place where it lies.
func (a drawer) sided() bool {
	return slices.ContainsFunc(a.H.Places, func(p harness.Place) bool { return p.Lies != 0 })
}

// mapSays stands under the title: what lies where, and the places that no run reaches.
func (a drawer) mapSays(c branch.Claims) string {
	says := ""
	if c.Front || c.Rear {
		says += "Front is at the left. "
	}
	if c.Left || c.Right {
		says += "As seen from above: what lies left on the vehicle is drawn lower. "
	}
	says += "Each letter is a run of the list."
	if lonely := a.unreached(); len(lonely) > 0 {
		says += " No run reaches: " + strings.Join(lonely, "; ") + "."
	}
	return says
}

// unreached are the places that no run reaches, with what sits there.
func (a drawer) unreached() []string {
	reached := make([]bool, len(a.H.Places))
	for _, r := range a.H.Runs {
		reached[r.From], reached[r.To] = true, true
	}
	var lonely []string
	for i, p := range a.H.Places {
		if parts, splices := a.Parts(p.ID); !reached[i] {
			name := p.Name
			for _, part := range append(parts, splices...) {
				name += " " + part.Ref
			}
			lonely = append(lonely, name)
		}
	}
	return lonely
}

// Sheets are the sheets of the loom: the map, and under it, or on sheets of its own where
// it does not fit, the list of the runs.
func Sheets(a page.Ask, parts []Drawing) []frame.Page {
	if len(parts) == 0 {
		return nil
	}
	d := drawer{Words: laid.Words{Ask: a}}
	b := page.Open(a.Landscape(), mapTitle, "sheet/loom", d.mapSays(claimed(parts)))
	for i, some := range bySheet(parts) {
		if i > 0 {
			b.Turn()
		}
		d.sheetOf(b, some)
	}
	d.list(b)
	return b.Close()
}

// bySheet groups parts by the sheet that they stand on.
func bySheet(parts []Drawing) [][]Drawing {
	var out [][]Drawing
	start := 0
	for i := range parts {
		if i+1 == len(parts) || parts[i+1].sheet != parts[i].sheet {
			out = append(out, parts[start:i+1])
			start = i + 1
		}
	}
	return out
}

// sheetOf paints the parts that stand on one sheet, and their legend.
func (a drawer) sheetOf(b *page.Book, parts []Drawing) {
	for i := range parts {
		a.paint(&b.C, &parts[i])
	}
	bottom := a.legend(&b.C, parts, under(parts, b.Room))
	b.Down(bottom + listGap - b.Room.Y)
}

// under is where the legend of a sheet's parts begins.
func under(parts []Drawing, room sheet.Rect) sheet.Rect {
	last := &parts[len(parts)-1]
	return sheet.Rect{X: room.X, Y: last.Area.Bottom() + last.below() + 1.5, W: room.W}
}
