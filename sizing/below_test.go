package sizing_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
)

// Every rating that was chosen is the least, and nearly every size: its neighbour
// below breaks a rule, and the figures of that rule say so. Late in the settling
// no wire gets thinner again, so that one in a hundred may keep a size that the
// drop no longer asks for.
func TestNothingSmallerWouldDo(t *testing.T) {
	for _, sample := range samples.List() {
		_, r := sized(t, string(sample.Text))
		kept := 0
		for _, w := range r.Wires {
			if !w.Given && w.Below.Size != "" && len(w.Below.Fails) == 0 {
				kept++
			}
			breaks(t, w.Below)
		}
		require.LessOrEqual(t, kept, len(r.Wires)/100, sample.Name)
		for _, f := range r.Fuses {
			if !f.Given && f.Below.Size != "" {
				require.NotEmpty(t, f.Below.Fails, "%s: %s as %s", sample.Name, f.Name, f.Below.Size)
			}
			breaks(t, f.Below)
			breaks(t, f.Above)
		}
	}
}

// breaks holds that the figures of a failed rule are on its wrong side.
func breaks(t *testing.T, n chosen.Neighbour) {
	for _, f := range n.Fails {
		require.NotEmpty(t, f.Text)
		switch f.Rule {
		case "handling", "earth", "heat", "protection", "wire", "start", "smallest", "stock", "short":
			require.Less(t, f.Has, f.Limit, f.Text)
		case "drop", "continuous", "holder":
			require.Greater(t, f.Has, f.Limit, f.Text)
		case "series":
			require.NotEmpty(t, f.Of)
		default:
			t.Fatalf("no rule %s", f.Rule)
		}
	}
}

const fan = `loomfolio: 1
title: Fan
sheet: {gauge: sae, units: imperial}
system: {volts: 12}
parts:
  BAT: {kind: battery}
  F1: {kind: fuse, body: blade}
  SW: {kind: switch, positions: {off: [], on: [[1, 2]]}}
  FAN: {kind: motor, draws: 7 A, starts: 18.9 A for 0.5 s}
  G0: {kind: ground}
  G1: {kind: ground}
circuits:
  earth: {number: 1, legs: [[G0, {to: BAT.-, length: 1 ft}]]}
  fan: {number: 2, legs: [[BAT.+, {to: F1, length: 6 in}, {to: SW, length: 1 ft}, {to: FAN, length: 14 ft}, {to: G1, length: 1 ft}]]}
`

func fuseCalled(t *testing.T, r *result.Result, name string) chosen.Fuse {
	for _, f := range r.Fuses {
		if f.Name == name {
			return f
		}
	}
	t.Fatalf("no fuse %s", name)
	return chosen.Fuse{}
}

func rules(n chosen.Neighbour) []string {
	var out []string
	for _, f := range n.Fails {
		out = append(out, f.Rule)
	}
	return out
}

// 7 A over 75 % is 9.3 A, so 10 A carries the fan; its start of 18.9 A lies in
// the opening band of a 10 A blade fuse (a maker's data: 0.15 to 5 s at 200 %,
// 0.25 to 50 s at 160 %).
func TestTheFuseBelowOpensOnTheStart(t *testing.T) {
	_, r := sized(t, fan)
	f := fuseCalled(t, r, "F1")
	require.Equal(t, "15 A", f.Rating.String())
	require.Equal(t, "10 A", f.Below.Size)
	require.Equal(t, []string{"start"}, rules(f.Below))
	require.Greater(t, f.Below.Fails[0].Has, 0.15)
	require.Less(t, f.Below.Fails[0].Has, 0.25)
	require.Equal(t, "20 A", f.Above.Size)

	_, r = sized(t, strings.Replace(fan, "7 A, starts: 18.9 A for 0.5 s", "8 A", 1))
	f = fuseCalled(t, r, "F1")
	require.Equal(t, "15 A", f.Rating.String(), "8 A over 75 % is 10.7 A")
	require.Equal(t, []string{"continuous"}, rules(f.Below))
	require.InDelta(t, 7.5, f.Below.Fails[0].Limit, 1e-9, "75 % of 10 A, a fuse maker's general text")
}

// 7 A over 15.5 ft of SAE gauge in series: 16 loses 7 · 15.5 · 4.53/1000 = 0.49 V
// at 20 C, 14 loses 0.31 V, of 0.36 V (resistance by SAE minimum metal area).
func TestTheWireBelowLosesTooMuch(t *testing.T) {
	h, r := sized(t, fan)
	w := r.Wires[wire(t, h, "2C")]
	require.Equal(t, "14", w.Gauge.Size)
	require.Equal(t, "16 ga", w.Below.Size)
	require.Contains(t, rules(w.Below), "drop")
	for _, f := range w.Below.Fails {
		if f.Rule == "drop" {
			require.Equal(t, "FAN", f.Of)
			require.Greater(t, f.Has, 0.49)
			require.Less(t, f.Has, 0.49*1.25, "copper gains 0.4 % per K")
			require.InDelta(t, 0.36, f.Limit, 1e-9)
		}
	}
	// The word of the rule is kept: with that size given, the same load is over its limit.
	h, r = sized(t, strings.Replace(fan, "length: 14 ft", "length: 14 ft, gauge: 16 ga", 1))
	require.NotNil(t, finding(r, "gauge-given-too-thin", h.Wires[wire(t, h, "2C")].Name))
}

// A lamp of 5 A wants a switch of 25 A at 12 V, a motor of 4 A one of 8 A (FAA
// AC 43.13-1B table 11-4, and its own example of a 5 A lamp).
func TestContactsBySwitchTable(t *testing.T) {
	h, r := sized(t, `loomfolio: 1
title: Switches
system: {volts: 12}
parts:
  BAT: {kind: battery}
  F1: {kind: fuse}
  SW: {kind: switch, positions: {off: [], lamp: [[1, 2]], both: [[1, 2], [1, 3]]}}
  L: {kind: lamp, draws: 5 A, behaves: current}
  M: {kind: motor, draws: 4 A}
  G0: {kind: ground}
  G1: {kind: ground}
circuits:
  earth: {number: 1, legs: [[G0, {to: BAT.-, length: 300 mm}]]}
  lamp: {number: 2, legs: [[BAT.+, {to: F1, length: 100 mm}, {to: SW.1, length: 300 mm}], [SW.2, {to: L, length: 1 m}, {to: G1, length: 300 mm}], [SW.3, {to: M, length: 1 m}, {to: G1, length: 300 mm}]]}
`)
	want := map[string]float64{"SW.1-2": 5 * 5, "SW.1-3": 4 * 2}
	for _, c := range r.Contacts {
		require.Equal(t, harness.Contact, h.Elements[c.Element].Kind)
		require.InDelta(t, want[c.Name], float64(c.Wants), 1e-6, c.Name)
		require.Len(t, c.Loads, 1, c.Name)
		delete(want, c.Name)
	}
	require.Empty(t, want)
}
