package unit

import "strings"

// Papers lists the names that Paper knows.
func Papers() []string { return []string{"A4", "A3", "letter", "tabloid"} }

// Paper gives the width and height of a paper, upright; the name in any case, false for
// one that is not known. ISO 216 table 1 for A4 and A3; ANSI/ASME Y14.1 sizes A and B
// for letter and tabloid (215.9 × 279.4, 279.4 × 431.8).
func Paper(name string) (w, h Millimetre, ok bool) {
	switch strings.ToLower(name) {
	case "a4":
		return 210, 297, true
	case "a3":
		return 297, 420, true
	case "letter":
		return 215.9, 279.4, true
	case "tabloid":
		return 279.4, 431.8, true
	}
	return 0, 0, false
}
