package layout

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/unit"
)

// TestLargePaperIsForTheLargeSheet: a paper above A3 is for the wiring at a glance; all other sheets
// stay on the description's paper. Without one it folds out of an A4 packet as A3.
func TestLargePaperIsForTheLargeSheet(t *testing.T) {
	h, r := worked.Out(t, samples.List()[0])
	for paper, want := range map[string][2]float64{"": {420, 297}, "A4": {420, 297}, "letter": {431.8, 279.4}, "A2": {594, 420}, "a1": {841, 594}} {
		p, err := Plan(h, r, Options{For: Archive, Paper: paper})
		require.NoError(t, err)
		wide, high, _ := unit.Paper(h.Sheet.Paper)
		if paper == "letter" {
			wide, high, _ = unit.Paper(paper)
		}
		large := 0
		for _, s := range p.Sheets {
			if s.Title == "The wiring at a glance" {
				large++
				require.Equal(t, want, [2]float64{s.W, s.H}, paper)
				continue
			}
			require.ElementsMatch(t, []float64{float64(wide), float64(high)}, []float64{s.W, s.H}, "%s: %s", paper, s.Title)
		}
		require.Equal(t, 1, large, paper)
	}
	_, err := Plan(h, r, Options{For: Archive, Paper: "A9"})
	require.EqualError(t, err, `no paper "A9": take one of A4, A3, letter, tabloid, A2, A1, A0, roll`)
}
