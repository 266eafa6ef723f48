package handed

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/handed/grid"
)

// tables are the from-to lists of testdata.
func tables(t testing.TB) map[string][]byte {
	files, err := filepath.Glob("testdata/*.csv")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	out := map[string][]byte{}
	for _, f := range files {
		data, err := os.ReadFile(f)
		require.NoError(t, err)
		out[filepath.Base(f)] = data
	}
	return out
}

// FuzzWires: no table makes the reading panic, every row is a wire or is accounted for,
// and what is written has the form of a description.
func FuzzWires(f *testing.F) {
	for _, data := range tables(f) {
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		sound(t, Input{Name: "fuzz", Wires: data, WiresTable: "w.csv"})
	})
}

// FuzzParts: the same of a table of parts, beside a table of wires between some of them.
func FuzzParts(f *testing.F) {
	f.Add([]byte("ref,kind,name,place,draws,rating,says\nF1,fuse,Fan fuse,tray,,10 A,\nFAN,motor,Fan,nose,20 A,,\"starts: 55 A for 0.4 s\"\n"), "from,to\nF1,FAN +\nFAN -,GND\n")
	f.Add([]byte("Kennzeichen;Art;Verbrauch (W)\nL1;Lampe;5,5\nK1;Relais;\nK1;Relais;\n"), "Von;Nach\nK1:87;L1\n")
	f.Add([]byte("ref,says\nX,\"}, Y: {kind: fuse\"\nZ,\"inside: [\"\n"), "from,to\nX,Z\n")
	f.Fuzz(func(t *testing.T, parts []byte, wires string) {
		sound(t, Input{Name: "fuzz", Wires: []byte(wires), WiresTable: "w.csv", Parts: parts, PartsTable: "p.csv"})
		sound(t, Input{Name: "fuzz", Parts: parts, PartsTable: "p.csv"})
	})
}

// sound describes tables and holds the result to what is promised.
func sound(t *testing.T, in Input) Result {
	res, err := Describe(in)
	if err != nil {
		require.NotEmpty(t, err.Error())
		require.Empty(t, res.Text)
		return res
	}
	d, ps := describe.Parse("f.yaml", res.Text)
	require.False(t, ps.HasErrors(), "%v\n%s", ps, res.Text)
	for table, data := range map[string][]byte{"wires": in.Wires, "parts": in.Parts} {
		if data == nil {
			continue
		}
		g, err := grid.Read(data)
		require.NoError(t, err)
		for _, row := range g.Rows {
			require.Contains(t, res.Fates[table], row.Number, "row %q", row.Cells)
		}
	}
	wires := 0
	for row, fate := range res.Fates["wires"] {
		listed := false
		for _, l := range res.Left {
			listed = listed || l.Row == row && l.Column == 0 && l.Table == in.WiresTable
		}
		require.Equal(t, fate == Skipped, listed, "row %d: %s", row, fate)
		if fate == Wire {
			wires++
		}
	}
	require.Equal(t, wires, res.Wires)
	legs := 0
	for _, c := range d.Circuits {
		for _, l := range c.Legs {
			legs += wiresOf(l)
		}
	}
	require.Equal(t, wires, legs, "%s", res.Text)
	for _, l := range res.Left {
		require.NotEmpty(t, l.Why)
	}
	return res
}

// wiresOf counts the neighbouring stops that something is said of, or on different parts.
func wiresOf(l describe.Leg) int {
	n := 0
	for i := 1; i < len(l.Stops); i++ {
		a, b := l.Stops[i-1], l.Stops[i]
		said := b.Length.Given() || b.Gauge.Given() || b.Colour.Given() || b.Insulation.Given() || b.Name.Given() || b.Beside
		if said || read.Folded(a.Part.Text) != read.Folded(b.Part.Text) {
			n++
		}
	}
	return n
}

// errTooBig is the only reason besides missing columns for which a table is not read.
func TestTooBig(t *testing.T) {
	_, err := Describe(Input{Name: "t", Wires: make([]byte, grid.MostBytes+1), WiresTable: "w.csv"})
	require.True(t, errors.As(err, &grid.TooBig{}))
}
