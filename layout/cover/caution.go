package cover

import (
	"fmt"
	"math"

	"example.com/loomfolio/layout/caution"
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

const (
	cautionNumber = 5.5 // room of a number before its sentence
	cautionPad    = 2.6
	cautionGap    = 5   // between the two columns
	cautionClear  = 0.5 // under a sentence
)

// cautions sets them in a heavy frame, in two columns as equal as whole sentences make them.
func cautions(a page.Ask, s *page.Book) part {
	list := caution.Full(a.H)
	style := sheet.Plain(sheet.SizeBody)
	width := (s.Room.W-2*cautionPad-cautionGap)/2 - cautionNumber
	first, high := halved(list, style, width)
	const head = legendUp + 0.4
	whole := 2*cautionPad + head + high - cautionClear
	return part{legendUp + whole, func() {
		c := &s.C
		r := sheet.Rect{X: s.Room.X, Y: s.Room.Y + legendUp, W: s.Room.W, H: whole}
		legend(c, r, "Cautions", sheet.Solid(sheet.Heavy))
		in := r.Inset(cautionPad)
		x, y := in.X, in.Y+head
		for i, text := range list {
			if i == first {
				x, y = in.X+cautionNumber+width+cautionGap, in.Y+head
			}
			c.Text(x+3.4, y+style.Size*(typeface.CapHeight+0.12), fmt.Sprint(i+1), sheet.Strong(style.Size).At(sheet.Right))
			y = frame.Paragraph(c, sheet.Rect{X: x + cautionNumber, Y: y, W: width}, text, style) + cautionClear
		}
	}}
}

// halved gives how many sentences stand in the first of two columns, so that the higher one is low, and its height.
func halved(list []string, style sheet.Style, width float64) (first int, high float64) {
	whole := 0.0
	for _, text := range list {
		whole += page.TextHeight(text, style, width) + cautionClear
	}
	first, high = len(list), whole
	above := 0.0
	for i, text := range list {
		above += page.TextHeight(text, style, width) + cautionClear
		if h := math.Max(above, whole-above); h < high {
			first, high = i+1, h
		}
	}
	return first, high
}
