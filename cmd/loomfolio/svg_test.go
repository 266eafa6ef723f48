package main

import (
	"encoding/xml"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/render/vector"
)

// svgTexts gives what stands in the text elements of an SVG file.
func svgTexts(t *testing.T, path string) []string {
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	var file struct {
		Texts []string `xml:"text"`
	}
	require.NoError(t, xml.Unmarshal(data, &file))
	return file.Texts
}

// Every sheet is there as a file, and what was drawn for an earlier reader and
// paper is gone; files that are not ours stay.
func TestSheetsAsSVG(t *testing.T) {
	first := sampleFile(t, "first")
	dir := filepath.Join(t.TempDir(), "sheets")
	code, out, errs := do("packet", first, "--svg", dir)
	require.Zero(t, code, errs)
	require.Contains(t, out, "the same sheets as SVG")
	all, err := filepath.Glob(filepath.Join(dir, "*.svg"))
	require.NoError(t, err)
	require.Contains(t, out, "first.pdf: ")
	p := planned(t, "first", "archive", "")
	require.Len(t, all, len(p.Sheets))
	require.Regexp(t, `^01-cover.*\.svg$`, filepath.Base(all[0]))
	large, err := filepath.Glob(filepath.Join(dir, "*-the-wiring-at-a-glance.svg"))
	require.NoError(t, err)
	require.Len(t, large, 1)
	drawn, err := os.ReadFile(large[0])
	require.NoError(t, err)
	require.Contains(t, string(drawn), `width="420mm" height="297mm"`)
	joined := ""
	for _, path := range all {
		joined += strings.Join(svgTexts(t, path), "\n") + "\n"
	}
	for _, word := range []string{"Disconnect the battery before any work", "3A", "Driving lamp left", "G1"} {
		require.True(t, strings.Contains(joined, word), word)
	}

	own := filepath.Join(dir, "drawing.svg")
	require.NoError(t, os.WriteFile(own, []byte("<svg/>"), 0o600))
	code, _, errs = do("packet", first, "--svg", dir, "--for", "customer")
	require.Zero(t, code, errs)
	now, err := filepath.Glob(filepath.Join(dir, "*.svg"))
	require.NoError(t, err)
	require.Less(t, len(now), len(all))
	require.FileExists(t, own)
	names := vector.Names(*planned(t, "first", "customer", ""))
	require.Len(t, now, len(names)+1)
}

func TestSVGFolderThatCannotBe(t *testing.T) {
	first := sampleFile(t, "first")
	code, _, errs := do("packet", first, "--svg", filepath.Join(first, "under-a-file"))
	require.Equal(t, 2, code)
	require.Contains(t, errs, "name another folder with --svg")
}
