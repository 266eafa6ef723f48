package drawing

import (
	flags "flag"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/render"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/harness"
)

var update = flags.Bool("update", false, "write the golden files anew")

func body(t testing.TB, paper string) frame.Frame {
	f, err := frame.Of(paper, true)
	require.NoError(t, err)
	return f
}

func somewhere(string) string { return "sheet 88, C8" }
func nowhere(string) string   { return "" }

// shrunk is a text's box without the air above its capitals and below its line.
func shrunk(t sheet.Text) sheet.Rect {
	b := typeface.TextBounds(t)
	if t.Turn != 0 {
		return b.Inset(0.15)
	}
	return sheet.Rect{X: b.X + 0.1, Y: t.Y - t.Size*typeface.CapHeight, W: b.W - 0.2, H: t.Size * typeface.CapHeight}
}

// clean measures one drawing: nothing outside the body, no text on a text, none
// smaller than the house allows.
func clean(t *testing.T, d Drawing, body sheet.Rect, what string) {
	var texts []sheet.Text
	for _, m := range d.Draw(somewhere, nowhere) {
		if _, ok := m.(sheet.Anchor); ok {
			continue
		}
		require.True(t, body.Inset(-0.5).Holds(typeface.Bounds(m)), "%s: %s: outside the body: %s", what, d.Title, sheet.DumpMarks([]sheet.Mark{m}))
		if text, ok := m.(sheet.Text); ok {
			texts = append(texts, text)
			require.GreaterOrEqual(t, text.Size, sheet.SizeNote)
			require.NotContains(t, text.S, "@{")
		}
	}
	for i, a := range texts {
		for _, b := range texts[:i] {
			require.False(t, shrunk(a).Meets(shrunk(b)), "%s: %s: %q lies on %q", what, d.Title, a.S, b.S)
		}
	}
}

// cleanStrips measures the strips: the layouts by their own check, and captions against wires.
func cleanStrips(t *testing.T, s *sheets, strips []*strip, what string) {
	for _, st := range strips {
		cleanFlags(t, s, st, what)
		require.True(t, st.layout.Fits, "%s: a strip of %d wires does not fit", what, len(st.wires))
		require.Empty(t, st.layout.Check(st.graph.Graph), what)
		for i, n := range st.graph.nodes {
			at := st.layout.Nodes[i]
			for _, m := range sheet.Move(n.tile.Marks, at.X, at.Y) {
				if text, ok := m.(sheet.Text); ok {
					offWires(t, st, shrunk(text), text.S, what)
				}
			}
		}
	}
}

// cleanFlags measures the flags as they are drawn against wires, their own
// included, tiles and each other.
func cleanFlags(t *testing.T, s *sheets, st *strip, what string) {
	var seen []sheet.Rect
	for i, w := range st.graph.wires {
		if w < 0 {
			continue
		}
		f := s.flag(w, st.form)
		name, spec := f.boxes(st.layout.Flags[i])
		for _, box := range []sheet.Rect{name, spec} {
			offWires(t, st, box, f.name+" "+f.spec, what)
			for n, node := range st.graph.nodes {
				at := st.layout.Nodes[n]
				for _, r := range node.tile.Solid {
					require.False(t, box.Meets(sheet.Rect{X: at.X + r.X, Y: at.Y + r.Y, W: r.W, H: r.H}), "%s: flag %s lies on a tile", what, f.name)
				}
			}
			for _, o := range seen {
				require.False(t, box.Meets(o), "%s: flag %s lies on another", what, f.name)
			}
		}
		seen = append(seen, name, spec)
	}
}

func offWires(t *testing.T, st *strip, box sheet.Rect, s, what string) {
	for _, path := range st.layout.Paths {
		for i := 1; i < len(path); i++ {
			a, b := path[i-1], path[i]
			r := sheet.Rect{X: min(a.X, b.X) - 0.5, Y: min(a.Y, b.Y) - 0.5, W: abs(a.X-b.X) + 1, H: abs(a.Y-b.Y) + 1}
			require.False(t, r.Meets(box), "%s: a wire runs through %q", what, s)
		}
	}
}

// every wire's name stands on a drawing of its circuit.
func namesAll(t *testing.T, h *harness.Harness, drawings []Drawing) {
	for _, w := range h.Wires {
		found := slices.ContainsFunc(drawings, func(d Drawing) bool {
			return slices.Contains(d.Circuits, w.Circuit) && slices.ContainsFunc(d.Marks, func(m sheet.Mark) bool {
				text, ok := m.(sheet.Text)
				return ok && text.S == w.Name
			})
		})
		require.True(t, found, "wire %s is on no drawing of its circuit", w.Name)
	}
}

// measured lays a model out and measures strips and drawings.
func measured(t *testing.T, h *harness.Harness, r *sizing.Result, body sheet.Rect, what string) {
	s := newSheets(h, r, body)
	strips := s.strips()
	drawings := s.drawings(strips)
	cleanStrips(t, s, strips, what)
	namesAll(t, h, drawings)
	for _, d := range drawings {
		clean(t, d, body, what)
	}
}

func TestModelsAreClean(t *testing.T) {
	for name, text := range map[string]string{"fan": fan, "car": car, "panel": panel()} {
		h := read(text)
		for _, paper := range frame.Papers() {
			f := body(t, paper)
			measured(t, h, results(h), f.Body, name+" on "+paper)
		}
	}
}

func TestRandomCircuitsAreClean(t *testing.T) {
	for wires := 3; wires <= 40; wires += 1 + wires/12 {
		for seed := range uint64(2) {
			what := fmt.Sprintf("%d wires, seed %d", wires, seed)
			h := read(randomCar(wires, seed))
			measured(t, h, results(h), body(t, "A4").Body, what)
		}
	}
}

// A circuit that no layout can take is listed wire by wire.
func TestListed(t *testing.T) {
	h := read(car)
	f := body(t, "A4")
	s := newSheets(h, results(h), f.Body)
	strips := s.strips()
	for _, st := range strips {
		st.layout = nil
	}
	drawings := s.drawings(strips)
	namesAll(t, h, drawings)
	for _, d := range drawings {
		clean(t, d, f.Body, "listed")
	}
}

// Without any result a drawing still shows every wire.
func TestWithoutResults(t *testing.T) {
	h := read(car)
	f := body(t, "A4")
	drawings := Lay(h, nil, f.Body)
	namesAll(t, h, drawings)
	for _, d := range drawings {
		clean(t, d, f.Body, "no results")
	}
}

func TestSameModelSameDrawings(t *testing.T) {
	h := read(car)
	f := body(t, "A4")
	require.Equal(t, Lay(h, results(h), f.Body), Lay(h, results(h), f.Body))
}

// Every reference leads to an anchor that stands on one of the drawings, and no
// anchor stands twice.
func TestReferencesLeadSomewhere(t *testing.T) {
	h := read(car)
	known, asked := map[string]bool{}, map[string]bool{}
	for _, d := range Lay(h, results(h), body(t, "A4").Body) {
		for _, m := range d.Draw(func(a string) string { asked[a] = true; return "sheet 1, A1" }, nowhere) {
			if a, ok := m.(sheet.Anchor); ok {
				require.False(t, known[a.Name], "two anchors %s", a.Name)
				known[a.Name] = true
			}
		}
	}
	require.NotEmpty(t, asked)
	for a := range asked {
		require.True(t, known[a], "%s is nowhere", a)
	}
	for _, c := range h.Circuits {
		require.True(t, known["circuit/"+c.Key])
	}
}

// TestLook writes the drawings of the test models as a PDF where LOOK names a file.
func TestLook(t *testing.T) {
	path := os.Getenv("LOOK")
	if path == "" {
		t.Skip("LOOK names no file")
	}
	models := []string{fan, car, panel()}
	if only := os.Getenv("LOOK_RANDOM"); only != "" {
		models = nil
		var wires int
		_, err := fmt.Sscan(only, &wires)
		require.NoError(t, err)
		models = append(models, randomCar(wires, 1))
	}
	var pages []frame.Page
	f := body(t, "A4")
	for _, text := range models {
		h := read(text)
		for _, d := range Lay(h, results(h), f.Body) {
			var c sheet.Canvas
			f.Heading(&c, d.Title, d.Subtitle)
			c.Add(d.Draw(func(string) string { return "sheet 7, C3" }, nowhere)...)
			c.Marks = slices.DeleteFunc(c.Marks, func(m sheet.Mark) bool { _, ok := m.(sheet.Anchor); return ok })
			pages = append(pages, frame.Page{Frame: f, Title: strings.TrimSpace(d.Title), Marks: c.Marks})
		}
	}
	pdf, err := render.PDF(sheet.Packet{Title: "look", Sheets: frame.Bind(pages, frame.Block{Title: "Test"})})
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(path, pdf, 0o644))
}

// The relay fan circuit mark by mark.
func TestFanGolden(t *testing.T) {
	h := read(fan)
	var b strings.Builder
	for _, d := range Lay(h, results(h), body(t, "A4").Body) {
		b.WriteString(d.Title + "\n" + sheet.DumpMarks(d.Draw(somewhere, func(a string) string { return a })))
	}
	const path = "testdata/fan.txt"
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(path, []byte(b.String()), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, string(want), b.String())
}

func BenchmarkLay(b *testing.B) {
	for _, wires := range []int{10, 100} {
		h := read(randomCar(wires, 1))
		r, area := results(h), body(b, "A4").Body
		b.Run(fmt.Sprint(wires), func(b *testing.B) {
			for b.Loop() {
				Lay(h, r, area)
			}
		})
	}
}
