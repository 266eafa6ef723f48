package main

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/figures"
)

// replaced rewrites a file with one text put in another's place.
func replaced(t *testing.T, file, was, now string) {
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	require.Contains(t, string(text), was)
	require.NoError(t, os.WriteFile(file, []byte(strings.Replace(string(text), was, now, 1)), 0o600))
}

func recordOf(file string) string { return strings.TrimSuffix(file, ".yaml") + ".built.txt" }

// Wires are built, the fan is changed for a stronger one: the whole way.
func TestFreezeThenChange(t *testing.T) {
	file := sampleFile(t, "first")
	code, out, errs := do("freeze", file, "--built", "fan,MF1")
	require.Equal(t, exitGood, code, errs)
	require.Contains(t, out, "first.built.txt: ")
	require.Contains(t, out, "21 wires planned, 7 built; 4 fuses, 1 fitted")
	code, _, errs = do("check", file)
	require.Equal(t, exitGood, code)
	require.Empty(t, errs)

	replaced(t, file, "draws: 20 A, starts: 55 A", "draws: 27 A, starts: 75 A")
	code, _, errs = do("check", file)
	require.Equal(t, exitFinding, code)
	require.Contains(t, errs, "3C is built as 4 mm² and now needs 6 mm²: pull and replace [built-too-thin]")
	require.Contains(t, errs, "MF1 is fitted as 30 A maxi and now needs 40 A maxi: replace the fuse [built-fuse]")
	code, _, errs = do("check", file, "--no-record")
	require.Equal(t, exitGood, code, errs)

	code, _, _ = do("freeze", file)
	require.Equal(t, exitFinding, code, "what is built stays as it is until someone says that it was replaced")
	require.Regexp(t, `wire fan K1.87 -> FAN.\+ +built +3C +4 mm2 `, read(t, recordOf(file)))
	code, _, errs = do("freeze", file, "--built", "3B, 3C, 3N, MF1")
	require.Equal(t, exitFinding, code, errs)
	code, _, errs = do("check", file)
	require.Equal(t, exitGood, code, errs)
	require.Empty(t, errs)
}

func read(t *testing.T, file string) string {
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	return string(text)
}

// What a builder writes into the record by hand is obeyed.
func TestARecordIsChangedByHand(t *testing.T) {
	file := sampleFile(t, "first")
	do("freeze", file, "--built", "pump")
	line := regexp.MustCompile(`(4C +)4 mm2 +thin-wall-125 +\S+ +3815 mm`)
	text := read(t, recordOf(file))
	require.Regexp(t, line, text)
	text = line.ReplaceAllString(text, "${1}3 mm2 thin-wall-125 PK 4.1 m # what was on the shelf")
	require.NoError(t, os.WriteFile(recordOf(file), []byte(text), 0o600))
	_, out, errs := do("figures", file, "--json")
	var d figures.Document
	require.NoError(t, json.Unmarshal([]byte(out), &d), errs)
	seen := 0
	for _, w := range d.Wires {
		if w.ID == "4C" {
			seen++
			require.Equal(t, []any{"3", "PK", 4100.0, "built"}, []any{w.Gauge, w.Base, w.LengthMM, w.Kept})
			require.Contains(t, w.Reason, "kept, built: 3 mm²")
		}
		require.NotEmpty(t, w.Kept, w.ID)
	}
	require.Equal(t, 1, seen)
	require.Equal(t, "planned", d.Fuses[0].Kept)
	do("freeze", file)
	require.Contains(t, read(t, recordOf(file)), "PK      4100 mm  # what was on the shelf\n")
	replaced(t, recordOf(file), "wire pump", "wier pump")
	code, _, errs := do("packet", file)
	require.Equal(t, exitUnusable, code)
	require.Regexp(t, `first\.built\.txt:\d+:1: error: a line cannot begin with "wier" \[record-line\]`, errs)
	require.Contains(t, errs, "Did you mean wire?")
}

// Two wires that few reels make alike are no finding on a later run, planned or built, however often
// the record is written. A clash that a hand makes is one, and stays one.
func TestAClashIsToldWhereAHandMadeIt(t *testing.T) {
	for _, built := range []string{"", "all", "fan"} {
		file := sampleFile(t, "first")
		args := []string{"freeze", file}
		if built != "" {
			args = append(args, "--built", built)
		}
		do(args...)
		do("freeze", file)
		text := read(t, recordOf(file))
		require.Regexp(t, `(?m) 3E .* OG +1085 mm  sleeve 4E$`, text)
		code, _, errs := do("check", file)
		require.Equal(t, exitGood, code)
		require.Empty(t, errs, built)

		line := regexp.MustCompile(`( 3C +4 mm2 +\S+ +)BU( +1505 mm)`)
		require.Regexp(t, line, text)
		require.NoError(t, os.WriteFile(recordOf(file), line.ReplaceAll([]byte(text), []byte("${1}GY${2}")), 0o600))
		for range 2 {
			_, _, errs = do("check", file)
			require.Regexp(t, `3[BC] \(GY\) look alike|\(GY\) and \S+ \(GY\) look alike`, errs, built)
			require.NotContains(t, errs, "OG", built)
			do("freeze", file)
		}
	}
}

// Freezing changes nothing in the packet, and twice writes the same.
func TestAFrozenPacketIsTheSame(t *testing.T) {
	file := sampleFile(t, "tender")
	pages := func(args ...string) string {
		out := filepath.Join(t.TempDir(), "out.pdf")
		code, _, errs := do(append([]string{"packet", file, "--for", "bench", "-o", out}, args...)...)
		require.Equal(t, exitGood, code, errs)
		return read(t, out)
	}
	before := pages()
	do("freeze", file)
	first := read(t, recordOf(file))
	require.Equal(t, before, pages())
	do("freeze", file)
	require.Equal(t, first, read(t, recordOf(file)))
	do("freeze", file, "--built", "all")
	require.NotEqual(t, before, pages(), "the cut list marks what is built")
	require.Equal(t, before, pages("--no-record"))
	do("freeze", file, "--planned", "all")
	require.Equal(t, first, read(t, recordOf(file)))
}

func TestTheArchiveCarriesTheRecord(t *testing.T) {
	need(t, "pdfdetach")
	file := sampleFile(t, "first")
	do("freeze", file, "--built", "all")
	pdf := filepath.Join(t.TempDir(), "a.pdf")
	code, _, errs := do("packet", file, "-o", pdf)
	require.Equal(t, exitGood, code, errs)
	dir := t.TempDir()
	require.NoError(t, exec.Command("pdfdetach", "-saveall", "-o", dir, pdf).Run())
	require.Equal(t, read(t, recordOf(file)), read(t, filepath.Join(dir, "first.built.txt")))
	require.Equal(t, read(t, file), read(t, filepath.Join(dir, "first.yaml")))
}

func TestFreezeCalledWrongly(t *testing.T) {
	file := sampleFile(t, "first")
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"freeze"}, "freeze takes one file"},
		{[]string{"freeze", "-"}, "name one with --record"},
		{[]string{"freeze", file, "--built", "3C,fna"}, `nothing is called "fna": did you mean fan?`},
		{[]string{"freeze", file, "--no-record"}, "there is no option"},
		{[]string{"check", file, "--record", "none.txt"}, "there is no record none.txt"},
	} {
		code, _, errs := do(c.args...)
		require.Equal(t, exitUnusable, code)
		require.Contains(t, errs, c.says)
	}
	require.NoFileExists(t, recordOf(file))
}
