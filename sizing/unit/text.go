package unit

import (
	"math"
	"strconv"
	"strings"
)

// figure prints a value with three significant digits, whole numbers in full,
// without needless zeros: 0.14, 12.5, 20, 1235.
func figure(x float64) string { return digits(x, 3) }

// digits prints a value with n significant digits, whole numbers in full.
func digits(x float64, n int) string {
	if x == 0 || math.IsNaN(x) || math.IsInf(x, 0) {
		return strconv.FormatFloat(x, 'f', -1, 64)
	}
	places := n - 1 - int(math.Floor(math.Log10(math.Abs(x))))
	text := strconv.FormatFloat(x, 'f', min(max(places, 0), 12), 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	if text == "-0" {
		return "0"
	}
	return text
}

// String prints a current: "20 A", "0.14 A".
func (a Ampere) String() string { return figure(float64(a)) + " A" }

// String prints a voltage to hundredths where they count: "12 V", "14.25 V", "0.41 V".
func (v Volt) String() string { return digits(float64(v), 4) + " V" }

// String prints a resistance in the prefix that reads best: "5 mΩ", "85 Ω", "2.2 kΩ".
func (o Ohm) String() string {
	if math.IsInf(float64(o), 1) {
		return "open"
	}
	switch x := math.Abs(float64(o)); {
	case x > 0 && x < 1:
		return figure(float64(o)*1000) + " mΩ"
	case x >= 1000:
		return figure(float64(o)/1000) + " kΩ"
	}
	return figure(float64(o)) + " Ω"
}

// String prints a power: "35 W".
func (w Watt) String() string { return figure(float64(w)) + " W" }

// String prints a length in mm: "2785 mm", "3.1 mm". LengthText groups digits.
func (m Millimetre) String() string { return figure(float64(m)) + " mm" }

// String prints an area: "2.5 mm²".
func (a SquareMillimetre) String() string { return figure(float64(a)) + " mm²" }

// String prints a temperature: "95 °C".
func (c Celsius) String() string { return figure(float64(c)) + " °C" }

// String prints a time in seconds: "0.4 s".
func (s Second) String() string { return figure(float64(s)) + " s" }

// String prints a capacity: "60 Ah".
func (a AmpereHour) String() string { return figure(float64(a)) + " Ah" }

// String prints a share in percent: "3 %".
func (f Fraction) String() string { return figure(float64(f)*100) + " %" }

// String prints a mass in g, from 1000 g in kg: "240 g", "1.25 kg".
func (g Gram) String() string {
	if math.Abs(float64(g)) >= 1000 {
		return figure(float64(g)/1000) + " kg"
	}
	return figure(float64(g)) + " g"
}

// String prints a wire's resistance by length: "8.81 mΩ/m".
func (o OhmPerMetre) String() string { return figure(float64(o)*1000) + " mΩ/m" }

// String prints the limit as it was set: "3 %" or "0.5 V".
func (d DropLimit) String() string {
	if d.Volts > 0 {
		return d.Volts.String()
	}
	return d.Fraction.String()
}

// String prints a draw: "20 A", "35 W at 13.5 V".
func (d Draw) String() string {
	text := d.Amps.String()
	if d.Watts > 0 {
		text = d.Watts.String()
	}
	if d.At > 0 {
		text += " at " + d.At.String()
	}
	return text
}

// String prints a starting current: "55 A for 0.4 s".
func (s Start) String() string { return s.Amps.String() + " for " + s.For.String() }

// String prints what a coil takes: "0.15 A" or "85 Ω".
func (c Coil) String() string {
	if c.Ohms > 0 {
		return c.Ohms.String()
	}
	return c.Amps.String()
}

// Counted is "1 wire", "2 wires", "3 cavities".
func Counted(n int, one string) string {
	switch {
	case n == 1:
	case strings.HasSuffix(one, "y") && !strings.HasSuffix(one, "ay"):
		one = strings.TrimSuffix(one, "y") + "ies"
	default:
		one += "s"
	}
	return strconv.Itoa(n) + " " + one
}
