package guide

import (
	"fmt"
	"math"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// meaning is one part of a flag: what stands on it and what that says.
type meaning struct {
	text, means string
	middle      float64 // where it stands on the flag, from the flag's left
}

const wireWords = "I and O are not used; after the last letter comes AA. At a splice, fuse, switch or connector another wire begins. Sleeves at both ends bear the name. " +
	"A line has the wire's colour, dashes for a tracer, weight for size."

// wireNames shows a flag of this loom taken apart over the three line weights, and gives where that ends.
func wireNames(a page.Ask, c *sheet.Canvas, r sheet.Rect, id harness.WireID) float64 {
	y := heading(c, r, "How a wire is named and drawn", "") + 0.6
	parts := meanings(a, id)
	end, wide := flagged(a, c, r.Below(y), id, parts)
	end, wide = weights(a, c, r.Below(end+1.6), wide)
	return math.Max(end, explained(c, sheet.Rect{X: r.X + wide + 4, Y: y, W: r.W - wide - 4}, parts))
}

// flagged draws a wire under its flag, larger than in a diagram, as half the width allows, and gives where they end and how wide they are.
func flagged(a page.Ask, c *sheet.Canvas, r sheet.Rect, id harness.WireID, parts []meaning) (end, wide float64) {
	size := 5.0
	dark, light := flagFields(parts, size)
	if most := r.W / 2; dark+light > most {
		size = math.Max(sheet.SizeNote, size*most/(dark+light))
		dark, light = flagFields(parts, size)
	}
	const lead = 3 // of the wire on both sides of its flag
	flag := sheet.Rect{X: r.X + lead, Y: r.Y, W: dark + light, H: 1.4 * size}
	drawFlag(c, flag, dark, size, parts)
	wire := flag.Bottom() + 2.5
	page.Strand(c, []sheet.Point{{X: r.X, Y: wire}, {X: flag.Right() + lead, Y: wire}}, a.Pair(id), 2*page.MediumLine)
	return wire + page.MediumLine, flag.W + 2*lead
}

// explained says what each part of a flag means, in the order in which they stand on it, and gives where that ends.
func explained(c *sheet.Canvas, r sheet.Rect, parts []meaning) float64 {
	key := 0.0
	for _, p := range parts {
		key = math.Max(key, typeface.Width(p.text, sheet.Bold, sheet.SizeBody))
	}
	words := sheet.Rect{X: r.X + key + 2.5, Y: r.Y, W: r.W - key - 2.5}
	style := sheet.Plain(sheet.SizeBody)
	for _, p := range parts {
		if p.text == "" {
			continue
		}
		c.Text(r.X, words.Y+style.Size*(typeface.CapHeight+0.12), p.text, sheet.Strong(style.Size))
		words.Y = frame.Paragraph(c, words, p.means, style) + 0.6
	}
	return words.Y
}

// weights draws the three line weights under one another, and gives where they end and how wide
// they are, no less than least.
func weights(a page.Ask, c *sheet.Canvas, r sheet.Rect, least float64) (end, wide float64) {
	pair := colour.Pair{Base: "YE", Tracer: "BK"}
	kinds := []struct {
		width float64
		text  string
	}{{page.ThinLine, "up to 1 mm²"}, {page.MediumLine, "above 1, up to 4 mm²"}, {page.HeavyLine, "above 4 mm²"}}
	if system := a.H.Sheet.Gauge; system != unit.Metric {
		thin, medium := heaviest(system, page.ThinLine), heaviest(system, page.MediumLine)
		kinds[0].text = thin + " and thinner"
		kinds[1].text = "thicker, up to " + medium
		kinds[2].text = "thicker than " + medium
	}
	const line, high = 13, 4.4
	for i, k := range kinds {
		y := r.Y + high*(float64(i)+0.5)
		page.Strand(c, []sheet.Point{{X: r.X, Y: y}, {X: r.X + line, Y: y}}, pair, k.width)
		c.Text(r.X+line+2, y+1.2, k.text, sheet.Plain(sheet.SizeBody))
		least = math.Max(least, line+2+typeface.Width(k.text, sheet.Regular, sheet.SizeBody))
	}
	return r.Y + high*float64(len(kinds)), least
}

// heaviest is the heaviest size of a gauge system that is drawn no wider than a line weight.
func heaviest(system unit.System, weight float64) string {
	var most rating.Conductor
	for _, c := range rating.Sizes(system) {
		if page.LineWeight(float64(c.Area)) <= weight && c.Area > most.Area {
			most = c
		}
	}
	return most.Gauge.String()
}

// example picks the wire for the example: the first with a tracer, else the first.
func example(a page.Ask) (harness.WireID, bool) {
	for _, w := range a.H.Wires {
		if a.Pair(w.ID).Tracer != "" {
			return w.ID, true
		}
	}
	return 0, len(a.H.Wires) > 0
}

// splitName parts a wire's name into its circuit's number and its letter; an own
// name stays whole.
func splitName(name, number string) (string, string) {
	if rest, ok := strings.CutPrefix(name, number); ok && number != "" && rest != "" {
		return number, rest
	}
	return "", name
}

// meanings takes a wire's flag apart, from left to right.
func meanings(a page.Ask, id harness.WireID) []meaning {
	w := a.H.Wires[id]
	circuit := a.H.Circuits[w.Circuit]
	pair := a.Pair(id)
	number, letter := splitName(w.Name, circuit.Number)
	which := "which wire: A to M feed, N to Z return to ground"
	if number == "" {
		which = "a wire with a name of its own"
	}
	size := a.Gauge(id)
	parts := []meaning{
		{text: number, means: fmt.Sprintf("circuit %s: %s", circuit.Number, circuit.Name)},
		{text: letter, means: which},
		{text: strings.TrimSuffix(size, " mm²"), means: "size: " + page.Firm(size)},
		{text: pair.String(), means: colour.Words(pair)},
	}
	return parts
}

// flagFields finds where each part stands and gives the widths of the dark field,
// which holds the name, and of the light one.
func flagFields(parts []meaning, size float64) (dark, light float64) {
	pad := size / 3
	x := pad
	for i := range parts {
		face := sheet.Bold
		if i >= 2 {
			face = sheet.Regular
		}
		w := typeface.Width(parts[i].text, face, size)
		parts[i].middle = x + w/2
		x += w
		switch i {
		case 1:
			dark = x + pad
			x = dark + pad
		case 2:
			x += typeface.Width(" · ", sheet.Regular, size)
		}
	}
	return dark, x + pad - dark
}

// drawFlag draws the two fields as diagrams have them: the name white on dark,
// then size and colour.
func drawFlag(c *sheet.Canvas, r sheet.Rect, dark, size float64, parts []meaning) {
	edge := sheet.Solid(sheet.Medium)
	c.Rect(r.X, r.Y, dark, r.H, sheet.Both(edge, sheet.Ink))
	c.Rect(r.X+dark, r.Y, r.W-dark, r.H, sheet.Both(edge, sheet.White))
	base := r.Y + r.H/2 + size*typeface.CapHeight/2
	for i, p := range parts {
		style := sheet.Plain(size)
		if i < 2 {
			style = sheet.Strong(size).In(sheet.White)
		}
		c.Text(r.X+p.middle, base, p.text, style.At(sheet.Centre))
	}
	end := r.X + parts[2].middle + typeface.Width(parts[2].text, sheet.Regular, size)/2
	c.Text(end, base, " · ", sheet.Plain(size))
}
