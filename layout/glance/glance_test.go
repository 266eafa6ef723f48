package glance

import (
	"encoding/xml"
	"errors"
	"io"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/diagram/chart"
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/render/vector"
	"example.com/loomfolio/samples/grown"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// papers are those of the sheet.
func papers() []string { return append([]string{"A3", "tabloid"}, unit.LargePapers()...) }

func on(a page.Ask, paper string) page.Ask {
	a.Big = paper
	return a
}

// least is what the sheet shows at least of each sample on each paper.
var least = map[string]map[string]shown{
	"first":   {"A3": whole, "tabloid": whole, "A2": whole, "A1": whole, "A0": whole, "roll": whole},
	"tender":  {"A3": whole, "tabloid": whole, "A2": whole, "A1": whole, "A0": whole, "roll": whole},
	"camper":  {"A3": bare, "tabloid": bare, "A2": whole, "A1": whole, "A0": whole, "roll": whole},
	"kestrel": {"A3": bare, "tabloid": bare, "A2": whole, "A1": whole, "A0": whole, "roll": whole},
}

// TestEveryPartAndEveryWire: each part has one tile with its reference, each wire one line from
// part to part and, where names are shown, its name once; nothing lies on anything.
func TestEveryPartAndEveryWire(t *testing.T) {
	for name, a := range toy.Samples(t) {
		for i, paper := range papers() {
			if testing.Short() && i != len(name)%len(papers()) { // each on one paper
				continue
			}
			a := on(a, paper)
			d := Lay(a)
			pages := Sheet(a, d)
			require.Len(t, pages, 1, "%s on %s: %s", name, paper, d.why)
			require.LessOrEqual(t, d.shown, least[name][paper], "%s on %s", name, paper)
			toy.CheckPage(t, pages[0])
			require.Len(t, d.chart.Paths, len(a.H.Wires), name)
			said := texts(pages[0])
			for _, p := range a.H.Parts {
				require.GreaterOrEqual(t, said[p.Ref], 1, "%s on %s: %s", name, paper, p.Ref)
			}
			for _, w := range a.H.Wires {
				if d.shown <= names {
					require.Equal(t, 1, said[w.Name], "%s on %s: wire %s", name, paper, w.Name)
				}
			}
			joins(t, a, d)
		}
	}
}

// texts counts the texts of a page.
func texts(p frame.Page) map[string]int {
	out := map[string]int{}
	for _, m := range p.Marks {
		if x, ok := m.(sheet.Text); ok {
			out[x.S]++
		}
	}
	return out
}

// joins holds that each line ends on the edges of its wire's parts.
func joins(t *testing.T, a page.Ask, d *Drawn) {
	t.Helper()
	m := modelled(a)
	for i, w := range m.wires {
		from, to := m.ends(w)
		path := d.chart.Paths[i]
		for k, end := range []sheet.Point{path[0], path[len(path)-1]} {
			r := d.chart.Tiles[[]harness.PartID{from, to}[k]]
			require.True(t, r.Inset(-0.01).Holds(sheet.Rect{X: end.X, Y: end.Y}), "wire %s", w.Name)
		}
	}
}

// TestNothingIsSmall: capitals of 2 mm and more on all papers, larger ones where there is room.
func TestNothingIsSmall(t *testing.T) {
	samples := toy.Samples(t)
	for _, paper := range papers() {
		for _, m := range Glance(on(samples["tender"], paper))[0].Marks {
			if x, ok := m.(sheet.Text); ok {
				require.GreaterOrEqual(t, x.Size, sheet.SizeNote, paper)
			}
		}
	}
	require.Greater(t, Lay(on(samples["tender"], "A1")).scale, 1.0)
	require.Equal(t, 1.0, Lay(on(samples["kestrel"], "A2")).scale)
}

// TestPlaces: every place that has parts is a box with its name, and holds its parts.
func TestPlaces(t *testing.T) {
	a := toy.Samples(t)["kestrel"]
	d := Lay(on(a, "A2"))
	m := modelled(a)
	words := toy.Words(Sheet(a, d))
	for i, s := range m.spots {
		for _, line := range s.lines() {
			require.Contains(t, words, line)
		}
		for p, g := range m.group {
			require.Equal(t, g == i, d.chart.Groups[i].Holds(d.chart.Tiles[p]), "%s in %s", a.H.Parts[p].Ref, s.name)
		}
	}
}

// TestFrontAtTheLeft: where the description says what lies at the front, the places stand from there
// to the rear, left ones below right ones; else the loom begins at the battery.
func TestFrontAtTheLeft(t *testing.T) {
	a := toy.Samples(t)["kestrel"]
	d := Lay(on(a, "A2"))
	x, y := map[string]float64{}, map[string]float64{}
	for i, s := range modelled(a).spots {
		x[s.key], y[s.key] = d.chart.Groups[i].X, d.chart.Groups[i].Y
	}
	require.Less(t, x["place/radiator"], x["place/dash"])
	require.Less(t, x["place/dash"], x["place/boot"])
	require.Less(t, x["place/boot"], x["place/rear"])
	require.Less(t, y["place/right"], y["place/left"])
	require.Contains(t, toy.Words(Sheet(a, d)), "the front of the vehicle at the left")
	a.H.Places = slices.Clone(a.H.Places)
	for i := range a.H.Places {
		a.H.Places[i].Lies = 0
	}
	require.Equal(t, "place/boot", modelled(a).spots[0].key)
	require.NotContains(t, toy.Words(Glance(a)), "front of the vehicle")
}

// TestBatteriesComeFirst: the cable from the ground to a battery leads to the right of it too.
func TestBatteriesComeFirst(t *testing.T) {
	for name, a := range toy.Samples(t) {
		m := modelled(a)
		for _, w := range m.wires {
			from, to := m.ends(w)
			if a.H.Parts[to].Kind == harness.Battery {
				require.Equal(t, harness.Battery, a.H.Parts[from].Kind, "%s: wire %s", name, w.Name)
			}
		}
	}
}

// TestLinks: a tile leads to the part's diagram, a wire's name to its place there, or to its row.
func TestLinks(t *testing.T) {
	a := toy.Samples(t)["tender"]
	a.Known = map[string]frame.Place{}
	for _, p := range a.H.Parts {
		a.Known["part/"+p.Ref] = frame.Place{Sheet: 7, Zone: "A1"}
	}
	for i, w := range a.H.Wires {
		kind := []string{"drawn/", "wire/"}[i%2]
		a.Known[kind+w.Name] = frame.Place{Sheet: 8, Zone: "B2"}
	}
	got := map[string]int{}
	for _, m := range Glance(a)[0].Marks {
		if l, ok := m.(sheet.Link); ok {
			got[l.Target]++
		}
	}
	for anchor := range a.Known {
		require.Equal(t, 1, got[anchor], anchor)
	}
}

// TestWhatIsLeftOut: small packets go without, and what fits no sheet says why.
func TestWhatIsLeftOut(t *testing.T) {
	small := toy.Fan()
	require.Less(t, len(small.H.Wires), fewWires)
	d := Lay(small)
	require.Empty(t, Sheet(small, d))
	require.Empty(t, d.Missed())
	h := grown.Harness(t, 750, 1)
	r, err := sizing.Size(h, nil)
	require.NoError(t, err)
	a := page.Of(h, r, "A4", page.Archive)
	d = Lay(a)
	require.Empty(t, Sheet(a, d))
	require.Contains(t, d.Missed(), "too much for one sheet")
	require.Equal(t, "it could not be laid out", why(a, errors.New("anything else")))
}

// TestGrownVehicles: what is made up fits some paper or says that it does not.
func TestGrownVehicles(t *testing.T) {
	drawn := 0
	for seed := range uint64(8) {
		h := grown.Harness(t, 30+25*int(seed), seed)
		r, err := sizing.Size(h, nil)
		require.NoError(t, err)
		for _, paper := range []string{"A3", "A1"} {
			a := on(page.Of(h, r, "A4", page.Archive), paper)
			d := Lay(a)
			pages := Sheet(a, d)
			if len(pages) == 0 {
				require.NotEmpty(t, d.Missed())
				continue
			}
			drawn++
			toy.CheckPage(t, pages[0])
		}
	}
	require.Greater(t, drawn, 11)
}

// TestRoll: it is as high as the roll and as long as it needs.
func TestRoll(t *testing.T) {
	for name, a := range toy.Samples(t) {
		f := Glance(on(a, "roll"))[0].Frame
		require.Equal(t, 914.4, f.H, name)
		require.Greater(t, f.W, f.H, name)
		all := f.Body.Inset(-1)
		for _, m := range Glance(on(a, "roll"))[0].Marks {
			if _, ok := m.(sheet.Path); ok {
				require.True(t, all.Holds(typeface.Bounds(m)), name)
			}
		}
	}
}

// TestSVG: the large sheet is a drawing of its own size that an XML reader takes.
func TestSVG(t *testing.T) {
	a := on(toy.Samples(t)["kestrel"], "A2")
	files, err := vector.Files(sheet.Packet{Title: "Kestrel", Sheets: frame.Bind(Glance(a), frame.Block{})})
	require.NoError(t, err)
	require.Len(t, files, 1)
	text := string(files[0].Data)
	require.Contains(t, text, `width="594mm"`)
	require.Contains(t, text, `height="420mm"`)
	for d := xml.NewDecoder(strings.NewReader(text)); ; {
		if _, err := d.Token(); err == io.EOF {
			break
		} else {
			require.NoError(t, err)
		}
	}
}

// TestSameTwice: the same harness gives the same sheet.
func TestSameTwice(t *testing.T) {
	a := toy.Samples(t)["camper"]
	require.Equal(t, sheet.DumpMarks(Glance(a)[0].Marks), sheet.DumpMarks(Glance(a)[0].Marks))
}

// TestPositiveEarthLeadsFromTheLiveSide: a load's return ends at its ground, though the current comes
// from there.
func TestPositiveEarthLeadsFromTheLiveSide(t *testing.T) {
	a := toy.Samples(t)["tender"]
	m, n := modelled(a), 0
	for _, w := range m.wires {
		from, to := m.ends(w)
		if a.H.Parts[from].Kind == harness.Lamp {
			require.Contains(t, []harness.Kind{harness.Ground, harness.Lamp}, a.H.Parts[to].Kind, "wire %s", w.Name)
			n++
		}
	}
	require.Greater(t, n, 5)
}

// TestRoundedCorners: a path keeps its ends and stays within its corners.
func TestRoundedCorners(t *testing.T) {
	points := []sheet.Point{{X: 0, Y: 0}, {X: 10, Y: 0}, {X: 10, Y: 0.7}, {X: 30, Y: 0.7}}
	p := rounded(points, sheet.Solid(0))
	require.Equal(t, points[0], p.Start)
	require.Equal(t, points[3], p.Segs[len(p.Segs)-1].P)
	require.True(t, sheet.Rect{W: 30, H: 0.7}.Holds(p.Bounds()))
	bends := slices.DeleteFunc(slices.Clone(p.Segs), func(s sheet.Seg) bool { return s.C1 == nil })
	require.Len(t, bends, 2)
	require.InDelta(t, 0.35, math.Abs(bends[0].P.Y), 1e-9)
}

// TestHalo: white beside a line never reaches its neighbour's colour.
func TestHalo(t *testing.T) {
	for _, wide := range []float64{0.55, 0.75, 1} {
		require.Positive(t, halo(wide))
		require.LessOrEqual(t, wide/2+rim+halo(wide), chart.Pitch-0.5)
	}
}
