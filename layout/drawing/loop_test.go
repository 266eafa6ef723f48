package drawing

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
)

func sized(t *testing.T, text string) (*harness.Harness, *result.Result) {
	t.Helper()
	d, problems := describe.Parse("test.yaml", []byte(text))
	require.Empty(t, problems)
	h, found := check.Check(d)
	require.NotNil(t, h, "%v", found)
	r, err := sizing.Size(h, found)
	require.NoError(t, err)
	return h, r
}

// jumpers has one within a relay, one from a relay's contact to its own coil, one across two
// terminals of a switch and one between two feeds of a panel.
const jumpers = `loomfolio: 1
title: Jumpers
system: {volts: 12}
places: {a: {name: Panel, zone: cabin, tail: 100 mm}}
parts:
  BAT: {kind: battery, at: a}
  G0: {kind: ground, at: a}
  G1: {kind: ground, at: a}
  F1: {kind: fuse, at: a}
  FP: {kind: fuse-panel, at: a, feeds: {main: [1, 2], aux: [3]}, layout: [[1, 2, 3]]}
  SK: {kind: switch, at: a, positions: {off: [], on: [[1, 2]]}}
  ON: {kind: switch, at: a, positions: {off: [], on: [[1, 2]]}, momentary: true}
  SW: {kind: switch, at: a, positions: {off: [], left: [[1, L], [2, T]], right: [[1, R], [2, T]]}}
  K: {kind: relay, at: a}
  K2: {kind: relay, at: a}
  M: {kind: motor, at: a, draws: 10 A}
  M2: {kind: motor, at: a, draws: 8 A}
  L: {kind: lamp, at: a, draws: 10 W}
  R: {kind: lamp, at: a, draws: 10 W}
  T: {kind: lamp, at: a, draws: 3 W}
circuits:
  earth: {number: 1, legs: [[G0, BAT.-]]}
  supply: {number: 2, legs: [[BAT.+, {to: F1, length: 100 mm}, FP.main, FP.aux]]}
  pull: {number: 3, legs: [[FP.1, K.30, K.86], [K.85, SK, G0], [K.87, M, G1]]}
  hold: {number: 4, legs: [[FP.2, ON, K2.86, K2.85, G0], [FP.2, K2.30], [K2.87, {to: K2.86, length: 60 mm}], [K2.87, M2, G1]]}
  lamps: {number: 5, legs: [[FP.3, SW.1, {to: SW.2, length: 40 mm}], [SW.L, L, G1], [SW.R, R, G1], [SW.T, T, G0]]}
`

// A jumper is drawn as a loop at its part, with its flag once, and its circuit not as a list.
func TestJumpersAreDrawn(t *testing.T) {
	h, r := sized(t, jumpers)
	s := newSheets(h, r, body(t, "A4").Body)
	drawn := allStrips(s.jobs())
	flags := map[harness.WireID]int{}
	for _, st := range drawn {
		for i, w := range st.graph.wires {
			if slices.Contains(s.mine(st), w) && st.graph.Wires[i].Flag > 0 {
				flags[w]++
			}
		}
	}
	count := 0
	for i := range h.Wires {
		require.Equal(t, 1, flags[h.Wires[i].ID], h.Wires[i].Name)
		if h.Jumper(h.Wires[i].ID) {
			count++
		}
	}
	require.Equal(t, 4, count)
	measured(t, h, r, body(t, "A4").Body, "jumpers")
}

// With either pole on the bodywork the live side stands at the left: of every wire that
// leads to a ground, the ground's end is to the right.
func TestLiveSideAtTheLeft(t *testing.T) {
	for _, system := range []string{"earth: negative", "earth: positive"} {
		live, body0 := "+", "-"
		if system == "earth: positive" {
			live, body0 = "-", "+"
		}
		h, r := sized(t, `loomfolio: 1
title: Left
system: {volts: 12, `+system+`}
places: {a: {name: Panel, zone: cabin, tail: 100 mm}}
parts:
  BAT: {kind: battery, at: a}
  G0: {kind: ground, at: a}
  G1: {kind: ground, at: a}
  F1: {kind: fuse, at: a}
  SW: {kind: switch, at: a, positions: {off: [], on: [[1, 2]]}}
  L: {kind: lamp, at: a, draws: 20 W}
circuits:
  earth: {number: 1, legs: [[G0, BAT.`+body0+`]]}
  lamp: {number: 2, legs: [[BAT.`+live+`, {to: F1, length: 100 mm}, SW, L, G1]]}
`)
		s := newSheets(h, r, body(t, "A4").Body)
		drawn := allStrips(s.jobs())
		st := drawn[len(drawn)-1]
		x := map[string]float64{}
		for i, n := range st.graph.nodes {
			x[h.Parts[n.part].Ref] = st.layout.Nodes[i].X
		}
		for _, two := range [][2]string{{"BAT", "F1"}, {"F1", "SW"}, {"SW", "L"}, {"L", "G1"}} {
			require.Less(t, x[two[0]], x[two[1]], "%s: %v", system, two)
		}
	}
}
