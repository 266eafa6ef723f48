// Package feeds draws what feeds what: supplies, panels and bars as rails from which their
// circuits hang, one line a circuit, with its fuse and where its diagram is.
//
// In: the model, the results, and where the diagrams stand. Out: upright sheets in three
// columns, filled from the top and evenly, so that other sheets' content may follow below. A
// rail that is fed by a circuit names it, and that circuit names the rail, so a person
// follows the supply from the battery to the last panel without a line between them.
package feeds

import (
	"fmt"
	"math"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

// Anchor leads to the first of the sheets.
const Anchor = "sheet/feeds"

const (
	title    = "What feeds what"
	subtitle = "Each circuit's first fuse, and sheet and zone of its diagram; → names the rail fed from there"
)

// Sizes, mm.
const (
	columns = 3
	gutter  = 3.6
	railGap = 2.4 // between two rails of a column
)

// Feeds are the sheets; the remark, if any, stands under the heading. There are none for a
// single circuit.
func Feeds(a page.Ask, remark string) []frame.Page {
	t := treeOf(a)
	rails := t.rails()
	if len(a.H.Circuits) < 2 || len(rails) == 0 {
		return nil
	}
	f := a.Upright()
	first := f
	first.Body = f.Body.Below(f.Body.Y + f.Taken)
	var c sheet.Canvas
	c.Anchor(Anchor, first.Body.X, first.Body.Y)
	body := head(&c, first, remark)
	p := painter{t: t, wide: (body.W - gutter*(columns-1)) / columns}
	blocks := p.blocks(rails)
	var pages []frame.Page
	for len(blocks) > 0 {
		placed, rest, bottom := fill(blocks, body)
		for _, b := range placed {
			p.draw(&c, b)
		}
		blocks = rest
		pages = append(pages, frame.Page{Frame: f, Title: title, Marks: c.Marks, Bottom: bottom})
		c = sheet.Canvas{}
		if len(rest) > 0 {
			body = f.Running(&c, title+", continued")
		}
	}
	return numbered(pages)
}

// head sets the title with the subtitle beside it, low, so that the sheet finds room under the
// cover; the remark stands below.
func head(c *sheet.Canvas, f frame.Frame, remark string) sheet.Rect {
	body := f.Running(c, title)
	room := body.W - typeface.Width(title, sheet.Bold, sheet.SizeHead) - 4
	words := []string{remark}
	if typeface.Width(subtitle, sheet.Regular, sheet.SizeNote) <= room {
		c.Text(body.Right(), f.Body.Y+sheet.SizeHead*typeface.CapHeight, subtitle, page.Quiet().At(sheet.Right))
	} else {
		words = []string{subtitle, remark}
	}
	for _, s := range words {
		if s != "" {
			body = body.Below(frame.Paragraph(c, body, s, page.Quiet()) + 0.6)
		}
	}
	return body
}

// numbered tells several sheets apart.
func numbered(pages []frame.Page) []frame.Page {
	if len(pages) > 1 {
		for i := range pages {
			pages[i].Title, pages[i].Group = fmt.Sprintf("%s, %d of %d", title, i+1, len(pages)), title
		}
	}
	return pages
}

// block is the rail, or what is left of it, in a column.
type block struct {
	rail
	again bool // it began in an earlier column
	highs []float64
	head  float64
	at    sheet.Rect
}

func (b block) high() float64 {
	h := b.head
	for _, r := range b.highs {
		h += r
	}
	return h
}

// fill puts blocks into the columns of one sheet: all of them in columns as low as may be,
// or as many as the sheet holds.
func fill(blocks []block, body sheet.Rect) (placed, rest []block, bottom float64) {
	for high := 10.0; ; high++ {
		high = math.Min(high, body.H)
		placed, rest, bottom = pour(blocks, sheet.Rect{X: body.X, Y: body.Y, W: body.W, H: high})
		if len(rest) == 0 || high >= body.H {
			return placed, rest, bottom
		}
	}
}

// leastRows is how many rows of a rail stay together where it is parted.
const leastRows = 2

// pour fills columns one after another.
func pour(blocks []block, area sheet.Rect) (placed, rest []block, bottom float64) {
	wide := (area.W - gutter*(columns-1)) / columns
	column, y := 0, area.Y
	for i := 0; i < len(blocks); i++ {
		b := blocks[i]
		n := b.upTo(area.Bottom() - y)
		if n < len(b.rows) && n < leastRows && y > area.Y {
			if column, y = column+1, area.Y; column == columns {
				return placed, blocks[i:], bottom
			}
			i--
			continue
		}
		n = max(n, min(1, len(b.rows)))
		now, later := b.parted(n)
		now.at = sheet.Rect{X: area.X + float64(column)*(wide+gutter), Y: y, W: wide, H: now.high()}
		placed = append(placed, now)
		y += now.high() + railGap
		bottom = math.Max(bottom, y-railGap)
		if len(later.rows) == 0 {
			continue
		}
		rest = append([]block{later}, blocks[i+1:]...)
		if column, y = column+1, area.Y; column == columns {
			return placed, rest, bottom
		}
		blocks, i, rest = rest, -1, nil
	}
	return placed, nil, bottom
}

// upTo is how many rows a height holds under the heading; none of them is the last above
// what is fed through it.
func (b block) upTo(room float64) int {
	high := b.head
	for i, r := range b.highs {
		if high += r; high > room+1e-6 {
			for i > 0 && b.rows[i].deep > b.rows[i-1].deep {
				i--
			}
			return i
		}
	}
	return len(b.rows)
}

// parted gives the first rows of a rail, and what goes on in another column.
func (b block) parted(n int) (now, later block) {
	now, later = b, b
	now.rows, now.highs = b.rows[:n], b.highs[:n]
	later.rows, later.highs, later.again, later.head = b.rows[n:], b.highs[n:], true, againHigh
	return now, later
}
