package guide

import (
	"fmt"

	"example.com/loomfolio/layout/caution"
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

const (
	cautionNumber = 6.5 // room of a number before its sentence
	cautionPad    = 2.6
)

// cautions sets them in a heavy frame at the foot of the first sheet and gives the frame's top.
func cautions(a page.Ask, s *page.Book) float64 {
	list := caution.Full(a.H)
	body := s.Frame.Body
	style := sheet.Plain(sheet.SizeBody)
	width := body.W - 2*cautionPad - cautionNumber
	high := 2*cautionPad + sheet.SizeHead*typeface.Leading + 0.8
	for _, text := range list {
		high += page.TextHeight(text, style, width) + 0.5
	}
	r := sheet.Rect{X: body.X, Y: body.Bottom() - high, W: body.W, H: high}
	c := &s.C
	c.Rect(r.X, r.Y, r.W, r.H, sheet.Outline(sheet.Solid(sheet.Heavy)))
	in := r.Inset(cautionPad)
	y := frame.Paragraph(c, in, "Cautions", sheet.Strong(sheet.SizeHead)) + 0.8
	for i, text := range list {
		c.Text(in.X+4, y+style.Size*(typeface.CapHeight+0.12), fmt.Sprint(i+1), sheet.Strong(style.Size).At(sheet.Right))
		y = frame.Paragraph(c, sheet.Rect{X: in.X + cautionNumber, Y: y, W: width}, text, style) + 0.5
	}
	return r.Y
}
