package fit

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/fit/buying"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/fit/shed"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// slugs lists what was found.
func slugs(ps source.Problems) []string {
	var out []string
	for _, p := range ps {
		out = append(out, p.Slug)
	}
	return out
}

// The shop's own terminal goes first where it takes the wire; where it does not,
// the tables serve and an advice says so once for each wire size.
func TestTheShopsTerminalGoesFirst(t *testing.T) {
	s := shed.New()
	s.Part("K1", harness.Relay)
	s.Part("G1", harness.Ground)
	s.Part("MOD", harness.Module)
	s.H.Practice.Terminals = []harness.ShopTerminal{
		{Fitting: "ring", Size: "M6", From: 1.5, To: 2.5, Range: "1.5-2.5 mm²", Part: "R6-2.5", Die: "B2", Sleeve: "blue", Strip: 6},
		{Fitting: "contact", From: 0.5, To: 1, Range: "0.5-1 mm²", Thinnest: 1.4, Thickest: 1.8, Part: "C-1", Die: "3", Tool: "hand tool 7"},
		{Fitting: "ring", Size: "M6", From: 10, To: 16, Range: "10-16 mm²", Part: "L6-16", Die: "hex 16"},
	}
	for _, size := range []string{"2.5", "4", "4", "10"} {
		s.Wire(s.At("K1", "87"), s.At("G1", ""), shed.MM2(size), 500)
	}
	s.Wire(s.At("K1", "85"), s.At("MOD", "1"), shed.MM2("0.5"), 500)
	s.Wire(s.At("K1", "85"), s.At("MOD", "2"), shed.MM2("1"), 500)
	s.H.Parts[s.Parts["K1"]].Stud = "M5"
	out, ps := All(s.H, s.Ways, s.C)
	own := out.Ends[0][1]
	require.Equal(t, []string{"R6-2.5", "B2", "blue insulated", "1.5-2.5 mm²"}, []string{own.Part, own.Die, own.Crimp, own.Size})
	require.Equal(t, unit.Millimetre(6), own.Strip, "as the shop has it")
	require.Contains(t, own.Reason, "hole 6.4 mm for M6")
	require.Equal(t, 222.4, own.Pull, "UL 486A, 14 AWG")
	require.Empty(t, out.Ends[1][1].Part)
	require.Equal(t, "yellow insulated", out.Ends[1][1].Crimp, "4 mm2 from the tables")
	bare := out.Ends[3][1]
	require.Equal(t, []string{"L6-16", "uninsulated lug"}, []string{bare.Part, bare.Crimp})
	require.NotEmpty(t, bare.Shrink, "a uninsulated barrel is covered, whosever it is")
	contact := out.Ends[4][1]
	require.Equal(t, []string{"C-1", "open barrel", "hand tool 7"}, []string{contact.Part, contact.Crimp, contact.Tool})
	require.Equal(t, s.C.Wires[4].Diameter, contact.Over)
	require.Empty(t, out.Ends[5][1].Part, "its insulation is too thick for the grip")
	require.Equal(t, []string{"no-shop-terminal", "no-shop-terminal"}, slugs(ps), "4 mm² once, 1 mm² once")
	require.Contains(t, ps[0].Summary, "M6 ring for 4 mm²")
}

// The shop's barrels go by the sum of the areas; NASA-STD-8739.4 19.11.
func TestTheShopsBarrel(t *testing.T) {
	s := shed.New()
	s.Part("S1", harness.Splice)
	s.Part("K1", harness.Relay)
	s.H.Practice.Terminals = []harness.ShopTerminal{
		{Fitting: "splice barrel", From: 0.5, To: 1.5, Part: "B1"}, {Fitting: "splice barrel", From: 1.5, To: 4, Part: "B4", Die: "4"},
	}
	for range 3 {
		s.Wire(s.At("K1", fmt.Sprint(len(s.H.Wires))), s.At("S1", ""), shed.MM2("0.75"), 500)
	}
	out, ps := All(s.H, s.Ways, s.C)
	require.Empty(t, ps)
	require.Equal(t, []string{"B4", "4"}, []string{out.Splices[0].Number, out.Splices[0].Die})
}

// A colour that is given is obeyed where it can be: 16 gauge lies in red and in
// blue, and is refused in yellow (two makers' terminal lists).
func TestGivenSleeve(t *testing.T) {
	for _, c := range []struct {
		sleeve, crimp string
		gauge         unit.Gauge
	}{
		{"red", "red insulated", shed.AWG("16")}, {"blue", "blue insulated", shed.SAE("16")}, {"red", "red insulated", shed.MM2("1.5")},
		{"yellow", fitted.NoneFits, shed.AWG("16")}, {"red", fitted.NoneFits, shed.MM2("2.5")}, {"blue", fitted.NoneFits, shed.MM2("4")}, {"yellow", fitted.NoneFits, shed.AWG("14")},
	} {
		s := shed.New()
		s.Part("L1", harness.Lamp)
		s.Part("K1", harness.Relay)
		s.H.Parts[s.Parts["L1"]].Sleeve = c.sleeve
		s.H.Parts[s.Parts["L1"]].SleeveSpan = source.At(3, 4, 5)
		s.Wire(s.At("K1", "87"), s.At("L1", "+"), c.gauge, 500)
		out, ps := All(s.H, s.Ways, s.C)
		require.Equal(t, c.crimp, out.Ends[0][1].Crimp, "%v in %s", c.gauge, c.sleeve)
		if c.crimp != fitted.NoneFits {
			require.Empty(t, ps)
			continue
		}
		require.Equal(t, "terminal-does-not-fit", ps[0].Slug)
		require.Equal(t, source.Error, ps[0].Level)
		require.Equal(t, source.At(3, 4, 5), ps[0].Span)
		require.Zero(t, out.Ends[0][1].Pull)
	}
}

func TestBulletsAndFerrules(t *testing.T) {
	s := shed.New()
	s.Part("L1", harness.Lamp)
	s.Part("K1", harness.Relay)
	s.H.Parts[s.Parts["L1"]].Fitting, s.H.Parts[s.Parts["K1"]].Fitting = "bullet", "ferrule"
	s.Wire(s.At("K1", "87"), s.At("L1", "+"), shed.MM2("1"), 500)
	s.Wire(s.At("K1", "30"), s.At("L1", "+"), shed.MM2("10"), 500)
	out, ps := All(s.H, s.Ways, s.C)
	require.Equal(t, []string{"bullet", "red insulated"}, []string{out.Ends[0][1].Fitting, out.Ends[0][1].Crimp})
	require.Equal(t, []string{"ferrule", "ferrule"}, []string{out.Ends[0][0].Fitting, out.Ends[0][0].Crimp})
	require.Equal(t, "ul-486e", out.Ends[0][0].PullList, "UL 486E table 22: the screw holds it")
	require.InDelta(t, 30.0, out.Ends[0][0].Pull, 0.06, "18 AWG: 6.75 lbf")
	require.Equal(t, fitted.NoneFits, out.Ends[1][1].Crimp)
	require.Equal(t, []string{"terminal-does-not-fit"}, slugs(ps))
}

// A receptacle with two wires in it is another crimp than one with either of them: 1 + 0.5 mm² in blue, where
// 0.5 mm² alone would slip out. It is pulled at the thinner wire (UL 486A, 20 AWG: 13 lbf).
func TestALotOfWiresTogether(t *testing.T) {
	s := shed.New()
	s.Part("K1", harness.Relay)
	s.Part("G1", harness.Ground)
	for _, size := range []string{"0.5", "1"} {
		s.Wire(s.At("K1", "87"), s.At("G1", ""), shed.MM2(size), 500)
	}
	out, _ := All(s.H, s.Ways, s.C)
	require.Equal(t, []fitted.Lot{
		{Crimp: "blue insulated", Size: "1.5-2.5 mm2", Tool: "ratchet tool, blue die", Gauge: shed.MM2("0.5"), Beside: "1 mm²", Count: 1, Specimens: 2, Pull: 57.8, PullList: "ul-486a"},
		{Crimp: "red insulated", Size: "0.5-1.5 mm2", Tool: "ratchet tool, red die", Gauge: shed.MM2("0.5"), Count: 1, Specimens: 2, Pull: 57.8, PullList: "ul-486a"},
		{Crimp: "red insulated", Size: "0.5-1.5 mm2", Tool: "ratchet tool, red die", Gauge: shed.MM2("1"), Count: 1, Specimens: 2, Pull: 89, PullList: "ul-486a"},
	}, out.Lots)
	bought := func(kept ...harness.KeptState) float64 {
		n := 0.0
		for _, i := range buying.List(s.H, s.C, out, nil, kept, nil) {
			if i.What == "6.3 mm female spade, blue insulated, 1.5-2.5 mm²" {
				n = i.Count
			}
		}
		return n
	}
	require.Equal(t, 3.0, bought(), "one for the tab, two to pull")
	require.Equal(t, 3.0, bought(harness.Built), "the wire that is added is crimped in with the one that is there")
	require.Equal(t, 2.0, bought(harness.Built, harness.Built))
}

// One test stands for a barrel, a wire and a tool; two specimens at least (MIL-T-7928).
func TestPullTestLots(t *testing.T) {
	s := shed.New()
	s.Part("K1", harness.Relay)
	s.Part("G1", harness.Ground)
	s.Part("S1", harness.Splice)
	s.Part("MOD", harness.Module).Family = "small"
	for range 2 {
		s.Wire(s.At("K1", "87"), s.At("G1", ""), shed.MM2("2.5"), 500)
	}
	s.Wire(s.At("K1", "87"), s.At("S1", ""), shed.MM2("2.5"), 500)
	s.Wire(s.At("S1", ""), s.At("MOD", "1"), shed.MM2("1"), 500)
	out, _ := All(s.H, s.Ways, s.C)
	require.Equal(t, []fitted.Lot{
		{Crimp: "blue insulated", Size: "1.5-2.5 mm2", Tool: "ratchet tool, blue die", Gauge: shed.MM2("2.5"), Count: 5, Specimens: 2, Pull: 222.4, PullList: "ul-486a"},
		{Fitting: "crimp contact, small", Crimp: "open barrel", Size: "1 mm²", Tool: "the contact's own tool", Gauge: shed.MM2("1"), Count: 1, Specimens: 2, Pull: 89, PullList: "ul-486a"},
		{Fitting: "splice", Crimp: fitted.Barrel, Size: "uninsulated barrel 4 mm² (10 AWG)", Tool: "barrel tool", Gauge: shed.MM2("1"), Count: 1, Specimens: 2, Pull: 89, PullList: "ul-486a"},
	}, out.Lots, "rings and receptacles of one barrel are one lot; a splice is pulled at its thinnest wire")
}
