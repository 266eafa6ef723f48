package sight

import "math"

// halfTurn is 180 degrees with a tolerance: hues exactly opposite must not
// tip over by rounding, or the mean hue flips.
const halfTurn = 180 + 1e-6

// Difference gives the CIEDE2000 colour difference of two colours, with all
// weights 1. Method and notation: Sharma, Wu and Dalal, "The CIEDE2000
// Color-Difference Formula", Color Research & Application 30 (2005).
func Difference(p, q Lab) float64 {
	g := 0.5 * (1 - chromaWeight((math.Hypot(p.A, p.B)+math.Hypot(q.A, q.B))/2))
	p.A *= 1 + g
	q.A *= 1 + g
	c1, c2 := math.Hypot(p.A, p.B), math.Hypot(q.A, q.B)
	h1, h2 := hue(p), hue(q)
	dH := 2 * math.Sqrt(c1*c2) * sin(turn(h1, h2, c1*c2)/2)
	L, C, H := (p.L+q.L)/2, (c1+c2)/2, meanHue(h1, h2, c1*c2)

	t := 1 - 0.17*cos(H-30) + 0.24*cos(2*H) + 0.32*cos(3*H+6) - 0.20*cos(4*H-63)
	dL := (q.L - p.L) / (1 + 0.015*sq(L-50)/math.Sqrt(20+sq(L-50)))
	dC := (c2 - c1) / (1 + 0.045*C)
	dH /= 1 + 0.015*C*t
	rotation := -sin(60*math.Exp(-sq((H-275)/25))) * 2 * chromaWeight(C)
	return math.Sqrt(dL*dL + dC*dC + dH*dH + rotation*dC*dH)
}

// chromaWeight is sqrt(C^7 / (C^7 + 25^7)).
func chromaWeight(c float64) float64 {
	c7 := math.Pow(c, 7)
	return math.Sqrt(c7 / (c7 + math.Pow(25, 7)))
}

// hue is the hue angle in degrees, 0 to 360; 0 for a grey.
func hue(p Lab) float64 {
	if p.A == 0 && p.B == 0 {
		return 0
	}
	h := math.Atan2(p.B, p.A) * 180 / math.Pi
	if h < 0 {
		h += 360
	}
	return h
}

// turn is the signed way from one hue to the other, 0 when either is a grey.
func turn(h1, h2, product float64) float64 {
	d := h2 - h1
	switch {
	case product == 0:
		return 0
	case d > halfTurn:
		return d - 360
	case d < -halfTurn:
		return d + 360
	}
	return d
}

// meanHue is the hue halfway on the shorter way round.
func meanHue(h1, h2, product float64) float64 {
	sum := h1 + h2
	switch {
	case product == 0:
		return sum
	case math.Abs(h1-h2) <= halfTurn:
		return sum / 2
	case sum < 360:
		return (sum + 360) / 2
	}
	return (sum - 360) / 2
}

func sq(x float64) float64    { return x * x }
func sin(deg float64) float64 { return math.Sin(deg * math.Pi / 180) }
func cos(deg float64) float64 { return math.Cos(deg * math.Pi / 180) }
