package fusemap

import (
	"fmt"
	"math"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

// card is one fuse as it is drawn on the fuse map.
type card struct {
	anchor  string
	number  string // position in its panel, or the reference of an in-line fuse
	place   string // of an in-line fuse
	fuse    page.Fuse
	feeds   []string // plain names of what it feeds
	works   []string // what it works through relays
	foot    []string // quiet lines at the foot
	never   string   // the last line, in bold
	spare   bool
	none    bool // no position here
	short   bool // what it runs at and its thinnest wire are left to the list
	stacked bool // the number stands over the fuse, not beside it
}

// Sizes inside a card, mm.
const (
	cardPad   = 2.4
	bodyHigh  = 11.5
	bodyWide  = 23.0
	spareHigh = 22.0
	mostRows  = 4    // lines of what a fuse feeds; the list at the end has the whole
	mostNames = 4    // names in them
	wideCard  = 55.0 // from this width on there are fewer, longer lines
)

// pad, body and gap are the room above and below, the fuse's height and the room
// between the parts of a card; a short card is tighter.
func (c card) pad() float64 { return c.less(cardPad, 1.9) }

func (c card) body() float64 { return c.less(bodyHigh, 9.5) }

func (c card) gap() float64 { return c.less(1.2, 0.7) }

func (c card) less(usual, short float64) float64 {
	if c.short {
		return short
	}
	return usual
}

func (c card) inner(w float64) float64 { return w - 2*cardPad }

// headHigh is the height of number and fuse: side by side where there is room.
func (c card) headHigh() float64 {
	if !c.stacked {
		return c.body()
	}
	return c.body() + 6
}

// beside tells whether the number finds room left of the fuse.
func (c card) beside(w float64) bool {
	number := typeface.Width(c.number, sheet.Bold, sheet.SizeHead)
	return number+1.5 <= (c.inner(w)-c.wide(w))/2
}

func (c card) wide(w float64) float64 { return math.Min(c.less(bodyWide, 19.4), c.inner(w)*0.72) }

// fed are the lines of what the fuse feeds, and how many names found no room.
func (c card) fed(w float64) (lines []string, left int) {
	rows := mostRows
	if len(c.works) > 0 || w > wideCard || c.short {
		rows--
	}
	return few(c.feeds, rows, sheet.Strong(sheet.SizeBody), c.inner(w))
}

// through are the quiet lines of what the fuse works through relays, and that there is more than stands here.
func (c card) through(w float64) []string {
	_, left := c.fed(w)
	style := sheet.Plain(sheet.SizeNote)
	lines, over := few(c.works, 2, style, c.inner(w))
	if c.short && (left+over > 0 || len(lines) > 1) {
		lines, over = nil, len(c.works)
	}
	if left += over; left > 0 {
		lines = append(lines, typeface.Wrap(fmt.Sprintf("and %d more, see the list", left), style.Face, style.Size, c.inner(w))...)
	}
	return lines
}

// few wraps as many of the names as so many lines hold, the first one at least as
// far as it goes, and counts those that do not stand there whole.
func few(names []string, rows int, st sheet.Style, width float64) (lines []string, left int) {
	for n := min(len(names), mostNames); n > 0; n-- {
		lines = typeface.Wrap(strings.Join(names[:n], ", "), st.Face, st.Size, width)
		if len(lines) <= rows {
			return lines, len(names) - n
		}
	}
	if len(lines) > rows {
		lines = append(lines[:rows-1:rows-1], typeface.Fit(lines[rows-1]+" …", st.Face, st.Size, width))
		return lines, len(names)
	}
	return nil, 0
}

// feet are the quiet lines, wrapped.
func (c card) feet(w float64) []string {
	var lines []string
	if c.short {
		return nil
	}
	foot := c.foot
	if w > wideCard {
		foot = []string{strings.Join(foot, "; ")}
	}
	for _, f := range foot {
		lines = append(lines, typeface.Wrap(f, sheet.Regular, sheet.SizeNote, c.inner(w))...)
	}
	return lines
}

// high is the height that a card needs at a width.
func (c card) high(w float64) float64 {
	const body, note = sheet.SizeBody * typeface.Leading, sheet.SizeNote * typeface.Leading
	switch {
	case c.none:
		return 0
	case c.spare:
		return spareHigh
	}
	h := 2*c.pad() + c.headHigh() + c.gap()
	h += page.TextHeight(c.fuse.BodyWords(), sheet.Plain(sheet.SizeNote), c.inner(w))
	h += page.TextHeight(c.place, sheet.Plain(sheet.SizeNote), c.inner(w))
	fed, _ := c.fed(w)
	h += c.gap() + body*float64(len(fed)) + note*float64(len(c.through(w)))
	h += c.gap() + note*float64(len(c.feet(w)))
	return h + c.neverHigh(w)
}

// neverHigh is the height of the last line.
func (c card) neverHigh(w float64) float64 {
	return page.TextHeight(c.never, sheet.Strong(sheet.SizeBody), c.inner(w))
}

// draw puts the card in an area at least as high as it needs.
func (c card) draw(canvas *sheet.Canvas, r sheet.Rect) {
	if c.none {
		return
	}
	if c.anchor != "" {
		canvas.Anchor(c.anchor, r.X, r.Y)
	}
	edge := sheet.Solid(sheet.Medium)
	if c.spare {
		edge = sheet.Dashed(sheet.Thin, 1.5, 1)
	}
	canvas.RoundRect(r.X, r.Y, r.W, r.H, 1.8, sheet.Both(edge, sheet.White))
	in := sheet.Rect{X: r.X + cardPad, Y: r.Y + c.pad(), W: c.inner(r.W), H: r.H - 2*c.pad()}
	canvas.Text(in.X, in.Y+sheet.SizeHead*typeface.CapHeight, c.number, sheet.Strong(sheet.SizeHead))
	if c.spare {
		empty(canvas, sheet.Rect{X: r.X + r.W/2 - c.wide(r.W)/2, Y: in.Y, W: c.wide(r.W), H: c.body() * 0.8})
		page.Centred(canvas, in.Below(in.Y+c.body()), "spare", sheet.Plain(sheet.SizeBody).In(sheet.Grey))
		return
	}
	c.drawWords(canvas, in, r.W)
}

func (c card) drawWords(canvas *sheet.Canvas, in sheet.Rect, w float64) {
	top := in.Y + c.headHigh() - c.body()
	c.fuse.Draw(canvas, sheet.Rect{X: in.X + in.W/2 - c.wide(w)/2, Y: top, W: c.wide(w), H: c.body()})
	y := in.Y + c.headHigh() + c.gap()
	y = page.Centred(canvas, in.Below(y), c.fuse.BodyWords(), sheet.Plain(sheet.SizeNote))
	if c.place != "" {
		y = page.Centred(canvas, in.Below(y), c.place, sheet.Plain(sheet.SizeNote).In(sheet.Grey))
	}
	fed, _ := c.fed(w)
	y = page.Centred(canvas, in.Below(y+c.gap()), strings.Join(fed, "\n"), sheet.Strong(sheet.SizeBody))
	if lines := c.through(w); len(lines) > 0 {
		page.Centred(canvas, in.Below(y), strings.Join(lines, "\n"), sheet.Plain(sheet.SizeNote))
	}
	feet := c.feet(w)
	bottom := in.Bottom() - float64(len(feet))*sheet.SizeNote*typeface.Leading
	bottom -= c.neverHigh(w)
	if len(feet) > 0 {
		bottom = page.Centred(canvas, in.Below(bottom), strings.Join(feet, "\n"), sheet.Plain(sheet.SizeNote).In(sheet.Grey))
	}
	page.Centred(canvas, in.Below(bottom), c.never, sheet.Strong(sheet.SizeBody))
}

// small draws the position in a panel's plan: number, and the rating on the body's colour.
func (c card) small(canvas *sheet.Canvas, r sheet.Rect) {
	canvas.RoundRect(r.X, r.Y, r.W, r.H, 1, sheet.Outline(sheet.Solid(sheet.Thin)))
	canvas.Text(r.X+r.W/2, r.Y+1+sheet.SizeBody*typeface.CapHeight, c.number, sheet.Strong(sheet.SizeBody).At(sheet.Centre))
	body := sheet.Rect{X: r.X + 1.4, Y: r.Y + 4.6, W: r.W - 2.8, H: r.H - 5.8}
	if c.spare {
		empty(canvas, body)
		return
	}
	shade, _ := page.FuseShade(c.fuse.Colour)
	canvas.RoundRect(body.X, body.Y, body.W, body.H, 1, sheet.Both(sheet.Solid(sheet.Thin), shade))
	rating, st := page.Narrowed(c.fuse.Rating, sheet.Strong(sheet.SizeHead).In(page.OnFill(shade)), body.W-1)
	canvas.Text(body.X+body.W/2, body.Y+body.H/2+st.Size*typeface.CapHeight/2, rating, st.At(sheet.Centre))
}

// empty hatches a position that holds nothing.
func empty(canvas *sheet.Canvas, r sheet.Rect) {
	canvas.RoundRect(r.X, r.Y, r.W, r.H, 1.2, sheet.Outline(sheet.Solid(sheet.Thin)))
	step := r.H * 0.55
	for x := r.X + step*0.8; x < r.Right()-step*0.3; x += step * 0.8 {
		canvas.Line(x, r.Y+r.H*0.85, math.Min(x+step*0.5, r.Right()-0.5), r.Y+r.H*0.15, sheet.Solid(sheet.Hair).In(sheet.Grey))
	}
}
