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
	rowGap   = 1.2
)

// dissected draws a wire with its flag large and, above it, what each part of the
// flag means: each on a line of its own, led down to its place.
func dissected(a page.Ask, s *page.Book, id harness.WireID) {
	parts := meanings(a, id)
	left := s.Room.X + 8
	dark, light := flagFields(parts)
	label := max(left+dark+light+6, s.Room.X+64)
	words := sheet.Rect{X: label + 20, Y: s.Room.Y + 1, W: s.Room.Right() - label - 20}
	style := sheet.Plain(sheet.SizeBody)
	bottom := words.Y
	for _, p := range parts {
		if p.text == "" {
			continue
		}
		bottom += page.TextHeight(p.means, style, words.W) + rowGap
	}
	bottom += 2
	c := &s.C
	for _, p := range parts {
		if p.text == "" {
			continue
		}
		row := words.Y + 1.7
		c.Polyline([]sheet.Point{{X: left + p.middle, Y: bottom}, {X: left + p.middle, Y: row}, {X: label - 1.5, Y: row}}, sheet.Solid(sheet.Thin))
		text, st := page.Narrowed(p.text, sheet.Strong(sheet.SizeBody), 19)
		c.Text(label, row+1.2, text, st)
		words.Y = frame.Paragraph(c, words, p.means, style) + rowGap
	}
	drawFlag(c, sheet.Rect{X: left, Y: bottom, W: dark + light, H: flagHigh}, dark, parts)
	wire := bottom + flagHigh + 2.5
	page.Strand(c, []sheet.Point{{X: s.Room.X + 2, Y: wire}, {X: s.Room.Right() - 2, Y: wire}}, a.Pair(id), 2*page.MediumLine)
	s.Down(wire + 4 - s.Room.Y)
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
