package fit

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/fit/buying"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/fit/reel"
	"example.com/loomfolio/sizing/fit/shed"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/joint"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// The force is UL 486A's (edition not known, instruction sheets of two terminal makers; 1 lbf is 4.448 N) of the row
// beside it; which fitting a kind takes is common practice, no source.
func TestEnds(t *testing.T) {
	for _, c := range []struct {
		kind     harness.Kind
		terminal string
		gauge    unit.Gauge
		fitting  string
		crimp    string
		pull     float64 // N by UL 486A
	}{
		{harness.Relay, "87", shed.MM2("2.5"), "6.3 mm female spade", "blue insulated", 222.4},    // 14 AWG: 50 lbf
		{harness.Relay, "85", shed.MM2("0.5"), "6.3 mm female spade", "red insulated", 57.8},      // rounded from 20 AWG, 0.518 mm2: 13 lbf
		{harness.Battery, "+", shed.MM2("35"), "M8 ring", "battery lug", 800.7},                   // 2 AWG: 180 lbf
		{harness.Battery, "+", shed.MM2("1.5"), "M8 ring", "blue insulated", 133.4},               // 16 AWG: 30 lbf
		{harness.Sender, "+", shed.SAE("16"), "4.8 mm female spade", "blue insulated", 133.4},     // 16 fits red and blue: blue
		{harness.Starter, "50", shed.AWG("12"), "6.3 mm female spade", "yellow insulated", 311.4}, // 70 lbf
		{harness.Starter, "30", shed.AWG("1/0"), "M8 ring", "battery lug", 1112.1},                // 250 lbf
		{harness.Motor, "+", shed.MM2("4"), "butt splice", "yellow insulated", 311.4},             // 12 AWG
		{harness.Ground, "", shed.MM2("10"), "M6 ring", "uninsulated lug", 400.3},                 // 8 AWG: 90 lbf
		{harness.Connector, "4.in", shed.MM2("1"), "crimp contact", "open barrel", 89.0},          // 18 AWG: 20 lbf
		{harness.Alternator, "B+", shed.MM2("16"), "M8 ring", "uninsulated lug", 444.8},           // 6 AWG: 100 lbf
		{harness.Alternator, "L", shed.MM2("0.75"), "6.3 mm female spade", "red insulated", 57.8}, // 20 AWG: 13 lbf
		{harness.Splice, "", shed.MM2("2.5"), "splice barrel", fitted.Barrel, 222.4},              // 14 AWG
		{harness.Lamp, "+", shed.MM2("0.35"), "6.3 mm female spade", "red insulated", 35.6},       // folded back
		{harness.Breaker, "1", shed.MM2("6"), "M5 ring", "yellow insulated", 355.9},               // 10 AWG: 80 lbf
		{harness.FusePanel, "3", shed.MM2("3"), "6.3 mm female spade", "yellow insulated", 222.4}, // between blue and yellow
	} {
		s := shed.New()
		s.Part("P", c.kind)
		s.Part("Q", harness.Relay)
		s.Wire(s.At("P", c.terminal), s.At("Q", "30"), c.gauge, 1000)
		out, _ := All(s.H, s.Ways, s.C)
		e := out.Ends[0][0]
		require.Equal(t, c.fitting, e.Fitting, "%s %s", c.kind, c.terminal)
		require.Equal(t, c.crimp, e.Crimp, "%s %s %v", c.kind, c.terminal, c.gauge)
		require.InDelta(t, c.pull, e.Pull, 0.06, "%s %s %v", c.kind, c.terminal, c.gauge)
		require.Equal(t, "ul-486a", e.PullList)
		require.Greater(t, float64(e.Strip), 0.0)
		bare := e.Crimp == "battery lug" || e.Crimp == "uninsulated lug"
		require.Equal(t, bare, e.Shrink != "", "shrink where the terminal is bare")
		if bare {
			require.GreaterOrEqual(t, float64(e.ShrinkLen), float64(e.Strip)+12)
		}
		require.NotEmpty(t, e.Reason)
		for _, key := range e.Sources {
			require.Len(t, rating.SourcesOf([]string{key}), 1, key)
		}
	}
}

func TestEndsSayWhatWasWritten(t *testing.T) {
	s := shed.New()
	s.Part("BAT", harness.Battery).Stud = "3/8"
	s.Part("PUMP", harness.Motor).Tab = "6.3"
	s.Part("FAN", harness.Motor).Family = "2-way sealed"
	s.Part("X1", harness.Connector).Family = "6-way"
	s.Wire(s.At("BAT", "+"), s.At("PUMP", "+"), shed.MM2("2.5"), 1000)
	s.Wire(s.At("FAN", "-"), s.At("X1", "4.in"), shed.MM2("2.5"), 1000)
	out, ps := All(s.H, s.Ways, s.C)
	require.Empty(t, ps)
	require.Equal(t, "3/8 in ring", out.Ends[0][0].Fitting)
	require.Contains(t, out.Ends[0][0].Reason, "hole 9.9 mm")
	require.Equal(t, "6.3 mm female spade", out.Ends[0][1].Fitting)
	require.Equal(t, "crimp contact, 2-way sealed", out.Ends[1][0].Fitting)
	require.Equal(t, "crimp contact, 6-way", out.Ends[1][1].Fitting)
	require.Equal(t, "1A  BAT.+ → PUMP.+", out.Ends[0][0].Label)
	require.Equal(t, "1A  PUMP.+ → BAT.+", out.Ends[0][1].Label)
}

// IEC 61210 ends at 6 mm2: a heavier wire has no receptacle.
func TestHeavyWireOnATab(t *testing.T) {
	s := shed.New()
	s.Part("BAT", harness.Battery)
	s.Part("K1", harness.Relay)
	s.Wire(s.At("BAT", "+"), s.At("K1", "30"), shed.MM2("10"), 1000)
	_, ps := All(s.H, s.Ways, s.C)
	require.Len(t, ps, 1)
	require.Equal(t, "stud-assumed", ps[0].Slug, "the tab is a guess")
	for i := range s.H.Parts {
		if s.H.Parts[i].Ref == "K1" {
			s.H.Parts[i].Tab = "6.3"
		}
	}
	_, ps = All(s.H, s.Ways, s.C)
	require.Len(t, ps, 1)
	require.Equal(t, "terminal-does-not-fit", ps[0].Slug)
	require.Equal(t, source.Error, ps[0].Level)
	out, _ := All(s.H, s.Ways, s.C)
	e := out.Ends[0][1]
	require.Equal(t, fitted.NoneFits, e.Crimp, "never a receptacle that nobody makes")
	require.Contains(t, e.Reason, "no 6.3 mm female spade takes 10 mm²")
	require.Zero(t, e.Pull)
	s.H.Parts[s.Parts["K1"]].Tab = "6.3"
	_, ps = All(s.H, s.Ways, s.C)
	require.Equal(t, source.Error, ps[0].Level, "the tab is given")
	s.H.Parts[s.Parts["K1"]].Tab = ""
	s.H.Parts[s.Parts["K1"]].Stud = "M5"
	_, ps = All(s.H, s.Ways, s.C)
	require.Empty(t, ps)
	s.H.Parts[s.Parts["K1"]].Stud = "M7"
	_, ps = All(s.H, s.Ways, s.C)
	require.Len(t, ps, 1, "no ring for M7")
}

func groundOf(rings int) *shed.Shed {
	s := shed.New()
	g := s.Part("G1", harness.Ground)
	g.Surface = "painted"
	s.Part("K1", harness.Relay)
	sizes := []string{"1", "6", "2.5", "4", "1.5", "0.75"}
	for i := range rings {
		s.Wire(s.At("K1", fmt.Sprint(i)), s.At("G1", ""), shed.MM2(sizes[i]), 500)
	}
	s.H.Elements = []harness.Element{{ID: 0, Part: s.Parts["G1"], Kind: harness.Resistance, Name: "G1", A: s.At("G1", ""), B: harness.Chassis}}
	s.H.Parts[s.Parts["G1"]].Elements = []harness.ElementID{0}
	volts := make([]float64, len(s.H.Terminals))
	volts[s.At("G1", "")] = 0.021
	s.C.States = []network.State{{Name: "parked", Amps: []float64{0}, Volts: make([]float64, len(volts))}, {Name: "night", Amps: []float64{17}, Volts: volts}}
	return s
}

// The heaviest ring at the bottom and the spring washer are common practice, no source; at most
// four rings a stud, FAA AC 43.13-1B (1998), 11-174b; paint off, 11-189; a toothed washer where
// there was a coat, NEC (2008), 552.10.
func TestGroundStack(t *testing.T) {
	s := groundOf(4)
	out, ps := All(s.H, s.Ways, s.C)
	require.Empty(t, ps)
	g := out.Grounds[0]
	require.Equal(t, []harness.WireID{1, 3, 2, 0}, g.Rings, "the heaviest at the bottom")
	require.Equal(t, unit.Ampere(17), g.Amps)
	require.Equal(t, "night", g.State)
	require.Equal(t, unit.Volt(0.021), g.Lift)
	require.Equal(t, "M6", g.Stud)
	require.Contains(t, g.Washer, "star washer")
	require.Contains(t, g.Prep, "scrape the paint off")
	require.Equal(t, "8 N·m (steel bolt or rivet stud in bodywork) or 6.5 N·m (welded steel pin)", g.Tighten,
		"a car maker's body repair bulletin, a switchgear maker's guide, table 1; 2.5 is for the screw of a device")
	last := slices.Clone(s.C.States[1].Volts)
	last[s.At("G1", "")] = 0.2
	s.C.States = append(s.C.States, network.State{Name: "cranking", Amps: []float64{17 - 1e-9}, Volts: last})
	out, _ = All(s.H, s.Ways, s.C)
	require.Equal(t, "night", out.Grounds[0].State, "the first of two with the same current")
	require.Equal(t, "cranking", out.Grounds[0].LiftIn, "the state that gives the offset need not be the one that sizes the stud")
	require.Equal(t, unit.Volt(0.2), out.Grounds[0].Lift)
	_, ps = All(groundOf(5).H, groundOf(5).Ways, groundOf(5).C)
	require.Len(t, ps, 1, "five lugs on one stud: a second stud and a strap")
	require.Equal(t, "too-many-rings", ps[0].Slug)
}

// A range on a stud of the inch system (FAA AC 43.13-1B table 7-1: 40 to 50 lb in at 1/4-20),
// and nothing where no list has the thread.
func TestGroundsAreTightened(t *testing.T) {
	for _, c := range []struct {
		stud     string
		imperial bool
		want     string
	}{
		{"1/4", true, "3.3 to 4.1 lbf·ft"},
		{"1/4", false, "4.5 to 5.6 N·m"},
		{"M8", false, "18 N·m (steel bolt in bodywork) or 15 N·m (welded steel pin)"},
	} {
		s := groundOf(1)
		s.H.Parts[s.Parts["G1"]].Stud, s.H.Sheet.Imperial = c.stud, c.imperial
		out, _ := All(s.H, s.Ways, s.C)
		require.Contains(t, out.Grounds[0].Tighten, c.want)
	}
	s := groundOf(1)
	s.H.Parts[s.Parts["G1"]].Stud = "M3"
	out, _ := All(s.H, s.Ways, s.C)
	require.Empty(t, out.Grounds[0].Tighten)
}

func TestSplicesAndRuns(t *testing.T) {
	s := shed.New()
	s.H.Places = []harness.Place{{ID: 0, Key: "a", Name: "engine bay"}, {ID: 1, Key: "b", Name: "dash"}}
	s.H.Runs = []harness.Run{{ID: 0, From: 0, To: 1, Length: 900, Cover: "braid"}, {ID: 1, From: 0, To: 1, Length: 400}}
	s.Part("S1", harness.Splice).Along = &harness.Along{Run: 0, Distance: 300}
	s.Part("K1", harness.Relay)
	for i := range 2 {
		w := s.Wire(s.At("K1", fmt.Sprint(i)), s.At("S1", ""), shed.AWG("18"), 500)
		s.Ways[w].Shares = []route.Share{{Run: 0, Length: 300}}
	}
	out, ps := All(s.H, s.Ways, s.C)
	require.Empty(t, ps)
	sp := out.Splices[0]
	require.InDelta(t, 3249, rating.CircularMils(sp.AreaSum), 2, "NASA-STD-8739.4 19.11: 18 and 18 AWG")
	require.Equal(t, "uninsulated barrel 2 mm² (14 AWG)", sp.Size)
	require.Equal(t, "300 mm from engine bay towards dash", sp.Where)
	require.NotEmpty(t, sp.Shrink)
	r := out.Runs[0]
	over := float64(s.C.Wires[0].Diameter)
	require.InDelta(t, 2*over, float64(r.Diameter), 0.051, "two equal wires lie side by side")
	require.GreaterOrEqual(t, float64(r.Cover), 2*over*1.25, "AC 43.13-1B 11-249: a quarter over the bundle")
	require.Equal(t, "braid", r.CoverName)
	require.Empty(t, out.Runs[1].Wires)
	require.Zero(t, out.Runs[1].Cover)
	require.Contains(t, out.SourceKeys, "nasa-splice")
}

func TestReelsAndShopping(t *testing.T) {
	s := groundOf(3)
	s.Part("F1", harness.Fuse)
	s.C.Fuses = []chosen.Fuse{{Name: "F1", Part: s.Parts["F1"], Body: "blade", Rating: 15, BodyColour: "blue"}, {Name: "F2", Part: s.Parts["F1"], Body: "blade", Rating: 15, BodyColour: "blue"}}
	s.Wire(s.At("K1", "9"), s.At("F1", "1"), shed.MM2("1"), 2500)
	bk, rd := colour.Choice{Pair: colour.Pair{Base: "BK"}}, colour.Choice{Pair: colour.Pair{Base: "RD", Tracer: "WH"}}
	colours := []colour.Choice{bk, bk, bk, bk}
	reels := reel.All(s.H, s.Ways, s.C.Wires, colours, nil)
	require.Len(t, reels, 3)
	require.Equal(t, []harness.WireID{3, 0}, reels[0].Wires, "the longest is cut first")
	require.Equal(t, unit.Millimetre(3000), reels[0].Need)
	require.Equal(t, unit.Millimetre(4000), reels[0].Buy, "3 m and a tenth, up to a whole metre")
	require.InDelta(t, 8.89*3, float64(reels[0].Copper), 1e-9)
	require.Equal(t, "2.5", reels[1].Gauge.Size)
	colours[3] = rd
	require.Len(t, reel.All(s.H, s.Ways, s.C.Wires, colours, nil), 4)
	out, _ := All(s.H, s.Ways, s.C)
	items := buying.List(s.H, s.C, out, reels, nil, nil)
	byWhat := map[string]fitted.Item{}
	ends := 0.0
	for _, i := range items {
		byWhat[i.Group+": "+i.What] = i
		if i.Group == "terminals" {
			ends += i.Count
		}
	}
	require.Equal(t, fitted.Item{Group: "fuses", What: "blade fuse 15 A, blue", Count: 3, Unit: "pcs", For: "1 spare, F1, F2", Buy: 3, Users: []fitted.User{{Name: "F1", Count: 1}, {Name: "F2", Count: 1}}}, byWhat["fuses: blade fuse 15 A, blue"])
	require.Equal(t, 8.0+2*float64(len(out.Lots)), ends, "every end is bought once, and two of each lot are pulled")
	require.Equal(t, 8.0, byWhat["markers: wire marker, printed, one for each end"].Count)
	require.Equal(t, 1.0, byWhat["washers: star washer M6"].Count)
	require.Equal(t, fitted.Item{Group: "fuses", What: "holder for one blade fuse, with leads as thick as its wires", Count: 2, Unit: "pcs", For: "F1, F2", Buy: 2, Users: []fitted.User{{Name: "F1", Count: 1}, {Name: "F2", Count: 1}}},
		byWhat["fuses: holder for one blade fuse, with leads as thick as its wires"])
	require.Equal(t, "K1", byWhat["relays: relay, 12 V, make contact"].For)
	require.Equal(t, items, buying.List(s.H, s.C, out, reels, nil, nil), "same input, same list")
}

// Barrels are sold by AWG; the sheet's own gauge stands first.
func TestBarrelNames(t *testing.T) {
	for _, c := range []struct {
		sum    unit.SquareMillimetre
		system unit.System
		want   string
	}{
		{3, unit.Metric, "uninsulated barrel 3 mm² (12 AWG)"},
		{3, unit.SAE, "uninsulated barrel 12 AWG (3.31 mm²)"},
		{3, unit.AWG, "uninsulated barrel 12 AWG (3.31 mm²)"},
		{3.25, unit.Metric, "uninsulated barrel 4 mm² (12 AWG)"}, // 12 AWG is 3.31 mm2, 10 AWG 5.26
		{3.75, unit.Metric, "uninsulated barrel 4 mm² (10 AWG)"},
		{2, unit.Metric, "uninsulated barrel 2 mm² (14 AWG)"},
		{7.5, unit.Metric, "uninsulated barrel 10 mm² (8 AWG)"},
		{80, unit.Metric, "uninsulated barrel 3/0 AWG (85 mm²)"}, // no metric size of the table holds it
	} {
		_, awg := rating.SpliceSize([]unit.SquareMillimetre{c.sum})
		require.Equal(t, c.want, barrelText(awg, c.sum, c.system, false))
	}
	require.Contains(t, barrelText("", 200, unit.Metric, false), "bolted joint")
	require.Equal(t, "uninsulated barrel 10 AWG", barrelText("10", 3.55, unit.SAE, true))
}

// NASA-STD-8739.4 9.8.1 wants room on both sides; a bore that just equals a
// limit is taken where no tube has room.
func TestTubeOver(t *testing.T) {
	tube, ok := tubeOver(3.5, 1.2)
	require.True(t, ok)
	require.Equal(t, "4/1 mm, 4:1 adhesive-lined", tube.Name(false), "3:1 has no tube for it")
	tube, ok = tubeOver(52, 13)
	require.True(t, ok, "the limits of the widest tube themselves")
	require.Equal(t, "52/13 mm, 4:1 adhesive-lined", tube.Name(false))
	require.Equal(t, "2 in, 4:1 adhesive-lined", tube.Name(true))
	_, ok = tubeOver(53, 13)
	require.False(t, ok)
	_, ok = tubeOver(20, 1)
	require.False(t, ok)
}

// The tube passes over the barrel that the sheet names, not over one just large enough: 6.5 mm² go into one for
// 10 mm². Barrels beyond the table of short ones are as long as those of lugs. How wide a barrel is for its copper (filled
// to 75 %, a third of its bore thicker and 1 mm) and how long are common practice, no source; the tubes' bores
// AMS-DTL-23053/4 class 3 as a maker's catalogue has them.
func TestTheTubePassesTheBarrel(t *testing.T) {
	for _, c := range []struct {
		sum    unit.SquareMillimetre
		awg    string
		system unit.System
		area   unit.SquareMillimetre
	}{
		{6.5, "8", unit.Metric, 10}, {2.5, "12", unit.Metric, 3.31}, {6.5, "8", unit.AWG, 8.37}, {200, "", unit.Metric, 200},
	} {
		require.InDelta(t, float64(c.area), float64(barrelArea(c.awg, c.sum, c.system, false)), 0.01)
	}
	require.Equal(t, []unit.Millimetre{6, 11, 11}, []unit.Millimetre{barrelStrip(6), barrelStrip(6.1), barrelStrip(6.5)})
	s := shed.New()
	s.Part("S1", harness.Splice)
	s.Part("K1", harness.Relay)
	for i, size := range []string{"3", "1", "1", "0.75", "0.75"} {
		s.Wire(s.At("K1", fmt.Sprint(i)), s.At("S1", ""), shed.MM2(size), 500)
	}
	out, _ := All(s.H, s.Ways, s.C)
	require.Equal(t, "uninsulated barrel 10 mm² (8 AWG)", out.Splices[0].Size)
	require.Equal(t, "9/3 mm, 3:1 adhesive-lined", out.Splices[0].Shrink)
}

// Wires that lead the same way are laid together before any others are: common practice, no source.
func TestWiresThatLeadTheSameWayLieTogether(t *testing.T) {
	s := shed.New()
	s.H.Places = []harness.Place{{ID: 0, Key: "a", Name: "Bulkhead"}, {ID: 1, Key: "b", Name: "Engine"}}
	s.Part("S1", harness.Splice).Place = 0
	s.Part("K1", harness.Relay)
	for i := range 5 {
		w := s.Wire(s.At("K1", fmt.Sprint(i)), s.At("S1", ""), shed.MM2("0.5"), 500)
		s.Ways[w].Places = []harness.PlaceID{0}
		if i == 1 || i == 3 {
			s.Ways[w].Places = []harness.PlaceID{1, 0}
		}
	}
	out, _ := All(s.H, s.Ways, s.C)
	require.Equal(t, "6/2 mm, 3:1 adhesive-lined", out.Splices[0].Shrink)
	require.Equal(t, []harness.WireID{1, 3}, out.Splices[0].Beside)
}

// Five wires of 0.75 mm2 need a barrel over 4 mm wide, and no tube that passes
// it grips one wire of 1.9 mm alone: a second wire is laid beside it (common practice, no source; that a tube
// must pass and grip, NASA-STD-8739.4 change 6, 9.8.1).
func TestWireBesideTheThickest(t *testing.T) {
	s := shed.New()
	s.Part("S1", harness.Splice)
	s.Part("K1", harness.Relay)
	for i := range 5 {
		s.Wire(s.At("K1", fmt.Sprint(i)), s.At("S1", ""), shed.MM2("0.75"), 500)
	}
	over := s.C.Wires[0].Diameter
	_, alone := tubeOver(barrelOver(3.75), over)
	require.False(t, alone)
	out, _ := All(s.H, s.Ways, s.C)
	require.Equal(t, "6/2 mm, 3:1 adhesive-lined", out.Splices[0].Shrink)
	require.Equal(t, []harness.WireID{0, 1}, out.Splices[0].Beside)
}

// Red sleeves begin at 22 gauge, 0.33 mm² by two makers' terminal lists, at 0.5 mm² in their metric range; that a thinner
// wire is stripped to twice the length and folded back is common practice, no source.
func TestFoldedStrands(t *testing.T) {
	s := shed.New()
	s.Part("L1", harness.Lamp)
	s.Part("K1", harness.Relay)
	s.Wire(s.At("K1", "87"), s.At("L1", "+"), shed.MM2("0.35"), 1000)
	s.Wire(s.At("K1", "30"), s.At("L1", "-"), shed.MM2("0.5"), 1000)
	out, _ := All(s.H, s.Ways, s.C)
	require.True(t, out.Ends[0][1].Folded, "thinner than red")
	require.Equal(t, 2*out.Ends[1][1].Strip, out.Ends[0][1].Strip)
	require.False(t, out.Ends[1][1].Folded)
}

// A sealed connector needs a seal on each wire and a plug in each empty cavity of both halves.
func TestSeals(t *testing.T) {
	s := shed.New()
	x := s.Part("X1", harness.Connector)
	x.Sealed, x.Cavities = true, []string{"1", "2"}
	s.Part("K1", harness.Relay)
	for _, name := range []string{"1.in", "1.out", "2.in", "2.out"} {
		id := s.At("X1", name)
		s.H.Parts[s.Parts["X1"]].Terminals = append(s.H.Parts[s.Parts["X1"]].Terminals, id)
	}
	s.Wire(s.At("K1", "87"), s.At("X1", "1.in"), shed.MM2("1"), 500)
	s.Wire(s.At("X1", "1.out"), s.At("K1", "30"), shed.MM2("1"), 500)
	s.H.Places = []harness.Place{{ID: 0, Key: "a", Name: "Engine bay"}, {ID: 1, Key: "b", Name: "Dash"}}
	s.H.Runs = []harness.Run{{ID: 0, From: 0, To: 1, Length: 900, Cover: "braid"}}
	s.Ways[0].Shares = []route.Share{{Run: 0, Length: 500}}
	out, _ := All(s.H, s.Ways, s.C)
	count := map[string]float64{}
	covers := ""
	for _, i := range buying.List(s.H, s.C, out, nil, nil, nil) {
		count[i.What] = i.Count
		if i.Group == "cover" {
			covers += i.For
		}
	}
	require.Equal(t, 2.0, count["wire seal for 1 mm²"])
	require.Equal(t, 2.0, count["plug for an empty cavity"])
	for _, i := range buying.List(s.H, s.C, out, nil, []harness.KeptState{harness.Built}, nil) {
		if i.What == "wire seal for 1 mm²" {
			require.Equal(t, 1.0, i.Count, "a built wire has its own")
		}
	}
	require.Equal(t, 4.0, count["crimp contact, open barrel, 1 mm²"], "two of them are pulled")
	require.Equal(t, "Engine bay – Dash", covers, "places by their plain names")
}

// TestFittingText: on an imperial sheet a receptacle goes by its inch width
// (IEC 61210 pairs 6.3 mm with 0.250 in; the pair from memory).
func TestFittingText(t *testing.T) {
	require.Equal(t, "6.3 mm female spade", fittingText(joint.Joint{Fitting: "receptacle", Size: "6.3"}, false))
	require.Equal(t, "0.250 in female spade", fittingText(joint.Joint{Fitting: "receptacle", Size: "6.3"}, true))
	require.Equal(t, "3/8 in ring", fittingText(joint.Joint{Fitting: "ring", Size: "3/8"}, true))
}

// looms is n wires of one outside diameter in one run, from part A to part B.
func looms(n int, mm unit.Millimetre) *shed.Shed {
	s := shed.New()
	s.H.Places = []harness.Place{{ID: 0, Key: "a", Name: "engine bay"}, {ID: 1, Key: "b", Name: "dash"}}
	s.H.Runs = []harness.Run{{ID: 0, From: 0, To: 1, Length: 900}}
	s.Part("A", harness.Battery)
	s.Part("B", harness.Relay)
	for i := range n {
		w := s.Wire(s.At("A", fmt.Sprint(i)), s.At("B", fmt.Sprint(i)), shed.MM2("1"), 1000)
		s.C.Wires[w].Diameter = mm
		s.Ways[w].Shares = []route.Share{{Run: 0, Length: 900}}
		s.Ways[w].Places = []harness.PlaceID{0, 1}
	}
	return s
}
