package fit

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/fit/shed"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
)

// A diode is bought by the most that it carries in any state, a resistor by its ohms and the heat in it, I²R: 0.5 A in
// 12 ohm is 3 W.
func TestDevicesAreBoughtByWhatTheyCarry(t *testing.T) {
	s := shed.New()
	for i, p := range []struct {
		ref  string
		kind harness.Kind
		e    harness.Element
	}{
		{"D1", harness.Diode, harness.Element{Kind: harness.Rectifier}},
		{"R1", harness.Resistor, harness.Element{Kind: harness.Resistance, Ohms: 12}},
		{"C1", harness.Capacitor, harness.Element{Kind: harness.Open}},
		{"PP", harness.Bus, harness.Element{Kind: harness.Join}},
	} {
		part := s.Part(p.ref, p.kind)
		part.Terminals = []harness.TerminalID{s.At(p.ref, "1")}
		part.Elements = []harness.ElementID{harness.ElementID(i)}
		p.e.ID, p.e.Part, p.e.Name, p.e.A = harness.ElementID(i), part.ID, p.ref, s.At(p.ref, "1")
		s.H.Elements = append(s.H.Elements, p.e)
	}
	volts := make([]float64, len(s.H.Terminals))
	s.C.States = []network.State{{Name: "on", Amps: []float64{-3.2, 0.5, 0, 0}, Volts: volts}, {Name: "less", Amps: []float64{1, -0.2, 0, 0}, Volts: volts}}
	got := bought(s)
	for what, ref := range map[string]string{
		"diode that carries 3.2 A": "D1", "resistor 12 Ω for 3 W at least": "R1", "capacitor for 12 V": "C1", "insulated junction stud": "PP",
	} {
		require.Equal(t, ref, got[what].For, "%s in %v", what, got)
		require.Equal(t, 1.0, got[what].Count)
	}
}

// What turns on and off by hand or by itself.
func TestControlsAreNamed(t *testing.T) {
	s := shed.New()
	s.Part("ISO", harness.Isolator)
	s.Part("IGN", harness.IgnitionSwitch).Positions = []string{"off", "run", "start"}
	s.Part("FL", harness.Flasher)
	horn := s.Part("HB", harness.Switch)
	horn.Positions, horn.Momentary = []string{"off", "on"}, true
	horn.Terminals = []harness.TerminalID{s.At("HB", "1"), s.At("HB", "2")}
	got := bought(s)
	for what, ref := range map[string]string{
		"isolator": "ISO", "ignition switch, 3 positions": "IGN", "flasher, 12 V": "FL", "switch, 2 positions, 2 terminals, momentary": "HB",
	} {
		require.Equal(t, ref, got[what].For, "%s in %v", what, got)
	}
}

// A panel's spare fuses as it names them; one of each other rating (common practice, no source). Colours by ISO 8820-3, two
// published lists; an unknown rating has none.
func TestSpareFuses(t *testing.T) {
	s := shed.New()
	p := s.Part("FP", harness.FusePanel)
	p.Panel = &harness.Panel{Spare: []string{"10 A", "10 A", "30 A"}, Layout: [][]string{{"1", "2"}}}
	s.C.Fuses = []chosen.Fuse{
		{Name: "FP.1", Part: p.ID, Position: "1", Body: "blade", Rating: 10, BodyColour: "red", Feeds: []string{"L1"}},
		{Name: "FP.2", Part: p.ID, Position: "2", Body: "blade", Rating: 15, BodyColour: "blue", Feeds: []string{"L1"}},
	}
	got := bought(s)
	for what, count := range map[string]float64{"blade fuse 10 A, red": 3, "blade fuse 15 A, blue": 2, "blade fuse 30 A, green": 1} {
		require.Equal(t, count, got[what].Count, what)
	}
	require.Equal(t, "2 spare, FP.1", got["blade fuse 10 A, red"].For)
}

// Paint, a coat or bare metal under a ground: FAA AC 43.13-1B (1998), 11-189, a toothed washer on what was bared by NEC (2008), 552.10.
func TestSurfacesAreMadeReady(t *testing.T) {
	for surface, want := range map[string][2]string{
		"painted": {"star washer", "scrape the paint off"}, "coated": {"star washer", "grind the coat off"}, "bare": {"spring washer", "brush to bright metal"},
	} {
		washer, prep := preparation(surface)
		require.Contains(t, washer, want[0], surface)
		require.Contains(t, prep, want[1], surface)
	}
	s := groundOf(1)
	s.H.Places = []harness.Place{{Surface: "coated"}}
	g := &s.H.Parts[s.Parts["G1"]]
	g.Surface, g.Place = "", 0
	out, _ := All(s.H, s.Ways, s.C)
	require.Equal(t, "coated", out.Grounds[0].Surface, "its place's")
	g.Place = harness.None
	out, _ = All(s.H, s.Ways, s.C)
	require.Equal(t, "bare", out.Grounds[0].Surface)
}
