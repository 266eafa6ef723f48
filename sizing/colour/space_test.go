package colour

import (
	"encoding/csv"
	"fmt"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// table reads a CSV of the testdata folder without its header.
func table(t *testing.T, name string) (head []string, rows [][]string) {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	require.NoError(t, err)
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	return all[0], all[1:]
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}

// Sharma, Wu, Dalal (2005), table 1: all 34 pairs, to the 4 decimals printed.
// Pairs 10 and 14 have hues exactly 180 degrees apart.
func TestDifferenceGivesThePublishedPairs(t *testing.T) {
	_, rows := table(t, "ciede2000.csv")
	require.Len(t, rows, 34)
	for _, r := range rows {
		p := lab{number(t, r[1]), number(t, r[2]), number(t, r[3])}
		q := lab{number(t, r[4]), number(t, r[5]), number(t, r[6])}
		require.Equal(t, r[7], fmt.Sprintf("%.4f", difference(p, q)), "pair %s", r[0])
		require.Equal(t, r[7], fmt.Sprintf("%.4f", difference(q, p)), "pair %s turned round", r[0])
	}
}

// CIELAB of the sRGB primaries with the row-sum white; red agrees with the
// value commonly published for IEC 61966-2-1 and D65 (53.24, 80.09, 67.20).
func TestLabOfPrimaries(t *testing.T) {
	for _, c := range []struct {
		s    shade
		want lab
	}{
		{shade{255, 0, 0}, lab{53.2371, 80.0901, 67.2033}},
		{shade{0, 255, 0}, lab{87.7355, -86.1816, 83.1866}},
		{shade{0, 0, 255}, lab{32.3009, 79.1953, -107.8555}},
		{shade{128, 128, 128}, lab{53.5850, 0, 0}},
		{shade{255, 255, 255}, lab{100, 0, 0}},
		{shade{0, 0, 0}, lab{0, 0, 0}},
	} {
		got := look(c.s, normal)
		require.InDelta(t, c.want.L, got.L, 1e-4)
		require.InDelta(t, c.want.A, got.A, 1e-4)
		require.InDelta(t, c.want.B, got.B, 1e-4)
	}
}

// Machado, Oliveira, Fernandes (2009), severity 1.0, applied to linear light:
// the linear results before clamping, worked with two separate programs.
func TestDeficiencyMatrices(t *testing.T) {
	_, rows := table(t, "deficiency.csv")
	kinds := map[string]view{"protan": protan, "deutan": deutan, "tritan": tritan}
	seen := 0
	for _, r := range rows {
		if r[0] != "machado2009_s1.0" {
			continue
		}
		seen++
		in := shade{uint8(number(t, r[2])), uint8(number(t, r[3])), uint8(number(t, r[4]))}
		got := decode(in).times(deficiency[kinds[r[1]]])
		for i := range got {
			require.InDelta(t, number(t, r[8+i]), got[i], 2e-6, "%v", r)
		}
	}
	require.Greater(t, seen, 20)
}

// All pairs of thirteen colours in six views and two palettes, worked
// beforehand with a separate program (Python); printed to one decimal there.
func TestPairsInEveryView(t *testing.T) {
	head, rows := table(t, "pairs.csv")
	require.Equal(t, "iscc_normal", head[2])
	for _, r := range rows {
		a, b := palette()[find(r[0])], palette()[find(r[1])]
		for v := normal; v <= grey; v++ {
			for p := range 2 {
				cell := r[2+6*p+int(v)]
				if cell == "" {
					continue
				}
				got := difference(look(a.shades[p], v), look(b.shades[p], v))
				require.InDelta(t, number(t, cell), got, 0.051, "%s %s view %d palette %d", r[0], r[1], v, p)
			}
		}
	}
}
