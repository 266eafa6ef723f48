package check_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
)

// A circuit that nobody put into a class has that of the machine whose current it carries.
func TestClassFromKind(t *testing.T) {
	d, problems := describe.Parse("test.yaml", []byte(`loomfolio: 1
title: No class
system: {volts: 12}
parts:
  BAT: {kind: battery}
  ST: {kind: starter, draws: 150 A}
  ALT: {kind: alternator, output: 50 A}
  F1: {kind: fuse}
  F2: {kind: fuse}
  SW: {kind: switch, positions: {off: [], on: [[1, 2]]}}
  WL: {kind: lamp, draws: 2 W}
  L: {kind: lamp, draws: 20 W}
  G0: {kind: ground}
  G1: {kind: ground}
circuits:
  cable: {legs: [[G0, BAT.-], [BAT.+, ST.30], [ST.case, G1]]}
  button: {legs: [[ST.30, F1, SW, ST.50]]}
  charging: {legs: [[ALT.B+, F2, ST.30]]}
  given: {class: light, legs: [[ALT.B+, {to: BAT.+, length: 1 m}]]}
  warning: {legs: [[F1.2, WL, ALT.L]]}
  mixed: {legs: [[F1.2, L, ALT.case]]}
`))
	require.Empty(t, problems)
	h, found := check.Check(d)
	require.NotNil(t, h, "%v", found)
	var got []string
	for i := range h.Circuits {
		got = append(got, h.Circuits[i].Key+" "+h.Circuits[i].Class)
	}
	require.Equal(t, []string{"cable start", "button default", "charging charge", "given light", "warning default", "mixed default"}, got)
}
