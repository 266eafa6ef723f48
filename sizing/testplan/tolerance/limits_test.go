package tolerance_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/circuit"
	"example.com/loomfolio/sizing/testplan/tolerance"
)

// TestReadingsHoldAtTheirOwnWorst: at the corner to which a reading's own slopes point it
// lies inside its limits, for readings drawn by lot from every state of the samples.
func TestReadingsHoldAtTheirOwnWorst(t *testing.T) {
	tries := 40
	if testing.Short() {
		tries = 8
	}
	for _, sample := range samples.List() {
		h, r := worked.Out(t, sample)
		lot := rand.New(rand.NewPCG(3, 4))
		for s := range r.States {
			st := &r.States[s]
			l, err := tolerance.New(h, st, r.Cold())
			require.NoError(t, err)
			for range tries {
				p := r.Proof.Points[lot.IntN(len(r.Proof.Points))]
				n := st.Of[p.At]
				if n < 0 || math.IsNaN(st.Solution.Volts[n]) || st.Solution.Zero[n] == n {
					continue
				}
				v, zero := l.Node(n), st.Solution.Zero[n]
				for _, up := range []bool{false, true} {
					got, err := circuit.Solve(l.Worst(n, zero, up))
					require.NoError(t, err)
					if !slices.Equal(got.Energised, st.Solution.Energised) {
						continue
					}
					volts := got.Volts[n] - got.Volts[zero]
					assert.Truef(t, volts >= v.Low && volts <= v.High, "%s, %s, %s: %.4f V is not within %.4f and %.4f (%.4f)",
						sample.Name, st.Name, h.Terminals[p.At].Full, volts, v.Low, v.High, v.Is)
				}
			}
		}
	}
}
