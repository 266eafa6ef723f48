package unit

import "strings"

// Papers lists the papers on which a packet is printed.
func Papers() []string { return []string{"A4", "A3", "letter", "tabloid"} }

// LargePapers lists those that large sheets alone are printed on, beside A3 and tabloid.
func LargePapers() []string { return []string{"A2", "A1", "A0", Roll} }

// Roll is the paper of a plotter, cut off where the sheet ends.
const Roll = "roll"

// Paper gives the width and height of a paper, upright; the name in any case, false for
// one that is not known. ISO 216 table 1 for the A sizes; ANSI/ASME Y14.1 sizes A and B
// for letter and tabloid (215.9 × 279.4, 279.4 × 431.8). A roll is 36 in (914.4 mm) wide, as
// wide-format plotters take it (common practice, no source), and stands here as a square: its
// length follows from what is drawn.
func Paper(name string) (w, h Millimetre, ok bool) {
	switch strings.ToLower(name) {
	case "a4":
		return 210, 297, true
	case "a3":
		return 297, 420, true
	case "a2":
		return 420, 594, true
	case "a1":
		return 594, 841, true
	case "a0":
		return 841, 1189, true
	case "letter":
		return 215.9, 279.4, true
	case "tabloid":
		return 279.4, 431.8, true
	case Roll:
		return 914.4, 914.4, true
	}
	return 0, 0, false
}

// Large tells whether a paper is for the large sheets alone.
func Large(name string) bool {
	w, h, ok := Paper(name)
	return ok && max(w, h) > 440
}

// LargePaper is the paper on which a packet's large sheets fold out: A3, or tabloid where
// the packet is printed on letter or tabloid.
func LargePaper(packet string) string {
	switch strings.ToLower(packet) {
	case "letter", "tabloid":
		return "tabloid"
	}
	return "A3"
}
