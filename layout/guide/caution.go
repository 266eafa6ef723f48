package guide

import (
	"fmt"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

// Cautions are the sentences of the cover for a system's polarity, in order.
func Cautions(positiveEarth bool) []string {
	first := "Disconnect the battery before any work: take the negative (earthed) lead off first and put it back last."
	lead := "positive"
	if positiveEarth {
		first = "Disconnect the battery before any work. This vehicle has POSITIVE EARTH: take the positive (earthed) lead off first and put it back last."
		lead = "negative"
	}
	return []string{
		first,
		fmt.Sprintf("Every live (%s) lead that has no fuse yet gets one close to the battery. A chafed lead without a fuse burns. Never fit a fuse larger than the fuse map allows.", lead),
		"Airbag and belt-pretensioner circuits are not to be probed, measured or altered: a meter alone can set them off.",
		"Nothing in this packet covers traction or other systems of 60 V DC and above, or mains voltage. Keep away from them.",
		"An electric fuel pump needs a cut-off that stops it when the engine stops and in a crash.",
		"Lamps, signals and brakes are regulated by law: what the law asks for comes before anything printed here.",
		"The sizes are computed from the description and from the practice stated on the reading guide. Where the vehicle differs from the description they do not hold.",
		"Check every size against the data of the parts' makers and against the codes that hold where the vehicle is used.",
		"Work on which safety depends belongs to a qualified person.",
	}
}

const (
	cautionNumber = 6.5 // room of a number before its sentence
	cautionPad    = 2.6
)

// cautions sets them in a heavy frame at the foot of the first sheet and gives the frame's top.
func cautions(a page.Ask, s *page.Book) float64 {
	list := Cautions(a.H.System.PositiveEarth)
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
