package fit

import (
	"testing"

	"github.com/stretchr/testify/require"

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
		s := newShed()
		s.part("SND", harness.Relay)
		s.part("E", c.kind)
		s.wire(s.at("SND", "1"), s.at("E", "1"), mm2(c.wire), 500)
		s.h.Units = []harness.Unit{{ID: 0, Kind: harness.Screened, Name: "crank", Wires: []harness.WireID{0}, Drains: []harness.TerminalID{s.at("E", "1")}}}
		out, _ := All(s.h, s.ways, s.c)
		e := out.Ends[0][1]
		require.Equal(t, []string{c.crimp, c.size, c.drain}, []string{e.Crimp, e.Size, e.Drain}, c)
		require.Empty(t, out.Ends[0][0].Drain, "the other end")
		pulled := ""
		for _, l := range out.Lots {
			if l.Beside != "" {
				pulled = l.Beside
				require.Equal(t, mm2(c.wire), l.Gauge)
			}
		}
		require.Equal(t, c.drain != "", pulled == "drain", "pulled with the drain in it")
	}
	s := newShed()
	s.part("K1", harness.Relay)
	s.part("S1", harness.Splice)
	for _, name := range []string{"1", "2"} {
		s.wire(s.at("K1", name), s.at("S1", ""), mm2("0.5"), 500)
	}
	s.h.Units = []harness.Unit{{ID: 0, Kind: harness.Screened, Name: "foil", Wires: []harness.WireID{0}, Drains: []harness.TerminalID{s.at("S1", "")}}}
	out, _ := All(s.h, s.ways, s.c)
	require.Equal(t, "bare barrel 1.5 mm² (14 AWG)", out.Splices[0].Size)
}

// A drain that goes to a stud of another part leads back to the loom and out again:
// (200 + 50 + 50 of slack) · 1.05 = 315 mm of wire, which is bought. On its own part the drain reaches.
func TestADrainThatLeadsAway(t *testing.T) {
	for stud, want := range map[string]unit.Millimetre{"G": 315, "M": 0} {
		s := newShed()
		s.h.Practice.EachEnd, s.h.Practice.Dress, s.h.Practice.RoundUp = 50, 0.05, 5
		s.part("K1", harness.Relay)
		s.part("M", harness.Motor).Tail = 200
		s.part("G", harness.Ground).Tail = 50
		s.wire(s.at("K1", "1"), s.at("M", "+"), mm2("0.5"), 500)
		s.h.Units = []harness.Unit{{ID: 0, Kind: harness.Screened, Name: "foil", Wires: []harness.WireID{0}, Drains: []harness.TerminalID{s.at(stud, "case")}}}
		s.h.Parts[s.parts[stud]].Place, s.h.Parts[s.parts["M"]].Place = 1, 1
		s.h.Places = []harness.Place{{ID: 0}, {ID: 1}}
		out, _ := All(s.h, s.ways, s.c)
		require.Len(t, out.Units[0].Drains, 1)
		require.Equal(t, harness.WireID(harness.None), out.Units[0].Drains[0].With)
		require.Equal(t, want, out.Units[0].Drains[0].Length, stud)
		_, bought := s.bought()["wire 0.5 mm² for drains, in a sleeve"]
		require.Equal(t, want > 0, bought)
	}
}
