package toy

import (
	"bytes"
	"image"
	"image/png"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/sizing/harness"
)

// Each calls a test for every sample, reader and paper; of a short run each sample on one paper.
func Each(t *testing.T, test func(t *testing.T, a page.Ask)) {
	for k, s := range samples.List() {
		a := Archive(t, s)
		for i, paper := range frame.Papers() {
			for _, reader := range []string{page.Archive, page.Bench, page.Customer} {
				if testing.Short() && i != k%len(frame.Papers()) {
					continue
				}
				b := page.Of(a.H, a.R, paper, reader)
				t.Run(s.Name+" "+reader+" "+paper, func(t *testing.T) { test(t, b) })
			}
		}
	}
}

// Running are the words of pages with every line's end a blank, as a reader takes them.
func Running(pages []frame.Page) string { return OneLine(Words(pages)) }

// OneLine is a text with one blank in the place of each line's end and each row of blanks.
func OneLine(s string) string { return strings.Join(strings.Fields(Plain(s)), " ") }

// Photograph is a picture of so many pixels.
func Photograph(t testing.TB, file string, wide, high int) *harness.Picture {
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, image.NewRGBA(image.Rect(0, 0, wide, high))))
	return &harness.Picture{File: file, Form: sheet.PNG, Data: b.Bytes(), Wide: wide, High: high}
}

// Pictures are those that pages show.
func Pictures(pages []frame.Page) (out []sheet.Picture) {
	for _, p := range pages {
		for _, m := range p.Marks {
			if x, ok := m.(sheet.Picture); ok {
				out = append(out, x)
			}
		}
	}
	return out
}

// Photographed is an ask of a copy of the model in which each place and each part has a photograph
// of its own, in turn upright, square, lying and long.
func Photographed(t testing.TB, a page.Ask) page.Ask {
	h := *a.H
	h.Places, h.Parts = slices.Clone(h.Places), slices.Clone(h.Parts)
	shapes := [][2]int{{30, 40}, {40, 40}, {40, 30}, {64, 36}, {90, 30}}
	shot := func(i int) *harness.Picture {
		s := shapes[i%len(shapes)]
		return Photograph(t, "shot.png", s[0], s[1])
	}
	for i := range h.Places {
		h.Places[i].Picture = shot(i)
	}
	for i := range h.Parts {
		h.Parts[i].Picture = shot(i + i/len(shapes))
	}
	out := page.Of(&h, a.R, a.Paper, a.For)
	out.Known = a.Known
	return out
}
