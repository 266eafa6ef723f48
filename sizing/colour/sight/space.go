// Package sight is how people see colours: numbers alone. In: shades in sRGB. Out: where
// they lie in CIELAB, seen by normal eyes, by eyes that lack a kind of cone, in dim light
// or as grey, and how far apart two of them look (CIEDE2000, no unit). The sources stand at
// each function.
package sight

import "math"

// Shade is a colour in sRGB: red, green, blue.
type Shade [3]uint8

// Lab is a colour in CIELAB under the white of sRGB (D65).
type Lab struct{ L, A, B float64 }

// linear is a colour in linear-light sRGB, 0 to 1.
type linear [3]float64

// toXYZ is the matrix from linear sRGB to CIE XYZ, worked out in full from the
// primaries and the white of IEC 61966-2-1 (the standard prints four decimals).
// The white is the sum of each row, so that greys come out with a = b = 0.
var toXYZ = [3][3]float64{
	{0.41239079926595934, 0.357584339383878, 0.1804807884018343},
	{0.21263900587151027, 0.715168678767756, 0.07219231536073371},
	{0.01933081871559182, 0.11919477979462598, 0.9505321522496607},
}

// decode undoes the sRGB transfer curve of IEC 61966-2-1.
func decode(s Shade) linear {
	var out linear
	for i, v := range s {
		x := float64(v) / 255
		if x <= 0.04045 {
			out[i] = x / 12.92
			continue
		}
		out[i] = math.Pow((x+0.055)/1.055, 2.4)
	}
	return out
}

// times gives m x for a 3 by 3 matrix.
func (x linear) times(m [3][3]float64) linear {
	var out linear
	for i, row := range m {
		out[i] = row[0]*x[0] + row[1]*x[1] + row[2]*x[2]
	}
	return out
}

// clamp brings each part into 0 to 1.
func (x linear) clamp() linear {
	for i, v := range x {
		x[i] = min(1, max(0, v))
	}
	return x
}

// lab gives the CIELAB value (CIE 15).
func (x linear) lab() Lab {
	xyz := x.times(toXYZ)
	var f [3]float64
	for i, row := range toXYZ {
		f[i] = cubeRoot(xyz[i] / (row[0] + row[1] + row[2]))
	}
	return Lab{L: 116*f[1] - 16, A: 500 * (f[0] - f[1]), B: 200 * (f[1] - f[2])}
}

// cubeRoot is CIE's cube root with a straight foot near black.
func cubeRoot(t float64) float64 {
	const d = 6.0 / 29
	if t > d*d*d {
		return math.Cbrt(t)
	}
	return t/(3*d*d) + 4.0/29
}
