package page

import (
	"math"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/colour"
)

// Shade is the colour with which a wire's letters are drawn.
func Shade(letters string) sheet.Colour {
	r, g, b := colour.RGB(letters)
	return sheet.Colour{R: r, G: g, B: b}
}

// OnFill gives the ink that reads best on a ground: the dark one or white, by
// the contrast ratio of WCAG 2.1 (relative luminance of sRGB).
func OnFill(ground sheet.Colour) sheet.Colour {
	if Contrast(sheet.Ink, ground) >= Contrast(sheet.White, ground) {
		return sheet.Ink
	}
	return sheet.White
}

// Contrast is the contrast ratio of two colours, 1 to 21 (WCAG 2.1, 1.4.3).
func Contrast(a, b sheet.Colour) float64 {
	x, y := luminance(a), luminance(b)
	return (math.Max(x, y) + 0.05) / (math.Min(x, y) + 0.05)
}

func luminance(c sheet.Colour) float64 {
	linear := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.03928 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
}

// Swatch draws a wire's colour as a bar: the base with a dark outline, the
// tracer as dashes along the middle third, each with an outline that shows on the base.
func Swatch(c *sheet.Canvas, r sheet.Rect, p colour.Pair) {
	base := Shade(p.Base)
	c.RoundRect(r.X, r.Y, r.W, r.H, r.H*0.3, sheet.Filled(base))
	if p.Tracer != "" {
		tracerDashes(c, r, Shade(p.Tracer), OnFill(base))
	}
	c.RoundRect(r.X, r.Y, r.W, r.H, r.H*0.3, sheet.Outline(sheet.Solid(0.25)))
}

// tracerDashes spreads whole dashes evenly over the length of a bar.
func tracerDashes(c *sheet.Canvas, r sheet.Rect, fill, edge sheet.Colour) {
	const pitch, share = 4.4, 0.6
	n := math.Max(1, math.Round(r.W/pitch))
	step := r.W / n
	for i := range int(n) {
		x := r.X + step*(float64(i)+(1-share)/2)
		c.Rect(x, r.Y+r.H/3, step*share, r.H/3, sheet.Both(sheet.Solid(sheet.Hair).In(edge), fill))
	}
}

// swatch size in tables, mm.
const swatchWide, swatchHigh = 13, 3.2

// SwatchDrawing is the bar alone, for cells with a text of their own.
func SwatchDrawing(p colour.Pair) *table.Drawing {
	return &table.Drawing{W: swatchWide, H: swatchHigh, Draw: func(c *sheet.Canvas, area sheet.Rect) { Swatch(c, area, p) }}
}

// ShortSwatch is a bar of half the length, for dense tables.
func ShortSwatch(p colour.Pair) *table.Drawing {
	return &table.Drawing{W: swatchWide / 2, H: swatchHigh, Draw: func(c *sheet.Canvas, area sheet.Rect) { Swatch(c, area, p) }}
}

// Strand draws a wire as a line through points: a dark outline, the base in
// width mm, the tracer as a dashed line along the middle.
func Strand(c *sheet.Canvas, points []sheet.Point, p colour.Pair, width float64) {
	base := Shade(p.Base)
	line := sheet.Stroke{Width: width + 2*sheet.Thin, Colour: sheet.Ink, Round: true}
	c.Polyline(points, line)
	line.Width, line.Colour = width, base
	c.Polyline(points, line)
	if p.Tracer != "" {
		c.Polyline(points, sheet.Stroke{Width: width * 0.45, Colour: Shade(p.Tracer), Dash: []float64{2.2, 1.6}})
	}
}

// The three weights of a wire's line in a diagram, mm of base colour.
const (
	ThinLine   = 0.8
	MediumLine = 1.2
	HeavyLine  = 1.7
)

// Bounds of the weights: conductors up to these areas, mm².
const (
	thinUpTo   = 1
	mediumUpTo = 4
)

// LineWeight is the width in mm with which a conductor of an area in mm² is drawn.
func LineWeight(area float64) float64 {
	switch {
	case area <= thinUpTo:
		return ThinLine
	case area <= mediumUpTo:
		return MediumLine
	}
	return HeavyLine
}
