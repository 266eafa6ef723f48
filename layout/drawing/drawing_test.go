package drawing

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/render"
)

// TestLook writes the drawings of the test models as a PDF where LOOK names a file.
func TestLook(t *testing.T) {
	path := os.Getenv("LOOK")
	if path == "" {
		t.Skip("LOOK names no file")
	}
	var pages []frame.Page
	for _, text := range []string{fan, car, panel()} {
		h := read(text)
		f, err := frame.Of("A4", true)
		require.NoError(t, err)
		for _, d := range Lay(h, results(h), f.Body) {
			var c sheet.Canvas
			f.Heading(&c, d.Title, d.Subtitle)
			c.Add(d.Draw(func(string) string { return "sheet 7, C3" }, func(string) string { return "" })...)
			var kept []sheet.Mark
			for _, m := range c.Marks {
				if _, ok := m.(sheet.Anchor); !ok {
					kept = append(kept, m)
				}
			}
			pages = append(pages, frame.Page{Frame: f, Title: d.Title, Marks: kept})
		}
	}
	pdf, err := render.PDF(sheet.Packet{Title: "look", Sheets: frame.Bind(pages, frame.Block{Title: "Test"})})
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(path, pdf, 0o644))
}
