package typeface

import (
	"strings"
	"unicode"

	"example.com/loomfolio/layout/sheet"
)

// Wrap breaks a string into lines no wider than width mm at a font size in mm.
// It breaks at spaces and after a hyphen, slash or comma inside a word, where no
// digit follows a comma or a leading minus; inside a word only when the word alone
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
	fits := func(s string) bool { return Width(s, face, size) <= width+1e-6 }
	var lines []string
	line := ""
	for _, piece := range Pieces(s) {
		if fits(strings.TrimRight(line+piece, " ")) {
			line += piece
			continue
		}
		if t := strings.TrimRight(line, " "); t != "" {
			lines = append(lines, t)
		}
		line = piece
		for !fits(strings.TrimRight(line, " ")) {
			head, rest := split(line, fits)
			if rest == "" {
				break
			}
			lines = append(lines, head)
			line = rest
		}
	}
	return append(lines, strings.TrimRight(line, " "))
}

// split takes as many characters as fit, at least one.
func split(word string, fits func(string) bool) (head, rest string) {
	end := 0
	for i, r := range word {
		next := i + len(string(r))
		if i > 0 && !fits(word[:next]) {
			break
		}
		end = next
	}
	return word[:end], word[end:]
}

// Pieces cuts a line into the pieces between which it may be broken; together they are the line.
func Pieces(s string) []string {
	var pieces []string
	runes := []rune(s)
	start := 0
	for i := range runes {
		if i+1 < len(runes) && breakable(runes, i) {
			pieces = append(pieces, string(runes[start:i+1]))
			start = i + 1
		}
	}
	if start < len(runes) {
		pieces = append(pieces, string(runes[start:]))
	}
	return pieces
}

// breakable tells whether a line may end after the character at i.
func breakable(runes []rune, i int) bool {
	next := runes[i+1]
	if next == ' ' {
		return false // blanks stay with the line they end
	}
	switch runes[i] {
	case ' ':
		return true
	case '/':
		return inWord(runes, i)
	case ',':
		return inWord(runes, i) && !unicode.IsDigit(next)
	case '-', '–', '—':
		return inWord(runes, i)
	}
	return false
}

// inWord tells whether letters or digits stand on both sides of i.
func inWord(runes []rune, i int) bool {
	word := func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }
	return i > 0 && word(runes[i-1]) && word(runes[i+1])
}

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
