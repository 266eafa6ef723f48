package ampacity_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/choose/rig"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/unit"
)

func TestHeatAndBundle(t *testing.T) {
	b := rig.New(unit.AWG)
	b.H.Practice.Ampacity = "abyc"
	b.H.Practice.Insulation = "thin-wall-105"
	b.H.Places = []harness.Place{{ID: 0, Key: "a", Ambient: 30}, {ID: 1, Key: "b", Ambient: 50}}
	b.H.Runs = []harness.Run{{ID: 0, From: 0, To: 1, Length: 500}}
	b.Battery("BAT")
	b.Ground("G1")
	b.Ground("G2")
	b.Wire("9", "BAT.-", "G2", 1)
	for _, ref := range []string{"L1", "L2", "L3"} {
		b.Fuse("F" + ref)
		b.Load(ref, harness.Heater, 17, harness.AsCurrent)
		b.Wire("1"+ref, "BAT.+", "F"+ref+".1", 100)
		w := b.Wire("2"+ref, "F"+ref+".2", ref+".+", 600)
		b.Ways[w.ID].Shares = []route.Share{rig.Share(0, 500)}
		b.Ways[w.ID].Places = []harness.PlaceID{0, 1}
		b.Wire("3"+ref, ref+".-", "G1", 1)
	}
	b.State("on", harness.EngineOff)
	c, _ := b.Choose(t)
	w := b.WireOf(t, c, "2L1")
	require.Equal(t, 3, w.Bundle)
	require.Equal(t, unit.Celsius(50), w.Ambient)
	require.Equal(t, "12", w.Gauge.Size, "25 A fuse: 14 AWG carries 20.8 A three together in an engine space, 12 AWG 26.8 A (ABYC E-11 VI-B): %s", w.Reason)
	require.InDelta(t, 26.8, float64(w.Ampacity), 0.3)
	require.True(t, w.Temperature > 50 && w.Temperature < 105)
}

// A wire of 80 C insulation that carries nothing, beside one of 125 C that is
// allowed to be hotter than that.
func TestHotNeighboursCookACoolerWire(t *testing.T) {
	b := rig.New(unit.Metric)
	b.H.Places = []harness.Place{{ID: 0, Key: "a", Ambient: 80}, {ID: 1, Key: "b", Ambient: 80}}
	b.H.Runs = []harness.Run{{ID: 0, From: 0, To: 1, Length: 500}}
	b.Battery("BAT")
	b.Ground("G1")
	b.Wire("0A", "BAT.-", "G1", 10)
	for _, l := range []struct {
		ref  string
		amps unit.Ampere
	}{{"HOT", 30}, {"COOL", 0.1}} {
		b.Load(l.ref, harness.Heater, l.amps, harness.AsCurrent)
		b.Fuse("F" + l.ref)
		b.Wire("1"+l.ref, "BAT.+", "F"+l.ref+".1", 50)
		w := b.Wire("2"+l.ref, "F"+l.ref+".2", l.ref+".+", 500)
		b.Ways[w.ID].Shares = []route.Share{rig.Share(0, 500)}
		b.Wire("3"+l.ref, l.ref+".-", "G1", 10)
	}
	for i := range b.H.Wires {
		if b.H.Wires[i].Name == "2COOL" {
			b.H.Wires[i].Insulation = "gpt"
		}
	}
	b.H.Practice.Drop["default"] = unit.DropLimit{Volts: 2}
	b.State("on", harness.EngineOff)
	c, ps := b.Choose(t)
	require.Greater(t, float64(b.WireOf(t, c, "2COOL").Temperature), 80.0)
	p := rig.Find(ps, "wire-too-hot")
	require.NotNil(t, p)
	require.Contains(t, p.Summary, "2COOL gets")
	require.Contains(t, p.Summary, "gpt is rated 80")
}

// Three heaters in one run at 50 C: by the heat balance a wire among two loaded
// neighbours carries less than alone, and its temperature stays within its class.
func TestHeatBalanceInABundle(t *testing.T) {
	var alone, among chosen.Wire
	for _, n := range []int{1, 3} {
		b := rig.New(unit.Metric)
		b.H.Practice.Ampacity = "computed"
		b.H.Places = []harness.Place{{ID: 0, Key: "a", Ambient: 30}, {ID: 1, Key: "b", Ambient: 50}}
		b.H.Runs = []harness.Run{{ID: 0, From: 0, To: 1, Length: 500}}
		b.Battery("BAT")
		b.Ground("G1")
		b.Ground("G2")
		b.Wire("9", "BAT.-", "G2", 1)
		for _, ref := range []string{"L1", "L2", "L3"}[:n] {
			b.Fuse("F" + ref)
			b.Load(ref, harness.Heater, 17, harness.AsCurrent)
			b.Wire("1"+ref, "BAT.+", "F"+ref+".1", 100)
			w := b.Wire("2"+ref, "F"+ref+".2", ref+".+", 600)
			b.Ways[w.ID].Shares = []route.Share{rig.Share(0, 500)}
			b.Ways[w.ID].Places = []harness.PlaceID{0, 1}
			b.Wire("3"+ref, ref+".-", "G1", 1)
		}
		b.State("on", harness.EngineOff)
		c, _ := b.Choose(t)
		alone, among = among, b.WireOf(t, c, "2L1")
	}
	require.Contains(t, among.Sources, "heat-balance")
	require.GreaterOrEqual(t, float64(among.Ampacity), 25.0, "the fuse of 25 A: %s", among.Reason)
	require.Greater(t, float64(among.Temperature), 50.0)
	require.Less(t, float64(among.Temperature), float64(among.Class))
	require.GreaterOrEqual(t, float64(among.Area), float64(alone.Area))
	perArea := func(w chosen.Wire) float64 { return float64(w.Ampacity) / float64(w.Area) }
	require.Less(t, perArea(among), perArea(alone)+1e-9)
}
