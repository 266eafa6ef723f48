package choose_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/choose/reason"
	"example.com/loomfolio/sizing/choose/rig"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// The trade fact: 20 A over 8 ft of feed with chassis return, 12 V: 12 gauge.
func TestFanWantsTwelveGauge(t *testing.T) {
	b := rig.Fan(unit.SAE, 20, 8*rig.Foot)
	c, ps := b.Choose(t)
	for _, name := range []string{"1A", "1B", "1C"} {
		w := b.WireOf(t, c, name)
		require.Equal(t, unit.Gauge{System: unit.SAE, Size: "12"}, w.Gauge, w.Reason)
		require.InDelta(t, 20, float64(w.Amps), 0.01)
		require.Equal(t, "running fan", w.State)
	}
	require.Contains(t, b.WireOf(t, c, "1C").Reason, "20 A over 2.44 m with 0.00 m of return loses 0.32 V warm (0.29 V at 20 °C) of 0.36 V allowed (3 % of 12 V) to FAN")
	require.Contains(t, b.WireOf(t, c, "1C").Reason, "14 ga", b.WireOf(t, c, "1C").Reason)
	f := rig.FuseNamed(t, c, "F1")
	require.Equal(t, unit.Ampere(30), f.Rating, "20 A over 75 %% is 26.7 A: %s", f.Reason)
	require.Equal(t, "blade", f.Body)
	require.Equal(t, "green", f.BodyColour)
	require.Equal(t, []string{"FAN"}, f.Feeds)
	require.Greater(t, float64(f.MostAllowed), 29.9)
	require.Equal(t, "F1", b.WireOf(t, c, "1C").ProtectedBy)
	require.Equal(t, "F1", b.WireOf(t, c, "1D").ProtectedBy, "a dead short in the fan sends the fuse's current through the return")
	require.Equal(t, "", b.WireOf(t, c, "1A").ProtectedBy)
	require.Empty(t, rig.Slugs(ps))
	l := c.Loads[0]
	require.InDelta(t, 12.6, float64(l.Volts+l.FeedDrop+l.ReturnDrop+l.OtherDrop)+20*0.005, 0.001)
	require.InDelta(t, 0.29, float64(l.Cold), 0.01, "at 20 C")
	require.InDelta(t, 0.32, float64(l.FeedDrop), 0.01, "warm")
	require.Equal(t, "3 % of 12 V", l.LimitText)
	require.Equal(t, []string{"running fan"}, l.On)
}

// The same by the published rule, with the same outcome: 10.75·20·8/0.36 is
// 4778 circular mils, SAE 12 has 5833.
func TestFanByABYC(t *testing.T) {
	b := rig.Fan(unit.SAE, 20, 8*rig.Foot)
	b.H.Practice.Method = "abyc-e11"
	c, _ := b.Choose(t)
	require.Equal(t, "12", b.WireOf(t, c, "1C").Gauge.Size)
	require.Contains(t, b.WireOf(t, c, "1C").Reason, "ABYC E-11")
}

// FAA AC 43.13-1B: 0.5 V at 14 V, table 11-9; 13 A is all that No. 12 carries
// in a large bundle, so 20 A wants No. 8 (38 A), since No. 10 carries 17 A.
func TestFanByAircraftTables(t *testing.T) {
	b := rig.Fan(unit.AWG, 20, 8*rig.Foot)
	b.H.Practice.Method = "ac43-13"
	b.H.Practice.Insulation = "thin-wall-105"
	for i := range b.H.Wires {
		b.H.Wires[i].Insulation = "thin-wall-105"
	}
	c, _ := b.Choose(t)
	require.Equal(t, "8", b.WireOf(t, c, "1C").Gauge.Size, b.WireOf(t, c, "1C").Reason)
}

// A starter feed to a battery moved to the boot: about 1 gauge.
func TestStarterFeedFromTheBoot(t *testing.T) {
	b := rig.New(unit.SAE)
	b.Battery("BAT")
	b.Starter("ST", 200)
	b.Ground("G1")
	b.H.Circuits[0].Class = "start"
	b.Wire("1A", "BAT.+", "ST.30", 15*rig.Foot)
	b.Wire("1B", "BAT.-", "G1", 300)
	b.State("starting", harness.EngineCranking)
	c, ps := b.Choose(t)
	w := b.WireOf(t, c, "1A")
	require.Equal(t, "1", w.Gauge.Size, w.Reason)
	require.Equal(t, "1", b.WireOf(t, c, "1B").Gauge.Size, "no thinner than the live lead")
	require.InDelta(t, 200, float64(w.Amps), 1)
	require.Equal(t, []string{"advice unfused-cranking-cable"}, rig.Slugs(ps))
	require.InDelta(t, 15*rig.Foot, ps[0].Numbers[0].Value, 0.1)
}

// A lamp's wire branches off between the cables that crank the engine; they are
// one size all the same, and the lamp's wire stays thin.
func TestCrankingCablesAreOneSize(t *testing.T) {
	b := rig.New(unit.Metric)
	b.Battery("BAT")
	b.Part("PP", harness.Bus)
	b.Starter("ST", 160)
	b.Fuse("F1").Rating = 5
	b.Load("L1", harness.Lamp, 2, harness.AsResistance)
	b.Ground("G1")
	b.H.Circuits[0].Class = "start"
	b.Wire("1A", "BAT.+", "PP", 100)
	b.Wire("1B", "PP", "ST.30", 3500)
	b.Wire("1C", "BAT.-", "G1", 300)
	b.Wire("1D", "PP", "F1.1", 80)
	b.Wire("1E", "F1.2", "L1.+", 1000)
	b.Wire("1F", "L1.-", "G1", 300)
	b.State("starting", harness.EngineCranking)
	c, _ := b.Choose(t)
	w := b.WireOf(t, c, "1B")
	require.Greater(t, float64(w.Area), 20.0)
	require.Equal(t, w.Gauge, b.WireOf(t, c, "1A").Gauge)
	require.Equal(t, w.Gauge, b.WireOf(t, c, "1C").Gauge)
	require.Less(t, float64(b.WireOf(t, c, "1E").Area), 2.0)
}

func TestWiresInSeriesTakeOneGauge(t *testing.T) {
	b := rig.Fan(unit.Metric, 20, 8*rig.Foot)
	c, _ := b.Choose(t)
	require.Equal(t, b.WireOf(t, c, "1B").Gauge, b.WireOf(t, c, "1C").Gauge)
	b.H.Practice.Mixed = true
	mixed, _ := b.Choose(t)
	require.LessOrEqual(t, areaTimesLength(b, mixed), areaTimesLength(b, c)+1e-9, "mixed gauges need no more copper")
	require.Empty(t, dropsOver(mixed))
}

func areaTimesLength(b *rig.Rig, c chosen.Chosen) float64 {
	sum := 0.0
	for i, w := range c.Wires {
		sum += float64(w.Area) * float64(b.Ways[i].Length)
	}
	return sum
}

func dropsOver(c chosen.Chosen) []string {
	var out []string
	for _, l := range c.Loads {
		if float64(l.FeedDrop+l.ReturnDrop) > float64(l.Limit)*1.000001 {
			out = append(out, l.Name)
		}
	}
	return out
}

// The copper is that of all wires, and the bound lies close below; that the
// search itself finds the least is tested in package copper.
func TestCopperAndItsBound(t *testing.T) {
	b := rig.Wide(30)
	c, _ := b.Choose(t)
	sum := 0.0
	for i, w := range c.Wires {
		sum += float64(rating.CopperMass(w.Area, b.Ways[i].Length+160))
	}
	require.InDelta(t, sum, float64(c.CopperMass), 1e-6)
	require.LessOrEqual(t, float64(c.CopperBound), float64(c.CopperMass))
	require.Greater(t, float64(c.CopperBound), 0.98*float64(c.CopperMass))

	b.Given("0B", unit.Gauge{System: unit.Metric, Size: "50"})
	heavy, _ := b.Choose(t)
	require.Greater(t, float64(heavy.CopperBound), float64(c.CopperMass), "a given gauge counts in both")
	require.LessOrEqual(t, float64(heavy.CopperBound), float64(heavy.CopperMass))

	b.H.Practice.Method = "abyc-e11"
	table, _ := b.Choose(t)
	require.Zero(t, table.CopperBound, "a published rule promises no least")
}

// A tab takes 6 mm2 (IEC 61210, scope): the drop of a far lamp is mended in the
// shared feed on studs as long as that is enough.
func TestDropIsMendedWhereTheTerminalsTakeIt(t *testing.T) {
	build := func(tab string) (*rig.Rig, chosen.Chosen) {
		b := rig.New(unit.Metric)
		b.Battery("BAT")
		b.Fuse("F1").Stud = "M6"
		b.Part("BUS", harness.Bus)
		b.Load("L1", harness.Heater, 20, harness.AsCurrent)
		b.H.Parts[b.Parts["L1"]].Tab = tab
		b.Ground("G1")
		b.Wire("1A", "BAT.+", "F1.1", 100)
		b.Wire("1B", "F1.2", "BUS", 3000)
		b.Load("L2", harness.Lamp, 1, harness.AsCurrent)
		b.Wire("1C", "BUS", "L1.+", 2600)
		b.Wire("1D", "L1.-", "G1", 10)
		b.Wire("1E", "BUS", "L2.+", 100)
		b.Wire("1F", "L2.-", "G1", 10)
		b.Wire("1G", "BAT.-", "G1", 100)
		b.State("on", harness.EngineOff)
		c, _ := b.Choose(t)
		return b, c
	}
	b, c := build("6.3")
	require.LessOrEqual(t, float64(b.WireOf(t, c, "1C").Area), 6.0, b.WireOf(t, c, "1C").Reason)
	require.LessOrEqual(t, float64(c.Loads[0].FeedDrop+c.Loads[0].ReturnDrop), 0.36*(1+1e-4))
	free, wide := build("")
	require.GreaterOrEqual(t, float64(b.WireOf(t, c, "1B").Area), float64(free.WireOf(t, wide, "1B").Area))
}

// The resistances that were solved with are those at the temperatures that come
// out, for each wire in each state, within what a hundredth of a kelvin makes.
func TestWarmthAndResistanceAgree(t *testing.T) {
	b := rig.Fan(unit.Metric, 20, 3000)
	s := b.Settled(t)
	warmed := false
	for i := range s.Solvings {
		at := &s.Solvings[i]
		if at.Cranking {
			continue
		}
		for w, now := range s.Temperatures(&at.State) {
			require.InDelta(t, float64(now), float64(at.Warm[w]), 2*choose.Still)
			ohms := s.Ohms(harness.WireID(w)) * (1 + 0.00393*float64(now-20))
			require.InEpsilon(t, ohms, at.Ohms[w], 1e-4)
			warmed = warmed || now > s.Places[w].Celsius+5
		}
	}
	require.True(t, warmed)
	l := reason.Of(s).Loads[0]
	require.Greater(t, float64(l.FeedDrop+l.ReturnDrop), 1.03*float64(l.Cold))
}

func TestSameInputSameChoice(t *testing.T) {
	a, pa := rig.Fan(unit.Metric, 13, 3000).Choose(t)
	b, pb := rig.Fan(unit.Metric, 13, 3000).Choose(t)
	require.Equal(t, a.Wires, b.Wires)
	require.Equal(t, a.Fuses, b.Fuses)
	require.Equal(t, pa, pb)
}
