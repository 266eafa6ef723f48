package check_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/unit"
)

// A part takes the tail of its place, unless it says its own (0 is one too); a splice lies in the loom.
func TestTailOfThePlaceServesItsParts(t *testing.T) {
	d, problems := describe.Parse("test.yaml", []byte(`loomfolio: 1
title: Tails
system: {volts: 12}
places:
  dash: {name: Dash, tail: 200 mm}
  tray: {name: Tray}
runs: [{from: dash, to: tray, length: 1 m}]
parts:
  BAT: {kind: battery, at: tray}
  F1: {kind: fuse, at: tray, tail: 90 mm}
  S1: {kind: splice, at: dash}
  L1: {kind: lamp, at: dash, draws: 1 A}
  L2: {kind: lamp, at: dash, draws: 1 A, tail: 0 mm}
  G1: {kind: ground, at: dash}
  G2: {kind: ground, at: tray}
circuits:
  lamps: {number: 1, legs: [[BAT.+, F1, S1, L1, G1], [S1, L2, G1], [G2, BAT.-]]}
`))
	require.Empty(t, problems)
	h, found := check.Check(d)
	require.NotNil(t, h, "%v", found)
	tails := map[string]unit.Millimetre{}
	for _, p := range h.Parts {
		tails[p.Ref] = p.Tail
	}
	require.Equal(t, map[string]unit.Millimetre{"BAT": 0, "F1": 90, "S1": 0, "L1": 200, "L2": 0, "G1": 200, "G2": 0}, tails)
}
