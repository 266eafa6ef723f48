package main

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// lift is a vehicle whose batteries of so many volts a changeover puts in series.
func lift(emf float64) string {
	return fmt.Sprintf(`loomfolio: 1
title: Tail lift
system: {volts: 48, running: 56 V, return: wired}
places: {tray: {tail: 100 mm}, rear: {tail: 100 mm}}
runs: [{from: tray, to: rear, length: 1 m}]
parts:
  B1: {kind: battery, at: tray, emf: %g V}
  B2: {kind: battery, at: tray, emf: %g V}
  SW: {kind: switch, at: tray, stud: M8, positions: {parallel: [[p1, p2], [m1, m2]], series: [[p1, m2]]}}
  F: {kind: fuse, at: tray}
  H: {kind: heater, at: rear, draws: 5 A}
circuits:
  one: {number: 1, legs: [[B1.+, SW.p1], [B2.+, SW.p2], [B1.-, SW.m1], [B2.-, SW.m2]]}
  two: {number: 2, legs: [[B2.+, F, H, B1.-]]}
states:
  up: {SW: series}
`, emf, emf)
}

// A vehicle in which solving finds 60 V is refused by every command: nothing is
// written, and what was written before stays as it was.
func TestNothingIsWrittenOfAHighVoltage(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "lift.yaml")
	write := func(emf float64) { require.NoError(t, os.WriteFile(file, []byte(lift(emf)), 0o600)) }
	listed := func() map[string]string {
		out := map[string]string{}
		require.NoError(t, filepath.Walk(dir, func(path string, info os.FileInfo, err error) error {
			if err == nil && !info.IsDir() && path != file {
				text, err := os.ReadFile(path)
				require.NoError(t, err)
				out[path] = string(text)
			}
			return err
		}))
		return out
	}
	svg := filepath.Join(dir, "sheets")
	commands := [][]string{{"packet", file}, {"packet", file, "--board"}, {"packet", file, "--svg", svg}}

	write(36)
	for _, args := range commands {
		code, _, errs := do(args...)
		require.Equal(t, exitUnusable, code, args)
		require.Contains(t, errs, "voltage-out-of-scope")
		require.Empty(t, listed(), args)
	}
	write(12.6)
	for _, args := range commands {
		_, _, errs := do(args...)
		require.NotContains(t, errs, "voltage-out-of-scope")
	}
	before := listed()
	require.Greater(t, len(before), 3)
	write(36)
	for _, args := range append(commands, []string{"check", file}, []string{"figures", file, "--json"}, []string{"figures", file, "--netlist", "up"}, []string{"explain", file, "H"}, []string{"freeze", file}) {
		code, out, errs := do(args...)
		require.NotZero(t, code, args)
		require.NotContains(t, out, "%PDF")
		require.Contains(t, out+errs, "B2.+ is 7", args)
		require.Equal(t, before, listed(), args)
	}
}
