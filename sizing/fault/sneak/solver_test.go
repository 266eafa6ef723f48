package sneak_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/fault/sneak"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
)

// A change of switches that is made by opening and closing contacts gives what the harness
// gives when it is solved anew with its switches so.
func TestChangesAgreeWithTheSolver(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 4))
	tried := 0
	for _, x := range samples.List() {
		h, out := worked.Out(t, x)
		for i := range h.States {
			solve, err := sneak.Changed(h, out.States, i)
			require.NoError(t, err)
			for range 12 {
				position := turned(r, h, h.States[i].Position)
				v, err := solve(position)
				require.NoError(t, err)
				as := *h
				as.States = []harness.State{{Name: h.States[i].Name, Position: position, Engine: h.States[i].Engine}}
				want, err := network.Solve(&as, 0, out.States[i].Resistances(), network.Options{})
				require.NoError(t, err)
				for _, e := range h.Elements {
					if e.Kind == harness.Load || e.Kind == harness.RelayCoil {
						require.InDelta(t, want.Amps[e.ID], v.Amps(e.ID), 1e-4+1e-4*math.Abs(want.Amps[e.ID]), "%s in %s", e.Name, want.Name)
						require.Equal(t, want.Energised[e.ID], v.Energised(e.ID), "%s in %s", e.Name, want.Name)
					}
				}
				tried++
			}
		}
	}
	require.Greater(t, tried, 300)
}

// turned puts one to three parts in other positions.
func turned(r *rand.Rand, h *harness.Harness, position []int) []int {
	out := slices.Clone(position)
	for left := 1 + r.IntN(3); left > 0; {
		p := r.IntN(len(h.Parts))
		if n := len(h.Parts[p].Positions); n > 1 {
			out[p] = r.IntN(n)
			left--
		}
	}
	return out
}

// The same model gives the same sneak paths, word for word.
func TestSearchGivesTheSameTwice(t *testing.T) {
	h, out := worked.Named(t, "kestrel")
	one, err := sneak.Search(h, out.States, out.Findings)
	require.NoError(t, err)
	two, err := sneak.Search(h, out.States, out.Findings)
	require.NoError(t, err)
	require.Equal(t, one, two)
	require.Equal(t, len(h.States), one.Looked.States)
	require.Greater(t, one.Looked.Changes, 200)
	require.Positive(t, one.Looked.Pairs)
	require.Empty(t, one.Looked.Left)
}
