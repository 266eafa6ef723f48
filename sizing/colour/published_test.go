package colour

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/colour/sight"
	"example.com/loomfolio/sizing/colour/spread"
)

// one gives the scale of a single palette (0 ISCC-NBS, 1 RAL).
func onePalette(n int, ask weights) *scale {
	var shades [][]sight.Shade
	for _, c := range palette()[:usual] {
		shades = append(shades, c.shades[n:n+1])
	}
	return newScale(shades, ask)
}

// IEC 189-3 divides the pairs of its colour table into easily and less easily
// identifiable ones (as a cable maker's page of colour codes gives it): of all
// comparisons between the two lists, an easy pair stands farther apart in at
// least 79 % with normal sight and 73 % over all views.
func TestPairsOfTheStandardAreRankedRight(t *testing.T) {
	_, rows := table(t, "easily.csv")
	for _, c := range []struct {
		s    *scale
		want float64
	}{{onePalette(0, weights{sight.Normal: 1}), 0.79}, {onePalette(1, allViews), 0.73}} {
		s := c.s
		var easy, less []int
		for _, r := range rows {
			if d := s.single(r[0], r[1]); r[2] == "easily_identifiable" {
				easy = append(easy, d)
			} else {
				less = append(less, d)
			}
		}
		right := 0.0
		for _, e := range easy {
			for _, l := range less {
				if e > l {
					right++
				} else if e == l {
					right += 0.5
				}
			}
		}
		share := right / float64(len(easy)*len(less))
		t.Logf("%.3f", share)
		require.GreaterOrEqual(t, share, c.want)
	}
}

// The largest smallest distance of k wires that all meet, up to twelve, found
// beforehand by an exact search with a separate program (Python).
func TestCeilingsAgainstASeparateSearch(t *testing.T) {
	_, rows := table(t, "dispersion.csv")
	checked := 0
	for p, name := range []string{"ISCC-NBS", "RAL"} {
		for views, ask := range map[string]weights{"normal": {sight.Normal: 1}, "all": allViews} {
			plain, tracers := dispersion(onePalette(p, ask))
			for _, r := range rows {
				k := int(number(t, r[3]))
				if r[0] != name || (r[1] == "normal") != (views == "normal") || k > 12 {
					continue
				}
				c := tracers
				if r[2] == "plain11" {
					c = plain
				}
				got := c(k)
				low, high := number(t, r[4]), number(t, r[5])
				require.GreaterOrEqual(t, float64(got.Distance)/100, low-0.011, "%v", r)
				if r[6] == "yes" {
					require.InDelta(t, low, float64(got.Distance)/100, 0.011, "%v", r)
				} else {
					require.Less(t, float64(got.Distance)/100, high+0.011, "%v", r)
				}
				checked++
			}
		}
	}
	require.Greater(t, checked, 60)
}

func dispersion(s *scale) (plain, tracers func(k int) spread.Ceiling) {
	k := &task{scale: s}
	letters := Letters()[:usual]
	for _, b := range letters {
		k.combos = append(k.combos, Pair{Base: b})
	}
	for _, b := range letters {
		for _, c := range letters {
			if s.single(b, c) >= least && !earthPair(Pair{b, c}) {
				k.combos = append(k.combos, Pair{b, c})
			}
		}
	}
	// the separate search counts a pair and its reverse by 0.35, it does not forbid them
	far := make([][]int, len(k.combos))
	var all []int
	for i, a := range k.combos {
		all = append(all, i)
		for _, b := range k.combos {
			far[i] = append(far[i], s.apart(a, b))
		}
	}
	c := spread.NewCeilings(far)
	return func(n int) spread.Ceiling { return c.Of(n, nil, all[:usual]) }, func(n int) spread.Ceiling { return c.Of(n, nil, all) }
}

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

// All pairs of thirteen colours in six views and two palettes, worked
// beforehand with a separate program (Python); printed to one decimal there.
func TestPairsInEveryView(t *testing.T) {
	head, rows := table(t, "pairs.csv")
	require.Equal(t, "iscc_normal", head[2])
	for _, r := range rows {
		a, b := palette()[find(r[0])], palette()[find(r[1])]
		for v := sight.Normal; v <= sight.Grey; v++ {
			for p := range 2 {
				cell := r[2+6*p+int(v)]
				if cell == "" {
					continue
				}
				got := sight.Difference(sight.Look(a.shades[p], v), sight.Look(b.shades[p], v))
				require.InDelta(t, number(t, cell), got, 0.051, "%s %s view %d palette %d", r[0], r[1], v, p)
			}
		}
	}
}
