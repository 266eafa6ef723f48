package meter

import "example.com/loomfolio/layout/sheet"

// Line is one drawn line through points, level and plumb pieces only.
type Line []sheet.Point

// Passes tells whether a line runs through an area with more than d mm of its
// own half width.
func (l Line) Passes(area sheet.Rect, d float64) bool {
	for i := 1; i < len(l); i++ {
		if piece(l[i-1], l[i], 2*d).Meets(area) {
			return true
		}
	}
	return false
}

// Bends counts the corners of a line.
func (l Line) Bends() int { return max(len(l)-2, 0) }
