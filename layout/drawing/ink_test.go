package drawing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
)

// square is the side of the squares in which ink is counted, mm.
const square = 5.0

// inkedSquares counts the squares of a body that the ink of marks touches: lines the
// squares that they pass, closed shapes those that they cover, text those of its box.
func inkedSquares(marks []sheet.Mark, body sheet.Rect) (inked, all int) {
	across, down := int(body.W/square), int(body.H/square)
	grid := make([]bool, across*down)
	touch := func(r sheet.Rect) {
		for i := max(0, int((r.X-body.X)/square)); i <= min(across-1, int((r.Right()-body.X)/square)); i++ {
			for k := max(0, int((r.Y-body.Y)/square)); k <= min(down-1, int((r.Bottom()-body.Y)/square)); k++ {
				grid[k*across+i] = true
			}
		}
	}
	for _, m := range marks {
		switch m := m.(type) {
		case sheet.Text:
			touch(typeface.TextBounds(m))
		case sheet.Path:
			if m.Closed {
				touch(m.Bounds())
			} else if m.Stroke.Colour != sheet.White {
				touchLine(m, touch)
			}
		}
	}
	for _, g := range grid {
		if g {
			inked++
		}
	}
	return inked, len(grid)
}

// touchLine touches along a line in steps of half a mm.
func touchLine(p sheet.Path, touch func(sheet.Rect)) {
	from := p.Start
	for _, s := range p.Segs {
		n := int(math.Hypot(s.P.X-from.X, s.P.Y-from.Y)/0.5) + 1
		for i := range n + 1 {
			k := float64(i) / float64(n)
			touch(sheet.Rect{X: from.X + k*(s.P.X-from.X), Y: from.Y + k*(s.P.Y-from.Y)})
		}
		from = s.P
	}
}

// TestInk: the paper of the diagrams is used. A small description has few circuits that
// could share a sheet with others.
func TestInk(t *testing.T) {
	least := map[string]float64{"kestrel": 0.57, "camper": 0.54, "first": 0.58, "tender": 0.54}
	for _, sample := range samples.List() {
		h, r := worked.Out(t, sample)
		area := body(t, "A4").Body
		inked, all := 0, 0
		for _, d := range Lay(h, r, area) {
			i, a := inkedSquares(d.Draw(somewhere, nowhere), area)
			inked, all = inked+i, all+a
		}
		t.Logf("%s: %.0f %% of the squares", sample.Name, 100*float64(inked)/float64(all))
		require.Greater(t, float64(inked)/float64(all), least[sample.Name], sample.Name)
	}
}

// TestFewSheets: the diagrams of the samples take no more A4 sheets than this, and none is
// fuller than a sheet.
func TestFewSheets(t *testing.T) {
	most := map[string]int{"kestrel": 19, "camper": 15, "tender": 4, "first": 2}
	for _, sample := range samples.List() {
		h, r := worked.Out(t, sample)
		s := newSheets(h, r, body(t, "A4").Body)
		jobs := s.jobs()
		s.leadBack(jobs)
		pages := s.pack(s.blocks(jobs))
		require.LessOrEqual(t, len(pages), most[sample.Name], sample.Name)
		for i, p := range pages {
			require.LessOrEqual(t, p.rowsHigh(), s.body.H+1e-6, "%s: sheet %d", sample.Name, i+1)
		}
	}
}

// TestLowerStrips: a strip laid out lower is lower than the plain one in the same look,
// crosses no more wires, and is as clean.
func TestLowerStrips(t *testing.T) {
	found := 0
	for _, sample := range samples.List() {
		h, r := worked.Out(t, sample)
		for _, st := range allStrips(newSheets(h, r, body(t, "A4").Body).jobs()) {
			for _, v := range st.versions {
				if !v.form.low {
					continue
				}
				found++
				look := v.form
				look.low = false
				plain := st.inLook(look)
				require.Less(t, v.layout.H, plain.layout.H)
				require.LessOrEqual(t, v.layout.Crossings, plain.layout.Crossings)
				require.Empty(t, v.layout.Check(v.graph.Graph))
			}
		}
	}
	require.Positive(t, found)
}
