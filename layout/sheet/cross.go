package sheet

import "math"

// Crossings counts the places at which two different lines cross: a level piece of
// one and a plumb piece of the other, both within their ends.
func Crossings[L ~[]Point](lines []L) int {
	n := 0
	for i := range lines {
		for j := range lines[:i] {
			n += crossings(lines[i], lines[j])
		}
	}
	return n
}

func crossings(a, b []Point) int {
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

func meets(a1, a2, b1, b2 Point) bool {
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
