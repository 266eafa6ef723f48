package meter

import (
	"math"

	"example.com/loomfolio/layout/sheet"
)

// Line is one drawn line through points, level and plumb pieces only.
type Line []sheet.Point

// Crossings counts the places at which two different lines cross: a level piece of
// one and a plumb piece of the other, both within their ends.
func Crossings(lines []Line) int {
	n := 0
	for i := range lines {
		for j := range lines[:i] {
			n += crossings(lines[i], lines[j])
		}
	}
	return n
}

func crossings(a, b Line) int {
	n := 0
	for i := 1; i < len(a); i++ {
		for j := 1; j < len(b); j++ {
			if meets(a[i-1], a[i], b[j-1], b[j]) {
				n++
			}
		}
	}
	return n
}

func meets(a1, a2, b1, b2 sheet.Point) bool {
	level := math.Abs(a1.Y-a2.Y) < 1e-6
	if level == (math.Abs(b1.Y-b2.Y) < 1e-6) {
		return false
	}
	if !level {
		a1, a2, b1, b2 = b1, b2, a1, a2
	}
	return within(b1.X, a1.X, a2.X) && within(a1.Y, b1.Y, b2.Y)
}

func within(v, a, b float64) bool { return v > math.Min(a, b) && v < math.Max(a, b) }

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
