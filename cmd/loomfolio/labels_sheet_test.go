package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/sheet"
)

const ofFormat = "practice:\n  labels: "

// withLabels writes a sample that has no practice of its own with one for labels.
func withLabels(t *testing.T, name, labels string) string {
	t.Helper()
	path := sampleFile(t, name)
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	require.NotContains(t, string(text), "\npractice:")
	require.NoError(t, os.WriteFile(path, []byte(strings.Replace(string(text), "\nparts:", "\n"+ofFormat+labels+"\n\nparts:", 1)), 0o600))
	return path
}

// TestLabelsLieOnTheirLabels: another program reads the label sheets back from the PDF;
// every word lies on one label of the format, and each wire's name on those of its ends:
// two faces each.
func TestLabelsLieOnTheirLabels(t *testing.T) {
	wholeRun(t)
	path := withLabels(t, "kestrel", "{sheet: {paper: A4, across: 4, down: 12, width: 45.7 mm, height: 21.2 mm, left: 9.7 mm, top: 21.5 mm, pitch-across: 48.3 mm, first: 7}}")
	code, out, errs := do("packet", path, "--labels")
	require.Equal(t, exitGood, code, errs)
	require.Contains(t, out, "sheets of labels")
	pages := boxes(t, strings.TrimSuffix(path, ".yaml")+"-labels.pdf", 2, 13) // behind the one to be tried, before the strips
	named := map[string]int{}
	for n, words := range pages {
		for _, w := range words {
			const mm = 25.4 / 72
			in := w.ink()
			r := sheet.Rect{X: in.X * mm, Y: in.Y * mm, W: in.W * mm, H: in.H * mm}
			if r.Bottom() < 21.5 {
				continue // the line in the margin
			}
			col, row := int((r.X-9.7)/48.3), int((r.Y-21.5)/21.2)
			label := sheet.Rect{X: 9.7 + float64(col)*48.3, Y: 21.5 + float64(row)*21.2, W: 45.7, H: 21.2}
			require.True(t, col < 4 && row < 12 && label.Holds(r), "sheet %d: %q at %v", n+1, w.S, r)
			require.True(t, n > 0 || row*4+col >= 6, "%q on a label that is used up", w.S)
			named[w.S]++
		}
	}
	h, _ := kept(t, "kestrel")
	for _, w := range h.Wires {
		require.Equal(t, 4, named[w.Name], w.Name)
	}
}

// TestLabelsOfEveryPractice: on a roll, and where the practice names no labels, cut out of the packet's
// paper, with the fuse cards and the warnings.
func TestLabelsOfEveryPractice(t *testing.T) {
	path := withLabels(t, "first", "{roll: {width: 12 mm, pitch: 45 mm}}")
	code, out, errs := do("packet", path, "--labels")
	require.Equal(t, exitGood, code, errs)
	require.Contains(t, out, "sheets of labels")
	code, _, errs = do("packet", path, "--labels", "--board")
	require.Equal(t, exitUnusable, code)
	require.Contains(t, errs, "ask for one at a time")
	path = sampleFile(t, "tender")
	code, _, errs = do("packet", path, "--labels")
	require.Equal(t, exitGood, code, errs)
	said := ""
	for _, words := range boxes(t, strings.TrimSuffix(path, ".yaml")+"-labels.pdf", 1, 0) {
		for _, w := range words {
			said += w.S + " "
		}
	}
	for _, want := range []string{"Labels", "Fuse cards", "Warning labels", "LIVE, NO FUSE"} {
		require.Contains(t, said, want)
	}
}

// TestAWrongFormatIsFound with its place and what would be right.
func TestAWrongFormatIsFound(t *testing.T) {
	path := withLabels(t, "first", "{sheet: {paper: A4, across: 5, down: 12, width: 45.7 mm, height: 21.2 mm, left: 9.7 mm, top: 21.5 mm}}")
	code, _, errs := do("check", path)
	require.Equal(t, exitUnusable, code)
	require.Regexp(t, filepath.Base(path)+`:\d+:\d+: error: 5 labels across end 238.2 mm from the edge; A4 is 210 mm wide \[labels-off-paper\]`, errs)
	require.Contains(t, errs, "measure the sheet again")
}
