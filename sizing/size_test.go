package sizing_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
)

// sized takes a description through to its results.
func sized(t *testing.T, text string) (*harness.Harness, *result.Result) {
	t.Helper()
	d, problems := describe.Parse("test.yaml", []byte(text))
	require.False(t, problems.HasErrors(), "%v", problems)
	h, found := check.Check(d)
	require.NotNil(t, h, "%v", found)
	r, err := sizing.Size(worked.Buying(h, "clear"), found)
	require.NoError(t, err)
	require.False(t, r.Unusable, "%v", r.Findings)
	return h, r
}

func wire(t *testing.T, h *harness.Harness, name string) harness.WireID {
	for _, w := range h.Wires {
		if w.Name == name {
			return w.ID
		}
	}
	t.Fatalf("no wire %s", name)
	return harness.None
}

func volts(t *testing.T, h *harness.Harness, r *result.Result, state, full string) float64 {
	for _, s := range r.States {
		for _, term := range h.Terminals {
			if s.Name == state && term.Full == full {
				return s.Volts[term.ID]
			}
		}
	}
	t.Fatalf("no %s in %s", full, state)
	return math.NaN()
}

// 20 A with 8 ft of feed and chassis return, 12 V: 12 gauge (common practice, no source).
func TestTwentyAmpsOverEightFeetIsTwelveGauge(t *testing.T) {
	h, r := sized(t, `loomfolio: 1
title: Fan
sheet: {gauge: sae, units: imperial, paper: letter}
system: {volts: 12}
parts:
  BAT: {kind: battery}
  MF1: {kind: fuse}
  FAN: {kind: motor, draws: 20 A}
  G1: {kind: ground}
circuits:
  fan: {number: 1, legs: [[BAT.+, {to: MF1, length: 6 in}, {to: FAN, length: 8 ft}, {to: G1, length: 6 in}]]}
`)
	for _, name := range []string{"1A", "1B", "1N"} {
		require.Equal(t, "12 ga", r.Wires[wire(t, h, name)].Gauge.String(), name)
	}
	require.Equal(t, "MF1", r.Wires[wire(t, h, "1B")].ProtectedBy)
	require.NotEmpty(t, r.Wires[wire(t, h, "1B")].Reason)
}

const positive = `loomfolio: 1
title: Positive earth
system: {volts: 6, running: 7.1 V, earth: positive}
parts:
  BAT: {kind: battery, capacity: 70 Ah}
  DYN: {kind: alternator, output: 20 A}
  ST: {kind: starter, draws: 150 A}
  SS: {kind: switch, positions: {off: [], on: [[1, 2]]}}
  F1: {kind: fuse}
  SW: {kind: switch, positions: {off: [], on: [[1, 2]]}}
  LAMP: {kind: lamp, draws: 24 W, at-volts: 6 V}
  G0: {kind: ground}
  G1: {kind: ground}
  G2: {kind: ground}
circuits:
  earth: {number: 1, legs: [[BAT.+, {to: G0, length: 1 ft}]]}
  engine: {number: 2, legs: [[{to: G2}, {to: ST.case, length: 1 ft}]]}
  start:
    number: 3
    class: start
    legs:
      - [ST.30, {to: SS.1, length: 2 ft}, SS.2, {to: BAT.-, length: 2 ft}]
      - [ST.50, {to: SS.1, length: 2 ft}]
  charge: {number: 4, class: charge, legs: [[BAT.-, {to: DYN.B+, length: 4 ft}]]}
  lamp: {number: 5, legs: [[G1, {to: LAMP.+, length: 1 ft}, LAMP.-, {to: SW, length: 3 ft}, {to: F1, length: 3 ft}, {to: BAT.-, length: 6 in}]]}
states:
  parked: {}
  lit: {SW: on}
  driving: {SW: on, engine: running}
  starting: {SS: on, engine: cranking}
`

// With positive earth the live side is below the chassis, by the battery's
// voltage at rest and by the charging voltage with the engine running.
func TestPositiveEarth(t *testing.T) {
	h, r := sized(t, positive)
	require.InDelta(t, -6.3, volts(t, h, r, "parked", "BAT.-"), 1e-3)
	require.InDelta(t, -7.1, volts(t, h, r, "driving", "DYN.B+"), 0.05)
	require.Less(t, volts(t, h, r, "starting", "ST.30"), -4.0)
	require.InDelta(t, 0, volts(t, h, r, "lit", "LAMP.+"), 0.1)
	require.Less(t, volts(t, h, r, "lit", "LAMP.-"), -5.5)
	for _, l := range r.Loads {
		if l.Name == "LAMP" {
			require.Equal(t, "F1", l.ProtectedBy)
			require.Equal(t, []string{"lit", "driving"}, l.On)
		}
	}
	require.Equal(t, "BK", r.Colours[wire(t, h, "1N")].Pair.String(), "the earth lead is on the plus pole")
	require.Equal(t, "RD", r.Colours[wire(t, h, "3B")].Pair.String(), "the live side is minus")
}
