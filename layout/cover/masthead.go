package cover

import (
	"math"

	"example.com/loomfolio/layout/cover/outline"
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

// Sizes of the head, mm.
const (
	barHigh    = 1.6 // under the vehicle's name
	columnGap  = 6   // between the facts and the picture
	pictureLow = 42  // the picture's least height
)

// masthead sets the vehicle's name large, under it what the packet is, the plain facts
// and the polarity, and beside them the vehicle's picture or the outline of its loom.
func masthead(a page.Ask, s *page.Book) {
	c := &s.C
	quiet := sheet.Plain(sheet.SizeBody).In(sheet.Grey)
	y := frame.Paragraph(c, s.Room, page.Dotted("Wiring packet", reader(a.For)), quiet) + 1.6
	y = vehicle(c, s.Room.Below(y), page.Or(a.H.Info.VehicleName, title(a)))
	c.Rect(s.Room.X, y, s.Room.W, barHigh, sheet.Filled(sheet.Ink))
	s.Room = s.Room.Below(y + barHigh + 2.6)
	facts, beside := s.Room, s.Room
	if pictured(a) {
		facts.W = factsWide(a, s.Room)
		beside.X = facts.Right() + columnGap
		beside.W = s.Room.Right() - beside.X
	}
	end := identity(a, c, facts)
	if pictured(a) {
		beside.H = math.Max(end-beside.Y, pictureLow)
		portrait(a, c, beside)
		end = math.Max(end, beside.Bottom())
	}
	s.Room = s.Room.Below(end + 2.2)
}

// shares are the parts of the width that the facts may take beside a picture, the first in which they are no higher than it.
var shares = []float64{0.6, 0.65, 0.7, 0.75}

func factsWide(a page.Ask, r sheet.Rect) float64 {
	wide := 0.0
	for _, share := range shares {
		wide = math.Round(share * (r.W - columnGap))
		if identity(a, &sheet.Canvas{}, sheet.Rect{X: r.X, Y: r.Y, W: wide, H: r.H})-r.Y <= pictureLow {
			break
		}
	}
	return wide
}

// title is the document's.
func title(a page.Ask) string { return page.Or(a.H.Info.Title, "Wiring loom") }

// The heights of the capitals in which a vehicle's name is set, mm: the first in
// which it takes one line, else the first in which it takes two.
var steps = []float64{12, 10, 8, 6}

// vehicle sets the name and gives where it ends.
func vehicle(c *sheet.Canvas, r sheet.Rect, name string) float64 {
	capitals, lines := stepOf(name, r.W)
	style := sheet.Strong(capitals / typeface.CapHeight)
	y := r.Y
	for _, line := range lines {
		c.Text(r.X, y+capitals, line, style)
		y += capitals * 1.45
	}
	return y - capitals*0.1
}

// stepOf gives the capitals' height of a name, by its length alone, and its lines.
func stepOf(name string, width float64) (capitals float64, lines []string) {
	for _, most := range []int{1, 2} {
		for _, capitals := range steps {
			size := capitals / typeface.CapHeight
			lines := typeface.Wrap(name, sheet.Bold, size, width)
			if len(lines) <= most && typeface.Longest(name, sheet.Bold, size) <= width {
				return capitals, lines
			}
		}
	}
	least := steps[len(steps)-1]
	return least, typeface.Wrap(name, sheet.Bold, least/typeface.CapHeight, width)
}

// identity sets the document's title, the plain facts and the polarity, and gives where they end.
func identity(a page.Ask, c *sheet.Canvas, r sheet.Rect) float64 {
	y := r.Y
	if a.H.Info.VehicleName != "" {
		y = frame.Paragraph(c, r, title(a), sheet.Strong(sheet.SizeHead)) + 1
	}
	facts := given([][2]string{{"Identity", a.H.Info.VehicleIdentity}, {"Revision", a.H.Info.Revision}, {"Issued", a.H.Info.Date}, {"Checked by", a.H.Info.CheckedBy}, {"Variant", a.H.Info.Differs}})
	y = factLines(c, r.Below(y), facts) + 1.8
	return supply(a, c, r.Below(y))
}

// factLines sets facts one after the other, each whole on its line where it fits, and gives where they end.
func factLines(c *sheet.Canvas, r sheet.Rect, facts [][2]string) float64 {
	if len(facts) == 0 {
		return r.Y
	}
	const gap, high = 5, 4.8
	quiet, strong := sheet.Plain(sheet.SizeBody).In(sheet.Grey), sheet.Strong(sheet.SizeBody)
	x, base := r.X, r.Y+3.4
	for _, f := range facts {
		label := typeface.Width(f[0], quiet.Face, quiet.Size) + 1.6
		lines := typeface.Wrap(f[1], strong.Face, strong.Size, r.W-label)
		if x > r.X && x+label+typeface.Width(f[1], strong.Face, strong.Size) > r.Right() {
			x, base = r.X, base+high
		}
		c.Text(x, base, f[0], quiet)
		for i, line := range lines {
			if i > 0 {
				base += high
			}
			c.Text(x+label, base, line, strong)
		}
		x += label + typeface.Width(f[1], strong.Face, strong.Size) + gap
	}
	return base + 1.4
}

// given are the facts that the description gives.
func given(facts [][2]string) [][2]string {
	var out [][2]string
	for _, f := range facts {
		if f[1] != "" {
			out = append(out, f)
		}
	}
	return out
}

// pictured tells whether there is something to show beside the facts.
func pictured(a page.Ask) bool { return a.H.Sheet.Picture.There() || len(a.H.Runs) > 0 }

// portrait shows the picture of the description, or the loom in outline.
func portrait(a page.Ask, c *sheet.Canvas, r sheet.Rect) {
	if p := a.H.Sheet.Picture; p.There() {
		_, high := page.PictureSize(p, r.W, r.H)
		page.PictureOf(c, sheet.Rect{X: r.X, Y: r.Y + (r.H-high)/2, W: r.W, H: r.H}, p, page.Or(a.H.Info.VehicleName, title(a)))
		return
	}
	const caption = 4.2
	drawn := sheet.Rect{X: r.X, Y: r.Y, W: r.W, H: r.H - caption}
	outline.Draw(c, drawn, a.H, a.R.Runs)
	words := "The loom in outline, " + page.Counted(len(a.H.Runs), "run")
	if outline.FrontFirst(a.H) {
		words = "The loom in outline, front at the left"
	}
	c.Text(r.Right(), r.Bottom()-0.8, words, page.Quiet().At(sheet.Right))
}
