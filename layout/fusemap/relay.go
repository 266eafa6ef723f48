package fusemap

import (
	"slices"
	"strings"

	"example.com/loomfolio/layout/fused"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
)

// Sizes of a relay's card, mm.
const (
	baseWide   = 16.6 // of its socket
	relaysWide = 52.0 // least width of the card
	pinText    = 10.0 // where the words beside a socket begin, from the socket's edge
)

// relays draws each relay's socket as one stands before it, with the wire on every
// pin and where that wire's other end is, and what the relay feeds.
func relays(a page.Ask, s *page.Book) {
	if len(a.R.Relays) == 0 {
		return
	}
	across := page.Abreast(s.Room.W, relaysWide, cardGap)
	w := page.ColumnWide(s.Room.W, across, cardGap)
	fed := fedBy(a)
	var cards []relayCard
	for _, r := range a.R.Relays {
		cards = append(cards, relayCardOf(a, r, fed[r.Part], w))
	}
	rows := slices.Collect(slices.Chunk(cards, across))
	s.Head2("Relays", "Seen from the wire side, usual pin positions (common practice, no source): go by the numbers on the socket.", relaysHigh(rows[0]))
	for _, row := range rows {
		high := relaysHigh(row)
		s.Need(high)
		for i, c := range row {
			c.draw(&s.C, sheet.Rect{X: s.Room.X + float64(i)*(w+cardGap), Y: s.Room.Y, W: w, H: high})
		}
		s.Down(min(high+rowGap+0.6, s.Room.H))
	}
}

// fedBy names the loads behind the contacts of each relay.
func fedBy(a page.Ask) map[harness.PartID][]string {
	out := map[harness.PartID][]string{}
	add := func(relay harness.PartID, load string) {
		if !slices.Contains(out[relay], load) {
			out[relay] = append(out[relay], load)
		}
	}
	for _, c := range a.R.Contacts {
		for _, l := range c.Loads {
			add(c.Part, l.Name)
		}
	}
	for _, o := range a.R.Outages {
		for _, d := range o.Drops {
			for _, n := range d.Loads {
				add(d.Relay, n)
			}
		}
	}
	return out
}

// relayCard is one relay with the lines beside its socket and under it.
type relayCard struct {
	ref, words string
	part       *harness.Part
	used       map[string]bool
	pins       []relayPin
	foot       []string
	head       float64 // height of the title
	photo      page.Photo
}

// relayPin is what stands beside the socket for one pin.
type relayPin struct {
	name  string
	lines []string
}

func relayCardOf(a page.Ask, r chosen.Relay, feeds []string, w float64) relayCard {
	p := a.Part(r.Part)
	in := w - 2*cardPad
	c := relayCard{ref: p.Ref, words: page.Called(p), part: p, used: map[string]bool{}, photo: a.PhotoOf(p)}
	c.head = page.TitleHigh(c.ref, c.words, in)
	for _, n := range relayTerminals(a, p) {
		text := landing(a, p, n, in-baseWide-pinText)
		c.used[n] = text != unused
		c.pins = append(c.pins, relayPin{n, wrapped(text, sheet.Plain(sheet.SizeBody), in-baseWide-pinText)})
	}
	c.foot = wrapped(page.List(". ", page.PlaceOf(a, p), currents(r), list("Feeds: ", fused.Gathered(a, feeds))), note, in)
	return c
}

// currents are those of the coil and of the contact, against its rating where one is given.
func currents(r chosen.Relay) string {
	text := "Coil " + page.Firm(page.Amps(float64(r.Coil))+" A") + ", contact " + page.Amps(float64(r.Contact))
	if r.Rating > 0 {
		return text + page.Firm(" of "+r.Rating.String())
	}
	return text + page.Firm(" A")
}

// textHigh is the height of the words beside the socket, and of the socket.
func (c relayCard) textHigh() float64 {
	lines := 0
	for _, p := range c.pins {
		lines += len(p.lines)
	}
	return max(baseWide, float64(lines)*sheet.SizeBody*leading)
}

func relaysHigh(row []relayCard) float64 {
	high := 0.0
	for _, c := range row {
		high = max(high, c.high())
	}
	return high
}

// high is the height of a card; a photograph stands under all else.
func (c relayCard) high() float64 { return 2*cardPad + c.saidHigh() + c.photo.More() }

// saidHigh is the height of a card's title, socket and words.
func (c relayCard) saidHigh() float64 {
	return c.head + c.textHigh() + 0.6 + float64(len(c.foot))*sheet.SizeNote*leading
}

func (c relayCard) draw(canvas *sheet.Canvas, r sheet.Rect) {
	canvas.Anchor("relay/"+c.ref, r.X, r.Y)
	canvas.RoundRect(r.X, r.Y, r.W, r.H, 1.2, sheet.Outline(sheet.Solid(sheet.Medium)))
	in := r.Inset(cardPad)
	top := page.Title(canvas, in, c.ref, c.words)
	c.socket(canvas, sheet.Rect{X: in.X, Y: top, W: baseWide, H: baseWide})
	x, y := in.X+baseWide+2.5, top
	for _, p := range c.pins {
		canvas.Text(x, y+sheet.SizeBody*(typeface.CapHeight+0.12), p.name, strong)
		for _, line := range p.lines {
			canvas.Text(in.X+baseWide+pinText, y+sheet.SizeBody*(typeface.CapHeight+0.12), line, sheet.Plain(sheet.SizeBody))
			y += sheet.SizeBody * leading
		}
	}
	y = top + c.textHigh() + 0.6
	for _, line := range c.foot {
		canvas.Text(in.X, y+sheet.SizeNote*(typeface.CapHeight+0.12), line, note)
		y += sheet.SizeNote * leading
	}
	c.photo.Draw(canvas, in.X, in.Y+c.saidHigh()+c.photo.More()-c.photo.H)
}

// pinPlaces are where the pins of a plug-in relay stand in its socket, as shares of
// its width and height: the coil at the sides, the contact on the middle line. Common
// practice, no source; the numbers are those of DIN 72552.
var pinPlaces = []struct {
	name    string
	x, y    float64
	upright bool
}{{"87", 0.5, 0.15, false}, {"87a", 0.5, 0.46, false}, {"86", 0.2, 0.4, true}, {"85", 0.8, 0.4, true}, {"30", 0.5, 0.78, false}}

// socket draws the slots with their numbers; a pin without a wire is dashed.
func (c relayCard) socket(canvas *sheet.Canvas, r sheet.Rect) {
	canvas.RoundRect(r.X, r.Y, r.W, r.H, 2, sheet.Both(sheet.Solid(sheet.Thick), sheet.Pale))
	for _, p := range pinPlaces {
		has := slices.ContainsFunc(c.pins, func(q relayPin) bool { return q.name == p.name })
		if !has {
			continue
		}
		x, y := r.X+r.W*p.x, r.Y+r.H*p.y
		w, h := 4.6, 1.2
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
		canvas.Text(x, y+h/2+0.7+sheet.SizeNote*typeface.CapHeight, label, sheet.Strong(sheet.SizeNote).At(sheet.Centre))
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
