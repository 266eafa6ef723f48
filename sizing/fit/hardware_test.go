package fit

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/fit/buying"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
)

// bought is the list of a shed by what each line says.
func (s *shed) bought() map[string]fitted.Item {
	out, _ := All(s.h, s.ways, s.c)
	byWhat := map[string]fitted.Item{}
	for _, i := range buying.List(s.h, s.c, out, nil, nil, nil) {
		byWhat[i.What] = i
	}
	return byWhat
}

// TestStrapsBarsAndCaps: a strap is bought by section, length and hole; a bar by
// its studs; the unused 87a of a changeover relay takes a cap, a wired one none.
func TestStrapsBarsAndCaps(t *testing.T) {
	s := newShed()
	strap := s.part("ES", harness.Strap)
	strap.Size, strap.Length, strap.Stud = mm2("25"), 320, "M8"
	s.at("ES", "1")
	strap.Terminals = append(strap.Terminals, s.at("ES", "1"))
	bar := s.part("GB", harness.Bus)
	bar.Studs, bar.Stud, bar.PartNumber = 6, "M5", "77"
	for _, ref := range []string{"K1", "K2"} {
		k := s.part(ref, harness.Relay)
		k.Changeover = true
		id := s.at(ref, "87a")
		s.h.Parts[s.parts[ref]].Terminals = append(s.h.Parts[s.parts[ref]].Terminals, id)
	}
	s.wire(s.at("K1", "87a"), s.at("GB", "1"), mm2("1"), 500)
	got := s.bought()
	require.Equal(t, "ES", got["braid strap, 25 mm², 320 mm long, holes for M8"].For)
	require.Equal(t, 1.0, got["bus bar, 6 studs M5, No. 77"].Count)
	require.Equal(t, "K2", got["insulating cap for the unused tab 87a of a relay"].For)
}

// TestBootsOnLiveStuds: 33 CFR 183.445 wants what is live and unfused covered: the
// battery's live post, not the earthed one, and nothing behind a fuse.
func TestBootsOnLiveStuds(t *testing.T) {
	s := newShed()
	for ref, kind := range map[string]harness.Kind{"BAT": harness.Battery, "ISO": harness.Isolator} {
		s.part(ref, kind)
	}
	s.wire(s.at("BAT", "+"), s.at("ISO", "1"), mm2("25"), 500)
	s.wire(s.at("BAT", "-"), harness.Chassis, mm2("25"), 500)
	s.wire(s.at("ISO", "2"), s.at("ISO", "1"), mm2("25"), 500)
	s.h.System.Volts = 12
	s.c.Wires[2].ProtectedBy = "F1"
	volts := make([]float64, len(s.h.Terminals))
	volts[s.at("BAT", "+")], volts[s.at("ISO", "1")], volts[s.at("ISO", "2")], volts[s.at("BAT", "-")] = 12.6, 12.6, 12.6, 0.1
	s.c.States = []network.State{{Name: "parked", Volts: volts}}
	out, _ := All(s.h, s.ways, s.c)
	require.Equal(t, []bool{true, true, false, false, false, false},
		[]bool{out.Ends[0][0].Boot, out.Ends[0][1].Boot, out.Ends[1][0].Boot, out.Ends[1][1].Boot, out.Ends[2][0].Boot, out.Ends[2][1].Boot})
}

// TestContactsAreBoughtForTheirLoads: 12 A carried and 20 A wanted for a lamp's inrush
// (FAA AC 43.13-1B table 11-4) is a contact of 20 A; a given rating is bought as it is.
// A price for the text without the rating serves, the one with it goes before.
func TestContactsAreBoughtForTheirLoads(t *testing.T) {
	s := newShed()
	for _, ref := range []string{"SW", "SV", "SX"} {
		p := s.part(ref, harness.Switch)
		p.Positions = []string{"off", "on"}
		p.Terminals = []harness.TerminalID{s.at(ref, "1"), s.at(ref, "2")}
	}
	s.h.Parts[s.parts["SV"]].Rating = 6
	s.c.Contacts = []chosen.Contact{
		{Part: s.parts["SW"], Amps: 12, Wants: 16.5}, {Part: s.parts["SW"], Amps: 2},
		{Part: s.parts["SV"], Amps: 2, Wants: 4, Rating: 6}, {Part: s.parts["SX"], Amps: 0.01},
	}
	got := s.bought()
	const plain = "switch, 2 positions, 2 terminals"
	require.Equal(t, "SW", got[plain+", at least 20 A"].For)
	require.Equal(t, "SV", got[plain+", 6 A"].For)
	require.Equal(t, "SX", got[plain+", at least 1 A"].For)

	s.h.Practice.Prices = []harness.Price{{Item: plain, Each: 4}, {Item: plain + ", at least 20 A", Each: 7}, {Item: "switches", Each: 1}}
	got = s.bought()
	require.Equal(t, []float64{7, 1, 4}, []float64{got[plain+", at least 20 A"].Sum, got[plain+", 6 A"].Sum, got[plain+", at least 1 A"].Sum})
}

// Four named stops on two studs: which rings share one is for the description to say.
func TestABarWithMoreNamesThanStuds(t *testing.T) {
	for studs, advised := range map[int]bool{0: false, 2: true, 4: false} {
		s := newShed()
		s.part("PP", harness.Bus).Studs = studs
		s.h.Parts[s.parts["PP"]].Terminals = []harness.TerminalID{s.at("PP", "in"), s.at("PP", "alt"), s.at("PP", "box"), s.at("PP", "panel")}
		_, problems := All(s.h, s.ways, s.c)
		require.Equal(t, advised, len(problems) > 0, studs)
		if advised {
			require.Equal(t, "more-names-than-studs", problems[0].Slug)
			require.Contains(t, problems[0].Summary, "PP has 2 studs, and its stops name 4: in, alt, box, panel")
		}
	}
}
