package unit

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Everything people write, as gathered in the format's list of quantities.
func TestQuantitiesAsWritten(t *testing.T) {
	for _, c := range []struct {
		parse func(string) (float64, error)
		text  string
		want  float64
	}{
		{of(ParseAmpere), "20 A", 20}, {of(ParseAmpere), "5A", 5}, {of(ParseAmpere), "140 mA", 0.14}, {of(ParseAmpere), "2,5 A", 2.5},
		{of(ParseAmpere), " 7.5\u00a0amps ", 7.5}, {of(ParseAmpere), ".5 A", 0.5}, {of(ParseAmpere), "0,005 A", 0.005},
		{of(ParseVolt), "14.2 V", 14.2}, {of(ParseVolt), "13,8V", 13.8}, {of(ParseVolt), "500 mV", 0.5}, {of(ParseVolt), "400 V", 400},
		{of(ParseOhm), "85 ohm", 85}, {of(ParseOhm), "0.005 Ω", 0.005}, {of(ParseOhm), "0.005 \u2126", 0.005}, {of(ParseOhm), "5 mohm", 0.005},
		{of(ParseOhm), "5 mΩ", 0.005}, {of(ParseOhm), "2.2 kohm", 2200}, {of(ParseOhm), "0 ohm", 0}, {of(ParseOhm), "1 Mohm", 1e6},
		{of(ParseLength), "8 ft", 2438.4}, {of(ParseLength), `8' 6"`, 2590.8}, {of(ParseLength), `6'2"`, 1879.6}, {of(ParseLength), `72"`, 1828.8},
		{of(ParseLength), "6'", 1828.8}, {of(ParseLength), "1.8m", 1800}, {of(ParseLength), "6 ft 2 in", 1879.6}, {of(ParseLength), "6’ 2”", 1879.6},
		{of(ParseLength), "6′2″", 1879.6}, {of(ParseLength), "6'2''", 1879.6}, {of(ParseLength), "½ in", 12.7}, {of(ParseLength), "1½\"", 38.1},
		{of(ParseLength), "1 1/2 in", 38.1}, {of(ParseLength), "8' 6 1/2\"", 2603.5}, {of(ParseLength), "3/4\"", 19.05}, {of(ParseLength), "1-1/2 in", 38.1},
		{of(ParseLength), "300 mm", 300}, {of(ParseLength), "12 cm", 120}, {of(ParseLength), "2 785 mm", 2785}, {of(ParseLength), "2,4 m", 2400},
		{of(ParseLength), "8 ft, 6 in", 2590.8}, {of(ParseLength), "0 mm", 0}, {of(ParseLength), "8.5 ft", 2590.8}, {of(ParseLength), "8 ft.", 2438.4},
		{of(ParseArea), "2.0 mm2", 2}, {of(ParseArea), "2,5mm²", 2.5}, {of(ParseArea), "2.5 sq mm", 2.5}, {of(ParseArea), "10380 cmil", 5.2596},
		{of(ParseCelsius), "95 C", 95}, {of(ParseCelsius), "95 °C", 95}, {of(ParseCelsius), "200 F", 93.3333}, {of(ParseCelsius), "-20 C", -20}, {of(ParseCelsius), "-4 F", -20}, {of(ParseCelsius), "0°C", 0},
		{of(ParseSecond), "0.4 s", 0.4}, {of(ParseSecond), "400 ms", 0.4}, {of(ParseSecond), "2 min", 120},
		{of(ParseAmpereHour), "60 Ah", 60}, {of(ParseAmpereHour), "60Ah", 60},
		{of(ParseGram), "100 g", 100}, {of(ParseGram), "1.2 kg", 1200}, {of(ParseGram), "4 oz", 113.398}, {of(ParseGram), "1 lb", 453.592},
		{of(ParseFraction), "10 %", 0.1}, {of(ParseFraction), "10%", 0.1}, {of(ParseFraction), "2,5 percent", 0.025},
		{of(ParseOhmPerMetre), "8.81 mohm/m", 0.00881}, {of(ParseOhmPerMetre), "8.81 Ω/km", 0.00881}, {of(ParseOhmPerMetre), "2.02 ohm/1000 ft", 0.0066273},
	} {
		got, err := c.parse(c.text)
		require.NoError(t, err, c.text)
		require.InDelta(t, c.want, got, 1e-4*max(c.want, 0.01), c.text)
	}
}

func of[T ~float64](parse func(string) (T, error)) func(string) (float64, error) {
	return func(text string) (float64, error) {
		v, err := parse(text)
		return float64(v), err
	}
}

// Every refusal says what is wrong and which units fit.
func TestQuantitiesRefused(t *testing.T) {
	for _, c := range []struct {
		parse func(string) (float64, error)
		text  string
		want  string
	}{
		{of(ParseAmpere), "20", `"20" has no unit; this is a current, in A or mA, for example 20 A or 140 mA.`},
		{of(ParseAmpere), "20 W", `"20 W": the unit "W" does not fit; this is a current, in A or mA`},
		{of(ParseAmpere), "20 MA", `the unit "MA" does not fit`},
		{of(ParseAmpere), "", "nothing is written"},
		{of(ParseAmpere), "-5 A", "negative"}, {of(ParseAmpere), "−5 A", "negative"},
		{of(ParseAmpere), "1_000 mA", "underscore"}, {of(ParseAmpere), "012 A", "needless 0"}, {of(ParseAmpere), "0x1F A", "not a decimal"},
		{of(ParseAmpere), "0o12 A", "not a decimal"}, {of(ParseAmpere), "0b11 A", "not a decimal"}, {of(ParseAmpere), "1e3 A", "exponent"},
		{of(ParseAmpere), ".nan", "not a number that can be built"}, {of(ParseAmpere), "Inf A", "not a number that can be built"}, {of(ParseAmpere), "NaN A", "not a number that can be built"},
		{of(ParseAmpere), "1,000 mA", `"1,000 mA" can be read as 1 mA or as 1000 mA`}, {of(ParseAmpere), "1.234,5 mA", "more than one decimal mark"},
		{of(ParseAmpere), "5. A", "ends in a decimal point"}, {of(ParseAmpere), "0 A", "nothing at all"}, {of(ParseAmpere), "90000 A", "out of the believable range (up to 5000 A)"},
		{of(ParseAmpere), "about 5 A", "words before the number"}, {of(ParseAmpere), "lots", "no number"}, {of(ParseAmpere), "20 A 30 A", "does not fit"},
		{of(ParseAmpere), "10/20 A", "two values or a fraction"},
		{of(ParseLength), "8", `"8" has no unit; this is a length, in mm, cm, m, in or ft`}, {of(ParseLength), "6 ft 14 in", "12 inches or more"},
		{of(ParseLength), "2 m 3 in", "units that do not go together"}, {of(ParseLength), "2 in 3 ft", "units that do not go together"},
		{of(ParseLength), "2.5 mm2", "is an area"}, {of(ParseLength), "1/2 mm", "fraction with a metric unit"}, {of(ParseLength), "6.5 ft 2 in", "part of a foot"},
		{of(ParseLength), "6'2", `has no unit`}, {of(ParseLength), "900 m", "out of the believable range"}, {of(ParseLength), "3/2 in", "not a fraction below 1"},
		{of(ParseCelsius), "95", "has no unit"}, {of(ParseCelsius), "95 K", `the unit "K" does not fit`}, {of(ParseCelsius), "900 C", "out of the believable range"},
		{of(ParseFraction), "0.1", "has no unit; this is a share, in percent"}, {of(ParseFraction), "110 %", "0 to 100 %"},
		{of(ParseVolt), "13.8", "this is a voltage, in V or mV"}, {of(ParseOhm), "85", "ohm, mohm or kohm"}, {of(ParseAmpereHour), "60 A", "in Ah"},
		{of(ParseSecond), "0.4", "in s or ms"}, {of(ParseGram), "100", "in g, kg, oz or lb"}, {of(ParseGram), "0 g", "nothing at all"}, {of(ParseGram), "-1 g", "negative"}, {of(ParseGram), "NaN g", "not a number that can be built"}, {of(ParseArea), "2.5", "in mm2"}, {of(ParseOhmPerMetre), "8.81 ohm", "mohm/m or ohm/km"},
	} {
		_, err := c.parse(c.text)
		require.ErrorContains(t, err, c.want, c.text)
		require.Regexp(t, `\.$`, err.Error())
	}
}

func TestDrawStartCoilDrop(t *testing.T) {
	draws := map[string]Draw{
		"20 A": {Amps: 20}, "35 W": {Watts: 35}, "20 A @ 13.8 V": {Amps: 20, At: 13.8}, "35 W at 13.5 V": {Watts: 35, At: 13.5},
		"140 mA": {Amps: 0.14}, "1,2 kW": {Watts: 1200}, "35W@13.5V": {Watts: 35, At: 13.5},
	}
	for text, want := range draws {
		got, err := ParseDraw(text)
		require.NoError(t, err, text)
		require.InDelta(t, float64(want.Amps), float64(got.Amps), 1e-9, text)
		require.Equal(t, Draw{got.Amps, want.Watts, want.At}, got, text)
	}
	for text, want := range map[string]string{
		"H4 55/60 W": "two loads in one", "55/60W": "two loads in one", "20": "A, mA or W", "20 V": "A, mA or W", "35 W @ 13": "has no unit; this is a voltage",
		"0 A": "nothing at all", "0 W": "nothing at all", "": "nothing is written", "-3 W": "negative",
	} {
		_, err := ParseDraw(text)
		require.ErrorContains(t, err, want, text)
	}
	start, err := ParseStart("55 A for 400 ms")
	require.NoError(t, err)
	require.Equal(t, Start{Amps: 55, For: 0.4}, start)
	_, err = ParseStart("55 A")
	require.ErrorContains(t, err, "how long the start takes")
	_, err = ParseStart("55 for 1 s")
	require.ErrorContains(t, err, "has no unit")
	coil, err := ParseCoil("85 ohm")
	require.NoError(t, err)
	require.Equal(t, Coil{Ohms: 85}, coil)
	coil, err = ParseCoil("150 mA")
	require.NoError(t, err)
	require.Equal(t, Coil{Amps: 0.15}, coil)
	for text, want := range map[string]string{"0 ohm": "cannot be right for a coil", "2 W": "mA, A or ohm", "90": "mA, A or ohm"} {
		_, err = ParseCoil(text)
		require.ErrorContains(t, err, want, text)
	}
	drop, err := ParseDropLimit("3 %")
	require.NoError(t, err)
	require.InDelta(t, 0.36, float64(drop.Of(12)), 1e-12)
	drop, err = ParseDropLimit("0,5 V")
	require.NoError(t, err)
	require.Equal(t, Volt(0.5), drop.Of(12))
	for text, want := range map[string]string{"3": "percent or volts", "0 %": "cannot be built", "0 V": "nothing at all", "1 A": "percent or volts"} {
		_, err = ParseDropLimit(text)
		require.ErrorContains(t, err, want, text)
	}
}

func TestGaugesAsWritten(t *testing.T) {
	for _, c := range []struct {
		text string
		def  System
		want Gauge
	}{
		{"2.5 mm2", Metric, Gauge{Metric, "2.5"}}, {"2.5mm²", Metric, Gauge{Metric, "2.5"}}, {"2,5 mm²", AWG, Gauge{Metric, "2.5"}}, {"0.50 mm2", SAE, Gauge{Metric, "0.5"}},
		{"2.5 sq mm", Metric, Gauge{Metric, "2.5"}}, {"4 MM2", Metric, Gauge{Metric, "4"}}, {"2.5 mm^2", Metric, Gauge{Metric, "2.5"}},
		{"14 ga", Metric, Gauge{SAE, "14"}}, {"14ga", SAE, Gauge{SAE, "14"}}, {"14 ga", AWG, Gauge{AWG, "14"}}, {"14 gauge", Metric, Gauge{SAE, "14"}}, {"14 SAE", AWG, Gauge{SAE, "14"}},
		{"12 AWG", Metric, Gauge{AWG, "12"}}, {"12awg", SAE, Gauge{AWG, "12"}}, {"AWG12", Metric, Gauge{AWG, "12"}}, {"AWG 12", Metric, Gauge{AWG, "12"}},
		{"#12", Metric, Gauge{SAE, "12"}}, {"#12", AWG, Gauge{AWG, "12"}}, {"#12 AWG", Metric, Gauge{AWG, "12"}},
		{"0", Metric, Gauge{SAE, "1/0"}}, {"00", Metric, Gauge{SAE, "2/0"}}, {"000", AWG, Gauge{AWG, "3/0"}}, {"0000", AWG, Gauge{AWG, "4/0"}}, {"1/0", Metric, Gauge{SAE, "1/0"}}, {"2/0 AWG", Metric, Gauge{AWG, "2/0"}}, {"1/0 ga", SAE, Gauge{SAE, "1/0"}},
	} {
		got, err := ParseGauge(c.text, c.def)
		require.NoError(t, err, c.text)
		require.Equal(t, c.want, got, c.text)
	}
}

func TestGaugesRefused(t *testing.T) {
	for text, want := range map[string]string{
		"2.5": "does not say mm2", "12": "does not say in which system: 12 mm2, 12 ga (SAE wire) or 12 AWG", "2": "in which system",
		"4 mm": `"4 mm" is a length, not an area of metal: some shops name wire by its diameter over the insulation, and a conductor 4 mm across would be 12.6 mm2. Write 4 mm2`,
		"":     `"#10"`, "14/2": "cable of 2 conductors of 14 gauge", "5/0": "large sizes are 1/0", "41 AWG": "run from 4/0 to 40", "012 AWG": "needless 0", "-12 ga": "negative",
		"12 A": "not a wire size", "NaN mm2": "not a number that can be built", "0 mm2": "believable range", "900 mm2": "believable range", "1_0 ga": "underscore", "12 awg sae": "names two systems",
		"thick": "no number", "2.5 ga": "whole", "1,000 mm2": "can be read as",
	} {
		_, err := ParseGauge(text, Metric)
		require.ErrorContains(t, err, want, text)
		require.Regexp(t, `\.$`, err.Error())
	}
}

// Strand counts as makers print them against the size that they are sold as
// (maker's data quoting ISO 6722 for thin and thick wall wire).
func TestStrandsGiveTheSizeTheyAreSoldAs(t *testing.T) {
	for text, want := range map[string]string{
		"28/0.30": "2", "30/0.30": "2", "7/0.20": "0.22", "12/0.20": "0.35", "16/0.20": "0.5", "24/0.20": "0.75", "32/0.20": "1", "30/0.25": "1.5",
		"50/0.25": "2.5", "19/0.41": "2.5", "45/0.30": "3", "56/0.30": "4", "84/0.30": "6", "80/0.40": "10", "126/0.40": "16", "196/0.40": "25", "28 x 0,30 mm": "2", "28×0.30": "2",
	} {
		got, err := ParseGauge(text, AWG)
		require.NoError(t, err, text)
		require.Equal(t, Gauge{Metric, want}, got, text)
	}
	area, ok := StrandArea("28/0.30")
	require.True(t, ok)
	require.InDelta(t, 1.98, float64(area), 0.005)
	_, ok = StrandArea("1/0")
	require.False(t, ok)
	_, err := ParseGauge("1/0.1", Metric)
	require.ErrorContains(t, err, "no size of vehicle wire")
}

func TestPrinting(t *testing.T) {
	for want, got := range map[string]string{
		"20 A": Ampere(20).String(), "0.14 A": Ampere(0.14).String(), "12.5 A": Ampere(12.5).String(), "0 A": Ampere(0).String(), "1235 A": Ampere(1234.6).String(),
		"14.25 V": Volt(14.25).String(), "12 V": Volt(12.0).String(), "0.41 V": Volt(0.41).String(), "5 mΩ": Ohm(0.005).String(), "8.81 mΩ": Ohm(0.00881).String(),
		"85 Ω": Ohm(85).String(), "2.2 kΩ": Ohm(2200).String(), "35 W": Watt(35).String(), "2785 mm": Millimetre(2785).String(), "3.1 mm": Millimetre(3.1).String(),
		"2.5 mm²": SquareMillimetre(2.5).String(), "95 °C": Celsius(95).String(), "0.4 s": Second(0.4).String(), "60 Ah": AmpereHour(60).String(), "3 %": Fraction(0.03).String(),
		"240 g": Gram(240).String(), "1.25 kg": Gram(1250).String(), "8.81 mΩ/m": OhmPerMetre(0.00881).String(), "35 W at 13.5 V": Draw{Watts: 35, At: 13.5}.String(),
		"55 A for 0.4 s": Start{55, 0.4}.String(), "0.15 A": Coil{Amps: 0.15}.String(), "90 Ω": Coil{Ohms: 90}.String(), "0.5 V": DropLimit{Volts: 0.5}.String(), "1 %": DropLimit{Fraction: 0.01}.String(),
		"12 AWG": Gauge{AWG, "12"}.String(), "12 ga": Gauge{SAE, "12"}.String(), "1/0 ga": Gauge{SAE, "1/0"}.String(), "4 mm²": Gauge{Metric, "4"}.String(), "": Gauge{}.String(),
		"2 785 mm": LengthText(2785, false), "9 ft 1 5/8 in": LengthText(2785, true), "50 mm": LengthText(50, false), "1/2 in": LengthText(12.7, true), "8 ft": LengthText(2438.4, true),
		"0 in": LengthText(0.4, true), "8 ft 6 in": LengthText(2590.8, true), "12 345 679 mm": LengthText(12345678.9, false), "1 ft": LengthText(304.7, true), "0.00012 V": Volt(0.00012).String(),
	} {
		require.Equal(t, want, got)
	}
}

func TestCalliperText(t *testing.T) {
	require.Equal(t, "45.7 mm", CalliperText(45.7, false))
	require.Equal(t, "48.33 mm", CalliperText(48.3333, false))
	require.Equal(t, "2.625 in", CalliperText(66.675, true))
	require.Equal(t, "6.4 mm", AcrossText(6.4, false))
	require.Equal(t, "0.25 in", AcrossText(6.4, true))
}

// TestPaper: ISO 216 for the A sizes; ANSI/ASME Y14.1 sizes A and B, in inches; a roll of 36 in.
func TestPaper(t *testing.T) {
	const inch = 25.4
	for name, want := range map[string][2]float64{"A4": {210, 297}, "a3": {297, 420}, "Letter": {8.5 * inch, 11 * inch}, "tabloid": {11 * inch, 17 * inch},
		"A2": {420, 594}, "A1": {594, 841}, "a0": {841, 1189}, "Roll": {36 * inch, 36 * inch}} {
		w, h, ok := Paper(name)
		require.True(t, ok, name)
		require.InDeltaSlice(t, want[:], []float64{float64(w), float64(h)}, 1e-9, name)
	}
	_, _, ok := Paper("A9")
	require.False(t, ok)
	require.Len(t, Papers(), 4)
}

// TestLargePapers: those that only large sheets are printed on, and what a packet folds out.
func TestLargePapers(t *testing.T) {
	for _, name := range Papers() {
		require.False(t, Large(name), name)
	}
	for _, name := range LargePapers() {
		require.True(t, Large(name), name)
	}
	require.Equal(t, "A3", LargePaper("A4"))
	require.Equal(t, "A3", LargePaper("a3"))
	require.Equal(t, "tabloid", LargePaper("Letter"))
	require.False(t, Large("A9"))
}

// TestBoreText: a bore is the least to take, so inches go up to the next sixteenth.
func TestBoreText(t *testing.T) {
	for _, c := range []struct {
		mm       Millimetre
		imperial bool
		want     string
	}{
		{11, false, "11 mm"}, {7.5, false, "7.5 mm"}, {9, true, "3/8 in"}, {11, true, "7/16 in"},
		{18, true, "3/4 in"}, {24, true, "1 in"}, {12.7, true, "1/2 in"}, {26, true, "1 1/16 in"},
	} {
		require.Equal(t, c.want, BoreText(c.mm, c.imperial))
	}
}
