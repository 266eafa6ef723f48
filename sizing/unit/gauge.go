//lint:file-ignore ST1005 These errors are printed as whole sentences behind a place in the file.

package unit

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.com/loomfolio/sizing/source"
)

// gaugeFits names what a conductor size may be written in.
const gaugeFits = "write for example 2.5 mm2, 14 ga (SAE wire) or 12 AWG"

// ParseGauge reads a conductor size: "2.5 mm2", "2,5 mm²", "14 ga", "12 AWG",
// "AWG12", "#12", "1/0", "00", "28/0.30" (strands and their diameter in mm).
// Sizes that name no system (14 ga, #12, 1/0) are AWG where def is AWG, else SAE.
// A bare number that could be mm2 or a gauge is refused whatever def is.
func ParseGauge(text string, def System) (Gauge, error) {
	t := plain(text)
	if t == "" {
		return Gauge{}, errors.New("Nothing is written; " + gaugeFits + ` (a size such as #10 must stand in quotes: "#10").`)
	}
	if size, is, err := parseStrands(t); is {
		return size, err
	}
	if g, is, err := parseMetric(t); is {
		return g, err
	}
	return parseNumbered(t, def)
}

// parseMetric reads sizes in mm2; is tells whether the text is one.
func parseMetric(text string) (g Gauge, is bool, err error) {
	value, rest, fault := cutNumber(text)
	rest = latinUnits(rest)[0]
	_, known := area.size[strings.ToLower(rest)]
	switch {
	case !known && (strings.EqualFold(rest, "mm") || strings.EqualFold(rest, "millimetres")):
		return Gauge{}, true, refuseDiameter(text, value)
	case !known || strings.HasPrefix(strings.ToLower(rest), "c"):
		return Gauge{}, false, nil
	case fault != "":
		return Gauge{}, true, fmt.Errorf("%s; %s.", fault, gaugeFits)
	case !(value >= 0.05 && value <= 300):
		return Gauge{}, true, fmt.Errorf("%q is out of the believable range of wire (0.05 to 300 mm2); %s.", text, gaugeFits)
	}
	return Gauge{System: Metric, Size: strconv.FormatFloat(value, 'f', -1, 64)}, true, nil
}

func refuseDiameter(text string, mm float64) error {
	number := strconv.FormatFloat(mm, 'f', -1, 64)
	return fmt.Errorf("%q is a length, not an area of metal: some shops name wire by its diameter over the insulation, and a conductor %s mm across would be %s mm2. "+
		"Write %s mm2 if the area is meant, or measure the wire.", text, number, figure(math.Pi/4*mm*mm), number)
}

// parseStrands reads strands and their diameter, "28/0.30": by the wire's
// metal area the largest usual metric size that it fills, to 3 in 100.
func parseStrands(text string) (g Gauge, is bool, err error) {
	metal, is := StrandArea(text)
	if !is {
		return Gauge{}, false, nil
	}
	size := ""
	for _, s := range usualSizes {
		if mm2, _ := strconv.ParseFloat(s, 64); mm2 <= float64(metal)*1.03 {
			size = s
		}
	}
	if size == "" || metal > 150 {
		return Gauge{}, true, fmt.Errorf("%q holds %s of metal, which is no size of vehicle wire; %s.", text, metal, gaugeFits)
	}
	return Gauge{System: Metric, Size: size}, true, nil
}

// usualSizes are the metric sizes of vehicle wire up to 70 mm2 (ISO 6722 sizes
// as makers list them for thin and thick wall), then 95 and 120 (IEC 60228).
var usualSizes = []string{"0.13", "0.22", "0.35", "0.5", "0.75", "1", "1.5", "2", "2.5", "3", "4", "6", "10", "16", "25", "35", "50", "70", "95", "120"}

// StrandArea gives the metal area of a wire written as strands and their
// diameter in mm ("28/0.30", "28 x 0.30 mm"), and whether the text is such.
// The method is the sum of the strands' circles.
func StrandArea(text string) (SquareMillimetre, bool) {
	count, diameter, ok := strings.Cut(plain(text), "/")
	if !ok {
		if count, diameter, ok = strings.Cut(plain(text), "x"); !ok {
			return 0, false
		}
	}
	diameter = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(diameter), "mm"))
	n, err := strconv.Atoi(strings.TrimSpace(count))
	d, rest, fault := cutNumber(diameter)
	if err != nil || fault != "" || rest != "" || !strings.ContainsAny(diameter, ".,") {
		return 0, false
	}
	if n < 1 || n > 9999 || d <= 0 || d > 1.5 {
		return 0, false
	}
	return SquareMillimetre(float64(n) * math.Pi / 4 * d * d), true
}

// parseNumbered reads AWG and SAE sizes.
func parseNumbered(text string, def System) (Gauge, error) {
	if strings.Contains(strings.ToLower(text), "swg") {
		return Gauge{}, fmt.Errorf("%q is a size of the British standard wire gauge, which is not read here: measure the strands and write the area, for example 2.5 mm2.", text)
	}
	body, system, named, err := cutSystem(source.Latin(text), def)
	if err != nil {
		return Gauge{}, err
	}
	size, err := gaugeNumber(text, body)
	if err != nil {
		return Gauge{}, err
	}
	if !named && !strings.HasSuffix(size, "/0") {
		return Gauge{}, fmt.Errorf("%q does not say in which system: %s mm2, %s ga (SAE wire) or %s AWG are different wires; write the one that is meant.", text, size, size, size)
	}
	return Gauge{System: system, Size: size}, nil
}

// gaugeWords are the words that make a number a gauge, longest first; the
// system is where the word names one, else -1.
var gaugeWords = []struct {
	word   string
	system System
}{
	{"gauge awg", AWG}, {"ga awg", AWG}, {"a.w.g.", AWG}, {"awgs", AWG}, {"awg.", AWG}, {"awg", AWG}, {"gauge sae", SAE}, {"ga sae", SAE}, {"sae", SAE},
	{"gauge", -1}, {"gage", -1}, {"guage", -1}, {"gauges", -1}, {"ga.", -1}, {"ga", -1}, {"#", -1}, {"no.", -1}, {"no ", -1}, {"g", -1},
}

// cutSystem takes the words before and after the number.
func cutSystem(text string, def System) (body string, system System, named bool, err error) {
	body, system = strings.ToLower(text), SAE
	if def == AWG {
		system = AWG
	}
	given := System(-1)
	for range 2 {
		for _, w := range gaugeWords {
			rest, has := cutWord(body, w.word)
			if !has {
				continue
			}
			if given >= 0 && w.system >= 0 && given != w.system {
				return "", 0, false, fmt.Errorf("%q names two systems; %s.", text, gaugeFits)
			}
			body, named = rest, true
			given = max(given, w.system)
			break
		}
	}
	if given >= 0 {
		system = given
	}
	return body, system, named, nil
}

// cutWord removes a word from either end of the text.
func cutWord(text, word string) (string, bool) {
	if rest, ok := strings.CutSuffix(text, word); ok && word != "#" {
		return strings.TrimRight(rest, " -"), true
	}
	if rest, ok := strings.CutPrefix(text, word); ok {
		return strings.TrimLeft(rest, " -"), true
	}
	return text, false
}

// gaugeNumber gives the canonical size: "12", or "1/0" to "4/0".
func gaugeNumber(text, body string) (string, error) {
	switch body {
	case "0", "1/0":
		return "1/0", nil
	case "00", "2/0":
		return "2/0", nil
	case "000", "3/0":
		return "3/0", nil
	case "0000", "4/0":
		return "4/0", nil
	}
	digits, rest := cutDigitsOnly(body)
	n, err := strconv.Atoi(digits)
	if err == nil && rest == "" && digits[0] != '0' && n <= 40 {
		return digits, nil
	}
	return "", refuseNumber(text, body, n)
}

func refuseNumber(text, body string, n int) error {
	top, cores, slashed := strings.Cut(body, "/")
	value, rest, fault := cutNumber(body)
	switch {
	case slashed && len(cores) == 1 && cores != "0":
		return fmt.Errorf("%q is a cable of %s conductors of %s gauge; write one conductor's size, for example %s AWG.", text, cores, top, top)
	case slashed:
		return fmt.Errorf("%q is not a wire size: the large sizes are 1/0, 2/0, 3/0 and 4/0; %s.", text, gaugeFits)
	case fault == "" && rest == "" && value != math.Trunc(value):
		return fmt.Errorf("%q does not say mm2, and gauge numbers are whole; write %s mm2 if that is meant.", text, strings.Replace(body, ",", ".", 1))
	case fault == "" && rest == "" && n > 40:
		return fmt.Errorf("%q is not a wire size: gauge numbers run from 4/0 to 40; %s.", text, gaugeFits)
	case fault != "":
		return fmt.Errorf("%s; %s.", fault, gaugeFits)
	}
	return fmt.Errorf("%q is not a wire size; %s.", text, gaugeFits)
}

// String prints the size as it is read on a sheet: "2.5 mm²", "12 AWG",
// "12 ga", "1/0 ga"; "" for the zero Gauge.
func (g Gauge) String() string {
	if !g.Given() {
		return ""
	}
	return g.Size + [...]string{" mm²", " AWG", " ga"}[g.System]
}
