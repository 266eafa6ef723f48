package guide

import (
	"math"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
)

// Sizes of the photographs, mm.
const (
	photoLeast = 40 // width of one with its caption
	photoGap   = 4
)

// photographs shows those of places and parts side by side, each over its name, which leads to what it shows.
func photographs(a page.Ask, s *page.Book) {
	all := page.Photos(a)
	if len(all) == 0 {
		return
	}
	across := max(1, int((s.Room.W+photoGap)/(photoLeast+photoGap)))
	wide := (s.Room.W - photoGap*float64(across-1)) / float64(across)
	s.Head("Photographs", photoHigh(all[:min(across, len(all))], wide))
	for ; len(all) > 0; all = all[min(across, len(all)):] {
		row := all[:min(across, len(all))]
		high := photoHigh(row, wide)
		s.Need(high)
		for i, p := range row {
			photo(&s.C, sheet.Rect{X: s.Room.X + float64(i)*(wide+photoGap), Y: s.Room.Y, W: wide, H: high}, p)
		}
		s.Down(high + 2)
	}
}

// photoHigh is the height of a row of photographs with their captions.
func photoHigh(row []page.Photo, wide float64) float64 {
	high := 0.0
	for _, p := range row {
		var unseen sheet.Canvas
		high = math.Max(high, photo(&unseen, sheet.Rect{W: wide}, p))
	}
	return high
}

// photo sets one over its caption, no higher than it is wide, and gives where it ends.
func photo(c *sheet.Canvas, r sheet.Rect, p page.Photo) float64 {
	_, high := page.PictureSize(p.Picture, r.W, r.W)
	at := page.PictureOf(c, sheet.Rect{X: r.X, Y: r.Y, W: r.W, H: high}, p.Picture, page.List(", ", p.Ref, p.Words))
	c.Rect(at.X, at.Y, at.W, at.H, sheet.Outline(sheet.Solid(sheet.Hair)))
	c.Anchor(p.Anchor, r.X, r.Y)
	y := frame.Paragraph(c, sheet.Rect{X: r.X, Y: at.Bottom() + 1, W: r.W}, p.Ref, sheet.Strong(sheet.SizeBody))
	if p.Words != "" {
		y = frame.Paragraph(c, sheet.Rect{X: r.X, Y: y, W: r.W}, p.Words, sheet.Plain(sheet.SizeBody))
	}
	if p.Link != "" {
		c.Link(sheet.Rect{X: r.X, Y: r.Y, W: r.W, H: y - r.Y}, p.Link)
	}
	return y
}
