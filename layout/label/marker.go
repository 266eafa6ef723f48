package label

import (
	"slices"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/fit/marker"
)

// The sizes in which a label's name is tried, the largest first; the least has
// capitals of 2 mm, and all else is set in it. Nothing is clipped.
var nameSizes = [...]float64{sheet.SizeTitle, sheet.SizeHead, sheet.SizeBody, sheet.SizeNote}

const (
	labelPad = 1.2                       // clear at the left and right of a label's text, mm
	labelAir = 0.29                      // over a single line on a label that is cut already
	cutAir   = float64(marker.LabelEdge) // over the first line under a line that is cut along
	lineAir  = 0.65                      // above, between and below several
	labelGap = 1.4                       // between a name and the words behind it
)

// wording is what a label says. Of a wire: its name, this end's terminal, the other
// end's, and that one's part in plain words. Of a part: its name, its place and
// its plain name; there is "".
type wording struct{ name, here, there, plain string }

// face is a marker's text as it is set on one face: the name in its size, the words
// behind it, and further lines.
type face struct {
	name  string
	size  float64
	first string
	rest  []string
}

// faces are the two that a marker shows, and what it has lost.
type faces struct {
	near, far face
	short     bool // words were left out
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

// leads is an arrow and the other end, which stay together; "" of a part.
func (m wording) leads() string {
	if m.there == "" {
		return ""
	}
	return page.Firm("→ " + m.there)
}

// shorter gives a marker in ever fewer words: the plain name loses its last words,
// then it goes; then this end's terminal, which one holds in the hand; then the other
// end's, so that its part is left.
func (m wording) shorter() []wording {
	var out []wording
	for _, words := range fewer(m.plain) {
		out = append(out, wording{m.name, m.here, m.there, words})
	}
	ref, _, _ := strings.Cut(m.there, ".")
	return append(out, wording{m.name, m.here, m.there, ""}, wording{m.name, "", m.there, ""}, wording{m.name, "", ref, ""})
}

// on finds how a marker is set on two faces of a width and height, with so much air at the
// least over its first line; false where not even its name and the part that the wire leads
// to go on it.
func (m wording) on(w, h, air float64) (faces, bool) {
	for i, x := range m.shorter() {
		if f, ok := x.whole(w, h, air); ok {
			return faces{f, f, i > 0 && x != m}, true
		}
		if near, far, ok := x.parted(w, h, air); ok {
			return faces{near, far, i > 0 && x != m}, true
		}
	}
	return faces{}, false
}

// whole sets all that a marker says on one face: the name large if it can be, with
// this end behind it, the other end below; else both ends in the first line; else all
// in one. A part has its place behind the name, or its plain name, or both below.
func (m wording) whole(w, h, air float64) (face, bool) {
	all := m.leads()
	ways := [][2]string{{m.here, spaced(all, m.plain)}, {spaced(m.here, all), m.plain}, {spaced(m.here, all, m.plain), ""}}
	if m.there == "" {
		ways = [][2]string{{m.here, m.plain}, {m.plain, m.here}, {"", page.List("\n", m.plain, m.here)}}
	}
	for _, least := range []float64{sheet.SizeBody, sheet.SizeNote} {
		for _, x := range ways {
			if f, ok := m.set(x[0], x[1], least, sheet.Rect{W: w, H: h}, air); ok {
				return f, true
			}
		}
	}
	return face{}, false
}

// parted sets a marker on two faces, the name on both in one size: the terminals on one and the
// other end's part on the other; where no part is named, one end on each.
func (m wording) parted(w, h, air float64) (near, far face, ok bool) {
	if m.there == "" || m.here == "" {
		return face{}, face{}, false
	}
	first, second := wording{m.name, m.here, m.there, ""}, wording{name: m.name, plain: "→ " + m.plain}
	if m.plain == "" {
		first, second = wording{name: m.name, here: m.here}, wording{name: m.name, there: m.there}
	}
	if near, ok = first.whole(w, h, air); !ok {
		return face{}, face{}, false
	}
	far, ok = second.whole(w, h, air)
	near.size = min(near.size, far.size)
	far.size = near.size
	return near, far, ok
}

// set tries to set a name with words behind it and the rest below, in as many lines as
// the rest needs; the name in the largest size from least up.
func (m wording) set(first, rest string, least float64, on sheet.Rect, air float64) (face, bool) {
	const note = sheet.SizeNote
	room := on.W - 2*labelPad
	if typeface.Longest(rest, sheet.Regular, note) > room {
		return face{}, false
	}
	f := face{name: m.name, first: first}
	if rest != "" {
		f.rest = typeface.Wrap(rest, sheet.Regular, note, room)
	}
	for _, f.size = range nameSizes {
		if f.size >= least && f.airy(on.H, air) && f.firstWide() <= room {
			return f, true
		}
	}
	return face{}, false
}

// firstWide is the width of the first line.
func (f face) firstWide() float64 {
	wide := typeface.Width(f.name, sheet.Bold, f.size)
	if f.first != "" {
		wide += labelGap + typeface.Width(f.first, sheet.Regular, sheet.SizeNote)
	}
	return wide
}

// airy tells whether there is enough air on a face of a height.
func (f face) airy(h, least float64) bool {
	if len(f.rest) == 0 {
		return f.top(h) >= least-1e-9
	}
	return f.air(h) >= max(least, lineAir)-1e-9
}

// top is what is clear over the first line: of one alone as much as is wanted under a line
// that is cut along, while its tails stay on the face.
func (f face) top(h float64) float64 {
	if len(f.rest) > 0 {
		return f.air(h)
	}
	room := h - f.size*(typeface.CapHeight+typeface.Descent)
	return max(room/2, min(room, cutAir))
}

// air is what is clear above, between and below the lines on a face of a height.
func (f face) air(h float64) float64 {
	lower := float64(len(f.rest)) * sheet.SizeNote * typeface.CapHeight
	tail := sheet.SizeNote * typeface.Descent
	if len(f.rest) == 0 {
		tail = f.size * typeface.Descent
	}
	return (h - f.size*typeface.CapHeight - lower - tail) / float64(len(f.rest)+2)
}

// draw sets a face in its area.
func (f face) draw(c *sheet.Canvas, r sheet.Rect) {
	air, x := f.air(r.H), r.X+labelPad
	y := r.Y + f.top(r.H) + f.size*typeface.CapHeight
	c.Text(x, y, f.name, sheet.Strong(f.size))
	c.Text(x+typeface.Width(f.name, sheet.Bold, f.size)+labelGap, y, f.first, sheet.Plain(sheet.SizeNote))
	for _, line := range f.rest {
		y += air + sheet.SizeNote*typeface.CapHeight
		c.Text(x, y, line, sheet.Plain(sheet.SizeNote))
	}
}

// turned sets a face upside down, as the far side of a flag has it.
func (f face) turned(c *sheet.Canvas, r sheet.Rect) {
	var upright sheet.Canvas
	f.draw(&upright, r)
	for _, mark := range upright.Marks {
		if t, ok := mark.(sheet.Text); ok {
			t.X, t.Y, t.Turn = 2*r.X+r.W-t.X, 2*r.Y+r.H-t.Y, 180
			c.Add(t)
		}
	}
}

// least is the width that a marker cannot do without on a face of a height with so much air, mm.
func (m wording) least(h, air float64) float64 {
	all := m.shorter()
	last := all[len(all)-1]
	f := face{name: last.name, size: sheet.SizeNote, rest: []string{last.leads()}}
	if below := typeface.Width(last.leads(), sheet.Regular, sheet.SizeNote); f.airy(h, air) {
		return max(f.firstWide(), below) + 2*labelPad + 0.01
	}
	f.first, f.rest = last.leads(), nil
	return f.firstWide() + 2*labelPad + 0.01
}

// says is the whole of a marker in one line: "12C  K1.87 → FAN.+ Radiator fan".
func (m wording) says() string {
	return m.name + "  " + strings.ReplaceAll(spaced(m.here, m.leads(), m.plain), page.NoBreak, " ")
}

// spaced joins what is there by blanks.
func spaced(parts ...string) string { return page.List(" ", parts...) }
