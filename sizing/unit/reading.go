package unit

import "math"

// Round rounds to so many digits after the point.
func Round(x float64, digits int) float64 {
	p := math.Pow(10, float64(digits))
	return math.Round(x*p) / p
}

// Amps gives amperes for reading: thousandths below 1 A, tenths above.
func Amps(a float64) Ampere {
	if a < 1 {
		return Ampere(Round(a, 3))
	}
	return Ampere(Round(a, 1))
}
