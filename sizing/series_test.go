package sizing_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/source"
)

// lorry is a vehicle of 24 V with two batteries in series; with them stand parts and
// legs of its own.
func lorry(parts, legs, states string) string {
	return fmt.Sprintf(`loomfolio: 1
title: Lorry
system: {volts: 24, running: 28.4 V}
parts:
  B1: {kind: battery, capacity: 60 Ah}
  B2: {kind: battery, capacity: 60 Ah}
  F1: {kind: fuse}
  L1: {kind: lamp, draws: 55 W}
  SW: {kind: switch, positions: {off: [], on: [[1, 2]]}}
  G0: {kind: ground, stud: M8}
  G1: {kind: ground}
%s
circuits:
  pack: {number: 1, legs: [[G0, {to: B1.-, length: 300 mm}], [B1.+, {to: B2.-, length: 150 mm}]]}
  lamp: {number: 2, legs: [[B2.+, {to: F1, length: 150 mm}, {to: SW, length: 1 m}, {to: L1, length: 1 m}, {to: G1, length: 300 mm}]]}
%s
states:
  parked: {}
%s
`, parts, legs, states)
}

// Two 12 V batteries make 24 V: 25.2 V at rest and 28.4 V charged, whether the
// alternator is drawn or not.
func TestBatteriesInSeriesShareTheVoltage(t *testing.T) {
	h, r := sized(t, lorry("", "", "  on: {SW: on, engine: running}\n  still: {SW: on}"))
	require.InDelta(t, 28.4, volts(t, h, r, "on", "B2.+"), 0.05)
	require.InDelta(t, 14.2, volts(t, h, r, "on", "B1.+"), 0.05)
	require.InDelta(t, 25.2, volts(t, h, r, "still", "B2.+"), 0.05)
	require.InDelta(t, 28.2, float64(load(t, r, "L1").Volts)+3.2, 0.5, "its lowest voltage is that at rest")

	alternator := `  ALT: {kind: alternator, output: 60 A}
  FA: {kind: fuse, body: bolt}`
	legs := "  charge: {number: 3, class: charge, legs: [[ALT.B+, {to: FA, length: 100 mm}, {to: B2.+, length: 150 mm}], [ALT.case, {to: G0, length: 300 mm}]]}"
	h, r = sized(t, lorry(alternator, legs, "  on: {SW: on, engine: running}"))
	require.InDelta(t, 28.4, volts(t, h, r, "on", "B2.+"), 0.1)
	for _, b := range r.Budgets {
		for name, amps := range b.Sources {
			if name != "ALT" && b.State == 1 {
				require.InDelta(t, 0, float64(amps), 1e-6, "the charged batteries rest")
			}
		}
	}
}

// 30 mA out of both in series is 30 mA, not 60, and half of 60 Ah lasts 1000 h; in
// parallel each gives half, and half of 120 Ah lasts twice as long.
func TestKeyOffDrainCountsAStringOnce(t *testing.T) {
	tracker := "  T: {kind: outlet, draws: 0.1 A}\n  F2: {kind: fuse}"
	legs := "  tracker: {number: 3, legs: [[B2.+, {to: F2, length: 150 mm}, {to: T, length: 1 m}, {to: G1, length: 300 mm}]]}"
	_, r := sized(t, lorry(tracker, legs, ""))
	require.InDelta(t, 0.1, float64(r.Budgets[0].Drain), 1e-6)
	require.InDelta(t, 60*0.5/0.1/24, r.Budgets[0].Days, 0.01)
	p := finding(r, "key-off-drain", "T")
	require.NotNil(t, p)
	require.Contains(t, p.Summary, "the drain is 0.1 A; half flat in 12.5 days")
	for _, b := range r.Budgets[0].Batteries {
		require.InDelta(t, 12.5, b.Days, 0.01, b.Name)
	}

	_, r = sized(t, `loomfolio: 1
title: Two in parallel
system: {volts: 12}
parts:
  B1: {kind: battery, capacity: 60 Ah}
  B2: {kind: battery, capacity: 60 Ah}
  F1: {kind: fuse}
  T: {kind: outlet, draws: 0.1 A}
  G0: {kind: ground}
  G1: {kind: ground}
circuits:
  pack: {number: 1, legs: [[G0, {to: B1.-, length: 150 mm}], [G0, {to: B2.-, length: 150 mm}], [B1.+, {to: B2.+, length: 150 mm}]]}
  tracker: {number: 3, legs: [[B2.+, {to: F1, length: 150 mm}, {to: T, length: 1 m}, {to: G1, length: 300 mm}]]}
states: {parked: {}}
`)
	require.InDelta(t, 0.1, float64(r.Budgets[0].Drain), 1e-6)
	require.InDelta(t, 120*0.5/0.1/24, r.Budgets[0].Days, 0.01)
}

// A lamp of 12 V between the two gets its 12 V, and the advice says what it does to them.
func TestALoadOnOneOfTheTwo(t *testing.T) {
	radio := "  R: {kind: outlet, draws: 2 A}\n  F2: {kind: fuse}"
	legs := "  radio: {number: 3, legs: [[B1.+, {to: F2, length: 150 mm}, {to: R, length: 1 m}, {to: G1, length: 300 mm}]]}"
	h, r := sized(t, lorry(radio, legs, "  on: {SW: on, engine: running}"))
	require.InDelta(t, 14.2, volts(t, h, r, "on", "R.+"), 0.3)
	require.InDelta(t, 12.6, volts(t, h, r, "parked", "R.+"), 0.3)
	n := 0
	for _, p := range r.Findings {
		if p.Slug == "load-on-half-the-batteries" {
			n++
			require.Contains(t, p.Summary, "R is fed from between B1 and B2")
		}
	}
	require.Equal(t, 1, n)
}

// inScope takes a description through all, and gives its findings of 60 V and above.
func inScope(t *testing.T, text string) (refused source.Problems, unusable bool) {
	t.Helper()
	d, ps := describe.Parse("test.yaml", []byte(text))
	require.False(t, ps.HasErrors(), "%v", ps)
	h, found := check.Check(d)
	if h != nil {
		r, err := sizing.Size(worked.Buying(h, "clear"), found)
		require.NoError(t, err)
		found, unusable = r.Findings, r.Unusable
	} else {
		unusable = true
	}
	for _, p := range found {
		if p.Slug == "voltage-out-of-scope" {
			refused = append(refused, p)
		}
	}
	return refused, unusable
}

// stacked is a battery and a charger of so many volts on top of it, in a system of 48 V.
func stacked(emf, regulated float64, plus, minus, state string) string {
	return fmt.Sprintf(`loomfolio: 1
title: Stacked
system: {volts: 48, running: 56 V, return: wired}
parts:
  B1: {kind: battery, emf: %g V}
  C: {kind: alternator, output: 10 A, regulated: %g V, terminals: [B+, B-]}
  SW: {kind: switch, positions: {off: [], on: [[1, 2]]}}
  F: {kind: fuse}
  H: {kind: heater, draws: 5 A}
circuits:
  one: {number: 1, legs: [[B1.+, {to: F, length: 100 mm}, {to: H, length: 1 m}, {to: B1.-, length: 1 m}]]}
  two: {number: 2, legs: [[%s, {to: SW.1, length: 1 m}], [SW.2, {to: %s, length: 1 m}]]}
states:
  boost: {%s}
`, emf, regulated, plus, minus, state)
}

// seriesOrParallel is two batteries with a switch that puts them in parallel or in series.
func seriesOrParallel(emf float64, position string) string {
	return fmt.Sprintf(`loomfolio: 1
title: Changeover
system: {volts: 48, running: 56 V, return: wired}
parts:
  B1: {kind: battery, emf: %g V}
  B2: {kind: battery, emf: %g V}
  SW: {kind: switch, stud: M8, positions: {parallel: [[p1, p2], [m1, m2]], series: [[p1, m2]]}}
  F: {kind: fuse}
  H: {kind: heater, draws: 5 A}
circuits:
  one: {number: 1, legs: [[B1.+, {to: SW.p1, length: 100 mm}], [B2.+, {to: SW.p2, length: 100 mm}], [B1.-, {to: SW.m1, length: 100 mm}], [B2.-, {to: SW.m2, length: 100 mm}]]}
  two: {number: 2, legs: [[B2.+, {to: F, length: 100 mm}, {to: H, length: 1 m}, {to: B1.-, length: 1 m}]]}
states:
  on: {SW: %s}
`, emf, emf, position)
}

func TestSixtyVoltsAnywhereIsRefused(t *testing.T) {
	for _, c := range []struct {
		says, text string
		refused    bool
	}{
		{"a charger on top of the battery", stacked(50, 28, "B1.+", "C.B-", "SW: on, engine: running"), true},
		{"in no state that is described", stacked(50, 28, "B1.+", "C.B-", "engine: running"), true},
		{"while it does not run", stacked(50, 28, "B1.+", "C.B-", "SW: on"), true},
		{"a changeover to series", seriesOrParallel(36, "series"), true},
		{"the same of smaller ones", seriesOrParallel(12.6, "series"), false},
		{"left in parallel", seriesOrParallel(28, "parallel"), false},
		{"just over", stacked(48, 12.01, "B1.+", "C.B-", "SW: on, engine: running"), true},
		{"of one battery and one charger, under it", stacked(31, 28.9, "B1.+", "C.B-", "SW: on, engine: running"), false},
		{"below the battery", stacked(50, 28, "C.B+", "B1.-", "SW: on, engine: running"), true},
		{"beside it", stacked(50, 56, "B1.+", "C.B+", "SW: on, engine: running"), false},
		{"a lorry", lorry("", "", "  on: {SW: on, engine: running}"), false},
	} {
		refused, unusable := inScope(t, c.text)
		require.Equal(t, c.refused, len(refused) == 1, "%s: %v", c.says, refused)
		require.Equal(t, c.refused, unusable, c.says)
		for _, p := range refused {
			require.True(t, p.Span.Known(), c.says)
		}
	}
}

// Ten feeds that give a load of constant power what it needs, and ten that do not.
func TestFeedsTooWeak(t *testing.T) {
	text := func(watts, inner float64, gauge, extra string) string {
		return fmt.Sprintf(`loomfolio: 1
title: Weak feed
system: {volts: 12, running: 14.4 V, return: wired}
parts:
  BAT: {kind: battery, inner: %g mohm}
  F1: {kind: fuse, body: bolt}
  INV: {kind: module, stud: M8%s, inside: [{from: "+", to: "-", draws: %g W, behaves: power}]}
circuits:
  inverter: {number: 1, legs: [[BAT.+, {to: F1, length: 100 mm}, {to: INV.+, length: 4 m%s}, INV.-, {to: BAT.-, length: 4 m%s}]]}
states: {on: {}}
`, inner, extra, watts, gauge, gauge)
	}
	thin := ", gauge: 1.5 mm2"
	for _, c := range []struct {
		watts, inner float64
		gauge, extra string
		weak         bool
	}{
		{1700, 2, "", "", false}, {600, 5, "", "", false}, {100, 5, "", "", false}, {20, 5, thin, "", false}, {100, 5, thin, "", false},
		{300, 30, "", "", false}, {50, 100, "", "", false}, {300, 60, "", ", works-above: 8 V", false}, {1000, 10, "", "", false}, {200, 5, thin, ", works-above: 6 V", false}, {100, 5, "", ", works-above: 13 V", false},
		{300, 100, "", "", true}, {600, 60, "", "", true}, {300, 5, thin, "", true}, {1700, 20, "", "", true}, {3000, 10, "", "", true},
		{200, 5, thin, "", true}, {600, 60, "", ", works-above: 8 V", true}, {100, 200, "", "", true}, {100, 5, thin, ", works-above: 11.9 V", true}, {1000, 40, "", ", works-above: 6 V", true},
	} {
		_, r := sized(t, text(c.watts, c.inner, c.gauge, c.extra))
		p := finding(r, "feed-too-weak", "INV.+--")
		require.Equal(t, c.weak, p != nil, "%v: %v", c, r.Findings)
		for _, s := range r.States {
			for i, v := range s.Volts {
				require.False(t, math.IsNaN(v) && i > 0, "%v", c)
			}
		}
	}
}
