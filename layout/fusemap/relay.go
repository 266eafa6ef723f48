package fusemap

import (
	"slices"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
)

// Sizes of a relay's card, mm.
const (
	baseWide   = 22.0 // of its socket
	relaysWide = 80.0 // least width of the card
)

// relays draws each relay's socket as one stands before it, with the wire on every
// pin and where that wire's other end is.
func relays(a page.Ask, s *page.Book) {
	if len(a.R.Relays) == 0 {
		return
	}
	across := max(2, int((s.Room.W+cardGap)/(relaysWide+cardGap)))
	w := (s.Room.W - cardGap*float64(across-1)) / float64(across)
	var cards []relayCard
	for _, r := range a.R.Relays {
		cards = append(cards, relayCardOf(a, r, w))
	}
	rows := slices.Collect(slices.Chunk(cards, across))
	s.Head2("Relays", "The socket from the side where its wires enter, lying flat in the drawing; pins where most makers have them (common practice, no source): go by the numbers on the socket.", relaysHigh(rows[0]))
	for _, row := range rows {
		high := relaysHigh(row)
		s.Need(high)
		for i, c := range row {
			c.draw(&s.C, sheet.Rect{X: s.Room.X + float64(i)*(w+cardGap), Y: s.Room.Y, W: w, H: high})
		}
		s.Down(high + cardGap)
	}
}

// relayCard is one relay with the lines beside its socket.
type relayCard struct {
	ref, words string
	part       *harness.Part
	used       map[string]bool
	pins       []relayPin
	foot       string
	head       float64 // height of the title
}

// relayPin is what stands beside the socket for one pin.
type relayPin struct {
	name  string
	lines []string
}

func relayCardOf(a page.Ask, r chosen.Relay, w float64) relayCard {
	p := a.Part(r.Part)
	c := relayCard{ref: p.Ref, words: page.TitleOf(a, p), part: p, used: map[string]bool{}}
	c.head = page.TitleHigh(c.ref, c.words, w-2*cardPad)
	for _, n := range relayTerminals(a, p) {
		text := landing(a, p, n, w-2*cardPad-baseWide-pinText)
		c.used[n] = text != unused
		c.pins = append(c.pins, relayPin{n, typeface.Wrap(text, sheet.Regular, sheet.SizeBody, w-2*cardPad-baseWide-pinText)})
	}
	c.foot = "coil " + page.Amps(float64(r.Coil)) + " A, contact " + page.Amps(float64(r.Contact))
	if r.Rating > 0 {
		c.foot += " of " + page.Amps(float64(r.Rating))
	}
	c.foot += " A"
	return c
}

// pinText is where the words beside a socket begin, from the socket's edge.
const pinText = 12.0

func relaysHigh(row []relayCard) float64 {
	high := 0.0
	for _, c := range row {
		lines := 0
		for _, p := range c.pins {
			lines += len(p.lines)
		}
		text := float64(lines)*sheet.SizeBody*typeface.Leading + sheet.SizeNote*typeface.Leading
		high = max(high, 2*cardPad+c.head+1+max(baseWide, text))
	}
	return high
}

func (c relayCard) draw(canvas *sheet.Canvas, r sheet.Rect) {
	canvas.Anchor("relay/"+c.ref, r.X, r.Y)
	canvas.RoundRect(r.X, r.Y, r.W, r.H, 1.8, sheet.Outline(sheet.Solid(sheet.Medium)))
	in := r.Inset(cardPad)
	y := page.Title(canvas, in, c.ref, c.words) + 1
	c.socket(canvas, sheet.Rect{X: in.X, Y: y, W: baseWide, H: baseWide})
	x := in.X + baseWide + 3
	for _, p := range c.pins {
		canvas.Text(x, y+sheet.SizeBody*(typeface.CapHeight+0.12), p.name, sheet.Strong(sheet.SizeBody))
		for _, line := range p.lines {
			canvas.Text(in.X+baseWide+pinText, y+sheet.SizeBody*(typeface.CapHeight+0.12), line, sheet.Plain(sheet.SizeBody))
			y += sheet.SizeBody * typeface.Leading
		}
	}
	canvas.Text(x, r.Bottom()-cardPad, c.foot, page.Quiet())
}

// pinPlaces are where the pins of a plug-in relay stand in its socket, as shares of
// its width and height: the coil at the sides, the contact on the middle line. Common
// practice, no source; the numbers are those of DIN 72552.
var pinPlaces = []struct {
	name    string
	x, y    float64
	upright bool
}{{"87", 0.5, 0.15, false}, {"87a", 0.5, 0.46, false}, {"86", 0.15, 0.4, true}, {"85", 0.85, 0.4, true}, {"30", 0.5, 0.78, false}}

// socket draws the slots with their numbers; a pin without a wire is dashed.
func (c relayCard) socket(canvas *sheet.Canvas, r sheet.Rect) {
	canvas.RoundRect(r.X, r.Y, r.W, r.H, 2, sheet.Both(sheet.Solid(sheet.Thick), sheet.Pale))
	for _, p := range pinPlaces {
		has := slices.ContainsFunc(c.pins, func(q relayPin) bool { return q.name == p.name })
		if !has {
			continue
		}
		x, y := r.X+r.W*p.x, r.Y+r.H*p.y
		w, h := 6.0, 1.5
		if p.upright {
			w, h = h, w
		}
		paint := sheet.Filled(sheet.Ink)
		if !c.used[p.name] {
			paint = sheet.Both(sheet.Dashed(sheet.Thin, 0.8, 0.6), sheet.White)
		}
		canvas.Rect(x-w/2, y-h/2, w, h, paint)
		label := p.name
		if p.name == "86" && c.part.Suppression == "diode" {
			label += "+"
		}
		canvas.Text(x, y+h/2+1.1+sheet.SizeNote*typeface.CapHeight, label, sheet.Strong(sheet.SizeNote).At(sheet.Centre))
	}
}

// relayTerminals are a relay's terminals, the customary ones first.
func relayTerminals(a page.Ask, p *harness.Part) []string {
	var names, others []string
	for _, t := range p.Terminals {
		others = append(others, a.H.Terminals[t].Name)
	}
	for _, n := range []string{"30", "87", "87a", "86", "85"} {
		if i := slices.Index(others, n); i >= 0 {
			names = append(names, n)
			others = slices.Delete(others, i, i+1)
		}
	}
	return append(names, others...)
}

const unused = "not used"

// landing says which wires end on a part's terminal and where they go, the far part's
// plain name too where there is one wire and all stands on one line of a width.
func landing(a page.Ask, p *harness.Part, name string, width float64) string {
	var wires, ends []string
	plain := ""
	for _, t := range p.Terminals {
		if a.H.Terminals[t].Name != name {
			continue
		}
		for _, w := range a.WiresOn(t) {
			far := page.Opposite(a, w, t)
			wires = append(wires, a.H.Wires[w].Name)
			ends = append(ends, page.FarStop(a, far))
			_, plain = a.Stop(far)
		}
	}
	if len(wires) == 0 {
		return unused
	}
	text := strings.Join(wires, ", ") + ": " + strings.Join(ends, ", ")
	if long := text + ", " + plain; len(wires) == 1 && plain != "" && typeface.Width(long, sheet.Regular, sheet.SizeBody) <= width {
		return long
	}
	return text
}
