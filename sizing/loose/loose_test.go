package loose_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/loose"
)

const text = `loomfolio: 1
title: T
system: {volts: 12}
places: {bay: {tail: 150 mm}}
parts:
  BAT: {kind: battery, at: bay}
  F1: {kind: fuse, at: bay, rating: 10 A}
  SW: {kind: switch, at: bay, positions: {off: [], on: [[1, 2]]}}
  BOX: {kind: unknown, at: bay}
  METER: {kind: unknown, at: bay, draws: 1 A}
  LAMP: {kind: lamp, at: bay, draws: 5 W}
  G1: {kind: ground, at: bay}
circuits:
  a:
    legs:
      - [BAT.+, {to: F1, length: 150 mm}, SW.1]
      - [SW.2, BOX]
      - [BOX, LAMP.+, LAMP.-, G1]
      - [F1.2, METER.+]
      - [METER.-, G1]
      - [F1.2, ?]
      - [?, G1]
states: {off: {}, on: {SW: on}}
`

func model(t *testing.T) (*harness.Harness, func(string) harness.TerminalID) {
	d, found := describe.Parse("t.yaml", []byte(text))
	require.Empty(t, found)
	h, more := check.Check(d)
	require.NotNil(t, h, "%v", more)
	return h, func(full string) harness.TerminalID {
		for _, x := range h.Terminals {
			if x.Full == full {
				return x.ID
			}
		}
		t.Fatalf("no terminal %s", full)
		return 0
	}
}

// TestEnds: a bare unknown box has a terminal of its own each time, a load described in it
// makes its terminals known, and every ? is an end of its own.
func TestEnds(t *testing.T) {
	h, _ := model(t)
	var names []string
	for _, end := range loose.Ends(h) {
		names = append(names, h.Terminals[end].Full)
	}
	require.ElementsMatch(t, []string{"BOX.?1", "BOX.?2", "?1", "?2"}, names)
}

// TestUnsure: nobody knows what the lamp behind the box gets; what hangs on the fuse, or on the
// ground, is known; the switch's far side only while it is closed.
func TestUnsure(t *testing.T) {
	h, at := model(t)
	none := make([]bool, len(h.Elements))
	off, on := loose.In(h, &h.States[0], none), loose.In(h, &h.States[1], none)
	for full, unsure := range map[string]bool{"LAMP.+": true, "LAMP.-": false, "F1.2": false, "?1": false, "?2": false, "SW.2": true, "METER.+": false} {
		require.Equal(t, unsure, off.Unsure(at(full)), full)
	}
	require.False(t, on.Unsure(at("SW.2")))
	require.True(t, on.Unsure(at("LAMP.+")))
	require.Len(t, off.Near(at("F1.2")), 1)
}

// TestBeyond stops at fuses, loads and the bodywork.
func TestBeyond(t *testing.T) {
	h, at := model(t)
	r := loose.Beyond(h, []harness.TerminalID{at("BOX.?2")})
	require.True(t, r.Has(at("LAMP.+")))
	require.False(t, r.Has(at("LAMP.-")))
	r = loose.Beyond(h, []harness.TerminalID{at("SW.2")})
	require.True(t, r.Has(at("F1.2")))
	require.False(t, r.Has(at("F1.1")))
}
