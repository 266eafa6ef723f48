package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestTheLoomBoardIsAFileOfItsOwn: the packet stays, the board lies beside it on
// the paper that was asked for, the same every time.
func TestTheLoomBoardIsAFileOfItsOwn(t *testing.T) {
	first := sampleFile(t, "first")
	code, out, errs := do("packet", first, "--board")
	require.Equal(t, 0, code, errs)
	require.Regexp(t, `first-board\.pdf: \d+ sheets of the loom board`, out)
	_, err := os.Stat(filepath.Join(filepath.Dir(first), "first.pdf"))
	require.ErrorIs(t, err, os.ErrNotExist, "the packet is not written with it")
	pdf, err := os.ReadFile(filepath.Join(filepath.Dir(first), "first-board.pdf"))
	require.NoError(t, err)
	require.Contains(t, string(pdf[:8]), "%PDF-")

	other := filepath.Join(t.TempDir(), "board.pdf")
	code, onA4, _ := do("packet", first, "--board", "-o", other)
	require.Equal(t, 0, code)
	again, err := os.ReadFile(other)
	require.NoError(t, err)
	require.Equal(t, pdf, again)

	code, onA3, _ := do("packet", first, "--board", "--paper", "A3", "-o", other)
	require.Equal(t, 0, code)
	require.NotEqual(t, onA4, onA3, "fewer sheets of the larger paper")
}

// TestTheLoomBoardFolds onto fewer sheets, and lies on one page of a roll.
func TestTheLoomBoardFolds(t *testing.T) {
	wholeRun(t)
	first := sampleFile(t, "first")
	sheets := func(args ...string) int {
		code, out, errs := do(append([]string{"packet", first, "--board", "-o", filepath.Join(t.TempDir(), "board.pdf")}, args...)...)
		require.Equal(t, 0, code, errs)
		n, err := strconv.Atoi(regexp.MustCompile(`(\d+) sheets? of the loom board`).FindStringSubmatch(out)[1])
		require.NoError(t, err)
		return n
	}
	require.Less(t, sheets("--fold"), sheets())
	require.Equal(t, 1, sheets("--paper", "roll"))
	require.Equal(t, 1, sheets("--paper", "Roll", "--fold"))
	code, _, errs := do("packet", first, "--fold")
	require.Equal(t, 2, code)
	require.Contains(t, errs, "ask for --board too")
}

func TestNoBoardWithoutRuns(t *testing.T) {
	path := filepath.Join(t.TempDir(), "bare.yaml")
	require.NoError(t, os.WriteFile(path, []byte(bare), 0o600))
	code, _, errs := do("packet", path, "--board")
	require.Equal(t, 2, code)
	require.Contains(t, errs, "the description has no runs")
}

// bare is a lamp on a battery, every wire with a length of its own.
const bare = `loomfolio: 1
title: Bare
system: {volts: 12}
parts:
  BAT: {kind: battery, capacity: 40 Ah}
  F1: {kind: fuse, body: blade}
  L1: {kind: lamp, draws: 10 W}
circuits:
  lamp:
    legs:
      - [BAT.+, {to: F1.1, length: 100 mm}]
      - [F1.2, {to: L1.+, length: 1 m}]
      - [L1.-, {to: BAT.-, length: 1 m}]
`
