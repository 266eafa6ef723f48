package bench

import (
	"slices"
	"strings"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

// The sizes in which a label's text is tried, the largest first; the least has
// capitals of 2 mm. Then words are left out, by leads and fewer; nothing is clipped.
var nameSizes = [...]float64{sheet.SizeTitle, sheet.SizeHead, sheet.SizeBody, sheet.SizeNote}

const (
	labelPad = 1.2  // clear at the left and right of a label's text, mm
	labelAir = 0.2  // above and below a single line
	lineAir  = 0.65 // above, between and below two
	labelGap = 1.4  // between the words of one line
)

// marker is what one face of a label says: the name big, this end's terminal
// behind it, then the second line in ever fewer words, the last of them perhaps none.
type marker struct {
	name, here string
	lines      []string
}

// leads says where a wire goes in ever fewer words: the part's plain name loses its
// last words, then it goes; what is left always says where the wire leads.
func leads(there, plain string) []string {
	var out []string
	for _, words := range fewer(plain) {
		out = append(out, "→ "+there+" "+words)
	}
	ref, _, _ := strings.Cut(there, ".")
	return append(out, "→ "+there, "→ "+ref)
}

// small are words that say nothing at the end of a shortened text.
var small = [...]string{"a", "an", "and", "at", "behind", "by", "for", "from", "in", "of", "on", "or", "over", "the", "to", "under", "with"}

// fewer gives a text in ever fewer words: the last goes first, with the small words
// before it and what then ends in a comma.
func fewer(s string) []string {
	var out []string
	words := strings.Fields(s)
	for len(words) > 0 {
		out = append(out, strings.TrimRight(strings.Join(words, " "), ","))
		words = words[:len(words)-1]
		for n := len(words); n > 0 && slices.Contains(small[:], strings.ToLower(words[n-1])); n-- {
			words = words[:n-1]
		}
	}
	return out
}

// worded is a text at a size.
type worded struct {
	s    string
	size float64
}

// best is the fullest of some texts that fits a width at a size from most down to
// SizeNote; the largest size at which that text fits.
func best(texts []string, face sheet.Face, most, width float64) (worded, bool) {
	for _, s := range texts {
		for _, size := range nameSizes {
			if size <= most && typeface.Width(s, face, size) <= width {
				return worded{s, size}, true
			}
		}
	}
	return worded{}, false
}

// least is the width that a marker cannot do without.
func (m marker) least() float64 {
	return typeface.Width(m.name, sheet.Bold, sheet.SizeNote) + 2*labelPad
}

// draw sets a marker on a face: two lines where it is high enough, else one.
func (m marker) draw(c *sheet.Canvas, r sheet.Rect) {
	const second = sheet.SizeNote * (typeface.CapHeight + typeface.Descent)
	room := r.W - 2*labelPad
	name, ok := best([]string{m.name}, sheet.Bold, (r.H-second-3*lineAir)/typeface.CapHeight, room)
	if ok && name.size >= sheet.SizeBody {
		m.twoLines(c, r, name)
		return
	}
	m.oneLine(c, r)
}

func (m marker) twoLines(c *sheet.Canvas, r sheet.Rect, name worded) {
	upper, lower := name.size*typeface.CapHeight, sheet.SizeNote*typeface.CapHeight
	air := (r.H - upper - lower - sheet.SizeNote*typeface.Descent) / 3
	y := r.Y + air + upper
	m.first(c, r, y, name)
	if second, ok := best(m.lines, sheet.Regular, sheet.SizeNote, r.W-2*labelPad); ok {
		c.Text(r.X+labelPad, y+air+lower, second.s, sheet.Plain(second.size))
	}
}

// first sets the name and, where there is room, this end's terminal; it gives the
// place behind both.
func (m marker) first(c *sheet.Canvas, r sheet.Rect, base float64, name worded) (x float64) {
	x = r.X + labelPad
	c.Text(x, base, name.s, sheet.Strong(name.size))
	x += typeface.Width(name.s, sheet.Bold, name.size) + labelGap
	if here, ok := best([]string{m.here}, sheet.Regular, sheet.SizeNote, r.Right()-labelPad-x); ok {
		c.Text(x, base, here.s, sheet.Plain(here.size))
		x += typeface.Width(here.s, sheet.Regular, here.size) + labelGap
	}
	return x
}

// oneLine leaves out this end's terminal rather than where the wire leads: one holds it in the hand.
func (m marker) oneLine(c *sheet.Canvas, r sheet.Rect) {
	most := max(sheet.SizeNote, (r.H-2*labelAir)/(typeface.CapHeight+typeface.Descent))
	name, ok := best([]string{m.name}, sheet.Bold, most, r.W-2*labelPad)
	if !ok {
		return // the label is made as wide as least
	}
	base := r.Y + (r.H+name.size*(typeface.CapHeight-typeface.Descent))/2
	with := typeface.Width(name.s, sheet.Bold, name.size) + labelGap
	shortest := m.lines[max(0, len(m.lines)-2):]
	if here := typeface.Width(m.here, sheet.Regular, sheet.SizeNote) + labelGap; len(shortest) > 0 &&
		with+here+typeface.Width(shortest[0], sheet.Regular, sheet.SizeNote) > r.W-2*labelPad {
		m.here = ""
	}
	x := m.first(c, r, base, name)
	if second, ok := best(m.lines, sheet.Regular, sheet.SizeNote, r.Right()-labelPad-x); ok {
		c.Text(x, base, second.s, sheet.Plain(second.size))
	}
}

// turned sets a marker upside down, for the far face of a flag.
func (m marker) turned(c *sheet.Canvas, r sheet.Rect) {
	var upright sheet.Canvas
	m.draw(&upright, r)
	for _, mark := range upright.Marks {
		if t, ok := mark.(sheet.Text); ok {
			t.X, t.Y, t.Turn = 2*r.X+r.W-t.X, 2*r.Y+r.H-t.Y, 180
			c.Add(t)
		}
	}
}
