package page

import (
	"math"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/harness"
)

// PictureOf draws a picture as large as an area allows, in the middle of its width and
// at its top, and gives the area that it takes: none where there is no picture. The words say what it shows.
func PictureOf(c *sheet.Canvas, r sheet.Rect, p *harness.Picture, words string) sheet.Rect {
	if !p.There() {
		return sheet.Rect{X: r.X, Y: r.Y}
	}
	w, h := PictureSize(p, r.W, r.H)
	at := sheet.Rect{X: r.X + (r.W-w)/2, Y: r.Y, W: w, H: h}
	c.Add(sheet.Picture{X: at.X, Y: at.Y, W: at.W, H: at.H, Form: p.Form, Data: p.Data, Words: words})
	return at
}

// PictureSize is how large a picture becomes in an area: 0 where there is none.
func PictureSize(p *harness.Picture, wide, high float64) (w, h float64) {
	if !p.There() || wide <= 0 || high <= 0 {
		return 0, 0
	}
	scale := math.Min(wide/float64(p.Wide), high/float64(p.High))
	return scale * float64(p.Wide), scale * float64(p.High)
}

// How large a photograph becomes beside what it shows, and the clear around it, mm.
const (
	photoHigh = 22
	photoWide = 36
	photoGap  = 3
)

// Photo is the photograph of a part or of a place, as large as it is drawn; its
// sides are 0 where there is none.
type Photo struct {
	W, H    float64
	picture *harness.Picture
	words   string // what it shows
	anchor  string
}

// PhotoOf is a part's photograph.
func (a Ask) PhotoOf(p *harness.Part) Photo {
	return photo(p.Picture, List(", ", p.Ref, TitleOf(a, p)), "photo/"+p.Ref)
}

// PhotoAt is a place's photograph.
func (a Ask) PhotoAt(p *harness.Place) Photo {
	return photo(p.Picture, Or(p.Name, p.Key), "photo/place/"+p.Key)
}

func photo(p *harness.Picture, words, anchor string) Photo {
	return Photo{picture: p, words: words, anchor: anchor}.Within(photoWide, photoHigh)
}

// Within is the photograph as large as it becomes in an area.
func (f Photo) Within(wide, high float64) Photo {
	f.W, f.H = PictureSize(f.picture, wide, high)
	return f
}

// There tells whether there is a photograph.
func (f Photo) There() bool { return f.H > 0 }

// Draw sets it at a point, its upper left corner, with a thin line around it.
func (f Photo) Draw(c *sheet.Canvas, x, y float64) {
	if !f.There() {
		return
	}
	PictureOf(c, sheet.Rect{X: x, Y: y, W: f.W, H: f.H}, f.picture, f.words)
	c.Rect(x, y, f.W, f.H, sheet.Outline(sheet.Solid(sheet.Hair)))
	c.Anchor(f.anchor, x, y)
}

// Drawing is the photograph for a table's cell, nil where there is none.
func (f Photo) Drawing() *table.Drawing {
	if !f.There() {
		return nil
	}
	const air = 0.6
	return &table.Drawing{W: f.W + 2*air, H: f.H + 2*air, Draw: func(c *sheet.Canvas, area sheet.Rect) {
		f.Draw(c, area.X+air, area.Y+air)
	}}
}

// Beside is a photograph with what it shows: at its right, or under it.
type Beside struct {
	Photo
	Wide  float64 // of what it shows
	High  float64 // of both
	under bool
}

// Beside stands the photograph at the right of something that is so high at a width, where at
// least so much width is left and both are lower so, else under it.
func (f Photo) Beside(width, least float64, high func(width float64) float64) Beside {
	whole := high(width)
	if !f.There() {
		return Beside{Photo: f, Wide: width, High: whole}
	}
	under := Beside{Photo: f, Wide: width, High: whole + photoGap + f.H, under: true}
	if narrow := width - f.W - photoGap; narrow >= least {
		if h := math.Max(high(narrow), f.H); h < under.High {
			return Beside{Photo: f, Wide: narrow, High: h}
		}
	}
	return under
}

// Draw sets the photograph in the area of both.
func (b Beside) Draw(c *sheet.Canvas, area sheet.Rect) {
	if b.under {
		b.Photo.Draw(c, area.X, area.Y+b.High-b.H)
		return
	}
	b.Photo.Draw(c, area.Right()-b.W, area.Y)
}

// More is the height that a photograph adds under something, its clear with it.
func (f Photo) More() float64 {
	if !f.There() {
		return 0
	}
	return photoGap + f.H
}
