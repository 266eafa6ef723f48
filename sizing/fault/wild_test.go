package fault_test

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/adversary"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/fault"
	"example.com/loomfolio/sizing/network/spicecheck"
)

// Vehicles that nobody wired, sound and broken, of 6 to 48 V, either earth, with wired
// returns: the dictionary is made of each, no fault is named twice, what is dead is on, and
// a few faults of each are those of ngspice.
func TestWildVehicles(t *testing.T) {
	lot := rand.New(rand.NewSource(4))
	var cases []spicecheck.Case
	for seed := range uint64(24) {
		text := adversary.Grow(seed).Text()
		if seed%2 == 1 {
			text = adversary.Broken(seed).Sketch.Text()
		}
		d, problems := describe.Parse("wild.yaml", []byte(text))
		h, found := check.Check(d)
		if problems.HasErrors() || h == nil {
			continue
		}
		r, err := sizing.Size(h, append(problems, found...))
		require.NoError(t, err)
		if r.Unusable {
			continue
		}
		require.NoError(t, sizing.Prove(h, r), "seed %d", seed)
		b := fault.New(h, r)
		ids := map[string]bool{}
		for i, f := range b.Faults() {
			require.False(t, ids[f.ID], "seed %d: %s twice", seed, f.ID)
			ids[f.ID] = true
			require.Greater(t, f.Weight, 0.0, "seed %d: %s", seed, f.ID)
			for _, l := range f.Dead {
				require.NotZero(t, r.States[f.State].Amps[l], "seed %d: %s", seed, f.ID)
			}
			if lot.Intn(len(b.Faults())) > 3 {
				continue
			}
			state, err := b.Network(f.State, i)
			require.NoError(t, err)
			for _, x := range f.Volts {
				v := state.Volts[r.Proof.Points[x.Point].At]
				require.Equal(t, math.IsNaN(v), x.Float, "seed %d: %s", seed, f.ID)
				if !x.Float {
					require.InDelta(t, v, float64(x.Volts), 1e-6*math.Abs(v)+1e-6, "seed %d: %s", seed, f.ID)
				}
			}
			cases = append(cases, spicecheck.Case{Name: f.ID, Harness: h, State: state})
		}
	}
	require.Greater(t, len(cases), 40)
	spicecheck.CompareAll(t, cases)
}
