package sight

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
		p := Lab{number(t, r[1]), number(t, r[2]), number(t, r[3])}
		q := Lab{number(t, r[4]), number(t, r[5]), number(t, r[6])}
		require.Equal(t, r[7], fmt.Sprintf("%.4f", Difference(p, q)), "pair %s", r[0])
		require.Equal(t, r[7], fmt.Sprintf("%.4f", Difference(q, p)), "pair %s turned round", r[0])
	}
}

// CIELAB of the sRGB primaries with the row-sum white; red agrees with the
// value commonly published for IEC 61966-2-1 and D65 (53.24, 80.09, 67.20).
func TestLabOfPrimaries(t *testing.T) {
	for _, c := range []struct {
		s    Shade
		want Lab
	}{
		{Shade{255, 0, 0}, Lab{53.2371, 80.0901, 67.2033}},
		{Shade{0, 255, 0}, Lab{87.7355, -86.1816, 83.1866}},
		{Shade{0, 0, 255}, Lab{32.3009, 79.1953, -107.8555}},
		{Shade{128, 128, 128}, Lab{53.5850, 0, 0}},
		{Shade{255, 255, 255}, Lab{100, 0, 0}},
		{Shade{0, 0, 0}, Lab{0, 0, 0}},
	} {
		got := Look(c.s, Normal)
		require.InDelta(t, c.want.L, got.L, 1e-4)
		require.InDelta(t, c.want.A, got.A, 1e-4)
		require.InDelta(t, c.want.B, got.B, 1e-4)
	}
}

// vienot are the matrices of Viénot, Brettel and Mollon (Color Research and
// Application 24, 1999) in sRGB primaries, as a public-domain library gives them:
// a second model, for the check alone.
var vienot = map[View][3][3]float64{
	Protan: {{.11238, .88762, 0}, {.11238, .88762, 0}, {.00401, -.00401, 1}},
	Deutan: {{.29275, .70725, 0}, {.29275, .70725, 0}, {-.02234, .02234, 1}},
}

// Machado, Oliveira, Fernandes (2009), severity 1.0, and Viénot (1999), applied to
// linear light: the linear results before clamping and the colours that come out,
// worked with two separate programs. Every row of the list.
func TestDeficiencyMatrices(t *testing.T) {
	_, rows := table(t, "deficiency.csv")
	kinds := map[string]View{"protan": Protan, "deutan": Deutan, "tritan": Tritan}
	models := map[string]map[View][3][3]float64{"machado2009_s1.0": deficiency, "vienot1999": vienot}
	require.Len(t, rows, 75)
	for _, r := range rows {
		in := Shade{uint8(number(t, r[2])), uint8(number(t, r[3])), uint8(number(t, r[4]))}
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
