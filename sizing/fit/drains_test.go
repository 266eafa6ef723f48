package fit

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/fit/buying"
	"example.com/loomfolio/sizing/fit/reel"
	"example.com/loomfolio/sizing/fit/shed"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// A drain of 0.5 mm² that goes into a wire's crimp is held too, by the areas added (the rule of NASA-STD-8739.4
// 19.11): beside 0.5 mm² in a contact for 1 mm², in a red sleeve as 1 mm² is, beside 1 mm² in a blue one; in a
// splice of 0.5 and 0.5 mm² in a barrel for 1.5 mm². A ring of its own leaves the wire's as it was.
func TestADrainIsHeldByTheCrimp(t *testing.T) {
	for _, c := range []struct {
		kind        harness.Kind
		wire        string
		crimp, size string
		drain       string
	}{
		{harness.Module, "0.5", "open barrel", "1 mm²", "crank"},
		{harness.Relay, "0.5", "red insulated", "0.5-1.5 mm2", "crank"},
		{harness.Relay, "1", "blue insulated", "1.5-2.5 mm2", "crank"},
		{harness.Ground, "0.5", "red insulated", "0.5-1.5 mm2", ""},
	} {
		s := shed.New()
		s.Part("SND", harness.Relay)
		s.Part("E", c.kind)
		s.Wire(s.At("SND", "1"), s.At("E", "1"), shed.MM2(c.wire), 500)
		s.H.Units = []harness.Unit{{ID: 0, Kind: harness.Screened, Name: "crank", Wires: []harness.WireID{0}, Drains: []harness.TerminalID{s.At("E", "1")}}}
		out, _ := All(s.H, s.Ways, s.C)
		e := out.Ends[0][1]
		require.Equal(t, []string{c.crimp, c.size, c.drain}, []string{e.Crimp, e.Size, e.Drain}, c)
		require.Empty(t, out.Ends[0][0].Drain, "the other end")
		pulled := ""
		for _, l := range out.Lots {
			if l.Beside != "" {
				pulled = l.Beside
				require.Equal(t, shed.MM2(c.wire), l.Gauge)
			}
		}
		require.Equal(t, c.drain != "", pulled == "drain", "pulled with the drain in it")
	}
	s := shed.New()
	s.Part("K1", harness.Relay)
	s.Part("S1", harness.Splice)
	for _, name := range []string{"1", "2"} {
		s.Wire(s.At("K1", name), s.At("S1", ""), shed.MM2("0.5"), 500)
	}
	s.H.Units = []harness.Unit{{ID: 0, Kind: harness.Screened, Name: "foil", Wires: []harness.WireID{0}, Drains: []harness.TerminalID{s.At("S1", "")}}}
	out, _ := All(s.H, s.Ways, s.C)
	require.Equal(t, "uninsulated barrel 1.5 mm² (14 AWG)", out.Splices[0].Size)
}

// A drain that goes to a stud of another part leads back to the loom and out again:
// (200 + 50 + 50 of slack) · 1.05 = 315 mm of wire, which is bought. On its own part the drain reaches.
func TestADrainThatLeadsAway(t *testing.T) {
	for stud, want := range map[string]unit.Millimetre{"G": 315, "M": 0} {
		s := shed.New()
		s.H.Practice.EachEnd, s.H.Practice.Dress, s.H.Practice.RoundUp = 50, 0.05, 5
		s.Part("K1", harness.Relay)
		s.Part("M", harness.Motor).Tail = 200
		s.Part("G", harness.Ground).Tail = 50
		s.Wire(s.At("K1", "1"), s.At("M", "+"), shed.MM2("0.5"), 500)
		s.H.Units = []harness.Unit{{ID: 0, Kind: harness.Screened, Name: "foil", Wires: []harness.WireID{0}, Drains: []harness.TerminalID{s.At(stud, "case")}}}
		s.H.Parts[s.Parts[stud]].Place, s.H.Parts[s.Parts["M"]].Place = 1, 1
		s.H.Places = []harness.Place{{ID: 0}, {ID: 1}}
		out, _ := All(s.H, s.Ways, s.C)
		require.Len(t, out.Units[0].Drains, 1)
		require.Equal(t, harness.WireID(harness.None), out.Units[0].Drains[0].With)
		require.Equal(t, want, out.Units[0].Drains[0].Length, stud)
		_, bought := bought(s)["wire 0.5 mm² for drains, in a sleeve"]
		require.Equal(t, want > 0, bought)
	}
}

// Where few kinds are bought the wire of a drain comes off the reel from which wires to grounds
// are cut, after them: 300 + 315 of a metre, 385 left. Where that size is not bought, by itself.
func TestADrainOffAReel(t *testing.T) {
	for size, want := range map[string]string{"0.5": "0.5 mm² thin-wall-125", "1": ""} {
		s := shed.New()
		s.H.Practice.Buy = harness.AsFew()
		s.H.Practice.EachEnd, s.H.Practice.Dress, s.H.Practice.RoundUp = 50, 0.05, 5
		s.Part("K1", harness.Relay)
		s.Part("M", harness.Motor).Tail = 200
		s.Part("G", harness.Ground).Tail = 50
		s.Wire(s.At("K1", "1"), s.At("M", "+"), shed.MM2("2"), 500)
		s.Wire(s.At("K1", "2"), s.At("G", ""), shed.MM2(size), 300)
		s.H.Units = []harness.Unit{{ID: 0, Kind: harness.Screened, Name: "foil", Wires: []harness.WireID{0}, Drains: []harness.TerminalID{s.At("G", "case")}}}
		s.H.Parts[s.Parts["G"]].Place, s.H.Parts[s.Parts["M"]].Place = 1, 1
		s.H.Places = []harness.Place{{ID: 0}, {ID: 1}}
		out, _ := All(s.H, s.Ways, s.C)
		reels := reel.WithDrains(s.H, s.Ways, s.C.Wires, nil, out.Units, nil)
		require.Equal(t, want, out.Units[0].Drains[0].From)
		if want != "" {
			require.EqualValues(t, 315, reels[0].Cuts[0].Drains)
			require.EqualValues(t, 385, reels[0].Cuts[0].Over)
		}
		for _, i := range buying.List(s.H, s.C, out, reels, nil, nil) {
			require.False(t, want != "" && strings.Contains(i.What, "for drains"), i.What)
		}
	}
}
