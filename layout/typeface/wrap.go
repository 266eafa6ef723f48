package typeface

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/loomfolio/layout/sheet"
)

// Wrap breaks a string into lines no wider than width mm at a font size in mm.
// It breaks at spaces and after a hyphen, slash or comma inside a word, where no
// digit follows a comma or a leading minus, nor stands on both sides of a slash; inside a word only when the word alone
// is too wide; never at a no-break space. A line break in the string stays one.
// There is always at least one line; no character is lost save the blanks at breaks.
func Wrap(s string, face sheet.Face, size, width float64) []string {
	var lines []string
	for para := range strings.SplitSeq(strings.ReplaceAll(s, "\r\n", "\n"), "\n") {
		lines = append(lines, wrapLine(Clean(para, face), face, size, width)...)
	}
	return lines
}

func wrapLine(s string, face sheet.Face, size, width float64) []string {
	m := measure(s, face, size, width)
	var lines []string
	start, end := 0, 0 // of the line being filled
	for end < len(s) {
		next := piece(s, end)
		if m.fits(start, m.inked(start, next)) {
			end = next
			continue
		}
		if e := m.inked(start, end); e > start {
			lines = append(lines, s[start:e])
		}
		start, end = end, next
		for !m.fits(start, m.inked(start, end)) {
			cut := m.split(start, end)
			if cut == end {
				break
			}
			lines = append(lines, s[start:cut])
			start = cut
		}
	}
	return append(lines, s[start:m.inked(start, end)])
}

// measured is a cleaned line and how far it reaches, byte by byte.
type measured struct {
	s     string
	at    []int // by byte, one past the end too: thousandths of the size before it
	size  float64
	width float64 // mm, that a line may take
}

func measure(s string, face sheet.Face, size, width float64) measured {
	fam := loaded()
	m := measured{s: s, at: make([]int, len(s)+1), size: size, width: width}
	sum := 0
	for i, r := range s {
		_, w, ok := fam.choose(r, face)
		m.at[i] = sum
		if ok {
			sum += w
		}
		for b := i + 1; b <= i+utf8.RuneLen(r); b++ {
			m.at[b] = sum
		}
	}
	return m
}

// fits tells whether what stands between two places is no wider than a line may be.
func (m measured) fits(from, to int) bool {
	return scaled(m.at[to]-m.at[from], m.size) <= m.width+1e-6
}

// inked is where a stretch ends without the blanks at its end.
func (m measured) inked(from, to int) int {
	return from + len(strings.TrimRight(m.s[from:to], " "))
}

// split is where a word ends that takes as many characters as fit, at least one.
func (m measured) split(from, to int) int {
	end := from
	for i, r := range m.s[from:to] {
		next := from + i + utf8.RuneLen(r)
		if i > 0 && !m.fits(from, next) {
			break
		}
		end = next
	}
	return end
}

// Pieces cuts a line into the pieces between which it may be broken; together they are the line.
func Pieces(s string) []string {
	var pieces []string
	for from, to := 0, 0; from < len(s); from = to {
		to = piece(s, from)
		pieces = append(pieces, s[from:to])
	}
	return pieces
}

// piece is where the piece of a line ends that begins at a place: a line may be broken between pieces.
func piece(s string, from int) int {
	var before rune
	r, n := utf8.DecodeRuneInString(s[from:])
	for at := from + n; at < len(s); at += n {
		var next rune
		next, n = utf8.DecodeRuneInString(s[at:])
		if breakable(before, r, next) {
			return at
		}
		before, r = r, next
	}
	return len(s)
}

// breakable tells whether a line may end after a character; before is 0 where a piece begins.
func breakable(before, r, next rune) bool {
	if next == ' ' {
		return false // blanks stay with the line they end
	}
	switch r {
	case ' ':
		return true
	case '/':
		return word(before) && word(next) && !(unicode.IsDigit(before) && unicode.IsDigit(next))
	case '-', '–', '—':
		return word(before) && word(next)
	case ',':
		return word(before) && word(next) && !unicode.IsDigit(next)
	}
	return false
}

func word(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }

// Longest is the width in mm of the widest piece that cannot be broken at a good place.
func Longest(s string, face sheet.Face, size float64) float64 {
	widest := 0.0
	for para := range strings.SplitSeq(s, "\n") {
		for _, piece := range Pieces(Clean(para, face)) {
			widest = max(widest, Width(strings.TrimRight(piece, " "), face, size))
		}
	}
	return widest
}

// Fit gives the string if it fits the width, else as much of it as fits with an
// ellipsis: for places that have no second line and say the whole elsewhere.
func Fit(s string, face sheet.Face, size, width float64) string {
	s = Clean(s, face)
	if Width(s, face, size) <= width+1e-6 {
		return s
	}
	runes := []rune(s)
	for n := len(runes) - 1; n > 0; n-- {
		short := strings.TrimRight(string(runes[:n]), " ") + "…"
		if Width(short, face, size) <= width+1e-6 {
			return short
		}
	}
	return "…"
}

// Shrink is the largest font size in mm between least and size at which the string
// fits the width; least if none does.
func Shrink(s string, face sheet.Face, size, least, width float64) float64 {
	if w := Width(s, face, size); w > width {
		size *= width / w
	}
	return max(size, least)
}
