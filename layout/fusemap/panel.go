package fusemap

import (
	"math"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
)

// panels sets each fuse panel as one stands before it, and its cards under it.
func panels(a page.Ask, s *page.Book, cards []card) {
	for i := range a.H.Parts {
		if p := &a.H.Parts[i]; p.Panel != nil {
			panel(a, s, p, cards)
		}
	}
}

func panel(a page.Ask, s *page.Book, p *harness.Part, cards []card) {
	f := faceOf(a, p, cards)
	g := groupOf(f.fitted())
	follows := g.first(s.Room.W)
	title, text, photo := a.Named(p), remark(a, p), a.PhotoOf(p)
	if beside := s.Room.W - f.wide(s.Room.W) - textGap; beside >= besideFrom*s.Room.W {
		f.headBeside(s, title, text, photo, beside, follows)
	} else if photo.There() {
		pictured(s, title, text, photo, f.high(s.Room.W)+rowGap+follows)
	} else {
		s.Head2(title, text, f.high(s.Room.W)+rowGap+follows)
	}
	s.C.Anchor("panel/"+p.Ref, s.Room.X, s.Room.Y)
	f.draw(s)
	g.set(s)
}

// headAir is clear over a panel's title, mm.
const headAir = 3

// headBeside sets title and remark, with the photograph, at the left of a face that is narrow.
func (f face) headBeside(s *page.Book, title, text string, photo page.Photo, w, follows float64) {
	b := photo.Beside(w, leastWords, func(w float64) float64 { return wordsHigh(title, text, w) })
	high := math.Max(b.High, f.high(s.Room.W)+1)
	s.Need(headAir + high + rowGap + follows)
	if !s.Fresh() {
		s.Down(headAir)
	}
	setWords(s, title, text, b.Wide)
	b.Draw(&s.C, sheet.Rect{X: s.Room.X, Y: s.Room.Y, W: w})
	s.Down(high - f.high(s.Room.W))
}

// pictured sets title and remark over a wide face, with the photograph at their right.
func pictured(s *page.Book, title, text string, photo page.Photo, follows float64) {
	w := s.Room.W - photo.W - textGap
	high := math.Max(wordsHigh(title, text, w), photo.H) + 1
	s.Need(headAir + high + follows)
	if !s.Fresh() {
		s.Down(headAir)
	}
	setWords(s, title, text, w)
	photo.Draw(&s.C, s.Room.Right()-photo.W, s.Room.Y)
	s.Down(high)
}

func wordsHigh(title, text string, w float64) float64 {
	return page.TextHeight(title, sheet.Strong(sheet.SizeHead), w) + page.TextHeight(text, page.Quiet(), w)
}

func setWords(s *page.Book, title, text string, w float64) {
	r := sheet.Rect{X: s.Room.X, Y: s.Room.Y, W: w}
	r.Y = frame.Paragraph(&s.C, r, title, sheet.Strong(sheet.SizeHead))
	frame.Paragraph(&s.C, r, text, page.Quiet())
}

// remark says where a panel is and which feed supplies which position.
func remark(a page.Ask, p *harness.Part) string {
	in := ""
	if at := a.At(p); at != "" {
		in = "In: " + at
	}
	return page.List(". ", in, feedWords(p))
}

// place is one position of a panel: a card, or nothing where no fuse is fitted.
type place struct {
	name, position, anchor string
	card                   *card
}

// face is a panel's positions in their rows, as one stands before it.
type face struct{ rows [][]place }

func faceOf(a page.Ask, p *harness.Part, cards []card) face {
	used := usedPositions(a, p)
	var f face
	for _, names := range p.Panel.Layout {
		var row []place
		for _, position := range names {
			at := place{name: p.Ref + "." + position, position: position}
			at.anchor = "fuse/" + at.name
			if k, ok := used[position]; ok {
				at.card = &cards[k]
			}
			row = append(row, at)
		}
		f.rows = append(f.rows, row)
	}
	return f
}

// usedPositions finds the fuses of a panel that feed something, by position.
func usedPositions(a page.Ask, p *harness.Part) map[string]int {
	out := map[string]int{}
	for _, i := range a.FusesOf(p.ID) {
		f := &a.R.Fuses[i]
		if _, twice := out[f.Position]; !twice && len(f.Feeds)+len(f.Wires) > 0 {
			out[f.Position] = i
		}
	}
	return out
}

// fitted are the cards of the positions that hold a fuse, row by row.
func (f face) fitted() []card {
	var all []card
	for _, row := range f.rows {
		for _, at := range row {
			if at.card != nil {
				all = append(all, *at.card)
			}
		}
	}
	return all
}

// Sizes of a panel's face, mm.
const (
	facePad    = 1.2
	mostPlace  = 30.0 // width of a position
	placeHigh  = 7.6  // with its name beside the fuse
	placeTall  = 12.5 // with its name over it
	placeFuse  = 14.5 // width of a fuse beside a name
	besideFrom = 0.4  // share of the sheet's width that title and remark need beside a face
	leastPlace = 11.0 // width of a position; a longer row goes on in a further line
)

// abreast is how many positions stand in one line of a room, and their width.
func (f face) abreast(room float64) (n int, w float64) {
	for _, row := range f.rows {
		n = max(n, len(row))
	}
	n = max(1, min(n, int((room-2*facePad)/leastPlace)))
	return n, math.Min(math.Max(mostPlace, f.nameWide()+placeFuse+4), (room-2*facePad)/float64(n))
}

func (f face) nameWide() float64 {
	w := 0.0
	for _, row := range f.rows {
		for _, at := range row {
			w = math.Max(w, typeface.Width(at.name, sheet.Bold, sheet.SizeBody))
		}
	}
	return w
}

// beside tells whether names stand beside the fuses of places so wide.
func (f face) beside(w float64) bool { return f.nameWide()+placeFuse+3.4 <= w }

func (f face) placeHigh(w float64) float64 {
	if f.beside(w) {
		return placeHigh
	}
	return placeTall
}

// lines are the rows, each in as many lines as it takes.
func (f face) lines(n int) [][]place {
	var out [][]place
	for _, row := range f.rows {
		for len(row) > n {
			out = append(out, row[:n])
			row = row[n:]
		}
		out = append(out, row)
	}
	return out
}

func (f face) high(room float64) float64 {
	n, w := f.abreast(room)
	return float64(len(f.lines(n)))*f.placeHigh(w) + 2*facePad
}

func (f face) wide(room float64) float64 {
	n, w := f.abreast(room)
	return float64(n)*w + 2*facePad
}

// draw sets the face at the top of what is left of a sheet.
func (f face) draw(s *page.Book) {
	n, w := f.abreast(s.Room.W)
	high := f.placeHigh(w)
	x := s.Room.X
	if wide := f.wide(s.Room.W); s.Room.W-wide-textGap >= besideFrom*s.Room.W {
		x = s.Room.Right() - wide
	}
	s.C.RoundRect(x, s.Room.Y, float64(n)*w+2*facePad, f.high(s.Room.W), 2.2, sheet.Both(sheet.Solid(sheet.Thick), sheet.Pale))
	y := s.Room.Y + facePad
	for _, line := range f.lines(n) {
		for i, at := range line {
			r := sheet.Rect{X: x + facePad + float64(i)*w, Y: y, W: w, H: high}
			at.draw(&s.C, r.Inset(0.5), f.beside(w))
		}
		y += high
	}
	s.Down(f.high(s.Room.W) + rowGap)
}

// draw sets a position: its name, and the rating on the body's colour, or that it is spare.
func (p place) draw(c *sheet.Canvas, r sheet.Rect, beside bool) {
	c.RoundRect(r.X, r.Y, r.W, r.H, 1, sheet.Both(sheet.Solid(sheet.Thin), sheet.White))
	body := sheet.Rect{X: r.X + 1, Y: r.Y + 4.6, W: r.W - 2, H: r.H - 5.6}
	name := sheet.Rect{X: r.X + 0.8, Y: r.Y + 1.1, W: r.W - 1.6}
	if beside {
		body = sheet.Rect{X: r.Right() - placeFuse - 0.9, Y: r.Y + 0.9, W: placeFuse, H: r.H - 1.8}
		name = sheet.Rect{X: r.X + 1.2, Y: r.Y + r.H/2 - sheet.SizeBody*typeface.CapHeight/2, W: body.X - r.X - 1.6}
	}
	text := p.name
	if typeface.Width(text, sheet.Bold, sheet.SizeBody) > name.W {
		text = typeface.Fit(p.position, sheet.Bold, sheet.SizeBody, name.W)
	}
	c.Text(name.X, name.Y+sheet.SizeBody*typeface.CapHeight, text, strong)
	if p.card == nil {
		c.Anchor(p.anchor, r.X, r.Y)
		empty(c, body)
		return
	}
	c.Link(r, p.card.anchor)
	p.body(c, body)
}

// body draws the rating on the colour of the fuse.
func (p place) body(c *sheet.Canvas, r sheet.Rect) {
	shade, _ := page.FuseShade(p.card.fuse.Colour)
	c.RoundRect(r.X, r.Y, r.W, r.H, 1, sheet.Both(sheet.Solid(sheet.Thin), shade))
	rating, st := page.Narrowed(p.card.fuse.Rating, sheet.Strong(sheet.SizeHead).In(page.OnFill(shade)), r.W-1)
	c.Text(r.X+r.W/2, r.Y+r.H/2+st.Size*typeface.CapHeight/2, rating, st.At(sheet.Centre))
}

// empty hatches a position that holds nothing.
func empty(canvas *sheet.Canvas, r sheet.Rect) {
	canvas.RoundRect(r.X, r.Y, r.W, r.H, 1, sheet.Outline(sheet.Solid(sheet.Thin)))
	step := r.H * 0.55
	for x := r.X + step*0.8; x < r.Right()-step*0.3; x += step * 0.8 {
		canvas.Line(x, r.Y+r.H*0.85, math.Min(x+step*0.5, r.Right()-0.5), r.Y+r.H*0.15, sheet.Solid(sheet.Hair).In(sheet.Grey))
	}
}
