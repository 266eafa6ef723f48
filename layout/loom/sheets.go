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
	last := &parts[len(parts)-1]
	under := func() sheet.Rect {
		return sheet.Rect{X: b.Room.X, Y: last.Area.Bottom() + last.below() + 1.5, W: b.Room.W}
	}
	var unseen sheet.Canvas
	a.raise(b, parts, a.legend(&unseen, parts, under())-b.Frame.Body.Bottom())
	for i := range parts {
		a.paint(&b.C, &parts[i])
	}
	bottom := a.legend(&b.C, parts, under())
	b.Down(bottom + listGap - b.Room.Y)
}

// raise moves parts up by what their legend reaches over the foot, as far as the heading of a further
// sheet, which is lower than that of the first, leaves room.
func (a drawer) raise(b *page.Book, parts []Drawing, over float64) {
	up := min(over, parts[0].Area.Y-parts[0].above()-b.Room.Y)
	if up <= 0 {
		return
	}
	for i := range parts {
		parts[i].shift(0, -up)
		parts[i].Area.Y -= up
	}
}
