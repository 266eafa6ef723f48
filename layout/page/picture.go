package page

import (
	"math"

	"example.com/loomfolio/layout/sheet"
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

// Photo is a picture of a part or of a place.
type Photo struct {
	Picture *harness.Picture
	Ref     string // of a part; the plain name of a place
	Words   string // a part's plain name and its place; "" of a place
	Link    string // anchor of what it shows, "" where that stands nowhere in the packet
	Anchor  string
}

// Photos are the pictures of the places and of the parts, in the order of the description.
func Photos(a Ask) []Photo {
	var out []Photo
	for _, pl := range a.H.Places {
		if pl.Picture.There() {
			out = append(out, Photo{pl.Picture, Or(pl.Name, pl.Key), "", a.Link("place/" + pl.Key), "photo/place/" + pl.Key})
		}
	}
	for i := range a.H.Parts {
		if p := &a.H.Parts[i]; p.Picture.There() {
			out = append(out, Photo{p.Picture, p.Ref, TitleOf(a, p), a.linkTo(p), "photo/" + p.Ref})
		}
	}
	return out
}

// linkTo is where a part stands with what is said of it: its own sheet before its tile in a diagram.
func (a Ask) linkTo(p *harness.Part) string {
	for _, kind := range []string{"connector/", "ground/", "splice/", "part/"} {
		if l := a.Link(kind + p.Ref); l != "" {
			return l
		}
	}
	return ""
}
