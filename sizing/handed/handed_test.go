package handed

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
)

// TestOurTablesAreWhole: the embedded tables name what exists, and say each word once.
func TestOurTablesAreWhole(t *testing.T) {
	seen := map[string]string{}
	for _, row := range words(columnsCSV) {
		require.Len(t, row, 3)
		for _, w := range strings.Split(row[2], "|") {
			require.Equal(t, fold(w), w, "titles stand folded")
			require.Empty(t, seen[row[0]+" "+w], "%s is %s as well as %s", w, row[1], seen[row[0]+" "+w])
			seen[row[0]+" "+w] = row[1]
		}
	}
	for _, row := range words(coloursCSV) {
		require.Contains(t, colour.Letters(), row[0])
		require.Contains(t, sets, row[1])
	}
	for _, row := range words(kindsCSV) {
		_, ok := kind.Of(harness.Kind(row[0]))
		require.True(t, ok, row[0])
	}
}

// TestEnds: the ways in which people write where a wire ends.
func TestEnds(t *testing.T) {
	for cell, want := range map[string]end{
		"X1:4": {"X1", "4"}, "X1.4": {"X1", "4"}, "X1/4": {"X1", "4"}, "X1-4": {"X1", "4"}, "X1 4": {"X1", "4"}, "X1.4.in": {"X1", "4"}, "X1.4.out": {"X1", "4"},
		"K1 pin 87": {"K1", "87"}, "Relais 3 Klemme 87a": {"Relais 3", "87a"}, "K1:87a": {"K1", "87a"}, "Fan relay 30": {"Fan relay", "30"},
		"Fan +": {"Fan", "+"}, "Fan (-)": {"Fan", "-"}, "Fan+": {"Fan", "+"}, "Battery:pos": {"Battery", "+"}, "BAT.-": {"BAT", "-"}, "ALT.B+": {"ALT", "B+"},
		"IGN 15": {"IGN", "15"}, "Ignition switch 15": {"Ignition switch", "15"},
		"GND": {"GND", ""}, "G1": {"G1", ""}, "Lamp 2": {"Lamp 2", ""}, "Left/Right splice": {"Left/Right splice", ""}, "Fan": {"Fan", ""}, "F10": {"F10", ""},
		"FP.inverter": {"FP", "inverter"}, "TOW.58L": {"TOW", "58L"},
	} {
		require.Equal(t, want, endOf(cell, ""), cell)
	}
	require.Equal(t, end{"ECU-A", "X"}, endOf("ECU.A", "X"), "a terminal in its own column")
}

// TestColours: letters of IEC 60757, words, and the two sets that contradict each other:
// in German (DIN 47002) br is brown and bl blue, in British workshop letters B is black and N brown.
func TestColours(t *testing.T) {
	read := func(cells ...string) (out []string) {
		r, _ := readerOf(cells)
		for _, c := range cells {
			l, ok := r.read(c)
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
		got, err := gaugeOf(c.cell, c.unit, strings.Contains(c.cell, ","))
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
		got, err := lengthOf(c.cell, c.unit, c.commas)
		require.Equal(t, c.want == "", err != nil, c.cell)
		if err == nil {
			require.Equal(t, c.want, got)
		}
	}
}

// TestKinds: plain ones are said, what may be two things is not.
func TestKinds(t *testing.T) {
	for ref, want := range map[string]string{
		"F1": "fuse", "MF2": "fuse", "K3": "relay", "BAT": "battery", "GND": "ground", "G4": "ground", "X1": "connector", "SP2": "splice", "Masse": "ground", "Fan relay": "relay",
		"Battery ground": "ground", "Fuel pump fuse": "fuse", "L1": "", "M1": "", "Box 7": "", "D4": "",
	} {
		require.Equal(t, want, kindOf(&part{ref: ref}), ref)
	}
	require.Equal(t, "relay", kindOf(&part{ref: "Box 7", terminals: []string{"86", "30", "85"}}))
}

// described makes a description of a from-to list.
func described(t *testing.T, table string) (Result, string) {
	res := sound(t, Input{Name: "list", Wires: []byte(table), WiresTable: "w.csv"})
	return res, string(res.Text)
}

// TestLegs: wires are joined where one alone goes on; at a branch a leg ends, and the
// contact and the coil of a relay are never joined.
func TestLegs(t *testing.T) {
	_, text := described(t, "from,to\nBAT +,F1\nF1,K1:30\nK1:86,GND\nK1:87,SP1\nSP1,X1:1\nX1:1,A:1\nSP1,X1:2\n")
	require.Contains(t, text, "- [BAT.+, F1.1, F1.2, K1.30, K1.87, SP1]\n")
	require.Contains(t, text, "- [K1.86, GND]\n")
	require.Contains(t, text, "- [SP1, X1.1, A.1]\n")
	require.Contains(t, text, "- [SP1, X1.2]\n")
}

// TestNothingIsDropped: what is refused by name, and what its reader cannot take, is
// listed with its row, and the rest stays.
func TestNothingIsDropped(t *testing.T) {
	res, text := described(t, "wire,from,to,circuit,circuit number\n1,BAT +,F1,fan,7\n2,Airbag,F1,fan,7\n3,A:1,B:1,lamp,7\n4,A:2,A:2,lamp,x\n5,,B:2,,\n")
	require.Equal(t, 2, res.Wires)
	require.NotContains(t, text[strings.Index(text, "parts:"):], "Airbag")
	rows := map[int]bool{}
	for _, l := range res.Left {
		rows[l.Row] = true
	}
	require.True(t, rows[3] && rows[5] && rows[6], "%v", res.Left)
	require.True(t, slices.ContainsFunc(res.Left, func(l Left) bool { return l.Row == 4 && l.Title == "circuit number" }), "the number is taken, the wire stays")
}

// TestPoles: a battery whose plus goes to ground makes a vehicle with positive ground, no
// ground at all one with wired returns.
func TestPoles(t *testing.T) {
	_, text := described(t, "from,to\nBAT +,GND\nBAT -,F1\n")
	require.Contains(t, text, "earth: positive")
	_, text = described(t, "from,to\nBAT +,F1\nF1,BAT -\n")
	require.Contains(t, text, "return: wired")
}

// TestRatingsAndLoads: a fuse's rating and a load's draw go to the part at one end of the
// wire; where no end is such a part, or another row says otherwise, they are noted.
func TestRatingsAndLoads(t *testing.T) {
	res, text := described(t, "from,to,fuse,load (A)\nBAT +,F1,\"7,5 A\",\nF1,Wiper motor +,10 A,4.5\nWiper motor -,GND,,5\nF1,X1:1,20 A,2\n")
	require.Contains(t, text, "{kind: fuse, rating: 7.5 A}")
	require.Contains(t, text, "{kind: motor, draws: 4.5 A}")
	require.Contains(t, text, "# fuse: 10 A; load: 5 A")
	require.Contains(t, text, "# fuse: 20 A; load: 2 A")
	require.Len(t, res.Left, 3, "two ratings of F1 and a draw of the motor that another row contradicts")
}
