package fit

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/fit/shed"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// oneGround is a ground with one wire, which a state draws current through.
func oneGround(stud string, g unit.Gauge, amps float64, cranking bool) *shed.Shed {
	s := shed.New()
	s.H.Sheet.Imperial = g.System != unit.Metric
	s.H.Sheet.Gauge = g.System
	s.Part("G1", harness.Ground).Stud = stud
	s.Part("BAT", harness.Battery).Stud = "M8"
	s.Wire(s.At("BAT", "-"), s.At("G1", ""), g, 300)
	s.H.Elements = []harness.Element{{ID: 0, Part: s.Parts["G1"], Kind: harness.Resistance, Name: "G1", A: s.At("G1", ""), B: harness.Chassis}}
	s.H.Parts[s.Parts["G1"]].Elements = []harness.ElementID{0}
	engine := harness.EngineRunning
	if cranking {
		engine = harness.EngineCranking
	}
	s.H.States = []harness.State{{Name: "one", Engine: engine}}
	s.C.States = []network.State{{Name: "one", Amps: []float64{amps}, Volts: make([]float64, len(s.H.Terminals))}}
	s.C.Wires[0].Amps, s.C.Wires[0].State = unit.Ampere(amps), "one"
	return s
}

// The smallest stud that takes the ring (lugs as they are sold, common practice) and the current
// (terminal-board maker's table, lugs face to face: M6 125 A, M8 150, M10 200, M12 350).
// Seconds of cranking are the cable's affair.
func TestGroundStudsAreChosen(t *testing.T) {
	for _, c := range []struct {
		gauge    unit.Gauge
		amps     float64
		cranking bool
		stud     string
	}{
		{shed.MM2("1"), 5, false, "M6"}, {shed.MM2("25"), 60, false, "M6"}, {shed.MM2("35"), 60, false, "M8"},
		{shed.MM2("50"), 60, false, "M8"}, {shed.MM2("25"), 126, false, "M8"}, {shed.MM2("25"), 151, false, "M10"},
		{shed.MM2("70"), 60, false, "M8"}, {shed.MM2("25"), 250, true, "M6"}, {shed.MM2("50"), 300, true, "M8"}, {shed.MM2("35"), 300, false, "M12"},
		{shed.AWG("4"), 40, false, "1/4"}, {shed.AWG("2"), 40, false, "5/16"}, {shed.AWG("2/0"), 40, false, "5/16"}, {shed.AWG("4/0"), 40, false, "3/8"},
	} {
		s := oneGround("", c.gauge, c.amps, c.cranking)
		out, ps := All(s.H, s.Ways, s.C)
		require.Empty(t, ps)
		g := out.Grounds[0]
		require.Equal(t, c.stud, g.Stud, "%s, %v A", c.gauge, c.amps)
		require.Equal(t, c.stud == "M6" || c.stud == "1/4", g.StudWhy == "", g.StudWhy)
		require.Equal(t, rating.StudText(c.stud)+" ring", out.Ends[0][1].Fitting, "the ring has the same hole")
		require.Contains(t, out.SourceKeys, "stud-lugs")
	}
	s := oneGround("", shed.MM2("35"), 10, false)
	out, _ := All(s.H, s.Ways, s.C)
	require.Equal(t, "M6 takes rings up to 25 mm², 1A is 35 mm²", out.Grounds[0].StudWhy)
	s = oneGround("", shed.MM2("10"), 140, false)
	out, _ = All(s.H, s.Ways, s.C)
	require.Equal(t, "M6 carries 125 A, and 140 A passes here in one", out.Grounds[0].StudWhy)
}

// What sizes a stud may lie beside the declared states: a battery that is flat, a load that none
// turns on. Seconds of cranking are told apart, and a ring that leads to another counts as the metal does.
func TestStudsOfWhatNoStateShows(t *testing.T) {
	s := oneGround("", shed.MM2("25"), 0, false)
	beside := func(name string, amps, ring float64, cranking bool) {
		st := network.State{Name: name, Amps: []float64{amps}, WireAmps: []float64{ring}}
		s.C.Reckoned = append(s.C.Reckoned, chosen.Reckoned{State: st, Cranking: cranking})
	}
	beside("one, battery flat", 60, -60, false)
	out, _ := All(s.H, s.Ways, s.C)
	g := out.Grounds[0]
	require.Equal(t, unit.Ampere(60), g.Amps)
	require.Equal(t, "one, battery flat", g.State)
	require.Zero(t, g.Crank)
	require.Equal(t, "M6", g.Stud)

	beside("loads no state turns on", 0, 130, false)
	beside("cranking, no state declared", 300, 300, true)
	out, _ = All(s.H, s.Ways, s.C)
	g = out.Grounds[0]
	require.Equal(t, unit.Ampere(130), g.Amps)
	require.Equal(t, "loads no state turns on", g.State)
	require.Equal(t, unit.Ampere(300), g.Crank)
	require.Equal(t, "cranking, no state declared", g.CrankIn)
	require.Equal(t, "M8", g.Stud, "125 A is the most of M6, 150 of M8 (terminal-board maker's table)")
	require.Equal(t, "M6 carries 125 A, and 130 A passes here in loads no state turns on", g.StudWhy)
}

// A given stud is obeyed, and told where it does not do.
func TestGivenStudIsObeyed(t *testing.T) {
	for _, c := range []struct {
		stud  string
		gauge unit.Gauge
		amps  float64
		slug  string
	}{
		{"M6", shed.MM2("35"), 60, ""}, {"M6", shed.MM2("50"), 60, "terminal-does-not-fit"}, {"M8", shed.MM2("70"), 60, ""},
		{"M6", shed.MM2("16"), 126, "stud-overloaded"}, {"M5", shed.MM2("16"), 20, "terminal-does-not-fit"}, {"M10", shed.MM2("6"), 20, ""},
		{"1/4", shed.AWG("1/0"), 20, "terminal-does-not-fit"},
	} {
		s := oneGround(c.stud, c.gauge, c.amps, false)
		out, ps := All(s.H, s.Ways, s.C)
		require.Equal(t, c.stud, out.Grounds[0].Stud)
		if c.slug == "" {
			require.Empty(t, ps, "%s on %s", c.gauge, c.stud)
			continue
		}
		require.Equal(t, []string{"warning " + c.slug}, levelled(ps))
	}
}

func levelled(ps source.Problems) (out []string) {
	for _, p := range ps {
		out = append(out, p.Level.String()+" "+p.Slug)
	}
	return out
}
