package cover

import (
	"math"
	"slices"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/choose/chosen"
)

// Sizes of the block by which a vehicle changes hands, mm.
const (
	handPad   = 2.6
	fieldHigh = 9.8 // a name over a line to write on
	signHigh  = 11
	fieldGap  = 5
	fuseWide  = 7.4
	linkWide  = 10 // of a bolt-down link
	fuseHigh  = 5.6
)

// written is a line to write on, or what the description says in its place.
type written struct {
	label, value string
	share        float64
}

// handOver is the block in which builder and owner fill in and sign; empty fields are lines to write on.
func handOver(a page.Ask, s *page.Book) part {
	i := a.H.Info
	people := []written{{"Built by", i.Builder, 3}, {"Built for", i.Customer, 3}, {"Handed over on", "", 2}, {"Mileage or hours", "", 2}}
	signs := []written{{"Signature, builder", "", 1}, {"Signature, owner", "", 1}}
	inner := s.Room.W - 2*handPad
	top := rowHeight(people, inner)
	spares := spareFuses(a)
	fuses := spareHigh(spares, inner)
	high := legendUp + 1.2 + handPad/2 + top + fuses + signHigh
	return part{legendUp + high + 2, func() {
		c := &s.C
		r := sheet.Rect{X: s.Room.X, Y: s.Room.Y + legendUp, W: s.Room.W, H: high}
		legend(c, r, "Hand-over", sheet.Solid(sheet.Medium))
		in := r.Inset(handPad)
		y := r.Y + legendUp + 1.2
		fields(c, sheet.Rect{X: in.X, Y: y, W: in.W, H: top}, people)
		drawSpares(c, sheet.Rect{X: in.X, Y: y + top, W: in.W, H: fuses}, spares)
		fields(c, sheet.Rect{X: in.X, Y: y + top + fuses, W: in.W, H: signHigh}, signs)
	}}
}

// widths shares a row among its fields.
func widths(row []written, width float64) []float64 {
	sum, out := 0.0, make([]float64, len(row))
	for _, f := range row {
		sum += f.share
	}
	for i, f := range row {
		out[i] = (width - fieldGap*float64(len(row)-1)) * f.share / sum
	}
	return out
}

// rowHeight is the height of a row with the values that the description gives, wrapped.
func rowHeight(row []written, width float64) float64 {
	high := fieldHigh
	for i, w := range widths(row, width) {
		high = math.Max(high, 3.9+page.TextHeight(row[i].value, sheet.Strong(sheet.SizeBody), w)+1.8)
	}
	return high
}

// fields sets a row: each field's name small, under it its value on a line.
func fields(c *sheet.Canvas, r sheet.Rect, row []written) {
	x := r.X
	for i, w := range widths(row, r.W) {
		c.Text(x, r.Y+2.6, row[i].label, page.Quiet())
		frame.Paragraph(c, sheet.Rect{X: x, Y: r.Y + 3.7, W: w}, row[i].value, sheet.Strong(sheet.SizeBody))
		c.Line(x, r.Bottom()-1.2, x+w, r.Bottom()-1.2, sheet.Solid(sheet.Thin))
		x += w + fieldGap
	}
}

// spares are the ratings of one body.
type spares struct {
	body  string
	fuses []page.Fuse
}

// wide is how wide all of them are beside one another.
func (s spares) wide() float64 {
	sum := 0.0
	for _, f := range s.fuses {
		sum += wide(f) + 0.7
	}
	return sum - 0.7
}

// spareFuses are the fuses that are in the vehicle, each rating of a body once: what to carry.
func spareFuses(a page.Ask) []spares {
	var out []spares
	list := slices.Clone(a.R.Fuses)
	slices.SortStableFunc(list, func(x, y chosen.Fuse) int { return int(100*x.Rating) - int(100*y.Rating) })
	for _, body := range []string{"mini", "blade", "maxi", "glass", "bolt", ""} {
		of := spares{body: map[string]string{"": "other", "bolt": "bolt-down", "glass": "glass tube"}[body]}
		of.body = page.Or(of.body, body)
		for _, f := range list {
			drawn := page.Fuse{Body: f.Body, Colour: f.BodyColour, Rating: page.Trimmed(float64(f.Rating), 1)}
			if !f.Breaker && f.Body == body && f.Rating > 0 && !slices.Contains(of.fuses, drawn) {
				of.fuses = append(of.fuses, drawn)
			}
		}
		if len(of.fuses) > 0 {
			out = append(out, of)
		}
	}
	return out
}

const spareLabel = "Spare fuses, A"

// spareHigh is the height of the row of fuses at a width.
func spareHigh(all []spares, width float64) float64 {
	if len(all) == 0 {
		return 0
	}
	_, bottom := layFuses(all, width)
	return bottom + 2.4
}

// at is where something of the row stands.
type at struct {
	x, y float64
	word string // of a body
	fuse page.Fuse
}

// layFuses sets bodies and their fuses one after the other behind the row's name, on as many lines as it takes.
func layFuses(all []spares, width float64) (out []at, bottom float64) {
	start := typeface.Width(spareLabel, sheet.Regular, sheet.SizeNote) + 4
	x, y := start, 0.0
	for _, g := range all {
		word := typeface.Width(g.body, sheet.Regular, sheet.SizeBody) + 2.2
		for i, f := range g.fuses {
			need := wide(f)
			if i == 0 {
				need = word + g.wide()
				if start+need > width {
					need = word + wide(f)
				}
			}
			if x > start && x+need > width {
				x, y = start, y+fuseHigh+1
			}
			if i == 0 {
				out = append(out, at{x: x, y: y, word: g.body})
				x += word
			}
			out = append(out, at{x: x, y: y, fuse: f})
			x += wide(f) + 1.1
		}
		x += 2
	}
	return out, y + fuseHigh
}

func drawSpares(c *sheet.Canvas, r sheet.Rect, all []spares) {
	if len(all) == 0 {
		return
	}
	c.Text(r.X, r.Y+fuseHigh/2+1, spareLabel, page.Quiet())
	list, _ := layFuses(all, r.W)
	for _, p := range list {
		x, y := r.X+p.x, r.Y+p.y
		if p.word != "" {
			c.Text(x, y+fuseHigh/2+1.2, p.word, sheet.Plain(sheet.SizeBody))
			continue
		}
		p.fuse.Draw(c, sheet.Rect{X: x, Y: y, W: wide(p.fuse), H: fuseHigh})
	}
}

func wide(f page.Fuse) float64 {
	if f.Body == "bolt" {
		return linkWide
	}
	return fuseWide
}
