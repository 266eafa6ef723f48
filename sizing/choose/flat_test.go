package choose

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// split is an alternator with two batteries and a switch in the cable between them.
func split() *bench {
	b := newBench(unit.Metric)
	b.battery("BAT1")
	b.battery("BAT2")
	b.alternator("ALT", 45)
	b.fuse("F1")
	b.fuse("F2")
	b.switched("LINK")
	for _, g := range []string{"G1", "G2"} {
		b.ground(g)
	}
	b.load("PUMP", harness.Motor, 6, harness.AsMotor)
	b.wire("1A", "ALT.B+", "BAT1.+", 600)
	b.wire("2A", "BAT1.+", "F1.1", 100)
	b.wire("2B", "F1.2", "LINK.1", 2000)
	b.wire("2C", "LINK.2", "F2.1", 2000)
	b.wire("2D", "F2.2", "BAT2.+", 100)
	b.wire("3A", "BAT1.-", "G1", 300)
	b.wire("3B", "BAT2.-", "G2", 300)
	b.wire("4A", "LINK.2", "PUMP.+", 500)
	b.wire("4B", "PUMP.-", "G2", 300)
	b.state("parked", harness.EngineOff)
	b.state("linked", harness.EngineOff, "LINK")
	b.state("driving", harness.EngineRunning, "LINK")
	return b
}

// With all batteries alike the cable between two carries nothing; what it must
// stand is one of them flat alone.
func TestEachBatteryIsFlatAlone(t *testing.T) {
	b := split()
	c, _ := b.choose(t)
	link := b.wireOf(t, c, "2B")
	require.Equal(t, "driving, flat BAT2", link.State)
	require.Greater(t, float64(link.Amps), 40.0, "what the alternator gives, and more from the full one")
	require.GreaterOrEqual(t, float64(link.Ampacity), float64(link.Amps))

	b.h.States = b.h.States[:2]
	c, _ = b.choose(t)
	link = b.wireOf(t, c, "2B")
	require.Equal(t, "linked, flat BAT2", link.State)
	require.Greater(t, float64(link.Amps), 6.0, "from the full one, more than the pump alone takes")
	require.Less(t, float64(link.Amps), (12.6-11.9)/0.01, "no more than the batteries' own resistance lets through")
}

// One battery costs one more solving a running state, several cost one each
// besides; cranking costs none.
func TestFlatSolvingsAreFew(t *testing.T) {
	count := func(b *bench) map[string]int {
		out := map[string]int{}
		s := newSizer(b.h, b.ways)
		for i := range s.H.States {
			out[b.h.States[i].Name] = len(s.flatSolvings(i))
		}
		return out
	}
	require.Equal(t, map[string]int{"parked": 0, "driving": 1, "starting": 0}, count(charged()))
	require.Equal(t, map[string]int{"parked": 2, "linked": 2, "driving": 3}, count(split()))
}

// Loads of a constant current behind a flat battery and long thin wires: they
// fall below their floor, and the state is solved all the same.
func TestConstantCurrentsOnAFlatBattery(t *testing.T) {
	b := charged()
	b.load("INV", harness.Outlet, 90, harness.AsCurrent)
	b.wire("3A", "FM.2", "INV.+", 30000)
	b.wire("3B", "INV.-", "G1", 300)
	s := newSizer(again(b).h, b.ways)
	require.NoError(t, s.solveAll()) // with the smallest wires there are
	flat := s.Solvings[len(s.H.States)].State
	require.Equal(t, "driving, flat battery", flat.Name)
	require.Less(t, flat.Residual, 1e-9)
	id := s.ElementsOf(harness.Load)[len(s.ElementsOf(harness.Load))-1]
	e := b.h.Elements[id]
	across := flat.Volts[e.A] - flat.Volts[e.B]
	require.Less(t, across, 6.0, "below the floor")
	require.InDelta(t, 90*across/6, flat.Amps[id], 1e-6, "a resistance there")
	require.Greater(t, across, 0.0)
}
