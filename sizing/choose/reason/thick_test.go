package reason_test

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose/rig"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// van has an inverter and a fridge behind one long cable, the fridge further off in thin wire.
func van(fridge unit.Ampere, class string) *rig.Rig {
	b := rig.New(unit.Metric)
	b.H.Practice.Drop["wide"] = unit.DropLimit{Fraction: 0.05}
	b.H.Circuits = append(b.H.Circuits, harness.Circuit{ID: 1, Key: "fridge", Class: class})
	b.Battery("BAT")
	b.Fuse("MF")
	b.Fuse("F2")
	b.Fuse("FI")
	b.Load("INV", harness.Module, 110, harness.AsCurrent)
	b.Load("FR", harness.Motor, fridge, harness.AsCurrent)
	b.Part("BUS", harness.Bus).Stud = "M8"
	b.Part("NEG", harness.Bus).Stud = "M8"
	b.Ground("G1")
	for _, ref := range []string{"BAT", "MF", "FI", "INV"} {
		b.H.Parts[b.Parts[ref]].Stud = "M8"
	}
	b.Wire("1A", "BAT.+", "MF.1", 150)
	b.Wire("1B", "MF.2", "BUS.a", 3000)
	b.Wire("1C", "BUS.a", "FI.1", 100)
	b.Wire("1D", "FI.2", "INV.+", 300)
	b.Wire("1E", "INV.-", "NEG.a", 300)
	b.Wire("1F", "NEG.a", "BAT.-", 1500)
	b.Wire("1G", "BAT.-", "G1", 300)
	b.Wire("2A", "BUS.a", "F2.1", 100)
	b.Wire("2B", "F2.2", "FR.+", 6000).Circuit = 1
	b.Wire("2C", "FR.-", "NEG.a", 6000).Circuit = 1
	b.State("camping", harness.EngineOff)
	return b
}

// A thick cable's reason names its loads and the tightest of them, and where that is small beside
// the rest what a higher limit would save: the size that comes out when all is chosen again with it.
func TestThickCableSaysWhatALimitCosts(t *testing.T) {
	b := van(5, "default")
	c, _ := b.Choose(t)
	cable := b.WireOf(t, c, "1B")
	require.Contains(t, cable.Reason, "2 loads, 115 A in camping (INV 110 A, FR 5 A); the tightest of them: 5 A over")
	said := regexp.MustCompile(`FR is small beside the rest: its 3 % makes (\S+ mm²) of this cable, 5 % would be (\S+ mm²)`).FindStringSubmatch(cable.Reason)
	require.NotNil(t, said, cable.Reason)
	require.Equal(t, cable.Gauge.String(), said[1])

	b = van(5, "wide")
	c, _ = b.Choose(t)
	again := b.WireOf(t, c, "1B")
	require.Equal(t, again.Gauge.String(), said[2])
	require.Less(t, float64(again.Area), float64(cable.Area))
	require.NotContains(t, again.Reason, "FR is small beside the rest")
}

// No word of a limit where the tightest load is a large one, or the cable thin.
func TestNoWordOfALimitWhereItIsNotTheLoad(t *testing.T) {
	b := van(60, "default")
	c, _ := b.Choose(t)
	require.NotContains(t, b.WireOf(t, c, "1B").Reason, "small beside the rest")
	require.NotContains(t, b.WireOf(t, c, "2B").Reason, "small beside the rest")
}
