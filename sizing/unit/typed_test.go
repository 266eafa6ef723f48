package unit

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// How people type is common practice; no source lists it.
func TestUnitsAsTyped(t *testing.T) {
	for _, c := range []struct {
		parse func(string) (float64, error)
		text  string
		want  float64
	}{
		{of(ParseAmpere), "5,5 A", 5.5}, {of(ParseAmpere), "5,50 A", 5.5}, {of(ParseAmpere), "0,200 A", 0.2}, {of(ParseAmpere), "1,2500 A", 1.25}, {of(ParseAmpere), "1.200 A", 1.2},
		{of(ParseAmpere), "5 Amp", 5}, {of(ParseAmpere), "5 amps.", 5}, {of(ParseAmpere), "5A.", 5}, {of(ParseAmpere), "5A DC", 5}, {of(ParseAmpere), "5 ADC", 5},
		{of(ParseAmpere), "5 А", 5}, {of(ParseAmpere), "5 Аmp", 5}, {of(ParseAmpere), "140 мА", 0.14},
		{of(ParseVolt), "12 В", 12}, {of(ParseVolt), "13,8 В", 13.8}, {of(ParseVolt), "12 Volts", 12},
		{of(ParseOhm), "85 ohms", 85}, {of(ParseOhm), "85 Ом", 85}, {of(ParseOhm), "85 Оhm", 85}, {of(ParseOhm), "85 R", 85}, {of(ParseOhm), "5 мОм", 0.005}, {of(ParseOhm), "5 mΩ", 0.005},
		{of(ParseOhm), "85 \u2126", 85}, {of(ParseOhm), "500 \u00b5Ω", 0.0005}, {of(ParseOhm), "500 \u03bcΩ", 0.0005},
		{of(ParseLength), "1,2 m", 1200}, {of(ParseLength), "1,2 mtr", 1200}, {of(ParseLength), "1.2 mtrs", 1200}, {of(ParseLength), "2 mt", 2000}, {of(ParseLength), "120 cms", 1200},
		{of(ParseLength), "1.2 M", 1200}, {of(ParseLength), "50 MM", 50}, {of(ParseLength), "1.2 м", 1200}, {of(ParseLength), "50 мм", 50}, {of(ParseLength), "1.785 m", 1785},
		{of(ParseArea), "2.5sq", 2.5}, {of(ParseArea), "2.5 mmq", 2.5}, {of(ParseArea), "2,5 qmm", 2.5}, {of(ParseArea), "2.5 mm sq", 2.5}, {of(ParseArea), "2.5 mm 2", 2.5}, {of(ParseArea), "2,5 мм²", 2.5},
		{of(ParseArea), "2.5 кв.мм", 2.5}, {of(ParseArea), "2.5 mm**2", 2.5}, {of(ParseArea), "2.5 square mm", 2.5},
		{of(ParseCelsius), "95 С", 95}, {of(ParseCelsius), "95 ℃", 95}, {of(ParseCelsius), "95 oC", 95}, {of(ParseFraction), "3,5 ％", 0.035},
		{of(ParseAmpereHour), "60 Ач", 60}, {of(ParseSecond), "0,4 с", 0.4},
	} {
		got, err := c.parse(c.text)
		require.NoError(t, err, c.text)
		require.InDelta(t, c.want, got, 1e-9*max(c.want, 1), c.text)
	}
}

// What can be read in two ways is refused with both.
func TestThousandsAreNotGuessed(t *testing.T) {
	for text, want := range map[string]string{
		"1,200 W": `"1,200 W" can be read as 1.2 W or as 1200 W`, "1,234 W": "as 1.234 W or as 1234 W", "12,500 W": "as 12.5 W or as 12500 W",
		"1,200.5 W": "more than one decimal mark", "1.200,5 W": "more than one decimal mark",
		"1,200,000 W": "more than one decimal mark", "5, 5 A": "does not fit", "5 ,5 A": "does not fit",
	} {
		_, err := ParseDraw(text)
		require.ErrorContains(t, err, want, text)
	}
	_, err := ParseLength("1,200 mm")
	require.ErrorContains(t, err, "as 1.2 mm or as 1200 mm")
	for text, want := range map[string]string{
		"1.200 W": `"1.200 W" can be read as 1.2 W or as 1200 W`, "1.250 mA": "as 1.25 mA or as 1250 mA", "2.785 mm": "as 2.785 mm or as 2785 mm", "1.200W @ 13.8 V": "as 1.2 W or as 1200 W",
	} {
		require.ErrorContains(t, Thousands(text), want, text)
	}
	for _, text := range []string{"1.200 m", "1.200 kW", "1.500 mm2", "1.500 mm²", "1.500 mm^2", "1.500 sq mm", "0.500 W", "12.5 W", "1.25 mm", "1.2345 mm", "1234.500 mm", "2 m 1.5 mm", ""} {
		require.NoError(t, Thousands(text), text)
	}
	got, err := ParseDraw("1,20 kW")
	require.NoError(t, err)
	require.InDelta(t, 1200, float64(got.Watts), 1e-9)
	got, err = ParseDraw("1 200 W")
	require.NoError(t, err)
	require.InDelta(t, 1200, float64(got.Watts), 1e-9)
}

func TestGaugesAsTyped(t *testing.T) {
	for text, want := range map[string]Gauge{
		"AWG14": {AWG, "14"}, "14AWG": {AWG, "14"}, "#14": {SAE, "14"}, "14 A.W.G.": {AWG, "14"}, "14 awg.": {AWG, "14"}, "AWG-14": {AWG, "14"}, "14-AWG": {AWG, "14"}, "АWG 14": {AWG, "14"},
		"14 guage": {SAE, "14"}, "No 14": {SAE, "14"}, "2.5sq": {Metric, "2.5"}, "2.5 mmq": {Metric, "2.5"}, "2,5 qmm": {Metric, "2.5"}, "2.5mmsq": {Metric, "2.5"}, "2,5 мм2": {Metric, "2.5"},
	} {
		got, err := ParseGauge(text, Metric)
		require.NoError(t, err, text)
		require.Equal(t, want, got, text)
	}
	for text, want := range map[string]string{"14 SWG": "British standard wire gauge", "1,500 mm2": "can be read as 1.5 mm2 or as 1500 mm2", "14": "in which system", "-14 AWG": "negative"} {
		_, err := ParseGauge(text, Metric)
		require.ErrorContains(t, err, want, text)
	}
}

func TestMended(t *testing.T) {
	for text, want := range map[string]string{
		"1O A": "10 A", "l2 V": "12 V", "I4 AWG": "14 AWG", "AWG1O": "AWG10", "1/O": "1/0", "2О mm2": "20 mm2", "5 A for O.4 s": "5 A for 0.4 s", "1|5 W": "115 W", "1 l/2 in": "1 1/2 in",
		"10 Ohm": "10 Ohm", "OO": "OO", "lO A": "lO A", "mm2": "mm2", "12 A": "12 A", "": "",
	} {
		require.Equal(t, want, Mended(text), text)
	}
}
