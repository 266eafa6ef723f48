package cost_test

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/figures"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
)

// sized takes a description through reading, checking and sizing.
func sized(t *testing.T, text string) (*harness.Harness, *result.Result) {
	t.Helper()
	d, problems := describe.Parse("loom.yaml", []byte(text))
	require.False(t, problems.HasErrors(), "%v\n%s", problems, text)
	h, found := check.Check(d)
	require.NotNil(t, h, "%v", found)
	require.False(t, found.HasErrors(), "%v", found)
	r, err := sizing.Size(h, nil)
	require.NoError(t, err)
	return h, r
}

// pasted is what is left as it is printed, without the line that names the practice.
func pasted(t *testing.T, h *harness.Harness, r *result.Result) string {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, figures.Stock(&out, h, r))
	text, found := strings.CutPrefix(out.String(), "practice:\n")
	require.True(t, found, out.String())
	return text
}

func bought(r *result.Result) float64 {
	sum := 0.0
	for i := range r.Reels {
		sum += float64(r.Reels[i].Buy)
	}
	return sum
}

func fromShelf(r *result.Result) int {
	n := 0
	for i := range r.Reels {
		for _, c := range r.Reels[i].Cuts {
			if c.Shelf {
				n++
			}
		}
	}
	return n
}

const lamps = `loomfolio: 1
title: Two working lamps
system: {volts: 12, earth: negative}
practice:
  sold: [5 m]
STOCKplaces:
  nose: {name: Nose, zone: engine, tail: 150 mm}
  rear: {name: Rear, zone: body, tail: 150 mm}
runs:
  - {from: nose, to: rear, length: 1.2 m}
parts:
  BAT: {kind: battery, at: nose, capacity: 45 Ah}
  F1: {kind: fuse, at: nose}
  SW: {kind: switch, at: nose, positions: {off: [], on: [[1, 2]]}}
  LA: {kind: lamp, at: rear, draws: 21 W}
  G1: {kind: ground, at: rear}
  G0: {kind: ground, at: nose}
circuits:
  earth: {number: 1, legs: [[G0, BAT.-]]}
  lamp: {number: 2, legs: [[BAT.+, {to: F1, length: 150 mm}, SW.1, SW.2, LA, G1]]}
`

// TestWhatIsLeftServesTheNextLoom: pasted into the same description it parses, the second loom takes
// from the shelf first, and buys less; what it leaves in turn is shorter by what it took.
func TestWhatIsLeftServesTheNextLoom(t *testing.T) {
	h, first := sized(t, strings.Replace(lamps, "STOCK", "", 1))
	next := pasted(t, h, first)
	require.Contains(t, next, "  stock:\n    ")
	h2, second := sized(t, strings.Replace(lamps, "STOCK", next, 1))
	require.Positive(t, fromShelf(second))
	require.Less(t, bought(second), bought(first))
	require.Less(t, length(second), length(first)+bought(second), "what was cut is gone")
	_, third := sized(t, strings.Replace(lamps, "STOCK", pasted(t, h2, second), 1))
	require.Equal(t, h2.Practice.Insulation, h.Practice.Insulation)
	require.NotNil(t, third)
}

func length(r *result.Result) float64 {
	sum := 0.0
	for _, l := range r.Purchase.Left {
		for _, mm := range l.Lengths {
			sum += float64(mm)
		}
	}
	return sum
}

// Colours that the shelf has without their lengths stay on it, beside those that are left with them.
func TestUnmeasuredColoursStayOnTheShelf(t *testing.T) {
	h, r := sized(t, strings.Replace(lamps, "STOCK", "  stock: {0.5 mm2: [PK, OG/BK], 1 mm2: [BK, RD, VT/PK]}\n", 1))
	next := pasted(t, h, r)
	require.Contains(t, next, "    1 mm2:\n      BK: []\n      RD: []\n      VT/PK: []\n")
	h2, _ := sized(t, strings.Replace(lamps, "STOCK", next, 1))
	stock := h2.Practice.Stock
	require.Len(t, stock[len(stock)-1].Colours, 3)
	require.Equal(t, harness.StockColour{Base: "VT", Tracer: "PK"}, stock[len(stock)-1].Colours[2])
}

// The tender's shelf, in feet and inches: what is printed takes the place of what it had.
func TestTheTendersShelf(t *testing.T) {
	text := ""
	for _, s := range samples.List() {
		if s.Name == "tender" {
			text = string(s.Text)
		}
	}
	h, first := sized(t, text)
	had := regexp.MustCompile(`(?m)^  stock:\n(    .*\n)+`)
	require.Len(t, had.FindAllString(text, -1), 1)
	_, second := sized(t, had.ReplaceAllLiteralString(text, pasted(t, h, first)))
	require.Positive(t, fromShelf(second))
	_, bare := sized(t, had.ReplaceAllLiteralString(text, ""))
	require.Less(t, bought(second), bought(bare), "less than with an empty shelf")
}

// Hours by the table of operations, as they were counted beside the program when the table was made:
// 34 h for the kestrel, 26 h for the camper, 7.5 h for the tender.
func TestHoursOfTheSamples(t *testing.T) {
	hours := map[string]float64{"kestrel": 34, "camper": 26, "tender": 7.5}
	for _, s := range samples.List() {
		want, ok := hours[s.Name]
		if !ok || testing.Short() && s.Name != "tender" {
			continue
		}
		h, r := sized(t, string(s.Text))
		c := &r.Purchase.Cost
		require.InEpsilon(t, want, c.Minutes/60, 0.15, s.Name)
		whole(t, h, r)
	}
}

// whole: groups and circuits add up to the whole; the copper is that of the reels.
func whole(t *testing.T, h *harness.Harness, r *result.Result) {
	t.Helper()
	c := &r.Purchase.Cost
	copper, metres, pieces, mass := 0.0, 0.0, 0, 0.0
	for i := range r.Reels {
		copper += float64(r.Reels[i].Copper)
	}
	for _, s := range c.Circuits {
		metres, pieces, mass = metres+s.Metres, pieces+s.Pieces, mass+float64(s.Mass)
	}
	require.InDelta(t, copper, float64(c.Copper), 1e-6)
	require.InDelta(t, c.Metres, metres, 1e-6)
	require.InDelta(t, c.Pieces, pieces, float64(len(c.Circuits))/2, "each rounded")
	require.InDelta(t, float64(c.Wire+c.Cable), mass, 1e-6)
	require.InDelta(t, float64(r.Copper.Mass), float64(c.Copper+c.Cores)+terminals(h, r), 1e-6, "with 40 mm of each wire for a terminal")
}

func terminals(h *harness.Harness, r *result.Result) float64 {
	sum := 0.0
	for w := range h.Wires {
		sum += float64(r.Wires[w].Area) * 2 * 80 * 8.89e-3
	}
	return sum
}
