package unit

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Lengths of the imperial units, exact by definition (1959 agreement).
const (
	inch = 25.4
	foot = 12 * inch
)

var length = measure{what: "a length", fits: `mm, cm, m, in or ft, for example 1.8 m, 72" or 8' 6"`,
	size: map[string]float64{"mm": 1, "cm": 10, "m": 1000, "millimetre": 1, "millimetres": 1, "millimeter": 1, "millimeters": 1,
		"centimetre": 10, "centimetres": 10, "centimeter": 10, "centimeters": 10, "metre": 1000, "metres": 1000, "meter": 1000, "meters": 1000,
		"M": 1000, "MM": 1, "mtr": 1000, "mtrs": 1000, "mts": 1000, "mt": 1000, "cms": 10, "mms": 1, "ins": inch,
		"in": inch, "inch": inch, "inches": inch, `"`: inch, "ft": foot, "foot": foot, "feet": foot, "'": foot},
	least: 0.01, most: 200e3, zero: true, ranges: "up to 200 m"}

// ParseLength reads a length in mm: "2.4 m", "50 mm", "8 ft", `8' 6"`, `6'2"`,
// `72"`, "6 ft 2 in", "1 1/2 in", "½ in", with straight or curly marks.
func ParseLength(text string) (Millimetre, error) {
	rest, sum, last := plain(text), 0.0, math.Inf(1)
	for steps := 0; steps == 0 || rest != ""; steps++ {
		value, size, after, err := cutLength(text, rest)
		switch {
		case err != nil:
			return 0, err
		case steps > 0 && (size != inch || last != foot):
			return 0, length.fault("%q strings together units that do not go together", strings.TrimSpace(text))
		case steps > 0 && value >= 12:
			return 0, length.fault("%q has 12 inches or more after the feet", strings.TrimSpace(text))
		case size == foot && after != "" && value != math.Trunc(value):
			return 0, length.fault("%q has a part of a foot before the inches", strings.TrimSpace(text))
		}
		sum, last, rest = sum+value*size, size, strings.TrimSpace(strings.TrimPrefix(after, ","))
	}
	return as[Millimetre](length.within(text, sum))
}

// cutLength takes one number with its unit from the start of rest.
func cutLength(text, rest string) (value, size float64, after string, err error) {
	value, after, mixed, fault := cutMixed(rest)
	if fault != "" {
		return 0, 0, "", length.fault("%s", fault)
	}
	word, after := cutLengthUnit(after)
	if strings.HasSuffix(word, "m") && (strings.HasPrefix(after, "2") || strings.HasPrefix(after, "^2")) {
		return 0, 0, "", length.fault("%q is an area", strings.TrimSpace(text))
	}
	size, err = length.unit(text, word)
	if err == nil && mixed && size != inch && size != foot {
		err = length.fault("%q has a fraction with a metric unit", strings.TrimSpace(text))
	}
	return value, size, after, err
}

// cutMixed takes a number, a fraction, or a number with a fraction: 1 1/2.
func cutMixed(text string) (value float64, rest string, mixed bool, fault string) {
	if part, rest, ok := cutFraction(text); ok {
		return part, rest, true, ""
	}
	value, rest, fault = cutNumber(text)
	if fault != "" {
		return 0, rest, false, fault
	}
	if strings.HasPrefix(rest, "/") {
		return 0, rest, false, fmt.Sprintf("%q is not a fraction below 1", text)
	}
	part, after, ok := cutFraction(strings.TrimSpace(strings.TrimPrefix(rest, "-")))
	if ok && value == math.Trunc(value) {
		return value + part, after, true, ""
	}
	return value, rest, false, ""
}

// cutLengthUnit takes a unit word or a foot or inch mark.
func cutLengthUnit(text string) (word, rest string) {
	if text != "" && (text[0] == '\'' || text[0] == '"') {
		return text[:1], strings.TrimSpace(text[1:])
	}
	word, rest = cutLetters(text)
	if word == "" {
		return text, ""
	}
	return word, strings.TrimSpace(strings.TrimPrefix(rest, "."))
}

// LengthText prints a length for reading: "2 785 mm", or in feet and inches
// to the nearest eighth: "9 ft 1 5/8 in".
func LengthText(mm Millimetre, imperial bool) string {
	if imperial {
		return feet(float64(mm))
	}
	return grouped(math.Round(float64(mm))) + " mm"
}

// BoreText prints the least bore to take: "11 mm", or in inches up to the next
// sixteenth, "7/16 in".
func BoreText(mm Millimetre, imperial bool) string {
	if !imperial {
		return strconv.FormatFloat(float64(mm), 'f', -1, 64) + " mm"
	}
	return sixteenths(int64(math.Ceil(float64(mm)/inch*16 - 1e-9)))
}

// FineText prints a small length to the nearest sixteenth of an inch, which a
// rule shows and a stripper holds: "1/4 in".
func FineText(mm Millimetre) string { return sixteenths(int64(math.Round(float64(mm) / inch * 16))) }

// CalliperText prints a length as it is measured on labels: to a hundredth of a mm,
// "45.7 mm", or to a thousandth of an inch, "1.799 in".
func CalliperText(mm Millimetre, imperial bool) string {
	x, parts, name := float64(mm), 100.0, " mm"
	if imperial {
		x, parts, name = x/inch, 1000, " in"
	}
	return strconv.FormatFloat(math.Round(x*parts)/parts, 'f', -1, 64) + name
}

func sixteenths(n int64) string {
	if text := inches(n, 16); text != "" {
		return text + " in"
	}
	return "0 in"
}

// feet prints feet, inches and eighths of an inch.
func feet(mm float64) string {
	eighths := int64(math.Round(math.Abs(mm) / inch * 8))
	var parts []string
	if ft := eighths / 96; ft > 0 {
		parts = append(parts, fmt.Sprintf("%d ft", ft))
	}
	if in := inches(eighths%96, 8); in != "" {
		parts = append(parts, in+" in")
	}
	if len(parts) == 0 {
		return "0 in"
	}
	return minus(mm) + strings.Join(parts, " ")
}

// inches prints parts of an inch, per to the inch, as a whole number and the
// shortest fraction; nothing for none.
func inches(parts, per int64) string {
	whole, part := parts/per, parts%per
	top, bottom := part, per
	for top > 0 && top%2 == 0 {
		top, bottom = top/2, bottom/2
	}
	switch {
	case part == 0 && whole == 0:
		return ""
	case part == 0:
		return fmt.Sprint(whole)
	case whole == 0:
		return fmt.Sprintf("%d/%d", top, bottom)
	}
	return fmt.Sprintf("%d %d/%d", whole, top, bottom)
}

// grouped prints a whole number with a space between groups of three digits.
func grouped(x float64) string {
	digits := fmt.Sprintf("%.0f", math.Abs(x))
	for i := len(digits) - 3; i > 0; i -= 3 {
		digits = digits[:i] + " " + digits[i:]
	}
	return minus(x) + digits
}

func minus(x float64) string {
	if x < 0 {
		return "-"
	}
	return ""
}

// AcrossText prints a ring's hole or a wire's outside: "6.4 mm", or to a hundredth of an inch, "0.25 in".
func AcrossText(mm Millimetre, imperial bool) string {
	if imperial {
		return fmt.Sprintf("%.2f in", float64(mm)/inch)
	}
	return mm.String()
}

// AreaText prints an area of metal: "8.37 mm²", or on an imperial sheet "16 500 circular mils".
func AreaText(a SquareMillimetre, imperial bool) string {
	if !imperial {
		return a.String()
	}
	mils := float64(a) / (math.Pi / 4 * inch * inch * 1e-6)
	step := math.Pow(10, math.Floor(math.Log10(math.Max(mils, 1)))-2)
	return grouped(math.Round(mils/step)*step) + " circular mils"
}

// FarText prints the length of much wire: "19.1 m", "63 ft".
func FarText(mm Millimetre, imperial bool) string {
	if imperial {
		return grouped(math.Round(float64(mm)/inch/12)) + " ft"
	}
	return fmt.Sprintf("%.1f m", float64(mm)/1000)
}

// pound is the international one in g, of 1959; an ounce is a sixteenth of it.
const pound = 453.59237

// MassText prints a mass: "134 g", "5.74 kg"; "4.73 oz", "12.7 lb".
func MassText(g Gram, imperial bool) string {
	switch lb := float64(g) / pound; {
	case !imperial:
		return g.String()
	case lb < 1:
		return figure(lb*16) + " oz"
	default:
		return figure(lb) + " lb"
	}
}
