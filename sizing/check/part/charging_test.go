package part_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/check/part"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
)

// named makes a part whose terminals stops call so.
func named(t *testing.T, sys harness.System, written string, names ...string) part.Made {
	t.Helper()
	d, problems := describe.Parse("test.yaml", []byte("loomfolio: 1\ntitle: One part\nsystem: {volts: 12}\nparts:\n  X: "+written+"\ncircuits: {one: {legs: [[X, X]]}}\n"))
	require.False(t, problems.HasErrors())
	at := next
	at.Named = names
	w := &d.Parts[0]
	m := part.Make(w, harness.Part{ID: 3, Ref: "X", Kind: harness.Kind(w.Kind.Text)}, part.Sides{Main: sys}, at)
	require.Empty(t, m.Problems)
	return m
}

// What makes or carries charge, with the figures of charging.go: field 6 ohm at 12 V (an auto electrician's page) and 2.8 at 6 V
// (from memory), cut-out in at 13 V and out at 10 (6.3 to 6.7 and 4.8 to 5.3 V at 6 V in a maker's manual), 94 % of a panel's
// power, 1.5 % of an inverter's rating standing, 50 mV at 500 A.
func TestWhatMakesCharge(t *testing.T) {
	for _, c := range []struct {
		name    string
		sys     harness.System
		written string
		named   []string
		want    []string
	}{
		{"a dynamo", volts(12), "{kind: dynamo, output: 22 A}", []string{"D", "F"}, []string{
			"charger X: X.D > X.case, 14.2 V, 24.37 A, 0.005 ohm, engine [running]",
			"contact X.armature: X.D > X.case, 0.3 ohm, engine [off cranking]",
			"load X.field: X.F > X.case, 2.367 A, at 14.2 V, resistance, floor 6"}},
		{"one of 6 V on positive earth, by German names", harness.System{Volts: 6, Running: 7, PositiveEarth: true}, "{kind: dynamo, output: 30 A}", []string{"D+", "DF", "D-"}, []string{
			"join X.case-D-: X.case > X.D-",
			"charger X: X.case > X.D+, 7 V, 32.5 A, 0.005 ohm, engine [running]",
			"contact X.armature: X.D+ > X.case, 0.3 ohm, engine [off cranking]",
			"load X.field: X.case > X.DF, 2.5 A, at 7 V, resistance, floor 3"}},
		{"one with its box on it", volts(12), "{kind: dynamo, output: 16 A, control: built-in}", []string{"51", "61"}, []string{
			"charger X: X.51 > X.case, 14.2 V, 16 A, 0.005 ohm, engine [running]",
			"contact X.armature: X.61 > X.case, 0.3 ohm, engine [off cranking]",
			"contact X.cut-out: X.51 > X.61, 0.01 ohm, engine [running]"}},
		{"a control box", volts(12), "{kind: control-box}", []string{"A", "A1", "D", "F", "E", "WL"}, []string{
			"join X.D-WL: X.D > X.WL",
			"coil X.coil: X.D > X.E, 60 ohm, in at 13, out below 10, engine [running]",
			"contact X.D-A: X.D > X.A, 0.01 ohm, pulled in",
			"ohms X.A-A1: X.A > X.A1, 0.005 ohm",
			"contact X.D-F: X.D > X.F, 0.05 ohm"}},
		{"a German one of 6 V", volts(6), "{kind: control-box}", []string{"51", "D+", "DF", "D-", "61"}, []string{
			"join X.D+-61: X.D+ > X.61",
			"coil X.coil: X.D+ > X.D-, 15 ohm, in at 6.5, out below 5, engine [running]",
			"contact X.D+-51: X.D+ > X.51, 0.01 ohm, pulled in",
			"contact X.D+-DF: X.D+ > X.DF, 0.05 ohm"}},
		{"an alternator that senses", volts(12), "{kind: alternator, output: 60 A}", []string{"B+", "S", "D+"}, []string{
			"charger X: X.B+ > X.case, 14.2 V, 60 A, 0.005 ohm, engine [running]",
			"load X.sense: X.S > X.case, 0.01 A, at 14.2 V, resistance, floor 6",
			"contact X.D+-case: X.D+ > X.case, 1 ohm, engine [off cranking]",
			"contact X.B+-D+: X.B+ > X.D+, 1 ohm, engine [running]"}},
		{"a regulator with three stator leads", volts(12), "{kind: rectifier-regulator, output: 20 A}", []string{"AC1", "AC2", "AC3", "+"}, []string{
			"charger X: X.+ > X.-, 14.2 V, 20 A, 0.005 ohm, engine [running]",
			"open X.AC1: X.AC1 > X.-, 16.33 A, engine [running]",
			"open X.AC2: X.AC2 > X.-, 16.33 A, engine [running]",
			"open X.AC3: X.AC3 > X.-, 16.33 A, engine [running]"}},
		{"a solar panel", volts(12), "{kind: solar-panel, power: 100 W}", nil, []string{
			"open X.+: X.+ > X.-, 21.96 V, 6 A", "open X.-: X.- > X.+, -21.96 V, 6 A"}},
		{"an inverter", volts(12), "{kind: inverter, power: 1000 W}", nil, []string{
			"load X: X.+ > X.-, 82.85 A, at 14.2 V, power, floor 10.5, in [2]",
			"load X.standing: X.+ > X.-, 1.056 A, at 14.2 V, power, floor 10.5, in [1]"}},
		{"a shunt", volts(12), "{kind: shunt}", []string{"1", "2", "S1", "S2"}, []string{
			"join X.1-S1: X.1 > X.S1", "join X.2-S2: X.2 > X.S2", "ohms X: X.1 > X.2, 0.0001 ohm"}},
		{"a split-charge relay of 24 V", volts(24), "{kind: split-charge}", []string{"30", "87", "31"}, []string{
			"coil X.coil: X.30 > X.31, 9600 ohm, in at 26.6, out below 25.6",
			"contact X.30-87: X.30 > X.87, 0.002 ohm, pulled in",
			"load X.hold-30: X.30 > X.31, 0.2 A, at 24 V, resistance, floor 12, pulled in"}},
		{"one driven by D+", volts(12), "{kind: split-charge}", []string{"30", "87", "85", "D+"}, []string{
			"coil X.coil: X.D+ > X.85, 80 ohm, in at 8, out below 1.2",
			"contact X.30-87: X.30 > X.87, 0.002 ohm, pulled in"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.want, lines(named(t, c.sys, c.written, c.named...)))
		})
	}
}
