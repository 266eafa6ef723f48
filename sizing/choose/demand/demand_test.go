package demand_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose/rig"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// A drop is what the solver finds over the same wires: the copper is as warm in both.
func TestDropIsThatOfTheSolvedState(t *testing.T) {
	for _, b := range []*rig.Rig{rig.Fan(unit.Metric, 20, 3000), rig.Fan(unit.Metric, 8, 6000)} {
		s := b.Settled(t)
		require.NotEmpty(t, s.Draws)
		for i := range s.Draws {
			d := &s.Draws[i]
			sum := 0.0
			for _, w := range d.Wires() {
				v := s.States[d.State].Volts
				sum += math.Abs(v[s.H.Wires[w].From] - v[s.H.Wires[w].To])
			}
			require.InEpsilon(t, sum, s.Drop(d), 1e-3)
			require.Less(t, s.ColdDrop(d), s.Drop(d))
		}
	}
}

// FAA AC 43.13-1B table 11-4 at 12 V: a motor wants a switch of twice its current, a lamp
// one of five times.
func TestContactsWantTheFactorsOfTheTable(t *testing.T) {
	for _, c := range []struct {
		kind   harness.Kind
		factor float64
		name   string
	}{{harness.Motor, 2, "motor"}, {harness.Lamp, 5, "lamp"}, {harness.Heater, 1, "resistive"}} {
		b := rig.Fan(unit.Metric, 4, 2000)
		b.H.Parts[b.Parts["FAN"]].Kind = c.kind
		b.H.Elements[b.H.Parts[b.Parts["FAN"]].Elements[0]].Behaves = harness.AsCurrent
		got := b.Settled(t).Contacts()
		require.Len(t, got, 1)
		require.InDelta(t, 4, float64(got[0].Amps), 1e-6)
		require.InDelta(t, 4*c.factor, float64(got[0].Wants), 1e-6, c.name)
		require.Equal(t, c.name, got[0].Loads[0].Kind)
	}
}

// 60 Ah, of which half counts (common practice, no source), last 150 h at 0.2 A; all of it
// goes through one fuse.
func TestBudgetAtRest(t *testing.T) {
	b := rig.Fan(unit.Metric, 10, 2000)
	b.Load("RADIO", harness.Outlet, 0.2, harness.AsCurrent)
	b.Wire("2A", "F1.2", "RADIO.+", 500)
	b.Wire("2B", "RADIO.-", "G1", 500)
	budgets := b.Again().Settled(t).Budgets()
	rest := budgets[0]
	require.True(t, rest.KeyOff)
	require.InDelta(t, 0.2, float64(rest.Loads), 1e-6)
	require.InDelta(t, 60*0.5/0.2/24, rest.Days, 0.01)
	require.Len(t, rest.Drains, 1)
	require.Equal(t, "F1", rest.Drains[0].Name)
	require.Equal(t, []string{"RADIO"}, rest.Drains[0].Loads)
	require.InDelta(t, 1, float64(rest.Drains[0].Share), 1e-9)
	require.False(t, budgets[1].KeyOff)
	require.Empty(t, budgets[1].Drains)
}

// While the engine is cranked the starter pulls the others down: what also runs otherwise
// is not held to its limit then.
func TestOnlyTheStarterCountsWhileCranking(t *testing.T) {
	s := rig.Charged().Settled(t)
	seen := map[string]bool{}
	for i := range s.Draws {
		d := &s.Draws[i]
		if s.H.States[d.State].Engine == harness.EngineCranking {
			seen[s.H.Elements[d.Load].Name] = d.Counts
		}
	}
	require.Equal(t, map[string]bool{"ST": true, "HEATER": false}, seen)
}
