package fit

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/fit/buying"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/fit/shed"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
)

// bought is the list of a shed by what each line says.
func bought(s *shed.Shed) map[string]fitted.Item {
	out, _ := All(s.H, s.Ways, s.C)
	byWhat := map[string]fitted.Item{}
	for _, i := range buying.List(s.H, s.C, out, nil, nil, nil) {
		byWhat[i.What] = i
	}
	return byWhat
}

// TestStrapsBarsAndCaps: a strap is bought by section, length and hole; a bar by
// its studs; the unused 87a of a changeover relay takes a cap, a wired one none.
func TestStrapsBarsAndCaps(t *testing.T) {
	s := shed.New()
	strap := s.Part("ES", harness.Strap)
	strap.Size, strap.Length, strap.Stud = shed.MM2("25"), 320, "M8"
	s.At("ES", "1")
	strap.Terminals = append(strap.Terminals, s.At("ES", "1"))
	bar := s.Part("GB", harness.Bus)
	bar.Studs, bar.Stud, bar.PartNumber = 6, "M5", "77"
	for _, ref := range []string{"K1", "K2"} {
		k := s.Part(ref, harness.Relay)
		k.Changeover = true
		id := s.At(ref, "87a")
		s.H.Parts[s.Parts[ref]].Terminals = append(s.H.Parts[s.Parts[ref]].Terminals, id)
	}
	s.Wire(s.At("K1", "87a"), s.At("GB", "1"), shed.MM2("1"), 500)
	got := bought(s)
	require.Equal(t, "ES", got["braid strap, 25 mm², 320 mm long, holes for M8"].For)
	require.Equal(t, 1.0, got["bus bar, 6 studs M5, No. 77"].Count)
	require.Equal(t, "K2", got["insulating cap for the unused tab 87a of a relay"].For)
}

// TestBootsOnLiveStuds: 33 CFR 183.445 wants what is live and unfused covered: the
// battery's live post, not the earthed one, and nothing behind a fuse.
func TestBootsOnLiveStuds(t *testing.T) {
	s := shed.New()
	for ref, kind := range map[string]harness.Kind{"BAT": harness.Battery, "ISO": harness.Isolator} {
		s.Part(ref, kind)
	}
	s.Wire(s.At("BAT", "+"), s.At("ISO", "1"), shed.MM2("25"), 500)
	s.Wire(s.At("BAT", "-"), harness.Chassis, shed.MM2("25"), 500)
	s.Wire(s.At("ISO", "2"), s.At("ISO", "1"), shed.MM2("25"), 500)
	s.H.System.Volts = 12
	s.C.Wires[2].ProtectedBy = "F1"
	volts := make([]float64, len(s.H.Terminals))
	volts[s.At("BAT", "+")], volts[s.At("ISO", "1")], volts[s.At("ISO", "2")], volts[s.At("BAT", "-")] = 12.6, 12.6, 12.6, 0.1
	s.C.States = []network.State{{Name: "parked", Volts: volts}}
	out, _ := All(s.H, s.Ways, s.C)
	require.Equal(t, []bool{true, true, false, false, false, false},
		[]bool{out.Ends[0][0].Boot, out.Ends[0][1].Boot, out.Ends[1][0].Boot, out.Ends[1][1].Boot, out.Ends[2][0].Boot, out.Ends[2][1].Boot})
}

// TestContactsAreBoughtForTheirLoads: 12 A carried and 20 A wanted for a lamp's inrush
// (FAA AC 43.13-1B table 11-4) is a contact of 20 A; a given rating is bought as it is.
// A price for the text without the rating serves, the one with it goes before.
func TestContactsAreBoughtForTheirLoads(t *testing.T) {
	s := shed.New()
	for _, ref := range []string{"SW", "SV", "SX"} {
		p := s.Part(ref, harness.Switch)
		p.Positions = []string{"off", "on"}
		p.Terminals = []harness.TerminalID{s.At(ref, "1"), s.At(ref, "2")}
	}
	s.H.Parts[s.Parts["SV"]].Rating = 6
	s.C.Contacts = []chosen.Contact{
		{Part: s.Parts["SW"], Amps: 12, Wants: 16.5}, {Part: s.Parts["SW"], Amps: 2},
		{Part: s.Parts["SV"], Amps: 2, Wants: 4, Rating: 6}, {Part: s.Parts["SX"], Amps: 0.01},
	}
	got := bought(s)
	const plain = "switch, 2 positions, 2 terminals"
	require.Equal(t, "SW", got[plain+", at least 20 A"].For)
	require.Equal(t, "SV", got[plain+", 6 A"].For)
	require.Equal(t, "SX", got[plain+", at least 1 A"].For)

	s.H.Practice.Prices = []harness.Price{{Item: plain, Each: 4}, {Item: plain + ", at least 20 A", Each: 7}, {Item: "switches", Each: 1}}
	got = bought(s)
	require.Equal(t, []float64{7, 1, 4}, []float64{got[plain+", at least 20 A"].Sum, got[plain+", 6 A"].Sum, got[plain+", at least 1 A"].Sum})
}

// Four named stops on two studs: which rings share one is for the description to say.
func TestABarWithMoreNamesThanStuds(t *testing.T) {
	for studs, advised := range map[int]bool{0: false, 2: true, 4: false} {
		s := shed.New()
		s.Part("PP", harness.Bus).Studs = studs
		s.H.Parts[s.Parts["PP"]].Terminals = []harness.TerminalID{s.At("PP", "in"), s.At("PP", "alt"), s.At("PP", "box"), s.At("PP", "panel")}
		_, problems := All(s.H, s.Ways, s.C)
		require.Equal(t, advised, len(problems) > 0, studs)
		if advised {
			require.Equal(t, "more-names-than-studs", problems[0].Slug)
			require.Contains(t, problems[0].Summary, "PP has 2 studs, and its stops name 4: in, alt, box, panel")
		}
	}
}
