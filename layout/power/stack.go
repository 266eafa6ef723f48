package power

import (
	"math"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
)

// Sizes of the drawing of a stack, mm.
const (
	axisAt     = 6.8 // of the stud from the left
	halfRing   = 6.0
	ringThick  = 2.2
	barrelEnd  = 9.8  // of the barrel behind a ring, from the stud's axis
	wireEnd    = 12.2 // of the piece of wire in it
	besideIt   = 14.0 // of the words beside it
	overNut    = 1.8  // bolt above the nut
	nutHigh    = 4.6
	nutZone    = 8.0 // bolt, nut and washer
	floorGap   = 1.4
	underZone  = 6.2 // metal and the head of the bolt
	oneLine    = 5.2 // of a ring whose words stand in one line
	linesApart = 1.0
)

// said is what is written beside a ring: the wire, and the load that it grounds.
type said struct {
	wire harness.WireID
	head string
	from []string // further lines; one that begins beside the head where it fits
	same bool
	high float64
}

// drawnStack is the stack of a point with all that stands beside it.
type drawnStack struct {
	a            page.Ask
	star         bool
	coat         bool
	rings        []said // bottom up
	above, below []string
	width        float64 // of the words
}

func stackOf(a page.Ask, g fitted.Ground, wide float64) drawnStack {
	st := drawnStack{a: a, star: star(g), coat: g.Surface == "painted" || g.Surface == "coated", above: above(g), below: below(a, g), width: wide - axisAt - besideIt}
	for _, w := range g.Rings[:min(len(g.Rings), mostDrawn)] {
		st.rings = append(st.rings, saidOf(a, w, g.Part, st.width))
	}
	return st
}

// saidOf words a ring for a width.
func saidOf(a page.Ask, w harness.WireID, part harness.PartID, width float64) said {
	s := said{wire: w, head: page.List(" ", page.Firm(a.H.Wires[w].Name), a.Pair(w).String(), page.Firm(a.Gauge(w)))}
	end := farEnd(a, w, part)
	_, plain := a.Stop(end)
	from := page.List(", ", page.FarStop(a, end), plain)
	free := width - typeface.Width(s.head, sheet.Bold, sheet.SizeBody) - 1.5
	if s.same = typeface.Width(from, sheet.Regular, sheet.SizeNote) <= free; s.same {
		s.from, s.high = []string{from}, oneLine
		return s
	}
	s.from = typeface.Wrap(from, sheet.Regular, sheet.SizeNote, width)
	s.high = sheet.SizeBody*typeface.Leading + float64(len(s.from))*sheet.SizeNote*typeface.Leading + linesApart
	return s
}

// farEnd is a wire's end that is not on the part.
func farEnd(a page.Ask, w harness.WireID, part harness.PartID) harness.TerminalID {
	wire := a.H.Wires[w]
	if a.H.Terminals[wire.From].Part == part {
		return wire.To
	}
	return wire.From
}

func (st drawnStack) top() float64 {
	return math.Max(nutZone, textHigh(st.above, factStyle(), st.width))
}

func (st drawnStack) foot() float64 {
	return math.Max(underZone, textHigh(st.below, factStyle(), st.width))
}

func (st drawnStack) middle() float64 {
	high := 0.0
	for _, r := range st.rings {
		high += r.high
	}
	return math.Max(high, oneLine) + floorGap
}

func (st drawnStack) high() float64 { return st.top() + st.middle() + st.foot() }

// draw sets the stack with the words beside it into the top left of an area.
func (st drawnStack) draw(c *sheet.Canvas, r sheet.Rect) {
	axis, words := r.X+axisAt, sheet.Rect{X: r.X + axisAt + besideIt, Y: r.Y, W: st.width, H: r.H}
	nut := r.Y + st.top() - nutZone
	floor := r.Y + st.top() + st.middle()
	st.bolt(c, axis, nut, floor)
	facts(c, words, st.above)
	y := floor - floorGap
	for _, s := range st.rings {
		y -= s.high
		st.ring(c, axis, y, s)
	}
	st.bodywork(c, axis, floor)
	facts(c, words.Below(floor), st.below)
}

// factStyle sets what is said of the point; the wires on it are bold.
func factStyle() sheet.Style { return sheet.Plain(sheet.SizeBody) }

func facts(c *sheet.Canvas, at sheet.Rect, lines []string) {
	for _, f := range lines {
		at = at.Below(frame.Paragraph(c, at, f, factStyle()) + factGap)
	}
}

var metalPale = sheet.Colour{R: 0xe4, G: 0xe4, B: 0xe4}

// bolt draws the stud with its nut and the spring washer under it.
func (st drawnStack) bolt(c *sheet.Canvas, axis, top, floor float64) {
	r := sheet.Rect{X: axis - 2.2, Y: top, W: 4.4, H: floor + 3 - top}
	c.Rect(r.X, r.Y, r.W, r.H, sheet.Both(sheet.Solid(sheet.Thin), metalPale))
	for y := r.Y + 1; y < r.Bottom()-0.5; y += 1.3 {
		c.Line(r.X, y, r.Right(), y-0.5, sheet.Solid(sheet.Hair).In(sheet.Grey))
	}
	nut := sheet.Rect{X: axis - 5.4, Y: top + overNut, W: 10.8, H: nutHigh}
	c.RoundRect(nut.X, nut.Y, nut.W, nut.H, 0.7, sheet.Both(sheet.Solid(sheet.Medium), sheet.White))
	for _, x := range []float64{axis - 2.4, axis + 2.4} {
		c.Line(x, nut.Y, x, nut.Bottom(), sheet.Solid(sheet.Thin))
	}
	c.Rect(axis-6.4, nut.Bottom(), 12.8, 1.2, sheet.Both(sheet.Solid(sheet.Thin), metalPale))
}

// ring draws one ring with its barrel and its wire to the right, and the words on it.
func (st drawnStack) ring(c *sheet.Canvas, axis, top float64, s said) {
	y := top + s.high/2
	c.Rect(axis-halfRing, y-ringThick/2, 2*halfRing, ringThick, sheet.Both(sheet.Solid(sheet.Medium), metalPale))
	c.RoundRect(axis+halfRing, y-1.6, barrelEnd-halfRing, 3.2, 0.5, sheet.Both(sheet.Solid(sheet.Medium), sheet.Pale))
	page.Strand(c, []sheet.Point{{X: axis + barrelEnd + 0.3, Y: y}, {X: axis + wireEnd, Y: y}}, st.a.Pair(s.wire), 2)
	x := axis + besideIt
	st.words(c, x, top, s)
	if link := st.a.Link("wire/" + st.a.H.Wires[s.wire].Name); link != "" {
		c.Link(sheet.Rect{X: x, Y: top, W: st.width, H: s.high}, link)
	}
}

// words sets a ring's words, the load beside the wire where both fit.
func (st drawnStack) words(c *sheet.Canvas, x, top float64, s said) {
	half := sheet.SizeBody * typeface.CapHeight / 2
	if s.same {
		base := top + s.high/2 + half
		c.Text(x, base, s.head, sheet.Strong(sheet.SizeBody))
		c.Text(x+typeface.Width(s.head, sheet.Bold, sheet.SizeBody)+1.5, base, s.from[0], page.Quiet())
		return
	}
	base := top + linesApart/2 + sheet.SizeBody*(typeface.CapHeight+0.12)
	c.Text(x, base, s.head, sheet.Strong(sheet.SizeBody))
	for i, line := range s.from {
		c.Text(x, base+sheet.SizeNote*typeface.Leading*float64(i+1), line, page.Quiet())
	}
}

// star tells whether the washer has teeth; the drawing shows such a one.
func star(g fitted.Ground) bool {
	washer := strings.ToLower(g.Washer)
	return strings.Contains(washer, "star") || strings.Contains(washer, "tooth")
}

// bodywork draws the toothed washer, the metal with its bared patch, and the head of the bolt.
func (st drawnStack) bodywork(c *sheet.Canvas, axis, floor float64) {
	if st.star {
		for x := axis - 6.0; x < axis+6; x += 2 {
			c.Polygon([]sheet.Point{{X: x, Y: floor}, {X: x + 1, Y: floor - 1.2}, {X: x + 2, Y: floor}}, sheet.Filled(sheet.Ink))
		}
	}
	left, right := axis-axisAt, axis+wireEnd
	c.Rect(left, floor, right-left, 2.4, sheet.Both(sheet.Solid(sheet.Medium), sheet.White))
	for x := left + 1; x < right-2; x += 2.2 {
		c.Line(x, floor+2.2, x+1.8, floor+0.2, sheet.Solid(sheet.Hair))
	}
	if st.coat {
		for _, span := range [][2]float64{{left, axis - halfRing - 0.8}, {axis + halfRing + 1, right}} {
			c.Line(span[0], floor-0.3, span[1], floor-0.3, sheet.Solid(sheet.Heavy))
		}
	}
	c.RoundRect(axis-5.4, floor+2.4, 10.8, 3.4, 0.7, sheet.Both(sheet.Solid(sheet.Medium), sheet.White))
}
