package cause

import (
	"math"
	"strconv"
	"strings"

	"example.com/loomfolio/sizing/unit"
)

// Volts is a reading to a tenth, with a true minus and without one on nothing.
func Volts(v float64) string {
	s := strconv.FormatFloat(v, 'f', 1, 64)
	if strings.Trim(s, "-0.") == "" {
		return "0"
	}
	return strings.Replace(s, "-", "−", 1)
}

// Limits are the readings that are right, rounded outwards to a tenth: "12.1–12.6", about nothing "±0.3".
func Limits(low, high unit.Volt) string {
	a, b := outwards(low, math.Floor), outwards(high, math.Ceil)
	switch {
	case a < 0 && b > 0:
		return "±" + Volts(max(-a, b))
	case a == b:
		return Volts(a)
	case a < 0:
		return Volts(a) + " to " + Volts(b)
	}
	return Volts(a) + "–" + Volts(b)
}

// noise is what a band may lie below nothing and yet begin at it, V.
const noise = 0.25

// Band are the readings of an answer, rounded to a tenth: "11.4–12.6", "0".
func Band(low, high unit.Volt) string {
	if low < 0 && low > -noise {
		low = 0
	}
	if math.Abs(float64(high)) < noise/2 {
		high = 0
	}
	a, b := Volts(float64(low)), Volts(float64(high))
	switch {
	case a == b:
		return a
	case strings.HasPrefix(a, "−"):
		return a + " to " + b
	}
	return a + "–" + b
}

// outwards rounds to a tenth in one direction; what is there but for the arithmetic stays.
func outwards(v unit.Volt, to func(float64) float64) float64 {
	if n := math.Round(float64(v) * 10); math.Abs(n-float64(v)*10) < 1e-6 {
		return n / 10
	}
	return to(float64(v)*10) / 10
}

// Least is the limit that a right reading does not fall short of: "≥11.8"; about nothing both, "±0.3".
func Least(low, high unit.Volt) string {
	switch {
	case low < 0 && high > 0:
		return Limits(low, high)
	case high <= 0: // with plus on the ground
		return "≤" + Volts(outwards(high, math.Ceil))
	}
	return "≥" + Volts(outwards(low, math.Floor))
}
