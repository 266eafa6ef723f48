package cover

import (
	"fmt"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// supply says volts, polarity and return in a heavy box, for they spoil most when misread,
// and gives where the box ends.
func supply(a page.Ask, c *sheet.Canvas, r sheet.Rect) float64 {
	sys := a.H.System
	const pictogram, most = 24, 6.2
	inner := sheet.Rect{X: r.X + 4 + pictogram, Y: r.Y + 2.6, W: r.W - 8 - pictogram}
	head := page.List(page.NoBreak+"· ", voltages(a), polarity(a), returning(a))
	big, small := sheet.Strong(typeface.Shrink(head, sheet.Bold, most, sheet.SizeHead, inner.W)), sheet.Plain(sheet.SizeBody)
	text := polarityWords(a)
	high := max(19, 5.2+page.TextHeight(head, big, inner.W)+page.TextHeight(text, small, inner.W))
	c.RoundRect(r.X, r.Y, r.W, high, 1.5, sheet.Both(sheet.Solid(sheet.Heavy), sheet.Pale))
	battery(c, sheet.Rect{X: r.X + 4, Y: r.Y + (high-13)/2, W: pictogram - 5, H: 13}, sys)
	y := frame.Paragraph(c, inner, head, big)
	frame.Paragraph(c, inner.Below(y), text, small)
	return r.Y + high
}

// voltages are those on board, the main one first.
func voltages(a page.Ask) string {
	var out []string
	for _, v := range a.H.Nominals() {
		out = append(out, page.Firm(unit.Volt(v).String()))
	}
	return page.And(out)
}

// sides say where the further voltages come from.
func sides(a page.Ask) string {
	words := ""
	for i := range a.H.Elements {
		e := &a.H.Elements[i]
		if s := a.H.SystemOf(e); e.Kind == harness.Converter && s.Volts != a.H.System.Volts {
			words += fmt.Sprintf(" %s comes from %s: %s, %s at most.", page.Firm(s.Volts.String()), a.H.Parts[e.Part].Ref, page.Firm(e.Volts.String()), page.Firm(e.Amps.String()))
		}
	}
	return words
}

func polarity(a page.Ask) string {
	if a.H.System.PositiveEarth {
		return "POSITIVE GROUND (positive earth)"
	}
	return "negative ground"
}

func returning(a page.Ask) string {
	if a.H.System.WiredReturn {
		return "wired return"
	}
	return "return through the chassis"
}

// polarityWords says which post is which; of bodywork alone where it is the return.
func polarityWords(a page.Ask) string {
	earthed, live := "negative (−)", "positive (+)"
	if a.H.System.PositiveEarth {
		earthed, live = live, earthed
	}
	words := fmt.Sprintf("The battery's %s post is joined to the bodywork; the %s post is live.", earthed, live)
	if a.H.System.WiredReturn {
		words = fmt.Sprintf("Every return is a wire of its own, back to the battery's %s post; the frame carries no current. The %s post is live.", earthed, live)
	}
	if a.H.System.PositiveEarth {
		words += " Polarised parts (radio, diode, electronic module) must be made for positive ground."
	}
	if a.H.System.Running > 0 {
		words += fmt.Sprintf(" Charging voltage with the engine running: %s.", a.H.System.Running)
	}
	return words + sides(a)
}

// battery draws the box with its two posts; the earthed one leads to the ground sign, where
// the bodywork is the return.
func battery(c *sheet.Canvas, r sheet.Rect, sys harness.System) {
	box := sheet.Rect{X: r.X, Y: r.Y + 2.4, W: r.W - 4, H: r.H - 2.4}
	plus, minus := box.X+box.W*0.76, box.X+box.W*0.24
	for _, x := range []float64{plus, minus} {
		c.Rect(x-1.5, r.Y, 3, 3, sheet.Both(sheet.Solid(sheet.Medium), sheet.White))
	}
	c.RoundRect(box.X, box.Y, box.W, box.H, 0.8, sheet.Both(sheet.Solid(sheet.Thick), sheet.White))
	c.Text(minus, box.Y+6.4, "−", sheet.Strong(sheet.SizeTitle).At(sheet.Centre))
	c.Text(plus, box.Y+6.4, "+", sheet.Strong(sheet.SizeTitle).At(sheet.Centre))
	if sys.WiredReturn {
		return
	}
	earthed := minus
	if sys.PositiveEarth {
		earthed = plus
	}
	c.Polyline([]sheet.Point{{X: earthed, Y: r.Y}, {X: earthed, Y: r.Y - 1.4}, {X: r.Right() - 1, Y: r.Y - 1.4}, {X: r.Right() - 1, Y: r.Y + 7}}, sheet.Solid(sheet.Medium))
	for i, half := range []float64{2.4, 1.5, 0.6} {
		y := r.Y + 7 + 1.1*float64(i)
		c.Line(r.Right()-1-half, y, r.Right()-1+half, y, sheet.Solid(sheet.Medium))
	}
}
