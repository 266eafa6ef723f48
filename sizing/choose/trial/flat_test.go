package trial_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose/rig"
	"example.com/loomfolio/sizing/choose/trial"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// With all batteries alike the cable between two carries nothing; what it must
// stand is one of them flat alone.
func TestEachBatteryIsFlatAlone(t *testing.T) {
	b := rig.Split()
	c, _ := b.Choose(t)
	link := b.WireOf(t, c, "2B")
	require.Equal(t, "driving, BAT2 flat", link.State)
	require.Greater(t, float64(link.Amps), 40.0, "what the alternator gives, and more from the full one")
	require.GreaterOrEqual(t, float64(link.Ampacity), float64(link.Amps))

	b.H.States = b.H.States[:2]
	c, _ = b.Choose(t)
	link = b.WireOf(t, c, "2B")
	require.Equal(t, "linked, BAT2 flat", link.State)
	require.Greater(t, float64(link.Amps), 6.0, "from the full one, more than the pump alone takes")
	require.Less(t, float64(link.Amps), (12.6-11.9)/0.01, "no more than the batteries' own resistance lets through")
}

// One battery costs one more solving a running state, several cost one each
// besides; cranking costs none.
func TestFlatSolvingsAreFew(t *testing.T) {
	count := func(b *rig.Rig) map[string]int {
		out := map[string]int{}
		for _, at := range solved(t, b).Solvings[len(b.H.States):] {
			if at.Index != harness.None {
				out[b.H.States[at.Index].Name]++
			}
		}
		return out
	}
	require.Equal(t, map[string]int{"driving": 1}, count(rig.Charged()))
	require.Equal(t, map[string]int{"parked": 2, "linked": 2, "driving": 3}, count(rig.Split()))
}

// Loads of a constant current behind a flat battery and long thin wires: they
// fall below their floor, and the state is solved all the same.
func TestConstantCurrentsOnAFlatBattery(t *testing.T) {
	b := rig.Charged()
	b.Load("INV", harness.Outlet, 90, harness.AsCurrent)
	b.Wire("3A", "FM.2", "INV.+", 30000)
	b.Wire("3B", "INV.-", "G1", 300)
	s := solved(t, b.Again())
	flat := s.Solvings[len(s.H.States)].State
	require.Equal(t, "driving, battery flat", flat.Name)
	require.Less(t, flat.Residual, 1e-9)
	id := s.ElementsOf(harness.Load)[len(s.ElementsOf(harness.Load))-1]
	e := b.H.Elements[id]
	across := flat.Volts[e.A] - flat.Volts[e.B]
	require.Less(t, across, 6.0, "below the floor")
	require.InDelta(t, 90*across/6, flat.Amps[id], 1e-6, "a resistance there")
	require.Greater(t, across, 0.0)
}

// solved solves everything with the smallest wires there are.
func solved(t *testing.T, b *rig.Rig) *trial.Solved {
	t.Helper()
	base := trial.New(b.H, b.Ways, make([]unit.Gauge, len(b.H.Wires)))
	at := make([]int, len(b.H.Wires))
	for w := range at {
		at[w] = base.Shelf[w].Smallest(&b.H.Practice)
	}
	s, err := base.Solve(at, make([]float64, len(b.H.Elements)), nil)
	require.NoError(t, err)
	return s
}
