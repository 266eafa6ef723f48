package sizing_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
)

// A load counts as on from a real share of what it is described to take: a trickle through
// a shared ground or a filament names neither its fuse nor its volts.
func TestAStrayFeedShowsNothing(t *testing.T) {
	lamps := 0
	for _, sample := range samples.List() {
		h, r := worked.Out(t, sample)
		for _, l := range r.Loads {
			e := &h.Elements[l.Element]
			if h.Parts[e.Part].Kind != harness.Lamp {
				continue
			}
			lamps++
			require.Greater(t, float64(l.Volts), 0.7*float64(h.System.Volts), "%s: %s in %s", sample.Name, l.Name, l.State)
			require.Greater(t, float64(l.Amps), 0.5*float64(e.Amps), "%s: %s in %s", sample.Name, l.Name, l.State)
			require.NotEmpty(t, l.ProtectedBy, "%s: %s", sample.Name, l.Name)
			on := slices.IndexFunc(r.Fuses, func(f chosen.Fuse) bool { return f.Name == l.ProtectedBy })
			require.GreaterOrEqual(t, on, 0)
			require.Contains(t, r.Fuses[on].Feeds, l.Name, sample.Name)
		}
	}
	require.Greater(t, lamps, 50)
	h, r := worked.Out(t, samples.List()[slices.IndexFunc(samples.List(), func(s samples.Sample) bool { return s.Name == "camper" })])
	require.NotNil(t, h)
	require.Equal(t, "FP1.11", load(t, r, "FIL").ProtectedBy)
}

// No wire that is live takes the base colour of the grounds, however many there are.
func TestLiveWiresKeepOffTheGroundsColour(t *testing.T) {
	for _, sample := range samples.List() {
		h, r := worked.Out(t, sample)
		live := map[harness.WireID]bool{}
		for _, l := range r.Loads {
			for _, w := range l.Feed {
				live[w] = true
			}
		}
		for w := range live {
			if !r.Colours[w].Given {
				require.NotEqual(t, h.Practice.GroundColour, string(r.Colours[w].Pair.Base), "%s: %s", sample.Name, h.Wires[w].Name)
			}
		}
	}
}

const startAndCharge = `loomfolio: 1
title: Kestrel Trial, starter and alternator
system: {volts: 12, running: 14.2 V}
parts:
  BAT: {kind: battery, capacity: 70 Ah}
  G0: {kind: ground}
  G1: {kind: ground}
  F1: {kind: fuse}
  MF: {kind: fuse, body: bolt}
  KEY: {kind: switch, momentary: true, rating: 30 A, positions: {off: [], start: [[1, 2]]}}
  ST: {kind: starter, draws: 200 A, solenoid: 10 A}
  ALT: {kind: alternator, output: 60 A}
circuits:
  ground: {number: 1, CLASS1legs: [[G0, {to: BAT.-, length: 300 mm}], [ST.case, {to: G1, length: 300 mm}]]}
  start: {number: 2, CLASS1legs: [[BAT.+, {to: ST.30, length: 3 m}], [BAT.+, {to: F1, length: 150 mm}, {to: KEY, length: 1 m}, {to: ST.50, length: 2 m}]]}
  charge: {number: 3, CLASS2legs: [[ALT.B+, {to: MF, length: 3 m}, {to: BAT.+, length: 150 mm}]]}
states: {parked: {}, cranking: {KEY: start, engine: cranking}, driving: {engine: running}}
`

// The class follows from the kind: a starter and an alternator have theirs unless another is written.
func TestClassesFollowFromTheKind(t *testing.T) {
	plain := strings.NewReplacer("CLASS1", "", "CLASS2", "").Replace(startAndCharge)
	written := strings.NewReplacer("CLASS1", "class: start, ", "CLASS2", "class: charge, ").Replace(startAndCharge)
	other := strings.NewReplacer("CLASS1", "class: light, ", "CLASS2", "class: light, ").Replace(startAndCharge)
	h, r := sized(t, plain)
	sizes, findings := chosenIn(h, r)
	require.Empty(t, findings, "%v", r.Findings)
	require.Equal(t, "start", load(t, r, "ST").Class)
	h, r = sized(t, written)
	same, findings := chosenIn(h, r)
	require.Empty(t, findings)
	require.Equal(t, sizes, same)
	_, r = sized(t, other)
	require.Equal(t, "light", load(t, r, "ST").Class, "what is written counts")
}
