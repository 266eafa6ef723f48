package guide

import (
	"fmt"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/harness"
)

// meaning is one part of a flag: what stands on it and what that says.
type meaning struct {
	text, means string
	middle      float64 // where it stands on the flag, from the flag's left
}

// Sizes of the flag that is taken apart, mm: twice those of a diagram.
const (
	flagText = 6.0
	flagHigh = 8.4
	flagPad  = 2.0
	rowGap   = 0.6
)

// dissected draws a wire with its flag large and, beside it, what each part of the flag
// means, in the order in which they stand on it.
func dissected(a page.Ask, s *page.Book, id harness.WireID) {
	parts := meanings(a, id)
	dark, light := flagFields(parts)
	left := s.Room.X + 6
	label := left + dark + light + 12
	key := 0.0
	for _, p := range parts {
		key = max(key, typeface.Width(p.text, sheet.Bold, sheet.SizeBody))
	}
	words := sheet.Rect{X: label + key + 3, Y: s.Room.Y, W: s.Room.Right() - label - key - 3}
	style, c := sheet.Plain(sheet.SizeBody), &s.C
	for _, p := range parts {
		if p.text == "" {
			continue
		}
		c.Text(label, words.Y+style.Size*(typeface.CapHeight+0.12), p.text, sheet.Strong(style.Size))
		words.Y = frame.Paragraph(c, words, p.means, style) + rowGap
	}
	end := max(words.Y, s.Room.Y+flagHigh+8)
	flag := sheet.Rect{X: left, Y: (s.Room.Y+end)/2 - flagHigh, W: dark + light, H: flagHigh}
	drawFlag(c, flag, dark, parts)
	wire := flag.Bottom() + 2.5
	page.Strand(c, []sheet.Point{{X: s.Room.X, Y: wire}, {X: label - 6, Y: wire}}, a.Pair(id), 2*page.MediumLine)
	s.Down(end + 1 - s.Room.Y)
}

// meanings takes a wire's flag apart, from left to right.
func meanings(a page.Ask, id harness.WireID) []meaning {
	w := a.H.Wires[id]
	circuit := a.H.Circuits[w.Circuit]
	pair := a.Pair(id)
	number, letter := splitName(w.Name, circuit.Number)
	which := "which wire of the circuit: A to M are feeds, N to Z are returns to ground; after the last letter comes AA"
	if number == "" {
		which = "a wire with a name of its own"
	}
	size := a.Gauge(id)
	parts := []meaning{
		{text: number, means: fmt.Sprintf("circuit %s: %s", circuit.Number, circuit.Name)},
		{text: letter, means: which},
		{text: strings.TrimSuffix(size, " mm²"), means: "size of the conductor: " + size},
		{text: pair.String(), means: "colour: " + colour.Words(pair)},
	}
	return parts
}

// flagFields finds where each part stands and gives the widths of the dark field,
// which holds the name, and of the light one.
func flagFields(parts []meaning) (dark, light float64) {
	x := flagPad
	for i := range parts {
		face := sheet.Bold
		if i >= 2 {
			face = sheet.Regular
		}
		w := typeface.Width(parts[i].text, face, flagText)
		parts[i].middle = x + w/2
		x += w
		switch i {
		case 1:
			dark = x + flagPad
			x = dark + flagPad
		case 2:
			x += typeface.Width(" · ", sheet.Regular, flagText)
		}
	}
	return dark, x + flagPad - dark
}

// drawFlag draws the two fields as diagrams have them: the name white on dark,
// then size and colour.
func drawFlag(c *sheet.Canvas, r sheet.Rect, dark float64, parts []meaning) {
	edge := sheet.Solid(sheet.Medium)
	c.Rect(r.X, r.Y, dark, r.H, sheet.Both(edge, sheet.Ink))
	c.Rect(r.X+dark, r.Y, r.W-dark, r.H, sheet.Both(edge, sheet.White))
	base := r.Y + r.H/2 + flagText*typeface.CapHeight/2
	for i, p := range parts {
		style := sheet.Plain(flagText)
		if i < 2 {
			style = sheet.Strong(flagText).In(sheet.White)
		}
		c.Text(r.X+p.middle, base, p.text, style.At(sheet.Centre))
	}
	end := r.X + parts[2].middle + typeface.Width(parts[2].text, sheet.Regular, flagText)/2
	c.Text(end, base, " · ", sheet.Plain(flagText))
}
