package bench_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/fault"
	"example.com/loomfolio/sizing/proof"
)

// What is taken from another place of a chain is what solving gives: open elements and bad
// joints of the samples, in their own state, point by point.
func TestChainsAreAsSolved(t *testing.T) {
	for _, s := range samples.List() {
		h, r := worked.Out(t, s)
		b := fault.New(h, r)
		each := 1 + len(b.Faults())/400 // every fault of the small ones, one in a few of the large
		for i, f := range b.Faults() {
			if f.Kind != proof.Open && f.Kind != proof.Unearthed && f.Costs == 0 || i%each != 0 {
				continue
			}
			state, err := b.Network(f.State, i)
			require.NoError(t, err)
			seen := b.In(f.State, i)
			for p, x := range r.Proof.Points {
				want, got := state.Volts[x.At], seen.At(p)
				require.Equal(t, math.IsNaN(want), math.IsNaN(got), "%s %s at %s", s.Name, f.ID, h.Terminals[x.At].Full)
				if !math.IsNaN(want) {
					require.InDelta(t, want, got, 0.0501, "%s %s at %s", s.Name, f.ID, h.Terminals[x.At].Full)
				}
			}
			for _, x := range f.Volts {
				if !x.Float {
					require.InDelta(t, state.Volts[r.Proof.Points[x.Point].At], float64(x.Volts), 1e-7, "%s %s", s.Name, f.ID)
				}
			}
		}
	}
}
