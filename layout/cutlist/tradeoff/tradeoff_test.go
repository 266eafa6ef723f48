package tradeoff

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/purchase"
	"example.com/loomfolio/sizing/unit"
)

func mm2(sizes ...string) []unit.Gauge {
	var out []unit.Gauge
	for _, s := range sizes {
		out = append(out, unit.Gauge{System: unit.Metric, Size: s})
	}
	return out
}

// some is a made-up purchase with so many choices, the middle one taken, the one after it refused.
func some(n int) Sheet {
	p := &purchase.Purchase{
		For: "few", Why: "the least sum", Least: 5780, Taken: n / 2, Taught: "all at parts",
		Weights: purchase.Weights{Tracer: 0.5, PartPair: 0.25, RunPair: 0.06, Copper: 100, Metre: 0.01},
	}
	all := mm2("0.5", "0.75", "1", "1.5", "2", "2.5", "3", "4", "6", "10", "16", "25", "35", "50", "70")
	for i := range n {
		c := purchase.Choice{Sizes: all[i:n], Reels: 60 - 3*i, Copper: unit.Gram(5780 + 40*i*i), PartPairs: i, RunPairs: 2 * i, Sum: 100 - float64(i)}
		if i == n/2+1 {
			c.Refused = "warning short-too-slow at 7A"
		}
		p.Curve = append(p.Curve, c)
	}
	return Sheet{P: p, Circuit: func(key string) string { return "circuit " + key }}
}

func drawn(s Sheet) (texts []sheet.Text, paths []sheet.Path) {
	var c sheet.Canvas
	s.Chart(&c, sheet.Rect{X: 10, Y: 10, W: 62, H: s.ChartHigh(40)})
	for _, m := range c.Marks {
		switch m := m.(type) {
		case sheet.Text:
			texts = append(texts, m)
		case sheet.Path:
			paths = append(paths, m)
		}
	}
	return texts, paths
}

// TestNoPictureOfFew: fewer than five choices have no picture, and few of which none was refused no rows but a line.
func TestNoPictureOfFew(t *testing.T) {
	for n, want := range map[int]struct {
		rows    int
		picture bool
	}{0: {}, 1: {0, false}, 2: {0, false}, 4: {4, false}, 5: {5, true}, 9: {9, true}} {
		s := some(n)
		require.Equal(t, n > 0, s.There())
		require.Equal(t, want.picture, s.ChartHigh(0) > 0, n)
		require.Len(t, s.Choices().Rows, want.rows, n)
	}
	require.Contains(t, notes(some(2), ""), "Weighed too: 2 sizes, 60 reels, 5.78 kg, sum 100.0; taken: 99.0")
	s := some(3)
	s.P.For = ""
	require.False(t, s.There())
}

// TestEveryChoiceIsASign: each number of sizes has its sign within the axes; the one taken is a filled square and
// the one refused a cross, so that neither needs a colour; labels meet neither signs nor each other.
func TestEveryChoiceIsASign(t *testing.T) {
	for _, n := range []int{5, 7, 14} {
		texts, paths := drawn(some(n))
		rings, squares := 0, 0
		for _, p := range paths {
			switch {
			case p.Closed && *p.Fill == sheet.White:
				rings++
			case p.Closed && *p.Fill == sheet.Ink:
				squares++
			}
		}
		require.Equal(t, n-2+1, rings, "all but the taken and the refused, and that of the key")
		require.Equal(t, 2, squares, "the taken, and the key's")
		var boxes []sheet.Rect
		for _, x := range texts {
			w := typeface.Width(x.S, x.Face, x.Size)
			left := map[sheet.Align]float64{sheet.Left: 0, sheet.Centre: w / 2, sheet.Right: w}[x.Align]
			box := sheet.Rect{X: x.X - left, Y: x.Y - x.Size*typeface.CapHeight, W: w, H: x.Size * typeface.CapHeight}
			for i, o := range boxes {
				require.False(t, box.Meets(o), "%s and %s", x.S, texts[i].S)
			}
			boxes = append(boxes, box)
		}
		var words []string
		for _, x := range texts {
			words = append(words, x.S)
		}
		require.Contains(t, words, fmt.Sprint(n-n/2), "the one taken has its label")
	}
}

// TestRowsThatMatter: of many choices those about the taken one, both ends and the refused, with its reason.
func TestRowsThatMatter(t *testing.T) {
	s := some(14)
	s.P.Curve[12].Refused = "a drop over its limit"
	rows := s.Choices().Rows
	require.Len(t, rows, 10)
	said, bold := "", 0
	for _, r := range rows {
		said += r.Cells[6].Note
		if r.Cells[1].Bold {
			bold++
		}
	}
	require.Equal(t, 1, bold)
	require.Equal(t, "refused: warning short-too-slow at 7Arefused: a drop over its limit", said)
	require.Equal(t, []string{"14", "60", "5.78", "–", "100.0"}, cellsOf(rows[0])[1:6])
	require.Equal(t, []string{"1", "21"}, cellsOf(rows[9])[1:3])
}

// TestOneOfANumber: only the best of a number of sizes is shown, none twice, and what was refused.
func TestOneOfANumber(t *testing.T) {
	s := some(4)
	worse := s.P.Curve[1]
	worse.Reels += 5
	s.P.Curve = append(s.P.Curve[:1:1], append([]purchase.Choice{worse}, s.P.Curve[1:]...)...)
	s.P.Taken = 3
	again := s.P.Curve[3]
	s.P.Curve = append(s.P.Curve[:4:4], append([]purchase.Choice{again}, s.P.Curve[4:]...)...)
	s.P.Curve[5].Refused = ""
	require.Len(t, s.points(), 4)
}

func cellsOf(r table.Row) []string {
	var out []string
	for _, c := range r.Cells {
		out = append(out, strings.ReplaceAll(c.S, "\u00a0", " "))
	}
	return out
}

func notes(s Sheet, sleeved string) string {
	var out []string
	for _, r := range s.Notes(sleeved, "").Rows {
		out = append(out, strings.Join(cellsOf(r), ": "))
	}
	return strings.Join(out, "\n")
}

// TestWhatIsSaid: chosen and why, what was counted, the bounds, how to have it otherwise.
func TestWhatIsSaid(t *testing.T) {
	s := some(7)
	require.Equal(t, "Taken: 4 sizes, 51 reels, 6.14 kg of copper (1.06 times the least), 3 pairs at parts and 6 in runs told apart by the sleeve alone: the least sum.", strings.ReplaceAll(s.Taken(), "\u00a0", " "))
	s.P.Bounds = []purchase.Bound{{Gauge: mm2("0.5")[0], Reels: 9, Least: 9}, {Gauge: mm2("1")[0], Reels: 6, Least: 8}}
	said := notes(s, "sheet 46, D1")
	for _, want := range []string{
		"a reel (one colour of one size, however long) 1, a tracer 0.5 more, a pair that the sleeve alone tells apart 0.25 at a part, in a run 0.06, 100 g of copper 1, a metre 0.01",
		"Told apart by colour: all at parts; pairs on the sleeve: sheet 46, D1",
		"0.5 mm²: 9, no fewer; 1 mm²: 6, by colour alone 8",
		"practice: buy: clear (least sizes, by colour), numbers (one colour a size, by sleeve), {sizes: 6, reels: 30} (at most)",
	} {
		require.Contains(t, said, want)
	}
	require.NotContains(t, said, "few (", "that is what was done")
	require.NotContains(t, said, "Time to build")
	s.P.Weights = purchase.Weights{Money: true, PartPair: 0.25}
	require.Contains(t, notes(s, ""), "The sum counts: reels and copper at their prices, a size without one at the dearest, a pair that the sleeve alone tells apart 0.25 at a part")
}

// TestWhatItComesTo: with prices and without, in either system of units.
func TestWhatItComesTo(t *testing.T) {
	s := some(3)
	s.P.Cost = purchase.Cost{
		Metres: 233.4, Pieces: 412, Copper: 5780, Wire: 7300, Cover: 290, Minutes: 2040, Spread: 0.3,
		Operation: []purchase.Operation{{Name: "ties", Minutes: 20}, {Name: "insulated crimp: find, crimp", Minutes: 540}, {Name: "lug for 10 mm²", Minutes: 40}},
	}
	s.P.Left = []purchase.Left{{Lengths: []unit.Millimetre{4200, 1100}}, {Lengths: []unit.Millimetre{900}}}
	said := notes(s, "")
	require.Contains(t, said, "412 pieces, 7.30 kg of wire with its insulation, 0.29 kg of covers, tape and tube")
	require.Contains(t, said, "about 34 h ± 30 %, most of it: insulated crimp (9 h), lug (40 min)")
	require.Contains(t, said, "6.20 m in 3 lengths of 2 reels, the longest 4.20 m; to paste as stock: loomfolio figures FILE --stock")
	require.NotContains(t, said, "price")

	s.Imperial = true
	require.Contains(t, notes(s, ""), "16.09 lb of wire")
	require.NotContains(t, notes(s, ""), "mm²")

	s.P.Cost.Priced, s.P.Cost.Money, s.P.Cost.Currency, s.P.Cost.Unpriced = true, 612.4, "EUR", 1
	s.P.Cost.Groups, s.P.Cost.Circuits = []purchase.Sum{{Name: "wire", Metres: 30.48, Mass: 453.59237, Money: 99}}, []purchase.Sum{{Name: "12", Money: 5.5}}
	require.Contains(t, notes(s, ""), "All that has a price: EUR 612.40, but for 1 line without a price")
	require.Equal(t, []string{"Wire", "100.0", "–", "1.00", "99.00"}, cellsOf(s.Groups().Rows[0]))
	require.Equal(t, []string{"circuit 12", "5.50"}, cellsOf(s.Circuits().Rows[0]))
}

// TestEvenSteps: figures of an axis are even steps within it, two at least.
func TestEvenSteps(t *testing.T) {
	for _, r := range [][2]float64{{5.6, 9.9}, {0, 47}, {0.33, 0.51}, {3, 3}, {0, 0}, {0.0291, 0.0293}} {
		s := scaleOf(r[0], r[1], 5)
		require.GreaterOrEqual(t, len(s.ticks), 2, r)
		require.LessOrEqual(t, len(s.ticks), 11, r)
		for _, v := range s.ticks {
			require.GreaterOrEqual(t, s.at(v), -1e-9)
			require.LessOrEqual(t, s.at(v), 1+1e-9)
			require.NotContains(t, s.figure(v), "-")
		}
	}
}

// TestPairsAreCountedOnce: those by rule are among those at parts and in runs, and told with them.
func TestPairsAreCountedOnce(t *testing.T) {
	for want, n := range map[string][4]int{
		"":                       {},
		"1 pair at parts":        {1, 0, 0, 0},
		"2 pairs in runs":        {0, 0, 2, 0},
		"1 pair in runs by rule": {0, 0, 1, 1},
		"10 pairs at parts (3 of them by rule) and 15 in runs (1 of them by rule)": {10, 3, 15, 1},
	} {
		require.Equal(t, want, strings.ReplaceAll(Pairs(n[0], n[1], n[2], n[3]), "\u00a0", " "))
	}
}

// TestNumbersCountNoPairs: where sleeves tell all wires apart, no sentence says that colours do, and no pairs are counted.
func TestNumbersCountNoPairs(t *testing.T) {
	s := some(7)
	s.P.For = "numbers"
	require.Contains(t, s.Taken(), "all wires told apart by the number sleeve")
	require.Equal(t, "all", cellsOf(s.Choices().Rows[0])[4])
	said := notes(s, "")
	require.Contains(t, said, "go by the number sleeve")
	require.NotContains(t, said, "a pair that")
	require.NotContains(t, said, "all at parts")
}
