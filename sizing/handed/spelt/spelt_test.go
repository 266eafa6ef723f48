package spelt

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/handed/grid"
)

// TestColoursExist: the table names letters of the format and sets that are known.
func TestColoursExist(t *testing.T) {
	for _, row := range grid.Own(coloursCSV) {
		require.Contains(t, colour.Letters(), row[0])
		require.Contains(t, sets, row[1])
	}
}

// TestEnds: the ways in which people write where a wire ends.
func TestEnds(t *testing.T) {
	for cell, want := range map[string]End{
		"X1:4": {"X1", "4"}, "X1.4": {"X1", "4"}, "X1/4": {"X1", "4"}, "X1-4": {"X1", "4"}, "X1 4": {"X1", "4"}, "X1.4.in": {"X1", "4"}, "X1.4.out": {"X1", "4"},
		"K1 pin 87": {"K1", "87"}, "Relais 3 Klemme 87a": {"Relais 3", "87a"}, "K1:87a": {"K1", "87a"}, "Fan relay 30": {"Fan relay", "30"},
		"Fan +": {"Fan", "+"}, "Fan (-)": {"Fan", "-"}, "Fan+": {"Fan", "+"}, "Battery:pos": {"Battery", "+"}, "BAT.-": {"BAT", "-"}, "ALT.B+": {"ALT", "B+"},
		"IGN 15": {"IGN", "15"}, "Ignition switch 15": {"Ignition switch", "15"},
		"GND": {"GND", ""}, "G1": {"G1", ""}, "Lamp 2": {"Lamp 2", ""}, "Left/Right splice": {"Left/Right splice", ""}, "Fan": {"Fan", ""}, "F10": {"F10", ""},
		"FP.inverter": {"FP", "inverter"}, "TOW.58L": {"TOW", "58L"},
	} {
		require.Equal(t, want, EndOf(cell, ""), cell)
	}
	require.Equal(t, End{"ECU-A", "X"}, EndOf("ECU.A", "X"), "a terminal in its own column")
}

// TestColours: letters of IEC 60757, words, and the two sets that contradict each other:
// in German (DIN 47002) br is brown and bl blue, in British workshop letters B is black and N brown.
func TestColours(t *testing.T) {
	read := func(cells ...string) (out []string) {
		r, _ := ColoursOf(cells)
		for _, c := range cells {
			l, ok := r.Read(c)
			if !ok {
				l = "?"
			}
			out = append(out, l)
		}
		return out
	}
	require.Equal(t, []string{"BK", "BK/RD", "GN/YE", "GN/YE", "BK/RD", "WH"}, read("BK", "bk/rd", "GN-YE", "GNYE", "black/red", "white"))
	require.Equal(t, []string{"BK", "BN", "BU", "GY/RD", "BK/WH"}, read("sw", "br", "bl", "gr-rt", "swws"))
	require.Equal(t, []string{"BK", "BN", "BU", "GN/PK", "BK/VT"}, read("B", "N", "U", "G/K", "B P"))
	require.Equal(t, []string{"BK", "LBU", "RD/BK", "PK/BK", "BN/WH"}, read("noir", "light blue", "rouge avec noir", "PNK w/ BLK", "marrone bianco"))
	require.Equal(t, []string{"?", "?", "?"}, read("mauve", "red/green/blue", "12"), "what is none is not guessed")
}

// TestSizesAndLengths: what can be two things is refused and listed.
func TestSizesAndLengths(t *testing.T) {
	for _, c := range []struct{ cell, unit, want string }{
		{"0,75", "mm2", "0.75 mm2"}, {"0,75 mm²", "", "0.75 mm2"}, {"18 AWG", "", "18 AWG"}, {"18", "awg", "18 awg"}, {"2/0", "sae", "2/0 ga"}, {"18", "", ""}, {"thick", "mm2", ""},
	} {
		got, err := Gauge(c.cell, c.unit, strings.Contains(c.cell, ","))
		require.Equal(t, c.want == "", err != nil, c.cell)
		if err == nil {
			require.Equal(t, c.want, got)
		}
	}
	for _, c := range []struct {
		cell, unit string
		commas     bool
		want       string
	}{
		{"1,5", "m", true, "1.5 m"}, {"3' 4\"", "", false, "3' 4\""}, {"1200", "mm", false, "1200 mm"}, {"120", "", false, ""},
		{"1,250", "mm", false, ""}, {"1.250", "mm", true, ""}, {"1.250", "m", false, "1.250 m"}, {"0,750", "m", true, "0.750 m"},
	} {
		got, err := Length(c.cell, c.unit, c.commas)
		require.Equal(t, c.want == "", err != nil, c.cell)
		if err == nil {
			require.Equal(t, c.want, got)
		}
	}
}

// TestUnitsThatAreNotThere: a unit is guessed only where the figures can be nothing else.
func TestUnitsThatAreNotThere(t *testing.T) {
	for _, c := range []struct {
		cells []string
		want  string
	}{
		{[]string{"0.75", "1", "4"}, "mm2"}, {[]string{"0,5"}, "mm2"}, {[]string{"12", "16", "18"}, "awg"}, {[]string{"10", "16"}, ""}, {[]string{"4", "12"}, ""}, {[]string{"18"}, ""},
		{[]string{"12 AWG", "14 AWG"}, ""},
	} {
		require.Equal(t, c.want, SizeOf(c.cells), "%v", c.cells)
	}
	require.True(t, Millimetres([]string{"120", "3400"}))
	require.False(t, Millimetres([]string{"36", "48", "72"}), "inches, or cm")
	require.False(t, Millimetres([]string{"1.5", "3400"}))
	require.False(t, Millimetres(nil))
}
