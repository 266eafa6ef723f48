package bench

import (
	"math"
	"slices"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
)

// Sizes of a card, mm.
const (
	leastCard   = 80.0
	cardGap     = 2.2
	cardPad     = 1.8
	boxRoom     = 5.6
	holdGap     = 0.2  // under a line with a box
	leastBeside = 46.0 // of wires beside a photograph
)

// joint is a card of one splice, or of a part of it where it has very many wires.
type joint struct {
	a             page.Ask
	part          *harness.Part
	title         string
	pair          colour.Pair // of all its wires; none where they differ
	wires         []joined
	holds         []string
	cares         []string
	whole         float64 // width of the title
	width         float64 // of what stands under it, beside a photograph
	photo         page.Photo
	sizeAt, farAt float64 // where sizes and far ends begin
	boxes         bool
	anchor        string
}

// joined is a wire in a splice: a line, and a second one for what finds no room on it.
type joined struct {
	wire                harness.WireID
	name, size, far     string
	plain, side         string
	sizeAt, farAt       float64
	plainHere, sideHere bool
	stop, under         []string // the lines of the far end, and those under them
}

// spliceCards gives a splice's card, or several where it has more wires than stand on a sheet.
func spliceCards(a page.Ask, s fitted.Splice, k alike, wide, most float64) []page.Card {
	p := &a.H.Parts[s.Part]
	j := joint{a: a, part: p, title: page.List(", ", page.Called(p), s.Where), whole: wide - 2*cardPad, holds: holds(a, s, k), cares: cares(a, s), boxes: a.For != page.Customer, anchor: "splice/" + p.Ref, photo: a.PhotoOf(p)}
	j.pair = onePair(a, s.Wires)
	for _, side := range sides(a, s) {
		for _, w := range side.wires {
			j.wires = append(j.wires, j.joined(w, side.toward))
		}
	}
	j.align()
	j = j.within(j.whole)
	var cards []page.Card
	for _, part := range j.parted(most) {
		cards = append(cards, page.Card{High: part.high(), Draw: part.draw})
	}
	return cards
}

// onePair is the colour that all wires have; none where they differ.
func onePair(a page.Ask, wires []harness.WireID) colour.Pair {
	for _, w := range wires {
		if a.Pair(w) != a.Pair(wires[0]) {
			return colour.Pair{}
		}
	}
	return a.Pair(wires[0])
}

func (j joint) joined(w harness.WireID, toward string) joined {
	wire := &j.a.H.Wires[w]
	far := wire.To
	if j.a.H.Terminals[wire.From].Part != j.part.ID {
		far = wire.From
	}
	_, plain := j.a.Stop(far)
	out := joined{wire: w, name: page.Firm(wire.Name), size: page.Firm(j.a.Gauge(w)), far: page.FarStop(j.a, far), plain: plain, side: "ends here"}
	if toward != "" {
		out.side = "→ " + toward
	}
	if j.pair.Base == "" {
		out.size = page.List(" ", j.a.Pair(w).String(), out.size)
	}
	return out
}

// align gives the wires' names, sizes and far ends common edges.
func (j *joint) align() {
	name, size := 0.0, 0.0
	for _, w := range j.wires {
		name = math.Max(name, typeface.Width(w.name, sheet.Bold, sheet.SizeBody)+2)
		size = math.Max(size, typeface.Width(w.size, sheet.Regular, sheet.SizeBody)+2)
	}
	j.sizeAt, j.farAt = name, name+size
}

// within is the joint with its wires set for a width: what stands on which line.
func (j joint) within(width float64) joint {
	j.width, j.wires = width, slices.Clone(j.wires)
	for i := range j.wires {
		j.wires[i].settle(j.sizeAt, j.farAt, width)
	}
	return j
}

// settle decides what stands beside the far end and what under it.
func (w *joined) settle(sizeAt, farAt, width float64) {
	w.sizeAt, w.farAt = sizeAt, farAt
	note := func(s string) float64 { return typeface.Width(s, sheet.Regular, sheet.SizeNote) + 1.8 }
	w.stop = typeface.Wrap(w.far, sheet.Regular, sheet.SizeBody, width-farAt)
	free := width - farAt - typeface.Width(w.stop[len(w.stop)-1], sheet.Regular, sheet.SizeBody)
	if w.sideHere = len(w.stop) == 1 && note(w.side) <= free; w.sideHere {
		free -= note(w.side)
	}
	w.plainHere = w.plain == "" || len(w.stop) == 1 && note(w.plain) <= free
	var under []string
	if !w.plainHere {
		under = append(under, w.plain)
	}
	if !w.sideHere {
		under = append(under, w.side)
	}
	w.under = typeface.Wrap(page.List("; ", under...), sheet.Regular, sheet.SizeNote, width-farAt)
	if len(under) == 0 {
		w.under = nil
	}
}

func (w joined) high() float64 {
	return page.LineHigh*float64(len(w.stop)) + page.NoteHigh*float64(len(w.under))
}

// parted cuts a joint that is higher than a sheet into several.
func (j joint) parted(most float64) []joint {
	if j.high() <= most || len(j.wires) < 2 {
		return []joint{j}
	}
	head, n := j.first(1), 1
	for n+1 < len(j.wires) && j.first(n+1).high() <= most {
		n++
		head = j.first(n)
	}
	rest := j
	rest.wires, rest.anchor, rest.title, rest.photo = j.wires[n:], "", "continued", page.Photo{}
	return append([]joint{head}, rest.parted(most)...)
}

// first is a joint of so many of its wires alone.
func (j joint) first(n int) joint {
	j.holds, j.cares, j.wires = nil, nil, j.wires[:n]
	return j
}

func (j joint) high() float64 { return 1 + j.head() + j.beside().High + 1.2 }

// head is the height of the title.
func (j joint) head() float64 { return page.TitleHigh(j.part.Ref, j.title, j.titleWide()) + 0.6 }

// beside is what stands under the title, with the photograph.
func (j joint) beside() page.Beside {
	return j.photo.Beside(j.whole, leastBeside, func(w float64) float64 { return j.within(w).body() })
}

// body is the height of what stands under the title.
func (j joint) body() float64 {
	high := 0.0
	for _, w := range j.wires {
		high += w.high()
	}
	for _, text := range j.holds {
		high += page.TextHeight(text, sheet.Plain(sheet.SizeBody), j.width-j.boxWide()) + holdGap
	}
	for _, text := range j.cares {
		high += page.TextHeight(text, sheet.Strong(sheet.SizeBody), j.width-j.boxWide())
	}
	return high
}

func (j joint) boxWide() float64 {
	if j.boxes {
		return boxRoom
	}
	return 0
}

// titleWide is the room of the title beside the swatch with its letters.
func (j joint) titleWide() float64 {
	if j.pair.Base == "" {
		return j.whole
	}
	return j.whole - typeface.Width(j.pair.String(), sheet.Bold, sheet.SizeBody) - 10
}

func (j joint) draw(c *sheet.Canvas, r sheet.Rect) {
	c.RoundRect(r.X, r.Y, r.W, r.H, 1.5, sheet.Outline(sheet.Solid(sheet.Thin)))
	if j.anchor != "" {
		c.Anchor(j.anchor, r.X, r.Y)
	}
	at := sheet.Rect{X: r.X + cardPad, Y: r.Y + 1, W: j.whole, H: r.H}
	page.Title(c, sheet.Rect{X: at.X, Y: at.Y, W: j.titleWide()}, j.part.Ref, j.title)
	if link := j.a.Link("part/" + j.part.Ref); link != "" {
		c.Link(sheet.Rect{X: at.X, Y: at.Y, W: j.titleWide(), H: j.head() - 0.6}, link)
	}
	if j.pair.Base != "" {
		base := at.Y + sheet.SizeHead*typeface.CapHeight + 0.5
		c.Text(at.Right(), base, j.pair.String(), sheet.Strong(sheet.SizeBody).At(sheet.Right))
		page.Swatch(c, sheet.Rect{X: at.X + j.titleWide() + 1, Y: base - 2.9, W: 8, H: 3.2}, j.pair)
	}
	at = at.Below(at.Y + j.head())
	photo := j.beside()
	photo.Draw(c, at)
	at.W = photo.Wide
	j.within(photo.Wide).drawBody(c, at)
}

// drawBody sets the wires, and under them what holds them.
func (j joint) drawBody(c *sheet.Canvas, at sheet.Rect) {
	for _, w := range j.wires {
		w.draw(c, j.a, sheet.Rect{X: at.X, Y: at.Y, W: at.W, H: w.high()})
		at = at.Below(at.Y + w.high())
	}
	j.drawHolds(c, at.Below(at.Y+0.4))
}

func (w joined) draw(c *sheet.Canvas, a page.Ask, r sheet.Rect) {
	base := r.Y + page.LineHigh*0.5 + sheet.SizeBody*typeface.CapHeight/2
	c.Text(r.X, base, w.name, sheet.Strong(sheet.SizeBody))
	c.Text(r.X+w.sizeAt, base, w.size, sheet.Plain(sheet.SizeBody))
	for i, line := range w.stop {
		c.Text(r.X+w.farAt, base+page.LineHigh*float64(i), line, sheet.Plain(sheet.SizeBody))
	}
	if w.plainHere && w.plain != "" {
		c.Text(r.X+w.farAt+typeface.Width(w.far, sheet.Regular, sheet.SizeBody)+1.6, base, w.plain, page.Quiet())
	}
	if w.sideHere {
		c.Text(r.Right(), base, w.side, sheet.Plain(sheet.SizeNote).At(sheet.Right))
	}
	base += page.LineHigh * float64(len(w.stop)-1)
	for i, line := range w.under {
		c.Text(r.X+w.farAt, base+page.NoteHigh*float64(i+1), line, page.Quiet())
	}
	if link := a.Link("wire/" + a.H.Wires[w.wire].Name); link != "" {
		c.Link(r, link)
	}
}

// drawHolds sets what holds the joint, each line with its box, and what is to be seen to.
func (j joint) drawHolds(c *sheet.Canvas, at sheet.Rect) {
	at.X, at.W = at.X+j.boxWide(), at.W-j.boxWide()
	for _, text := range j.holds {
		if j.boxes {
			box := table.TickBox()
			box.Draw(c, sheet.Rect{X: at.X - j.boxWide(), Y: at.Y + (page.LineHigh-box.H)/2, W: box.W, H: box.H})
		}
		at = at.Below(frame.Paragraph(c, at, text, sheet.Plain(sheet.SizeBody)) + holdGap)
	}
	for _, text := range j.cares {
		at = at.Below(frame.Paragraph(c, at, text, sheet.Strong(sheet.SizeBody)))
	}
}
