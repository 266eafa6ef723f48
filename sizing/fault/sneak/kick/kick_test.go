package kick_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/fault/sneak/kick"
)

const beside = `loomfolio: 1
title: Test
system: {volts: 12}
parts:
  BAT: {kind: battery}
  F1: {kind: fuse}
  SW: {kind: switch, positions: {off: [], on: [[1, 2]]}}
  S1: {kind: splice}
  LAMP: {kind: lamp, LAMP}
  K1: {kind: relay, KICK}
  PUMP: {kind: motor, draws: 5 A}
  G1: {kind: ground}
circuits:
  fan: {legs: [[BAT.+, {to: F1, length: 150 mm}, {to: SW, length: 200 mm}, {to: S1, length: 200 mm}, {to: K1.86, length: 200 mm}, K1.85, {to: G1, length: 1 m}], [S1, {to: LAMP, length: 1 m}, {to: G1, length: 1 m}], [F1, {to: K1.30, length: 200 mm}, K1.87, {to: PUMP, length: 1 m}, {to: G1, length: 1 m}], [BAT.-, {to: G1, length: 1 m}]]}
`

// TestKicks: a light-emitting diode beside a bare coil is told, a filament stands it, and a coil
// with a diode or resistor does not kick.
func TestKicks(t *testing.T) {
	const led, filament = "draws: 20 mA, behaves: current", "draws: 21 W"
	for _, c := range []struct {
		lamp, suppression, says string
		sneaks, found           int
	}{
		{led, "suppression: none", "with some hundred volts", 1, 1},
		{filament, "suppression: none", "with up to", 1, 0},
		{led, "suppression: diode", "", 0, 0},
		{led, "suppression: resistor", "", 0, 0},
	} {
		d, problems := describe.Parse("test.yaml", []byte(strings.NewReplacer("LAMP}", c.lamp+"}", "KICK", c.suppression).Replace(beside)))
		require.False(t, problems.HasErrors(), "%v", problems)
		h, all := check.Check(d)
		require.NotNil(t, h, "%v", all)
		sneaks, found := kick.Search(h)
		require.Len(t, sneaks, c.sneaks, c)
		require.Len(t, found, c.found, c)
		for _, s := range sneaks {
			require.Contains(t, s.Says, c.says)
			require.Len(t, s.Path, 3)
		}
	}
}
