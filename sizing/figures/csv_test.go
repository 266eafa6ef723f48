package figures

import (
	"bytes"
	"encoding/csv"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func read(t *testing.T, d Document, table string) (header []string, rows [][]string) {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, CSV(&out, d, table))
	require.Equal(t, strings.Count(out.String(), "\n"), strings.Count(out.String(), "\r\n"), "RFC 4180: lines end in CR LF")
	all, err := csv.NewReader(&out).ReadAll()
	require.NoError(t, err)
	return all[0], all[1:]
}

// TestNoCellIsAFormula: the signs are those that OWASP lists under CSV injection;
// numbers keep their sign, and what stands within a text is left alone.
func TestNoCellIsAFormula(t *testing.T) {
	names := []string{"=1+1", "+", "-", "@SUM(A1)", "\tx", "BAT.+", "12A", "a,\"b\"\nc", "→ FAN.+"}
	d := Document{Loads: []Load{{ID: "FAN", DropPct: -0.5}}}
	for _, n := range names {
		d.Labels = append(d.Labels, Label{Kind: "part", Line1: n, Line2: n})
		d.Ends = append(d.Ends, End{Wire: n, Label: n})
	}
	for _, table := range []string{"labels", "ends"} {
		_, rows := read(t, d, table)
		require.Len(t, rows, len(names))
		for i, row := range rows {
			found := 0
			for _, cell := range row {
				require.NotContains(t, []byte("=+-@\t\r"), append([]byte(cell), ' ')[0], "%q", cell)
				if strings.TrimPrefix(cell, "'") == names[i] {
					found++
				}
			}
			require.Equal(t, 2, found, "%q in %q", names[i], row)
		}
	}
	header, rows := read(t, d, "loads")
	require.Equal(t, "-0.5", rows[0][slices.Index(header, "drop_pct")])
}

// TestNoCellBecomesADate: fractions and months stay what was written.
func TestNoCellBecomesADate(t *testing.T) {
	for s, want := range map[string]string{
		"3/8": "'3/8", "2/0": "'2/0", "1-2": "'1-2", "SEP2": "'SEP2", "Mar 3": "'Mar 3", "MARCH1": "'MARCH1",
		"3/8 in": "3/8 in", "12A": "12A", "MARKER": "MARKER", "16-14 AWG": "16-14 AWG", "M8": "M8", "OG/BK": "OG/BK", "DECK1": "DECK1",
	} {
		_, rows := read(t, Document{Ends: []End{{Wire: "1A", Label: s}}}, "ends")
		require.Contains(t, rows[0], want)
	}
}

// TestHeadersNameTheUnit: what is measured says so behind its name, in every table.
func TestHeadersNameTheUnit(t *testing.T) {
	for _, table := range []string{"cuts", "labels", "ends", "wires"} {
		header, _ := read(t, Document{Cuts: []CutRow{{}}, Labels: []Label{{}}, Ends: []End{{}}, Wires: []Wire{{}}}, table)
		for _, h := range header {
			for _, measured := range []string{"length", "strip", "width", "area", "diameter", "pull"} {
				if strings.HasPrefix(h, measured) {
					require.Regexp(t, "_(mm|mm2|n)$", h, table)
				}
			}
		}
	}
}
