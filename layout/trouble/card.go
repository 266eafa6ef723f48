package trouble

import (
	"math"
	"strings"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

// card is the ladders of a circuit, or of what feeds several.
type card struct {
	title   string
	remark  string // states, and what stands before it
	anchors []string
	lines   []line
	ladders []int // that end on it
}

// Sizes inside a card, mm.
const (
	cardPad  = 1.2
	cardGap  = 2.0 // between cards abreast
	rowGap   = 0.9 // between cards one under the other
	inset    = 2.0 // of what hangs on the points before
	wordGap  = 1.4 // between point, volts and words
	overHead = 0.5 // above a heading within a card
	mostName = 22  // width that points take before they wrap
	hang     = 2.6 // of words that go on under the volts
	leading  = 1.08
)

var (
	strong = sheet.Strong(sheet.SizeBody)
	note   = sheet.Plain(sheet.SizeNote)
	brief  = sheet.Strong(sheet.SizeNote)
)

// lineHigh is the height of a line in a card.
const lineHigh = sheet.SizeNote * leading

// set is a card as its words are set at a width.
type set struct {
	card
	title       heading
	volts, text float64 // where they begin
	rows        []setLine
	high        float64
}

// heading is words in bold with a remark behind them, or under them where there is no room.
type heading struct {
	words, remark []string
	style         sheet.Style
	beside        float64 // where the remark begins; 0: under the words
	high          float64
}

// setLine is a line with its words wrapped.
type setLine struct {
	line
	heading
	names, read, words, under []string // point, volts, what it means beside them and under them
	high                      float64
}

// headingOf wraps a heading at a width.
func headingOf(words, remark string, style sheet.Style, wide float64) heading {
	h := heading{words: typeface.Wrap(words, style.Face, style.Size, wide), style: style}
	h.high = style.Size * leading * float64(len(h.words))
	if remark == "" {
		return h
	}
	last := typeface.Width(h.words[len(h.words)-1], style.Face, style.Size) + wordGap
	if last+typeface.Width(remark, note.Face, note.Size) <= wide {
		h.beside, h.remark = last, []string{remark}
		return h
	}
	h.remark = typeface.Wrap(remark, note.Face, note.Size, wide)
	h.high += lineHigh * float64(len(h.remark))
	return h
}

// draw sets a heading from its top left corner.
func (h heading) draw(c *sheet.Canvas, x, y float64) {
	for _, t := range h.words {
		c.Text(x, base(y, h.style.Size), t, h.style)
		y += h.style.Size * leading
	}
	if h.beside > 0 {
		c.Text(x+h.beside, base(y-h.style.Size*leading, h.style.Size), h.remark[0], note.In(sheet.Grey))
		return
	}
	for _, t := range h.remark {
		c.Text(x, base(y, note.Size), t, note.In(sheet.Grey))
		y += lineHigh
	}
}

// at sets a card at a width.
func (c card) at(wide float64) set {
	inner := wide - 2*cardPad
	s := set{card: c, title: headingOf(c.title, c.remark, strong, inner)}
	s.columns(inner)
	s.high = 2*cardPad + s.title.high
	for _, l := range c.lines {
		row := s.row(l, inner)
		s.rows = append(s.rows, row)
		s.high += row.high
	}
	return s
}

// leastCut is how much of a card stands at least before and after a cut, mm.
const leastCut = 18.0

// cut parts a card such that the first piece fits a height, if enough of it does: before a heading, else
// between two lines. Where no line fits at all the first is cut off alone.
func (c card) cut(wide, high float64) (first set, rest card, ok bool) {
	s := c.at(wide)
	y, at, headed := s.high-s.body(), 0, 0
	for i, row := range s.rows {
		if y+row.high > high+1e-6 {
			break
		}
		y += row.high
		at = i + 1
		if at < len(c.lines) && c.lines[at].head != "" && y > leastCut {
			headed = at
		}
	}
	if headed > at/2 {
		at = headed
	}
	for at > 1 && c.lines[at-1].head != "" {
		at--
	}
	ok = at > 1 && y > leastCut
	return c.pieces(max(at, 1), wide, ok)
}

// body is the height of a card's lines.
func (s set) body() float64 {
	high := 0.0
	for _, row := range s.rows {
		high += row.high
	}
	return high
}

// pieces are a card up to a line, and the rest of it.
func (c card) pieces(at int, wide float64, ok bool) (set, card, bool) {
	first, rest := c, c
	first.lines = c.lines[:min(at, len(c.lines))]
	rest.lines, rest.anchors, rest.remark, rest.title = c.lines[len(first.lines):], nil, "", strings.TrimSuffix(c.title, ", continued")+", continued"
	return first.at(wide), rest, ok
}

// columns finds where volts and words begin: behind the longest point and the longest reading.
func (s *set) columns(inner float64) {
	for _, l := range s.lines {
		if l.head == "" {
			s.volts = math.Max(s.volts, inset*float64(l.depth)+math.Min(mostName, typeface.Width(l.point, brief.Face, brief.Size))+wordGap)
		}
	}
	for _, l := range s.lines {
		if l.head == "" {
			s.text = math.Max(s.text, s.volts+math.Min(inner-s.volts-wordGap, typeface.Width(l.volts, brief.Face, brief.Size))+wordGap)
		}
	}
}

// row wraps one line: what finds no room beside the volts goes on under them.
func (s *set) row(l line, inner float64) setLine {
	in := inset * float64(l.depth)
	out := setLine{line: l}
	if l.head != "" {
		out.heading = headingOf(l.head, l.remark, brief, inner-in)
		out.high = overHead + out.heading.high
		return out
	}
	out.names = typeface.Wrap(l.point, brief.Face, brief.Size, s.volts-wordGap-in)
	out.read = typeface.Wrap(l.volts, brief.Face, brief.Size, s.text-wordGap-s.volts)
	out.words, out.under = beside(l.means, inner-s.text, inner-in-hang)
	out.high = lineHigh * float64(max(len(out.names), len(out.read), 1)+len(out.under))
	return out
}

// leastBeside is the width below which no words stand beside the volts, mm.
const leastBeside = 4.0

// beside parts words into those with room in a width, in one line, and the lines under it.
func beside(words string, first, rest float64) (line, under []string) {
	words = typeface.Clean(words, note.Face)
	if words == "" {
		return nil, nil
	}
	word, _, _ := strings.Cut(words, " ")
	if first < leastBeside || typeface.Longest(word, note.Face, note.Size) > first {
		return nil, typeface.Wrap(words, note.Face, note.Size, rest)
	}
	line = typeface.Wrap(words, note.Face, note.Size, first)[:1]
	if left := strings.TrimPrefix(strings.TrimPrefix(words, line[0]), " "); left != "" {
		under = typeface.Wrap(left, note.Face, note.Size, rest)
	}
	return line, under
}

// draw sets the card in its place.
func (s set) draw(c *sheet.Canvas, r sheet.Rect) {
	c.RoundRect(r.X, r.Y, r.W, r.H, 1.2, sheet.Both(sheet.Solid(sheet.Medium), sheet.White))
	for _, a := range s.anchors {
		c.Anchor(a, r.X, r.Y)
	}
	x, y := r.X+cardPad, r.Y+cardPad
	s.title.draw(c, x, y)
	y += s.title.high
	for _, row := range s.rows {
		s.drawRow(c, row, x, y)
		y += row.high
	}
}

// base is the base line of a line of text that begins at a height.
func base(y, size float64) float64 { return y + size*(leading+typeface.CapHeight)/2 }

// drawRow sets one line, with the line at its left by which one sees what it hangs on.
func (s set) drawRow(c *sheet.Canvas, row setLine, x, y float64) {
	in := inset * float64(row.depth)
	for d := 1; d <= row.depth; d++ {
		at := x + inset*(float64(d)-0.6)
		c.Line(at, y, at, y+row.high, sheet.Solid(sheet.Thin))
	}
	for _, a := range row.anchors {
		c.Anchor(a, x, y)
	}
	if row.line.head != "" {
		row.heading.draw(c, x+in, y+overHead)
		return
	}
	lines(c, row.names, x+in, y, brief)
	lines(c, row.read, x+s.volts, y, brief)
	lines(c, row.words, x+s.text, y, note)
	lines(c, row.under, x+in+hang, y+row.high-lineHigh*float64(len(row.under)), note)
}

// lines sets lines one under the other.
func lines(c *sheet.Canvas, all []string, x, y float64, style sheet.Style) {
	for i, t := range all {
		c.Text(x, base(y+lineHigh*float64(i), style.Size), t, style)
	}
}
