package describe_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/source"
)

const beforeMeasured = `loomfolio: 1
title: T
system: {volts: 12}
parts: {BAT: {kind: battery}}
circuits: {a: {legs: [[BAT.+, {to: ?, length: 1 m}]]}}
measured:
`

// TestMeasured: readings as people write them.
func TestMeasured(t *testing.T) {
	d, found := describe.Parse("m.yaml", []byte(beforeMeasured+`  FAN.+: 10.8 V @ driving
  FAN.-: [-0.2 V, 0 V @ IND left, {volts: 120 mV, state: parked}]
  G3: 0.4 ohm
  F3-FAN.+: open
  ? behind dash: +12 V
`))
	require.Empty(t, found)
	require.Len(t, d.Measured, 7)
	for i, want := range []struct {
		at, state string
		volts     float64
	}{{"FAN.+", "driving", 10.8}, {"FAN.-", "", -0.2}, {"FAN.-", "IND left", 0}, {"FAN.-", "parked", 0.12}} {
		require.Equal(t, want.at, d.Measured[i].At.Text)
		require.Equal(t, want.state, d.Measured[i].State.Text)
		require.InDelta(t, want.volts, float64(d.Measured[i].Volts.V), 1e-12)
		require.True(t, d.Measured[i].Volts.Given())
	}
	require.InDelta(t, 0.4, float64(d.Measured[4].Ohms.V), 1e-12)
	require.True(t, math.IsInf(float64(d.Measured[5].Ohms.V), 1))
	require.InDelta(t, 12, float64(d.Measured[6].Volts.V), 1e-12)
	require.Equal(t, 19, d.Measured[0].State.Span.Start.Column, "the state has its own place")
}

// TestMeasuredWrong: what no meter shows, or says nothing.
func TestMeasuredWrong(t *testing.T) {
	for text, says := range map[string]string{
		"  A.+: 12":                           "cannot be read as a reading",
		"  A.+: 12 V @":                       "names no state",
		"  A.+: 80 V":                         "cannot be read as a reading",
		"  A.+: {volts: 12 V, ohms: 3 ohm}":   "neither volts nor ohms alone",
		"  A.+: {state: parked}":              "neither volts nor ohms alone",
		"  A.+: 3 ohm @ parked":               "they have no state",
		"  A.+: 12 V\n  A.+: 11 V":            "given twice",
		"  A.+: {volt: 12 V}":                 "not known here",
		"  A.+: [12 V, x]":                    "cannot be read as a reading",
		"  A.+: {volts: 12 parsec, state: x}": "cannot be read",
	} {
		_, found := describe.Parse("m.yaml", []byte(beforeMeasured+text+"\n"))
		require.True(t, found.HasErrors(), text)
		require.Contains(t, strings.Join(summaries(found), "; "), says, text)
	}
}

// FuzzMeasured: any text behind measured: gives readings that are figures, or problems.
func FuzzMeasured(f *testing.F) {
	for _, seed := range []string{"  FAN.+: 10.8 V @ driving", "  G3: 0.4 ohm", "  a: [open, -1 V]", "  ?: {volts: 1 V}", "  a-b: OL", "  \"x\": 1e9 V", "  a: -\n", "  a: @ @"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		d, found := describe.Parse("m.yaml", []byte(beforeMeasured+text+"\n"))
		for _, m := range d.Measured {
			if m.Bad || found.HasErrors() {
				continue
			}
			require.True(t, m.Volts.Given() != m.Ohms.Given())
			require.Less(t, math.Abs(float64(m.Volts.V)), 60.0)
			require.GreaterOrEqual(t, float64(m.Ohms.V), 0.0)
			require.False(t, math.IsNaN(float64(m.Volts.V)) || math.IsNaN(float64(m.Ohms.V)))
		}
	})
}

func summaries(found source.Problems) []string {
	var out []string
	for _, p := range found {
		out = append(out, p.Summary)
	}
	return out
}
