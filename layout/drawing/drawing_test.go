package drawing

import (
	flags "flag"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/diagram"
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/meter"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/render"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
)

var update = flags.Bool("update", false, "write the golden files anew")

func body(t testing.TB, paper string) frame.Frame {
	f, err := frame.Of(paper, true)
	require.NoError(t, err)
	return f
}

func somewhere(string) string { return "sheet 88, C8" }
func nowhere(string) string   { return "" }

// inked is a drawing's marks with references put in.
func inked(d Drawing) []sheet.Mark { return d.Draw(somewhere, nowhere) }

// clean measures one drawing: nothing outside the body, no text on a text, no
// line through one, and none but flags below the size of the body's text.
func clean(t *testing.T, h *harness.Harness, d Drawing, body sheet.Rect, what string) {
	marks := inked(d)
	require.Empty(t, meter.Faults(marks, body, flagText), "%s: %s", what, d.Title)
	flags := map[string]bool{}
	for _, w := range h.Wires { // those of other circuits are lent
		flags[w.Name] = true
	}
	after := false // the field of a wire's gauge and colour follows that of its name
	marks = slices.DeleteFunc(marks, func(m sheet.Mark) bool {
		text, ok := m.(sheet.Text)
		if !ok {
			return false
		}
		name := text.Size == flagText && text.Face == sheet.Bold && flags[text.S]
		spec := text.Size == flagText && after
		after = name
		return name || spec
	})
	require.Empty(t, meter.Small(marks, sheet.SizeNote), "%s: %s", what, d.Title)
	require.NotContains(t, sheet.DumpMarks(marks), "@{")
}

// cleanStrips measures the strips: the layouts by their own check, and wires
// against what tiles and flags cover.
func cleanStrips(t *testing.T, s *sheets, strips []*strip, what string) {
	for _, st := range strips {
		cleanFlags(t, s, st, what)
		require.True(t, st.layout.Fits, "%s: a strip of %d wires does not fit", what, len(st.wires))
		require.Empty(t, st.layout.Check(st.graph.Graph), what)
		for i, n := range st.graph.nodes {
			at := st.layout.Nodes[i]
			for k, line := range lines(st) {
				w := st.layout.Wires[k]
				if w.From.Node == i || w.To.Node == i {
					continue // it lands there
				}
				for _, r := range n.tile.Solid {
					moved := sheet.Rect{X: at.X + r.X, Y: at.Y + r.Y, W: r.W, H: r.H}
					require.False(t, line.Passes(moved, 0.5), "%s: wire %d runs through a symbol", what, k)
				}
			}
		}
	}
}

// lines are a strip's wires as the meter takes them.
func lines(st *strip) []meter.Line {
	var out []meter.Line
	for _, path := range st.layout.Paths {
		out = append(out, path)
	}
	return out
}

// cleanFlags measures the flags as they are drawn against wires, their own
// included, tiles and each other.
func cleanFlags(t *testing.T, s *sheets, st *strip, what string) {
	var seen []sheet.Rect
	all := lines(st)
	for i, w := range st.graph.wires {
		if st.graph.Wires[i].Flag == 0 { // the other end of a jumper
			continue
		}
		f := s.flag(w, st.form)
		name, spec := f.boxes(st.layout.Flags[i])
		for _, box := range []sheet.Rect{name, spec} {
			for _, l := range all {
				require.False(t, l.Passes(box, 0.5), "%s: a wire runs through flag %s", what, f.name)
			}
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

// laidOut is a model's strips.
type laidOut struct {
	s      *sheets
	strips []*strip
}

// measured lays a model out and measures strips and drawings.
func measured(t *testing.T, h *harness.Harness, r *result.Result, body sheet.Rect, what string) laidOut {
	s := newSheets(h, r, body)
	jobs := s.jobs()
	drawings := s.drawings(jobs)
	strips := allStrips(jobs)
	cleanStrips(t, s, strips, what)
	namesAll(t, h, drawings)
	for _, d := range drawings {
		clean(t, h, d, body, what)
	}
	return laidOut{s, strips}
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

// A hundred harnesses grown from seeds, with circuits of 5 to 150 wires, on
// A4, letter and A3. Together their lines cross little more often than in
// the best of sixty arrangements of each strip.
func TestRandomCircuitsAreClean(t *testing.T) {
	sizes := []int{5, 7, 9, 12, 15, 18, 22, 27, 33, 40}
	own, best := 0, 0
	for seed := range uint64(100) {
		if testing.Short() && seed%5 > 0 {
			continue
		}
		wires := sizes[seed%10]
		if seed%25 == 24 {
			wires = 60 + 30*int(seed/25)
		}
		h := read(randomCar(wires, seed))
		r := results(h)
		for i, paper := range []string{"A4", "letter", "A3"} {
			what := fmt.Sprintf("%d wires, seed %d, %s", wires, seed, paper)
			s := measured(t, h, r, body(t, paper).Body, what)
			if i == 0 {
				o, b := crossed(s)
				own, best = own+o, best+b
			}
		}
	}
	t.Logf("%d crossings, %d in the best of sixty arrangements", own, best)
	require.LessOrEqual(t, float64(own), 1.15*float64(best)+3)
}

// crossed counts the crossings of all strips, and those of the best of many arrangements.
func crossed(l laidOut) (own, best int) {
	for _, st := range l.strips {
		own += st.layout.Crossings
		if st.layout.Crossings == 0 {
			continue
		}
		rules := st.form.rules(l.s.stripArea(), true)
		rules.Tries = 60
		columns, err := diagram.Columns(st.graph.Graph)
		if err == nil {
			best += min(st.layout.Crossings, diagram.Lay(st.graph.Graph, rules, columns).Crossings)
		}
	}
	return own, best
}

// A circuit that no layout can take is listed wire by wire.
func TestListed(t *testing.T) {
	h := read(car)
	f := body(t, "A4")
	s := newSheets(h, results(h), f.Body)
	jobs := s.jobs()
	for _, st := range allStrips(jobs) {
		st.layout = nil
	}
	drawings := s.drawings(jobs)
	namesAll(t, h, drawings)
	for _, d := range drawings {
		clean(t, h, d, f.Body, "listed")
	}
}

// Without any result a drawing still shows every wire.
func TestWithoutResults(t *testing.T) {
	h := read(car)
	f := body(t, "A4")
	drawings := Lay(h, nil, f.Body)
	namesAll(t, h, drawings)
	for _, d := range drawings {
		clean(t, h, d, f.Body, "no results")
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
	small := body(t, "A4").Body
	small.W, small.H = 200, 110
	for _, d := range Lay(h, results(h), small) {
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
