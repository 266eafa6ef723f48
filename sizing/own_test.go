package sizing_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/change"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
)

// horn is a new horn relay in an old loom: panel, button and lamps are the vehicle's own.
const horn = `loomfolio: 1
title: Kestrel Roadster, horn relay
system: {volts: 12}
places: {tray: {tail: 100 mm}, dash: {tail: 150 mm}, nose: {tail: 200 mm}}
runs: [{from: tray, to: dash, length: 2 m}, {from: dash, to: nose, length: 1.5 m}]
parts:
  BAT: {kind: battery, at: tray, capacity: 60 Ah}
  MF: {kind: fuse, at: tray, existing: true, body: bolt, rating: 60 A}
  FP: {kind: fuse-panel, at: dash, existing: true, body: blade, layout: [[1, 2, 3]], feeds: {in: [1, 2, 3]}, fuses: {1: 10 A}, spare: [10 A]}
  SW: {kind: switch, at: dash, existing: true, rating: 16 A, positions: {off: [], on: [[1, 2]]}}
  HB: {kind: switch, at: dash, existing: true, momentary: true, rating: 5 A, positions: {off: [], on: [[1, 2]]}}
  X1: {kind: connector, at: nose, existing: true, cavities: 4}
  K1: {kind: relay, at: nose}
  L1: {kind: lamp, at: nose, draws: 5 W, grounds: body}
  L2: {kind: lamp, at: nose, draws: 5 W, grounds: body}
  H: {kind: horn, at: nose, draws: 6 A, grounds: body}
  S1: {kind: splice, at: nose}
  G1: {kind: ground, at: nose, existing: true}
circuits:
  supply: {number: 1, existing: true, legs: [[BAT.+, {to: MF, length: 120 mm, gauge: 16 mm2}, {to: FP.in, gauge: 16 mm2, colour: BN}]]}
  side: {number: 2, existing: true, legs: [[FP.1, {to: SW, gauge: 1 mm2, found: RD/WH}, {to: S1, gauge: 1 mm2}, {to: X1.1, gauge: 1 mm2}, {to: L1, gauge: 1 mm2}], [S1, {to: L2, gauge: 1 mm2}]]}
  horn: {number: 3, legs: [[FP.3, K1.30, K1.87, H], [FP.3, {to: HB, existing: true, gauge: 1 mm2, colour: BU}, K1.86, K1.85, G1]]}
states: {parked: {}, lit: {SW: "on"}, horn: {HB: "on"}}
`

// TestTheVehiclesOwnIsNeitherBoughtNorMade counts by hand: new are 3A (FP.3 to K1.30), 3B (K1.87 to H), 3D (HB to K1.86) and
// 3N (K1.85 to G1), the relay, and the fuse in position 3.
func TestTheVehiclesOwnIsNeitherBoughtNorMade(t *testing.T) {
	for _, as := range worked.Bought() {
		h, r, found := workedOut(t, horn, as)
		require.Empty(t, grave(found), listed(found))
		var made, own []string
		length := 0.0
		for i := range h.Wires {
			if h.Wires[i].Existing {
				own = append(own, h.Wires[i].Name)
				continue
			}
			made, length = append(made, h.Wires[i].Name), length+float64(r.Ways[i].Length)
		}
		require.Equal(t, []string{"3A", "3B", "3D", "3N"}, made)
		require.Len(t, own, 8)
		var cut []string
		need := 0.0
		for _, reel := range r.Reels {
			need += float64(reel.Need)
			for _, w := range reel.Wires {
				cut = append(cut, h.Wires[w].Name)
			}
		}
		slices.Sort(cut)
		require.Equal(t, made, cut, "on reels")
		require.InDelta(t, length, need, 1e-9)
		for _, l := range r.Labels {
			if l.Kind == fitted.WireLabel {
				require.Contains(t, made, l.Name)
			} else {
				require.Equal(t, "K1", h.Parts[l.Part].Ref, "what is labelled")
			}
		}
		text := ""
		fuses := 0.0
		for _, item := range r.Shopping {
			text += item.Group + ": " + item.What + "\n"
			if item.Group == "fuses" {
				fuses += item.Count
			}
		}
		require.Equal(t, 2.0, fuses, "the fuse in position 3 and one to spare:\n%s", text)
		for _, never := range []string{"panel", "switch,", "connector pair", "nut", "splice,", "bolt fuse", "M8", "housing"} {
			require.NotContains(t, text, never)
		}
		require.Contains(t, text, "relay, 12 V, make contact")
		crimps := 0
		for w := range r.Ends {
			for _, e := range r.Ends[w] {
				if h.Wires[w].Existing {
					require.Equal(t, fitted.AsFound, e.Crimp)
					continue
				}
				crimps++
				require.True(t, e.ToMake())
			}
		}
		require.Equal(t, 8, crimps)
		record := change.Freeze(h, r, nil, nil)
		require.Len(t, record.Wires, 4)
		require.Len(t, record.Fuses, 1)
		require.Equal(t, "FP.3", record.Fuses[0].Name)
	}
}

// TestAnOwnColourIsNotMadeUp: a colour is that which is said, as colour or as found, else none.
func TestAnOwnColourIsNotMadeUp(t *testing.T) {
	h, r, _ := workedOut(t, horn, "few")
	for name, pair := range map[string]string{"1A": "", "1B": "BN", "2A": "RD/WH", "2B": "", "3C": "BU"} {
		require.Equal(t, pair, r.Colours[wire(t, h, name)].Pair.String(), name)
	}
	for _, p := range r.Purchase.Pairs {
		for _, w := range []harness.WireID{p.A, p.B} {
			require.False(t, h.Wires[w].NoColour(), "nothing is told from %s by its colour", h.Wires[w].Name)
		}
	}
}

// TestBodyByHand: a horn of 6 A on 12.6 V behind given wires, its body on 5 mΩ: by Ohm's law its body stands 6 A × (5 mΩ + 1 mΩ of the
// battery's lead) above the post, and 0.5 mA × … is nothing beside it.
func TestBodyByHand(t *testing.T) {
	const text = `loomfolio: 1
title: Kestrel Roadster, horn
system: {volts: 12}
parts:
  BAT: {kind: battery, capacity: 60 Ah}
  F1: {kind: fuse, rating: 10 A}
  HB: {kind: switch, rating: 20 A, momentary: true, positions: {off: [], on: [[1, 2]]}}
  H: {kind: horn, draws: 6 A, grounds: {body: "-", joint: 5 mohm}}
circuits:
  horn: {number: 1, legs: [[BAT.+, {to: F1, length: 100 mm}, {to: HB, length: 1 m}, {to: H, length: 1 m}]]}
states: {parked: {}, horn: {HB: "on"}}
`
	_, r, found := workedOut(t, text, "clear")
	require.Empty(t, grave(found), listed(found))
	require.Len(t, r.Bodies, 1)
	b := r.Bodies[0]
	require.InDelta(t, 6, float64(b.Amps), 1e-6)
	require.InDelta(t, 6*0.006, float64(b.Lift), 1e-6)
	require.Equal(t, "painted", b.Surface)
	require.Contains(t, b.Washer, "star washer")
}

// TestBodyGroundEqualsTheSameJointAsAGround: a part that its body grounds is solved as one on a ground of the same
// resistance by a wire of none.
func TestBodyGroundEqualsTheSameJointAsAGround(t *testing.T) {
	h, r, _ := workedOut(t, horn, "clear")
	for i := range h.Parts {
		p := &h.Parts[i]
		if !p.BodyGround {
			continue
		}
		e := h.Elements[p.BodyJoint]
		for s := range r.States {
			st := &r.States[s]
			through := 0.0
			for _, id := range p.Elements {
				if h.Elements[id].Kind == harness.Load {
					through += st.Amps[id]
				}
			}
			require.InDelta(t, through, st.Amps[e.ID], 1e-9, "%s in %s", p.Ref, st.Name)
			require.InDelta(t, through*float64(e.Ohms), st.Volts[e.A]-st.Volts[harness.Chassis], 1e-9)
		}
		want := 0.001 // a horn on its bracket
		if p.Kind == harness.Lamp {
			want = 0.02
		}
		require.InDelta(t, want, float64(e.Ohms), 1e-12)
	}
}

// TestAStrapIsNotRelieved: saying grounds: body of a starter beside its strap changes no figure.
func TestAStrapIsNotRelieved(t *testing.T) {
	const text = `loomfolio: 1
title: Kestrel Roadster, starter
system: {volts: 12}
parts:
  BAT: {kind: battery, capacity: 60 Ah}
  ST: {kind: starter, draws: 180 A}
  F1: {kind: fuse}
  SB: {kind: switch, rating: 30 A, momentary: true, positions: {off: [], on: [[1, 2]]}}
  G1: {kind: ground}
  G2: {kind: ground}
circuits:
  start: {number: 1, legs: [[BAT.+, {to: ST.30, length: 1 m}], [ST.case, {to: G1, length: 400 mm}], [BAT.-, {to: G2, length: 400 mm}]]}
  button: {number: 2, legs: [[BAT.+, {to: F1, length: 100 mm}, {to: SB, length: 1 m}, {to: ST.50, length: 1 m}]]}
states: {parked: {}, cranking: {SB: "on", engine: cranking}}
`
	_, plain, _ := workedOut(t, text, "clear")
	_, said, found := workedOut(t, strings.Replace(text, "draws: 180 A", "draws: 180 A, grounds: body", 1), "clear")
	require.Empty(t, grave(found), listed(found))
	for w := range plain.Wires {
		require.Equal(t, plain.Wires[w].Gauge, said.Wires[w].Gauge)
		require.InDelta(t, float64(plain.Wires[w].Amps), float64(said.Wires[w].Amps), 1e-9)
	}
}

// TestWhatIsExistingCarriesWhatItWould: marking sized wires as existing, with their sizes, changes no current and no drop.
func TestWhatIsExistingCarriesWhatItWould(t *testing.T) {
	h, r, _ := workedOut(t, horn, "clear")
	all := *h
	all.Wires = slices.Clone(h.Wires)
	for i := range all.Wires {
		all.Wires[i].Existing, all.Wires[i].Gauge = true, r.Wires[i].Gauge
	}
	own, err := sizing.Size(worked.Buying(&all, "clear"), nil)
	require.NoError(t, err)
	require.Empty(t, own.Reels)
	for w := range r.Wires {
		require.False(t, math.Abs(float64(r.Wires[w].Amps-own.Wires[w].Amps)) > 1e-9)
		require.InDelta(t, float64(r.Wires[w].Drop), float64(own.Wires[w].Drop), 1e-9)
	}
	for i := range r.Loads {
		require.InDelta(t, float64(r.Loads[i].Volts), float64(own.Loads[i].Volts), 1e-9)
	}
}
