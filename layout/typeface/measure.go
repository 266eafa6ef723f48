package typeface

import (
	"math"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"

	"example.com/loomfolio/layout/sheet"
)

// Run is a piece of a string that one font prints.
type Run struct {
	Font  Font
	S     string
	Width float64 // parts of the font size
}

// Clean gives the string as it will be printed: composed, one line, invisible
// format characters dropped, and a question mark for what no font can print.
func Clean(s string, face sheet.Face) string {
	if plain(s) {
		return s
	}
	fam := loaded()
	return strings.Map(func(r rune) rune { return fam.printable(r, face) }, norm.NFC.String(s))
}

func (fam *family) printable(r rune, face sheet.Face) rune {
	switch {
	case r == '\t' || r == '\n' || r == '\r' || r == '\u2028' || r == '\u2029':
		return ' '
	case r == '\u00ad' || r == '\ufeff' || r >= '\u200b' && r <= '\u200f' || r >= '\u202a' && r <= '\u202e' || r >= '\u2060' && r <= '\u2069':
		return -1 // soft hyphen, byte order mark, zero-width and direction marks
	case r == unicode.ReplacementChar:
		return '?'
	}
	if _, _, ok := fam.choose(r, face); !ok {
		return '?'
	}
	return r
}

// Missing gives the characters of a string that no font of the family prints, so that
// they come out as question marks, each once and in order.
func Missing(s string) string {
	fam := loaded()
	var out []rune
	for _, r := range norm.NFC.String(s) {
		lost := fam.printable(r, sheet.Regular) == '?' || fam.printable(r, sheet.Bold) == '?'
		if lost && r != '?' && !slices.Contains(out, r) {
			out = append(out, r)
		}
	}
	return string(out)
}

// plain tells that a string is printable ASCII alone: the text fonts print it as it is.
func plain(s string) bool {
	for i := range len(s) {
		if s[i] < ' ' || s[i] > '~' {
			return false
		}
	}
	return true
}

// Runs cuts the cleaned string into pieces of one font each, in order.
func Runs(s string, face sheet.Face) []Run {
	fam := loaded()
	var runs []Run
	s = Clean(s, face)
	start := 0
	for i, r := range s {
		f, w, _ := fam.choose(r, face)
		if n := len(runs); n == 0 || runs[n-1].Font != f {
			runs = append(runs, Run{Font: f})
			start = i
		}
		last := &runs[len(runs)-1]
		last.S = s[start : i+utf8.RuneLen(r)]
		last.Width += float64(w) / 1000
	}
	return runs
}

// Width is how far the string reaches, in mm, at a font size in mm.
func Width(s string, face sheet.Face, size float64) float64 {
	return scaled(loaded().reach(s, face), size)
}

// scaled gives thousandths of the size in mm.
func scaled(thousandths int, size float64) float64 { return float64(thousandths) / 1000 * size }

// reach is the width of a string in thousandths of the size.
func (fam *family) reach(s string, face sheet.Face) int {
	sum := 0
	if plain(s) {
		f, _ := of(face)
		for i := range len(s) {
			sum += int(fam.widths[f][s[i]])
		}
		return sum
	}
	for _, r := range Clean(s, face) {
		if _, w, ok := fam.choose(r, face); ok {
			sum += w
		}
	}
	return sum
}

// TextBounds is the area of a text from its highest accent to its deepest stroke,
// upright or turned, in mm.
func TextBounds(t sheet.Text) sheet.Rect {
	w := Width(t.S, t.Face, t.Size)
	left := [...]float64{0, -w / 2, -w}[min(max(int(t.Align), 0), 2)]
	top, bottom := -Ascent*t.Size, Descent*t.Size
	sin, cos := math.Sincos(t.Turn * math.Pi / 180)
	minX, minY, maxX, maxY := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, x := range []float64{left, left + w} {
		for _, y := range []float64{top, bottom} {
			px, py := x*cos+y*sin, y*cos-x*sin
			minX, maxX = math.Min(minX, px), math.Max(maxX, px)
			minY, maxY = math.Min(minY, py), math.Max(maxY, py)
		}
	}
	return sheet.Rect{X: t.X + minX, Y: t.Y + minY, W: maxX - minX, H: maxY - minY}
}

// Bounds is the area of any mark; an anchor has none.
func Bounds(m sheet.Mark) sheet.Rect {
	switch m := m.(type) {
	case sheet.Text:
		return TextBounds(m)
	case sheet.Path:
		return m.Bounds()
	case sheet.Link:
		return sheet.Rect{X: m.X, Y: m.Y, W: m.W, H: m.H}
	case sheet.Picture:
		return sheet.Rect{X: m.X, Y: m.Y, W: m.W, H: m.H}
	}
	return sheet.Rect{}
}

// BoundsAll is the area of all marks together.
func BoundsAll(marks []sheet.Mark) sheet.Rect {
	var all sheet.Rect
	for _, m := range marks {
		all = all.Union(Bounds(m))
	}
	return all
}
