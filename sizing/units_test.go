package sizing_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/unit"
)

// towed is a van's tail with a trailer socket behind it: four cores of a cable of seven,
// beside a sensor's twisted and screened pair.
const towed = `loomfolio: 1
title: Trailer cable
system: {volts: 12}
practice:
  cable-types:
    trailer: {colours: iso-1724, diameter: 10.5 mm, class: 70 C}
places: {dash: {tail: 200 mm}, tail: {tail: 150 mm}}
runs: [{from: dash, to: tail, length: 3 m}]
cables: {tow: {type: trailer}}
screens: {probe: {drain: GD}}
parts:
  BAT: {kind: battery, at: dash}
  F1: {kind: fuse, at: dash}
  F2: {kind: fuse, at: dash}
  SW: {kind: switch, at: dash, positions: {off: [], on: [[1, 2], [1, 3]]}}
  TOW: {kind: module, at: tail, inside: [{from: 58L, to: 31, draws: 10 W}, {from: 58R, to: 31, draws: 10 W}, {from: 54, to: 31, draws: 42 W}]}
  GA: {kind: module, at: dash, inside: [{from: 15, to: 31, draws: 0.1 A}, {from: 15, to: p, draws: 5 mA, behaves: resistance}]}
  PRB: {kind: sender, at: tail, draws: 5 mA}
  S1: {kind: splice, at: dash}
  GD: {kind: ground, at: dash}
circuits:
  earth: {number: 1, legs: [[GD, BAT.-]]}
  lamps:
    number: 2
    legs:
      - [BAT.+, F1, SW.1]
      - [SW.2, S1, {to: TOW.58L, cable: tow, core: 58L}, TOW.31, {to: GD, cable: tow, core: WH}]
      - [S1, {to: TOW.58R, cable: tow, core: 5}]
      - [SW.3, {to: TOW.54, cable: tow}]
  probe:
    number: 3
    legs:
      - [BAT.+, F2, GA.15, GA.31, GD]
      - [GA.p, {to: PRB.+, twist: probe, screen: probe}, PRB.-, {to: GA.31, twist: probe, screen: probe}]
`

func nameOf(h *harness.Harness, from, to string) harness.WireID {
	for i := range h.Wires {
		if w := &h.Wires[i]; h.Terminals[w.From].Full == from && h.Terminals[w.To].Full == to {
			return w.ID
		}
	}
	return harness.None
}

func TestCoresAreWhatTheCableSays(t *testing.T) {
	h, r := against(t, towed, nil)
	cable := h.Units[0]
	require.Equal(t, harness.Cabled, cable.Kind)
	for to, want := range map[string]string{"TOW.58L": "1.5 BK", "TOW.58R": "1.5 BN", "TOW.54": "1.5 YE"} { // 54 takes the first free core, 1
		id := nameOf(h, map[string]string{"TOW.58L": "S1", "TOW.58R": "S1", "TOW.54": "SW.3"}[to], to)
		require.Equal(t, want, r.Wires[id].Gauge.Size+" "+r.Colours[id].Pair.String(), to)
		require.Equal(t, "trailer", r.Wires[id].Insulation)
		require.Equal(t, unit.Celsius(70), r.Wires[id].Class)
		require.True(t, r.Colours[id].Given)
	}
	back := nameOf(h, "TOW.31", "GD")
	require.Equal(t, "2.5 WH", r.Wires[back].Gauge.Size+" "+r.Colours[back].Pair.String())
	require.Equal(t, []int{1, 3, 5}, h.Spare(&cable))
	require.NotEqual(t, "BK", r.Colours[nameOf(h, "SW.2", "S1")].Pair.Base, "a core's colour goes no further than the cable")
}

// A cable is cut and bought once; its cores are on no reel. One length for all: the
// longest, (3000 + 200 + 150 + 2·50) · 1.05 = 3622.5, rounded up to 3625.
func TestACableIsBoughtByItself(t *testing.T) {
	h, r := against(t, towed, nil)
	require.Len(t, r.Cables, 1)
	require.Equal(t, unit.Millimetre(3625), r.Cables[0].Need)
	require.Equal(t, unit.Millimetre(4000), r.Cables[0].Buy) // 3.625 m and a tenth is 3.99 m
	for _, reel := range r.Reels {
		require.NotEqual(t, "trailer", reel.Insulation)
	}
	require.Len(t, fitted.Order(h, r.Reels), len(h.Wires))
	for _, it := range r.Shopping {
		if it.Group == "cables" {
			require.Equal(t, "trailer, 7 cores 1.5 mm² and 2.5 mm², 10.5 mm across", it.What)
			require.InDelta(t, 3.7, it.Count, 1e-9)
			require.InDelta(t, 4, it.Buy, 1e-9)
			return
		}
	}
	require.Fail(t, "no cable on the shopping list")
}

// The bundle holds the cable as one circle, and the pair in its screen as another: two
// circles lie side by side in one of the sum of both. 0.5 mm² thin-wall is 1.6 mm, so
// the pair takes 3.2 mm and 0.8 mm of screen all round.
func TestUnitsArePackedAsCircles(t *testing.T) {
	h, r := against(t, towed, nil)
	require.InDelta(t, 3.2+1.6, float64(r.Units[1].Diameter), 1e-9)
	run := r.Runs[0]
	require.Len(t, run.Wires, 6)
	require.Len(t, run.Sheaths, 2)
	require.InDelta(t, 10.5+4.8, float64(run.Diameter), 0.05)
	require.Len(t, run.Section, 6)
	for i, id := range run.Wires {
		in := run.Sheaths[0]
		if h.UnitOf()[id] == 1 {
			in = run.Sheaths[1]
		}
		dx, dy := run.Section[i].X-in.X, run.Section[i].Y-in.Y
		require.LessOrEqual(t, dx*dx+dy*dy, (in.Diameter-run.Section[i].Diameter)*(in.Diameter-run.Section[i].Diameter)/4+1e-6)
	}
}

// A core among others under one sheath carries less than a wire of its own.
func TestCoresWarmEachOther(t *testing.T) {
	h, r := against(t, towed, nil)
	core := r.Wires[nameOf(h, "SW.3", "TOW.54")]
	loose := edited(t, towed, "cables: {tow: {type: trailer}}\n", "", ", {to: TOW.58L, cable: tow, core: 58L}", ", {to: TOW.58L, gauge: 1.5 mm2, insulation: trailer}",
		"{to: GD, cable: tow, core: WH}", "{to: GD, gauge: 2.5 mm2, insulation: trailer, length: 3.6 m, via: []}", "{to: TOW.58R, cable: tow, core: 5}", "{to: TOW.58R, gauge: 1.5 mm2, insulation: trailer, length: 3.6 m, via: []}",
		"{to: TOW.54, cable: tow}", "{to: TOW.54, gauge: 1.5 mm2, insulation: trailer, length: 3.6 m, via: []}")
	h, r = against(t, loose, nil)
	alone := r.Wires[nameOf(h, "SW.3", "TOW.54")]
	require.Equal(t, core.Gauge, alone.Gauge)
	require.Less(t, float64(core.Ampacity), 0.95*float64(alone.Ampacity))
}

// A core that is too thin is found at the cable's name, as a given gauge is.
func TestACoreMayBeTooThin(t *testing.T) {
	thin := edited(t, towed, "trailer: {colours: iso-1724, diameter: 10.5 mm, class: 70 C}", "trailer: {colours: iso-1724, size: 0.25 mm2, diameter: 6 mm, class: 70 C}")
	h, r := against(t, thin, nil)
	id := nameOf(h, "SW.3", "TOW.54")
	p := finding(r, "gauge-given-too-thin", h.Wires[id].Name)
	require.NotNil(t, p)
	require.Equal(t, h.Wires[id].GaugeSpan, p.Span)
	require.Contains(t, p.Detail, "a cable with thicker cores")
}

// The drain goes to a stud with a ring of its own, and the other end is insulated.
func TestAScreenIsEarthedAtOneEnd(t *testing.T) {
	_, r := against(t, towed, nil)
	u := r.Units[1]
	require.Len(t, u.Drains, 1)
	require.Equal(t, 0, u.Drains[0].End)
	require.Equal(t, harness.WireID(harness.None), u.Drains[0].With)
	require.Contains(t, u.Drains[0].Fitting.Fitting, "ring")
	require.False(t, u.Open(0))
	require.True(t, u.Open(1))
	require.Equal(t, u.Length-60, u.ScreenLen) // 30 mm cut back at both ends
	require.NotEmpty(t, u.Boot)
	require.Equal(t, r.Ways[nameOfTwist(r)].Whole, u.Length)
}

func nameOfTwist(r *result.Result) harness.WireID { return r.Units[1].Twists[0].Wires[0] }

// What was frozen is found again: names, cores and lengths stay, and what is built is
// neither cut nor bought.
func TestUnitsAreKept(t *testing.T) {
	before, _ := against(t, towed, nil)
	kept := frozen(t, towed, nil, everything)
	h, r := against(t, towed, kept)
	for i := range h.Wires {
		require.Equal(t, before.Wires[i].Name, h.Wires[i].Name)
		require.Equal(t, harness.Built, r.KeptWire(harness.WireID(i)), h.Wires[i].Name)
	}
	require.Equal(t, 1, r.Cables[0].Built)
	require.Zero(t, r.Cables[0].Buy)
	for _, it := range r.Shopping {
		require.NotContains(t, []string{"wire", "cables"}, it.Group)
		require.NotContains(t, it.What, "screening")
	}
	planned := frozen(t, towed, nil, nothing)
	h, r = against(t, towed, planned)
	require.Equal(t, harness.Planned, r.KeptWire(nameOf(h, "SW.3", "TOW.54")))
}
