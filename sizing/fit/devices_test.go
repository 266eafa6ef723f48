package fit

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// A diode is bought by the most that it carries in any state, a resistor by its ohms and the heat in it, I²R: 0.5 A in
// 12 ohm is 3 W.
func TestDevicesAreBoughtByWhatTheyCarry(t *testing.T) {
	s := newShed()
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
		part := s.part(p.ref, p.kind)
		part.Terminals = []harness.TerminalID{s.at(p.ref, "1")}
		part.Elements = []harness.ElementID{harness.ElementID(i)}
		p.e.ID, p.e.Part, p.e.Name, p.e.A = harness.ElementID(i), part.ID, p.ref, s.at(p.ref, "1")
		s.h.Elements = append(s.h.Elements, p.e)
	}
	volts := make([]float64, len(s.h.Terminals))
	s.c.States = []network.State{{Name: "on", Amps: []float64{-3.2, 0.5, 0, 0}, Volts: volts}, {Name: "less", Amps: []float64{1, -0.2, 0, 0}, Volts: volts}}
	got := s.bought()
	for what, ref := range map[string]string{
		"diode that carries 3.2 A": "D1", "resistor 12 Ω for 3 W at least": "R1", "capacitor for 12 V": "C1", "stud on an insulated foot": "PP",
	} {
		require.Equal(t, ref, got[what].For, "%s in %v", what, got)
		require.Equal(t, 1.0, got[what].Count)
	}
}

// What turns on and off by hand or by itself.
func TestControlsAreNamed(t *testing.T) {
	s := newShed()
	s.part("ISO", harness.Isolator)
	s.part("IGN", harness.IgnitionSwitch).Positions = []string{"off", "run", "start"}
	s.part("FL", harness.Flasher)
	horn := s.part("HB", harness.Switch)
	horn.Positions, horn.Momentary = []string{"off", "on"}, true
	horn.Terminals = []harness.TerminalID{s.at("HB", "1"), s.at("HB", "2")}
	got := s.bought()
	for what, ref := range map[string]string{
		"isolator": "ISO", "ignition switch, 3 positions": "IGN", "flasher, 12 V": "FL", "switch, 2 positions, 2 terminals, springs back": "HB",
	} {
		require.Equal(t, ref, got[what].For, "%s in %v", what, got)
	}
}

// A panel's spare fuses as it names them; one of each other rating (common practice, no source). Colours by ISO 8820-3, two
// published lists; an unknown rating has none.
func TestSpareFuses(t *testing.T) {
	s := newShed()
	p := s.part("FP", harness.FusePanel)
	p.Panel = &harness.Panel{Spare: []string{"10 A", "10 A", "30 A"}, Layout: [][]string{{"1", "2"}}}
	s.c.Fuses = []choose.Fuse{
		{Name: "FP.1", Part: p.ID, Position: "1", Body: "blade", Rating: 10, BodyColour: "red", Feeds: []string{"L1"}},
		{Name: "FP.2", Part: p.ID, Position: "2", Body: "blade", Rating: 15, BodyColour: "blue", Feeds: []string{"L1"}},
	}
	got := s.bought()
	for what, count := range map[string]float64{"blade fuse 10 A, red": 3, "blade fuse 15 A, blue": 2, "blade fuse 30 A, green": 1} {
		require.Equal(t, count, got[what].Count, what)
	}
	require.Equal(t, "2 spare, FP.1", got["blade fuse 10 A, red"].For)
	require.Equal(t, "maxi fuse 40 A, orange", fuseItem("maxi", 40), "DIN 72581-3, a published extract")
	require.Equal(t, "maxi fuse 25 A", fuseItem("maxi", 25), "no agreed colour: the number alone")
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
	s.h.Places = []harness.Place{{Surface: "coated"}}
	g := &s.h.Parts[s.parts["G1"]]
	g.Surface, g.Place = "", 0
	out, _ := All(s.h, s.ways, s.c)
	require.Equal(t, "coated", out.Grounds[0].Surface, "its place's")
	g.Place = harness.None
	out, _ = All(s.h, s.ways, s.c)
	require.Equal(t, "bare", out.Grounds[0].Surface)
}

// The ways of a panel are labelled as they are seen, with what they feed in plain words; a free way has no label.
func TestPanelLabels(t *testing.T) {
	s := newShed()
	p := s.part("FP", harness.FusePanel)
	p.Panel = &harness.Panel{Layout: [][]string{{"2", "1"}, {"3"}}}
	lamp := s.part("L1", harness.Lamp)
	lamp.Name = "Dip lamp left"
	s.h.Elements = []harness.Element{{ID: 0, Part: lamp.ID, Kind: harness.Load, Name: "L1"}, {ID: 1, Part: lamp.ID, Kind: harness.Load, Name: "L1.b"}}
	s.c.Fuses = []choose.Fuse{
		{Part: p.ID, Position: "1", Body: "blade", Rating: 10, Feeds: []string{"L1", "L1.b"}},
		{Part: p.ID, Position: "2", Body: "mini", Rating: 7.5, Wires: []harness.WireID{0}},
		{Part: p.ID, Position: "3", Body: "blade", Rating: 15},
	}
	labels := panelLabels(s.h, &s.c, &s.h.Parts[p.ID])
	require.Len(t, labels, 2, "3 is free")
	require.Equal(t, [2]string{"2  7.5 A", "1  10 A"}, [2]string{labels[0].Name, labels[1].Name})
	require.Equal(t, [2]string{"", "Dip lamp left"}, [2]string{labels[0].Plain, labels[1].Plain}, "a part is named once")
	blade, mini := rating.Pitch("blade"), rating.Pitch("mini")
	require.Equal(t, [2]unit.Millimetre{mini, blade}, [2]unit.Millimetre{labels[0].Long, labels[1].Long}, "as long as the ways stand apart")
	s.h.Practice.Labels.Pitch = 17
	require.Equal(t, unit.Millimetre(17), panelLabels(s.h, &s.c, &s.h.Parts[p.ID])[0].Long)
}

// Whether one of the shop's labels serves a wire, worked by hand: half the way round a wire of 3 mm is 4.71 mm; a label 20 mm high
// with 1 mm for a flag's band round a wire of 1 mm (3.1 mm) leaves two faces of 7.65 mm after 0.8 mm of edge; a sleeve 6 mm wide flat has a bore of
// 3.82 mm and grips down to half of it.
func TestMarkersOnTheShopsLabels(t *testing.T) {
	for _, c := range []struct {
		wish        string
		high, clear unit.Millimetre
		wire        unit.Millimetre
		as          string
		face        float64
		ok          bool
	}{
		{"", 20, 0, 3, Wrap, 4.71, true},
		{"", 20, 0, 20, Wrap, 9.2, true},   // half the label less its edge
		{"", 40, 0, 20, Wrap, 10, true},    // a patch on a thick cable
		{"", 20, 0, 1, Flag, 7.65, true},   // 1.57 mm round it holds no capitals of 2 mm
		{"", 20, 12, 1, Flag, 1.65, false}, // too little is printed
		{Flag, 20, 0, 3, Flag, 4.5, true},
		{Sleeve, 6, 0, 3, Sleeve, 6, true},
		{Sleeve, 6, 0, 4, Sleeve, 6, false},   // it does not go over
		{Sleeve, 6, 0, 1.8, Sleeve, 6, false}, // shrunk to half its bore it is still loose
	} {
		as, face, ok := MadeOn(&harness.LabelSheet{High: c.high, Clear: c.clear}, c.wish, c.wire)
		require.Equal(t, c.as, as, "%+v", c)
		require.InDelta(t, c.face, float64(face), 0.01, "%+v", c)
		require.Equal(t, c.ok, ok, "%+v", c)
	}
}

// From which length a wire is cut is said only where there is more than one, or one from the shelf.
func TestWhereACutIsFrom(t *testing.T) {
	left, fresh := Cut{Shelf: true, Wires: []harness.WireID{1}}, Cut{Wires: []harness.WireID{2, 3}}
	for _, c := range []struct {
		cuts []Cut
		want []string
	}{
		{[]Cut{fresh}, []string{""}},
		{[]Cut{left}, []string{"left-over"}},
		{[]Cut{left, fresh}, []string{"left-over", "new"}},
		{[]Cut{left, left, fresh, fresh}, []string{"left-over 1", "left-over 2", "new 1", "new 2"}},
	} {
		r := Reel{Cuts: c.cuts}
		for i, want := range c.want {
			require.Equal(t, want, r.Source(i))
		}
	}
	r := Reel{Cuts: []Cut{left, fresh}}
	require.Equal(t, []int{0, 1, 1, -1}, []int{r.CutOf(1), r.CutOf(2), r.CutOf(3), r.CutOf(4)})
}

// A cable is bought by the whole metre (foot) with the practice's spare, sheath and all; what is built is not.
func TestCablesAreBoughtByTheMetre(t *testing.T) {
	tow := &harness.CableType{
		Name: "tow", Diameter: 9, Screened: true,
		Cores: []harness.Core{{Mark: "1 (L)", Size: mm2("1.5"), Base: "YE"}, {Mark: "2", Size: mm2("2.5"), Base: "WH", Tracer: "BU"}, {Mark: "3", Size: mm2("1.5")}},
	}
	require.Equal(t, "tow, 3 cores 1.5 mm² and 2.5 mm², 9 mm across, screened", CableName(tow, false))
	require.Equal(t, "tow, 3 cores 1.5 mm² and 2.5 mm², 0.35 in across, screened", CableName(tow, true))
	require.Equal(t, []string{"1 (L) YE", "2 WH/BU"}, []string{CoreName(&tow.Cores[0]), CoreName(&tow.Cores[1])})

	h := &harness.Harness{Practice: harness.Practice{Spare: 0.1, CableTypes: []harness.CableType{*tow, {Name: "unused"}}}, Wires: make([]harness.Wire, 3)}
	for i := range 3 {
		h.Units = append(h.Units, harness.Unit{ID: harness.UnitID(i), Kind: harness.Cabled, Name: string(rune('p' + i)), Type: tow, Wires: []harness.WireID{harness.WireID(i)}})
	}
	units := []Unit{{Unit: 0, Length: 3200}, {Unit: 1, Length: 1400}, {Unit: 2, Length: 900}}
	for _, c := range []struct {
		imperial  bool
		kept      []harness.KeptState
		need, buy unit.Millimetre
		built     int
	}{
		{false, nil, 5500, 7000, 0},                                        // 6.05 m up
		{true, nil, 5500, 20 * 304.8, 0},                                   // 19.85 ft up
		{false, []harness.KeptState{harness.Built, "", ""}, 2300, 3000, 1}, // 2.53 m up
	} {
		h.Sheet.Imperial = c.imperial
		got := Cables(h, units, c.kept)
		require.Len(t, got, 1)
		require.Equal(t, c.need, got[0].Need)
		require.InDelta(t, float64(c.buy), float64(got[0].Buy), 1e-9)
		require.Equal(t, [2]int{c.built, 3 - c.built}, [2]int{got[0].Built, got[0].ToCut()})
	}
}

// A screen is bought for the wires that it goes over, its wall apart.
func TestScreensAreBoughtForTheirWires(t *testing.T) {
	h := &harness.Harness{Practice: harness.Practice{ScreenWall: 0.8}}
	require.Equal(t, "screening braid with jacket, over wires of 3.2 mm", ScreenName(&Unit{Screen: "braid", Diameter: 4.8}, h))
	require.Equal(t, "screening foil with drain and jacket, over wires of 3.3 mm", ScreenName(&Unit{Screen: "foil", Diameter: 4.86}, h))
	open := Unit{Drains: []Drain{{End: 1}}}
	require.Equal(t, [2]bool{true, false}, [2]bool{open.Open(0), open.Open(1)}, "insulated where no drain is")
}
