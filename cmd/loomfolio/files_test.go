package main

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/render/pdf"
)

// A place at which something would be lost is refused before anything is written,
// and --force writes there all the same.
func TestNothingElseIsReplacedByAPacket(t *testing.T) {
	file := sampleFile(t, "first")
	code, _, errs := do("freeze", file)
	require.Zero(t, code, errs)
	dir := t.TempDir()
	packet, noted, letter := filepath.Join(dir, "packet.pdf"), filepath.Join(dir, "noted.pdf"), filepath.Join(dir, "letter.pdf")
	code, _, errs = do("packet", file, "-o", packet)
	require.Zero(t, code, errs)
	require.NoError(t, os.WriteFile(noted, []byte(read(t, packet)+"startxref\n9\n%%EOF\n"), 0o600))
	require.NoError(t, os.WriteFile(letter, []byte("%PDF-1.4 an invoice"), 0o600))
	link := filepath.Join(dir, "link.pdf")
	require.NoError(t, os.Symlink(file, link))
	for _, c := range []struct{ out, says string }{
		{file, "is the description itself"},
		{link, "is the description itself"},
		{recordOf(file), "is the as-built record"},
		{noted, "is not a packet as loomfolio wrote it"},
		{letter, "is not a packet as loomfolio wrote it"},
	} {
		before := read(t, c.out)
		for _, kind := range [][]string{nil, {"--board"}, {"--labels"}} {
			code, out, errs := do(append([]string{"packet", file, "-o", c.out}, kind...)...)
			require.Equal(t, exitUnusable, code, c.out)
			require.Empty(t, out)
			require.Contains(t, errs, c.says)
			require.Contains(t, errs, "--force")
			require.Equal(t, before, read(t, c.out))
		}
	}
	code, _, errs = do("packet", file, "-o", letter, "--force")
	require.Zero(t, code, errs)
	require.True(t, pdf.Ours([]byte(read(t, letter))))
	code, _, errs = do("packet", file, "-o", packet, "--for", "bench")
	require.Zero(t, code, errs, "a packet is replaced by the next one")
}

// A file keeps its mode, a link stays a link and leads to the new packet.
func TestAPacketKeepsModeAndLink(t *testing.T) {
	file := sampleFile(t, "first")
	dir := t.TempDir()
	real, link := filepath.Join(dir, "real.pdf"), filepath.Join(dir, "link.pdf")
	require.NoError(t, os.WriteFile(real, nil, 0o600))
	require.NoError(t, os.Symlink("real.pdf", link))
	code, _, errs := do("packet", file, "-o", link)
	require.Zero(t, code, errs)
	info, err := os.Lstat(real)
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o600), info.Mode())
	info, err = os.Lstat(link)
	require.NoError(t, err)
	require.NotZero(t, info.Mode()&os.ModeSymlink)
	require.True(t, pdf.Ours([]byte(read(t, real))))
}

// On standard output there is nothing but the document.
func TestNothingButThePacketOnStandardOutput(t *testing.T) {
	code, out, errs := do("packet", sampleFile(t, "first"), "-o", "-", "--svg", filepath.Join(t.TempDir(), "svg"))
	require.Zero(t, code, errs)
	require.True(t, pdf.Ours([]byte(out)))
	require.Contains(t, errs, "sheets for the archive")
	require.Contains(t, errs, "the same sheets as SVG")
}

// full is an output that takes so many bytes and no more.
type full struct{ room int }

func (f *full) Write(p []byte) (int, error) {
	if f.room -= len(p); f.room < 0 {
		return 0, errors.New("no space left on device")
	}
	return len(p), nil
}

// Whatever cannot be written out makes the call fail and says so.
func TestAFullOutputIsAnError(t *testing.T) {
	file := sampleFile(t, "first")
	for _, args := range [][]string{
		{"help"}, {"version"}, {"version", "--licences"}, {"sample"}, {"sample", "first"}, {"check", file}, {"explain", file}, {"explain", file, "FAN"},
		{"figures", file, "--json"}, {"figures", file, "--csv", "wires"}, {"figures", file, "--netlist", "driving"}, {"packet", file, "-o", "-"}, {"packet", file},
		{"packet", file, "--svg", filepath.Join(t.TempDir(), "s")}, {"freeze", file},
	} {
		var errs bytes.Buffer
		code := run(args, strings.NewReader(""), &full{}, &errs)
		require.Equal(t, exitUnusable, code, args)
		require.Contains(t, errs.String(), "no space left on device", args)
		require.Equal(t, exitUnusable, run([]string{"chekc"}, strings.NewReader(""), &errs, &full{}))
	}
}

// endless is a description without end.
type endless struct{}

func (endless) Read(p []byte) (int, error) {
	return copy(p, bytes.Repeat([]byte("# again\n"), len(p)/8+1)), nil
}

func TestInputIsBounded(t *testing.T) {
	var out, errs bytes.Buffer
	require.Equal(t, exitUnusable, run([]string{"check", "-"}, endless{}, &out, &errs))
	require.Contains(t, errs.String(), "-: it has more than 1048576 bytes, and a description may have up to 1 MB")
	file := sampleFile(t, "first")
	require.NoError(t, os.WriteFile(recordOf(file), bytes.Repeat([]byte("# again\n"), 1<<20), 0o600))
	code, _, said := do("check", file)
	require.Equal(t, exitUnusable, code)
	require.Contains(t, said, "first.built.txt: it has more than 4194304 bytes")
}

// A letter that the sheets' fonts lack is named with its place.
func TestMissingGlyphsAreNamed(t *testing.T) {
	file := sampleFile(t, "first")
	replaced(t, file, "name: Radiator fan", "name: Radiator 扇 fan")
	code, _, errs := do("check", file)
	require.Zero(t, code)
	require.Regexp(t, `first\.yaml:\d+:\d+: warning: the sheets' letters have no 扇 \(U\+6247\): it is printed as \? \[no-glyph\]`, errs)
	require.Contains(t, errs, "1 warning")
}

// A folder's name with signs of a pattern in it is a name like any other, what we did
// not write is not touched, and what somebody changed since stays his.
func TestOnlyOurSheetsAreReplaced(t *testing.T) {
	file := sampleFile(t, "first")
	dir := filepath.Join(t.TempDir(), "out[1]")
	beside := filepath.Join(filepath.Dir(dir), "out1")
	for _, d := range []string{beside, dir} {
		code, _, errs := do("packet", file, "--svg", d)
		require.Zero(t, code, errs)
	}
	before := folder(t, beside)
	code, _, errs := do("packet", file, "--svg", dir, "--for", "customer")
	require.Zero(t, code, errs)
	require.Equal(t, before, folder(t, beside), "the folder beside it")
	now := folder(t, dir)
	require.Less(t, len(now), len(before))
	require.Len(t, strings.Split(strings.TrimSpace(now[sheetList]), "\n"), len(now), "the list names each sheet")

	cover := filepath.Join(dir, "01-cover.svg")
	require.NoError(t, os.WriteFile(cover, []byte("<svg>with my notes</svg>"), 0o600))
	before = folder(t, dir)
	code, _, errs = do("packet", file, "--svg", dir)
	require.Equal(t, exitUnusable, code)
	require.Contains(t, errs, "01-cover.svg was changed since it was written here: move it away")
	require.Equal(t, before, folder(t, dir), "nothing was written")
	code, _, errs = do("packet", file, "--svg", dir, "--force")
	require.Zero(t, code, errs)
	require.NotContains(t, read(t, cover), "my notes")

	own := filepath.Join(t.TempDir(), "own")
	require.NoError(t, os.Mkdir(own, 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(own, "01-cover.svg"), []byte("<svg/>"), 0o600))
	code, _, errs = do("packet", file, "--svg", own)
	require.Equal(t, exitUnusable, code)
	require.Contains(t, errs, "was not written by an earlier run")
	require.Len(t, folder(t, own), 1)
}

// A sheet of an earlier run that is not of this packet goes, but not if it was changed.
func TestAChangedSheetOfAnEarlierRunStays(t *testing.T) {
	file, dir := sampleFile(t, "first"), filepath.Join(t.TempDir(), "svg")
	do("packet", file, "--svg", dir)
	var last string
	for name := range folder(t, dir) {
		if filepath.Ext(name) == ".svg" && name > last {
			last = name
		}
	}
	require.NoError(t, os.WriteFile(filepath.Join(dir, last), []byte("<svg>mine</svg>"), 0o600))
	code, _, errs := do("packet", file, "--svg", dir, "--for", "customer")
	require.Zero(t, code, errs)
	require.Contains(t, errs, last+": changed since it was written, so it stays")
	require.Equal(t, "<svg>mine</svg>", folder(t, dir)[last])
}

// folder gives the files of a folder by name.
func folder(t *testing.T, dir string) map[string]string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	out := map[string]string{}
	for _, e := range entries {
		out[e.Name()] = read(t, filepath.Join(dir, e.Name()))
	}
	return out
}

// A record that was cut off at a line's end is refused by every command, and stays.
func TestACutRecordIsRefused(t *testing.T) {
	file := sampleFile(t, "first")
	code, _, errs := do("freeze", file, "--built", "all")
	require.Zero(t, code, errs)
	whole := read(t, recordOf(file))
	lines := strings.SplitAfter(whole, "\n")
	for _, keep := range []int{3, 4, 10, len(lines) - 4, len(lines) - 2} {
		cut := strings.Join(lines[:keep], "")
		require.NoError(t, os.WriteFile(recordOf(file), []byte(cut), 0o600))
		for _, args := range [][]string{{"check", file}, {"freeze", file}, {"packet", file}} {
			code, _, errs := do(args...)
			require.Equal(t, exitUnusable, code, "%v after %d lines", args, keep)
			require.Regexp(t, `\[record-(end|head)\]`, errs)
			require.Equal(t, cut, read(t, recordOf(file)))
		}
	}
}

// Two freezes at once wait for each other: neither mark is lost.
func TestTwoFreezesAtOnceKeepBothMarks(t *testing.T) {
	file := sampleFile(t, "first")
	circuits := []string{"fan", "pump", "lamps"}
	var all sync.WaitGroup
	for _, c := range circuits {
		all.Go(func() {
			if code, _, errs := do("freeze", file, "--built", c); code != exitGood {
				t.Error(errs)
			}
		})
	}
	all.Wait()
	text := read(t, recordOf(file))
	for _, c := range circuits {
		require.Regexp(t, `(?m)^wire `+c+` .* built `, text)
		require.NotRegexp(t, `(?m)^wire `+c+` .* planned `, text)
	}
	require.Len(t, folder(t, filepath.Dir(file)), 2, "no lock is left")
}

// Before anything built leaves the record it is copied with its date; a second copy of
// a day has a number, and what loses nothing is not copied.
func TestTheRecordIsCopiedBeforeAnythingBuiltGoes(t *testing.T) {
	file := sampleFile(t, "first")
	dir := filepath.Dir(file)
	written := time.Date(2026, 11, 2, 12, 0, 0, 0, time.UTC)
	freeze := func(args ...string) (before, out string) {
		if text, err := os.ReadFile(recordOf(file)); err == nil {
			before = string(text)
			require.NoError(t, os.Chtimes(recordOf(file), written, written))
		}
		code, out, errs := do(append([]string{"freeze", file}, args...)...)
		require.Zero(t, code, errs)
		return before, out
	}
	freeze("--built", "fan")
	freeze("--built", "pump")
	require.Len(t, folder(t, dir), 2, "more is built, nothing goes")
	before, out := freeze("--planned", "all")
	require.Contains(t, out, "first.built.2026-11-02.txt: a copy of the record before this change")
	require.Equal(t, before, folder(t, dir)["first.built.2026-11-02.txt"])
	require.NotRegexp(t, `(?m)^(wire|fuse) .* built `, read(t, recordOf(file)))

	freeze("--built", "all")
	before, _ = freeze("--planned", "fan")
	require.Equal(t, before, folder(t, dir)["first.built.2026-11-02-2.txt"])
	require.Len(t, folder(t, dir), 4)

	replaced(t, recordOf(file), "4 fuses ", "4 fuses 0") // as if by hand
	do("freeze", file, "--planned", "all")
	require.Len(t, folder(t, dir), 5)
}

// The record may not be the description.
func TestFreezeSparesTheDescription(t *testing.T) {
	file := sampleFile(t, "first")
	before := read(t, file)
	code, _, errs := do("freeze", file, "--record", file)
	require.Equal(t, exitUnusable, code)
	require.Contains(t, errs, "is the description itself")
	require.Equal(t, before, read(t, file))
	none := filepath.Join(t.TempDir(), "none", "a.yaml")
	code, _, errs = do("freeze", none)
	require.Equal(t, exitUnusable, code)
	require.Contains(t, errs, "there is no file "+none)
}

// What a hand has changed in the record is said until it is frozen again.
func TestAChangeByHandIsSaid(t *testing.T) {
	file := sampleFile(t, "first")
	do("freeze", file, "--built", "all")
	text := regexp.MustCompile(`(?m)^fuse MF1.*$`).ReplaceAllString(read(t, recordOf(file)), "$0  # bought in town")
	require.NoError(t, os.WriteFile(recordOf(file), []byte(text), 0o600))
	_, _, errs := do("check", file)
	require.Contains(t, errs, "[record-edited]")
	do("freeze", file)
	_, _, errs = do("check", file)
	require.Empty(t, errs)
	require.Contains(t, read(t, recordOf(file)), "# bought in town")
}
