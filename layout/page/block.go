package page

import (
	"math"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

// TextHeight is how high a paragraph becomes at a width.
func TextHeight(text string, style sheet.Style, width float64) float64 {
	if text == "" {
		return 0
	}
	return float64(len(typeface.Wrap(text, style.Face, style.Size, width))) * style.Size * typeface.Leading
}

// Centred sets a paragraph line by line about the middle of an area and gives
// the height where it ends.
func Centred(c *sheet.Canvas, r sheet.Rect, text string, style sheet.Style) float64 {
	if text == "" {
		return r.Y
	}
	y := r.Y
	for _, line := range typeface.Wrap(text, style.Face, style.Size, r.W) {
		c.Text(r.X+r.W/2, y+style.Size*(typeface.CapHeight+0.12), line, style.At(sheet.Centre))
		y += style.Size * typeface.Leading
	}
	return y
}

// Title sets a reference big and its words beside it, wrapped, and gives the
// height where they end.
func Title(c *sheet.Canvas, r sheet.Rect, ref, words string) float64 {
	base := r.Y + sheet.SizeHead*typeface.CapHeight + 0.5
	c.Text(r.X, base, ref, sheet.Strong(sheet.SizeHead))
	x := r.X + refWide(ref)
	style := sheet.Plain(sheet.SizeBody)
	y := base
	for i, line := range typeface.Wrap(words, style.Face, style.Size, r.Right()-x) {
		y = base + float64(i)*style.Size*typeface.Leading
		c.Text(x, y, line, style)
	}
	return y + 1
}

// TitleHigh is the height of a title at a width.
func TitleHigh(ref, words string, width float64) float64 {
	more := TextHeight(words, sheet.Plain(sheet.SizeBody), width-refWide(ref)) - sheet.SizeBody*typeface.Leading
	return sheet.SizeHead*typeface.CapHeight + 1.5 + math.Max(0, more)
}

func refWide(ref string) float64 { return typeface.Width(ref, sheet.Bold, sheet.SizeHead) + 3 }

// Narrowed sets a text that is too wide for its place smaller, down to the size of
// notes, and cuts what is too wide even then.
func Narrowed(s string, st sheet.Style, width float64) (string, sheet.Style) {
	st.Size = typeface.Shrink(s, st.Face, st.Size, sheet.SizeNote, width)
	return typeface.Fit(s, st.Face, st.Size, width), st
}

// Quiet is the style of remarks.
func Quiet() sheet.Style { return sheet.Plain(sheet.SizeNote).In(sheet.Grey) }
