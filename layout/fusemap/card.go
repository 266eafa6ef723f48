package fusemap

import (
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

// card is one fuse with all that is said of it: name, fuse and body at the left, what
// stops without it, its wires and the most that it may be at the right.
type card struct {
	anchor string
	name   string // "FE.3", as on its strip of the diagrams, or the reference of an in-line fuse
	place  string // of an in-line fuse, with its plain name
	fuse   page.Fuse
	lost   string   // what stops when it is out
	relays string   // what stops as relays drop out
	quiet  []string // its wires; what a breaker does once it has opened
	never  string   // the most that it may be
	why    string   // what it runs at
	photo  page.Photo
}

// Sizes inside a card, mm.
const (
	cardPad    = 1.4
	cardGap    = 2.0 // between cards abreast
	rowGap     = 0.9 // between cards one under the other
	bodyWide   = 14.0
	bodyHigh   = 8.0
	textGap    = 2.2  // between the fuse and the words
	leading    = 1.2  // base line to base line
	nameGap    = 1.4  // between the name and the fuse
	leastWords = 36.0 // width of the words with a photograph beside them
)

// side is how the left of the cards of one group is set: the name beside the fuse, or over it
// where names are long.
type side struct {
	wide    float64
	stacked bool
}

// mostName is the width of a name that stands beside its fuse.
const mostName = 16.0

func sideOf(cards []card) side {
	name := 0.0
	for _, c := range cards {
		name = math.Max(name, nameWide(c.name))
	}
	if name > mostName {
		return side{math.Max(name, bodyWide), true}
	}
	return side{name + nameGap + bodyWide, false}
}

func nameWide(s string) float64 { return typeface.Width(s, sheet.Bold, sheet.SizeHead) }

// said is one line of a card's words; note follows it in small type.
type said struct {
	s, note string
	style   sheet.Style
}

func (l said) high() float64 { return l.style.Size * leading }

var (
	strong = sheet.Strong(sheet.SizeBody)
	note   = sheet.Plain(sheet.SizeNote)
)

// text is what is said of a fuse as it is set: lines beside it, and lines under both.
type text struct{ beside, under []said }

func (t text) besideHigh() float64 { return linesHigh(t.beside) }

func linesHigh(lines []said) float64 {
	h := 0.0
	for _, l := range lines {
		h += l.high()
	}
	return h
}

// high is the height of a text beside a fuse with its name.
func (t text) high(left float64) float64 {
	return math.Max(t.besideHigh(), left) + linesHigh(t.under)
}

// set finds how a card's words stand lowest: all beside the fuse, or the small ones under both.
func (c card) set(w float64, l side) text {
	right, whole := c.right(w, l), w-2*cardPad
	beside := text{beside: slices.Concat(c.head(right), c.small(right), c.foot(right))}
	under := text{beside: slices.Concat(c.head(right), c.foot(right)), under: c.small(whole)}
	if left := c.leftHigh(l); under.high(left) < beside.high(left)-0.1 {
		return under
	}
	return beside
}

// head is where a fuse is and what is lost with it.
func (c card) head(w float64) []said {
	return append(lines(c.place, page.Quiet(), w), lines(c.lost, strong, w)...)
}

// small is what stops by relays, the wires, and what a breaker does.
func (c card) small(w float64) []said {
	out := lines(c.relays, note, w)
	for _, q := range c.quiet {
		out = append(out, lines(q, note, w)...)
	}
	return out
}

func lines(s string, st sheet.Style, w float64) []said {
	var out []said
	for _, line := range wrapped(s, st, w) {
		out = append(out, said{s: line, style: st})
	}
	return out
}

// foot is the most that a fuse may be, with what follows it where that has room on the line.
func (c card) foot(w float64) []said {
	if c.never == "" {
		return lines(c.why, note, w)
	}
	first := said{s: c.never, style: strong}
	left := w - typeface.Width(c.never, sheet.Bold, sheet.SizeBody) - nameGap
	if typeface.Width(c.why, sheet.Regular, sheet.SizeNote) <= left {
		first.note = c.why
		return []said{first}
	}
	return append([]said{first}, lines(c.why, note, w)...)
}

func wrapped(s string, st sheet.Style, w float64) []string {
	if s == "" {
		return nil
	}
	return typeface.Wrap(s, st.Face, st.Size, w)
}

// right is the width of the words on a card.
func (c card) right(w float64, l side) float64 { return w - 2*cardPad - l.wide - textGap }

// leftHigh is the height of name, fuse and body.
func (c card) leftHigh(l side) float64 {
	h := bodyHigh + 0.8 + float64(len(wrapped(c.fuse.BodyWords(), note, l.wide)))*sheet.SizeNote*leading
	if l.stacked {
		h += sheet.SizeHead
	}
	return h
}

// high is the height that a card needs at a width.
func (c card) high(w float64, l side) float64 {
	return 2*cardPad + c.beside(w, l).High
}

// beside is all that is said of a fuse, with its photograph.
func (c card) beside(w float64, l side) page.Beside {
	return c.photo.Beside(w-2*cardPad, l.wide+textGap+leastWords, func(in float64) float64 {
		return c.set(in+2*cardPad, l).high(c.leftHigh(l))
	})
}

// draw puts the card in an area as high as it needs.
func (c card) draw(canvas *sheet.Canvas, r sheet.Rect, l side) {
	canvas.Anchor(c.anchor, r.X, r.Y)
	canvas.RoundRect(r.X, r.Y, r.W, r.H, 1.2, sheet.Both(sheet.Solid(sheet.Medium), sheet.White))
	in := r.Inset(cardPad)
	c.drawLeft(canvas, in, l)
	photo := c.beside(r.W, l)
	photo.Draw(canvas, in)
	set := c.set(photo.Wide+2*cardPad, l)
	drawn(canvas, set.beside, in.X+l.wide+textGap, in.Y)
	drawn(canvas, set.under, in.X, in.Y+math.Max(set.besideHigh(), c.leftHigh(l)))
}

func drawn(canvas *sheet.Canvas, lines []said, x, y float64) {
	for _, line := range lines {
		line.draw(canvas, x, y)
		y += line.high()
	}
}

func (l said) draw(canvas *sheet.Canvas, x, y float64) {
	base := y + l.style.Size*(typeface.CapHeight+0.1)
	canvas.Text(x, base, l.s, l.style)
	if l.note != "" {
		canvas.Text(x+typeface.Width(l.s, l.style.Face, l.style.Size)+nameGap, base, l.note, note)
	}
}

// drawLeft sets the name, the fuse in its shape and colour, and what its body is.
func (c card) drawLeft(canvas *sheet.Canvas, in sheet.Rect, l side) {
	base := in.Y + sheet.SizeHead*typeface.CapHeight
	x, y := in.X+l.wide-bodyWide, in.Y
	if l.stacked {
		x, y = in.X, in.Y+sheet.SizeHead
	} else {
		base += (bodyHigh*0.76 - sheet.SizeHead*typeface.CapHeight) / 2
	}
	canvas.Text(in.X, base, c.name, sheet.Strong(sheet.SizeHead))
	c.fuse.Draw(canvas, sheet.Rect{X: x, Y: y, W: bodyWide, H: bodyHigh})
	for i, line := range wrapped(c.fuse.BodyWords(), note, l.wide) {
		top := y + bodyHigh + 0.8 + float64(i)*sheet.SizeNote*leading
		canvas.Text(in.X, top+sheet.SizeNote*typeface.CapHeight, line, note)
	}
}

// list begins a list of words: "By relay: …".
func list(head string, words []string) string {
	if len(words) == 0 {
		return ""
	}
	return head + strings.Join(words, ", ")
}
