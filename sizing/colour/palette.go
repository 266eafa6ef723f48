package colour

import (
	_ "embed"
	"encoding/csv"
	"encoding/hex"
	"strings"
	"sync"

	"example.com/loomfolio/sizing/colour/sight"
)

//go:embed palette.csv
var paletteText string

// insulation is one colour in which wire is made: its letters, its name in
// words and its shade in each palette. Makers' shades differ, so two palettes
// stand for them: the ISCC-NBS centroids and the RAL numbers of DIN 47002.
type insulation struct {
	letters string
	name    string
	shades  []sight.Shade // ISCC-NBS first; RAL second where it has one
}

// usual is the number of colours at the head of the palette that are issued
// without being asked for: the eleven basic colour terms, which nobody mixes
// up in words. Turquoise, tan and light shades are issued only from stock.
const usual = 11

// palette gives every known colour in the order of the table.
var palette = sync.OnceValue(func() []insulation {
	rows, err := csv.NewReader(strings.NewReader(paletteText)).ReadAll()
	if err != nil {
		return nil
	}
	var out []insulation
	for _, row := range rows[1:] {
		c := insulation{letters: row[0], name: row[1]}
		for _, text := range []string{row[6], row[4]} {
			if s, ok := shadeOf(text); ok {
				c.shades = append(c.shades, s)
			}
		}
		out = append(out, c)
	}
	return out
})

func shadeOf(text string) (sight.Shade, bool) {
	b, err := hex.DecodeString(text)
	if err != nil || len(b) != 3 {
		return sight.Shade{}, false
	}
	return sight.Shade{b[0], b[1], b[2]}, true
}

// find gives the index of a colour in the palette, or -1.
func find(letters string) int {
	for i, c := range palette() {
		if c.letters == letters {
			return i
		}
	}
	return -1
}

// Letters gives the letters of every known colour in the table's order:
// first the twelve of IEC 60757, then tan and two light shades.
func Letters() []string {
	var out []string
	for _, c := range palette() {
		out = append(out, c.letters)
	}
	return out
}

// Name gives a colour's name in words, or "" for unknown letters.
func Name(letters string) string {
	if i := find(letters); i >= 0 {
		return palette()[i].name
	}
	return ""
}

// Words gives a pair in words: "orange, black tracer", or "orange" when plain.
// Unknown letters are left as they are.
func Words(p Pair) string {
	base := nameOr(p.Base)
	if p.Tracer == "" {
		return base
	}
	return base + ", " + nameOr(p.Tracer) + " tracer"
}

func nameOr(letters string) string {
	if name := Name(letters); name != "" {
		return name
	}
	return letters
}

// RGB gives the sRGB value with which a colour is drawn, 0 to 255: its
// ISCC-NBS centroid. Unknown letters are drawn in the medium grey.
func RGB(letters string) (r, g, b uint8) {
	i := find(letters)
	if i < 0 {
		i = find("GY")
	}
	s := palette()[i].shades[0]
	return s[0], s[1], s[2]
}
