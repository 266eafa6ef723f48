package colour

import (
	"encoding/csv"
	"fmt"
	"math"
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

// vienot are the matrices of Viénot, Brettel and Mollon (Color Research and
// Application 24, 1999) in sRGB primaries, as a public-domain library gives them:
// a second model, for the check alone.
var vienot = map[view][3][3]float64{
	protan: {{.11238, .88762, 0}, {.11238, .88762, 0}, {.00401, -.00401, 1}},
	deutan: {{.29275, .70725, 0}, {.29275, .70725, 0}, {-.02234, .02234, 1}},
}

// Machado, Oliveira, Fernandes (2009), severity 1.0, and Viénot (1999), applied to
// linear light: the linear results before clamping and the colours that come out,
// worked with two separate programs. Every row of the list.
func TestDeficiencyMatrices(t *testing.T) {
	_, rows := table(t, "deficiency.csv")
	kinds := map[string]view{"protan": protan, "deutan": deutan, "tritan": tritan}
	models := map[string]map[view][3][3]float64{"machado2009_s1.0": deficiency, "vienot1999": vienot}
	require.Len(t, rows, 75)
	for _, r := range rows {
		in := shade{uint8(number(t, r[2])), uint8(number(t, r[3])), uint8(number(t, r[4]))}
		got := decode(in).times(models[r[0]][kinds[r[1]]])
		for i := range got {
			require.InDelta(t, number(t, r[8+i]), got[i], 2e-6, "%v", r)
			require.InDelta(t, number(t, r[5+i]), encode(got.clamp()[i]), 0.51, "%v", r)
		}
	}
}

// encode is the sRGB transfer curve of IEC 61966-2-1, to 255.
func encode(x float64) float64 {
	if x <= 0.0031308 {
		return 255 * 12.92 * x
	}
	return 255 * (1.055*math.Pow(x, 1/2.4) - 0.055)
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
