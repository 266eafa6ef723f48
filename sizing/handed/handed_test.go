package handed

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

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
	_, text = described(t, "from,to\nK1:30,K1:86\n")
	require.Contains(t, text, "- [K1.30, {to: K1.86, via: []}]\n", "a jumper is a wire")
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

// TestOurTableHasAUnitARow: 16 of one row is AWG, 16 of the next is mm².
func TestOurTableHasAUnitARow(t *testing.T) {
	_, text := described(t, "id,from,to,length_mm,given_length,system,gauge\n1,A.1,B.1,100,true,awg,16\n2,A.2,B.2,100,true,mm2,16\n")
	require.Contains(t, text, "gauge: 16 awg, wire: 1")
	require.Contains(t, text, "gauge: 16 mm2, wire: 2")
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

// TestSaysStaysInItsPart: keys of a part that would end it, or hide what follows, are listed.
func TestSaysStaysInItsPart(t *testing.T) {
	for says, ok := range map[string]bool{"draws: 5 A, notes: \"a } b\"": true, "tail: 6\", stud: 3/8": true, "inside: [{from: 1, to: 2, draws: 5 A}]": true,
		"draws: 5 A}, Y: {kind: fuse": false, "draws: 5 A} # x": false, "inside: [": false, "notes: \"a": false} {
		require.Equal(t, ok, closed(says), says)
	}
}
