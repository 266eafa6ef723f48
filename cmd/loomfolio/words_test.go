package main

import (
	"encoding/xml"
	"os/exec"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/samples"
)

// word is a word as poppler finds it on a page, in points from the top left.
type word struct {
	XMin float64 `xml:"xMin,attr"`
	YMin float64 `xml:"yMin,attr"`
	XMax float64 `xml:"xMax,attr"`
	YMax float64 `xml:"yMax,attr"`
	S    string  `xml:",chardata"`
}

// ink is the part of poppler's box, which runs from the font's ascent to its
// descent, in which lower case letters stand; a turned word's box lies on its side.
func (w word) ink() sheet.Rect {
	r := sheet.Rect{X: w.XMin, Y: w.YMin, W: w.XMax - w.XMin, H: w.YMax - w.YMin}
	if r.H > r.W && len(w.S) > 3 {
		return sheet.Rect{X: r.X + 0.3*r.W, Y: r.Y + 0.2, W: 0.45 * r.W, H: r.H - 0.4}
	}
	return sheet.Rect{X: r.X + 0.2, Y: r.Y + 0.3*r.H, W: r.W - 0.4, H: 0.45 * r.H}
}

// boxes reads the words of each page from the first to the last asked for, with their
// places; all pages where the last is 0.
func boxes(t *testing.T, pdf string, first, last int) [][]word {
	need(t, "pdftotext")
	out, err := exec.Command("pdftotext", "-bbox", "-f", strconv.Itoa(first), "-l", strconv.Itoa(last), pdf, "-").Output()
	require.NoError(t, err)
	dec := xml.NewDecoder(strings.NewReader(string(out)))
	dec.Strict, dec.Entity, dec.AutoClose = false, xml.HTMLEntity, xml.HTMLAutoClose
	var doc struct {
		Pages []struct {
			Words []word `xml:"word"`
		} `xml:"body>doc>page"`
	}
	require.NoError(t, dec.Decode(&doc))
	var pages [][]word
	for _, p := range doc.Pages {
		pages = append(pages, p.Words)
	}
	return pages
}

// Another program finds no two words on one another on any circuit diagram of any
// sample.
func TestNoTwoWordsOverlapOnTheDiagrams(t *testing.T) {
	for _, s := range samples.List() {
		t.Run(s.Name, func(t *testing.T) {
			path, p, _ := printed(t, s.Name, layout.Archive, "")
			drawn := func(s sheet.Sheet) bool { return s.Group == "Circuit diagrams" }
			first := slices.IndexFunc(p.Sheets, drawn)
			n := slices.IndexFunc(p.Sheets[first:], func(s sheet.Sheet) bool { return !drawn(s) })
			require.Positive(t, n, "they lie together, and other sheets behind them")
			require.False(t, slices.ContainsFunc(p.Sheets[first+n:], drawn))
			pages := boxes(t, path, first+1, first+n)
			require.Len(t, pages, n)
			looked := 0
			for i, words := range pages {
				require.NotEmpty(t, words)
				looked += len(words)
				apart(t, p.Sheets[first+i].Title, words)
			}
			require.Greater(t, looked, 200)
		})
	}
}

func apart(t *testing.T, title string, words []word) {
	for i, a := range words {
		for _, b := range words[:i] {
			if a.ink().Meets(b.ink()) {
				t.Fatalf("%s: %q lies on %q", title, a.S, b.S)
			}
		}
	}
}
