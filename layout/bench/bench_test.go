package bench

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/meter"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/fit"
	"example.com/loomfolio/sizing/fit/buying"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/fit/reel"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/unit"
)

var update = flag.Bool("update", false, "write the golden dumps anew")

var kinds = []struct {
	name string
	lay  func(page.Ask) []frame.Page
}{
	{"cut-list", CutList}, {"terminals", Terminals}, {"splices", Splices}, {"labels", Labels}, {"runs", Runs}, {"build-order", BuildOrder}, {"tracing", Tracing}, {"shopping", Shopping},
}

// settled lays all sheets out until the references stand.
func settled(a page.Ask) map[string][]frame.Page {
	out := map[string][]frame.Page{}
	for range 2 {
		var all []frame.Page
		for _, k := range kinds {
			out[k.name] = k.lay(a)
			all = append(all, out[k.name]...)
		}
		a.Known = frame.Places(all)
	}
	return out
}

// crowded is the fan circuit with many more wires and long names of terminals.
func crowded() page.Ask {
	a := fan()
	part(a.H, "SWLIGHTS", harness.Switch, "Lighting switch on the column, with the long stalk", 2, "headlamps", "sidelamps", "30", "58")
	part(a.H, "FP", harness.FusePanel, "Fuse panel", 2, "1", "2", "3", "feed-ignition")
	stops := []string{"FP.1", "FP.2", "SWLIGHTS.headlamps", "FP.feed-ignition", "SWLIGHTS.sidelamps", "ECU.temp-return", "chassis"}
	letters := []string{"RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "BN", "BK"}
	for i := range 60 {
		w := wired{name: fmt.Sprintf("%d%c", 40+i/4, 'A'+i%4), from: stops[i%7], to: stops[(i+3)%7],
			gauge: []string{"0.5", "1.5", "2.5", "25"}[i/16], base: letters[i%10], length: unit.Millimetre(300 + 191*i), givenLength: i%9 == 0, givenGauge: i%7 == 0}
		if i%2 == 0 {
			w.tracer = letters[(i+4)%10]
		}
		add(a.H, a.R, w)
	}
	a.R.Reels = reels(a.H, a.R)
	a.R.Shopping = shopping(a.R)
	return labelled(a)
}

// withFittings is a model whose fittings, reels and shopping list are those of
// package fit, for gauges and ways that are given.
func withFittings(t *testing.T, a page.Ask) page.Ask {
	t.Helper()
	for i := range a.R.Wires {
		w := &a.R.Wires[i]
		c, ok := rating.ConductorOf(w.Gauge)
		require.True(t, ok, w.Gauge)
		w.Area, w.Diameter = c.Area, c.Copper+1
		if places := a.R.Ways[i].Places; len(places) > 1 {
			a.R.Ways[i].Shares = []route.Share{{Run: 0, Length: a.R.Ways[i].Length}}
		}
	}
	c := chosen.Chosen{Wires: a.R.Wires}
	got, _ := fit.All(a.H, a.R.Ways, c)
	a.R.Ends, a.R.Splices, a.R.Runs, a.R.Units = got.Ends, got.Splices, got.Runs, got.Units
	a.R.Reels = reel.All(a.H, a.R.Ways, a.R.Wires, a.R.Colours, a.R.Kept)
	a.R.Shopping = buying.List(a.H, c, got, a.R.Reels, a.R.Kept, a.R.KeptFuses)
	return a
}

func TestGolden(t *testing.T) {
	for name, pages := range settled(fan()) {
		t.Run(name, func(t *testing.T) {
			var dump strings.Builder
			for _, p := range pages {
				fmt.Fprintf(&dump, "page %q in %q\n%s", p.Title, p.Group, sheet.DumpMarks(p.Marks))
			}
			file := filepath.Join("testdata", name+".txt")
			if *update {
				require.NoError(t, os.WriteFile(file, []byte(dump.String()), 0o644))
			}
			want, err := os.ReadFile(file)
			require.NoError(t, err)
			require.Equal(t, "", difference(string(want), dump.String()), "%s; run with -update and read the change", file)
		})
	}
}

// difference is the first line in which two dumps differ.
func difference(want, got string) string {
	w, g := strings.Split(want, "\n"), strings.Split(got, "\n")
	for i := range max(len(w), len(g)) {
		a, b := "(end)", "(end)"
		if i < len(w) {
			a = w[i]
		}
		if i < len(g) {
			b = g[i]
		}
		if a != b {
			return fmt.Sprintf("line %d: want %s, got %s", i+1, a, b)
		}
	}
	return ""
}

// TestNothingOverlaps lays the sheets on every paper and in both systems of
// units: no text lies on another or reaches the frame, and every link has its anchor.
func TestNothingOverlaps(t *testing.T) {
	for _, paper := range frame.Papers() {
		for _, imperial := range []bool{false, true} {
			t.Run(fmt.Sprint(paper, imperial), func(t *testing.T) {
				a := withFittings(t, crowded())
				a.Paper, a.H.Sheet.Imperial = paper, imperial
				var all []frame.Page
				laid := settled(a)
				for _, k := range kinds {
					pages := laid[k.name]
					require.NotEmpty(t, pages)
					for _, p := range pages {
						checkPage(t, p)
					}
					all = append(all, pages...)
				}
				require.NoError(t, sheet.Verify(sheet.Packet{Sheets: frame.Bind(withTargets(a, all), frame.Block{})}))
			})
		}
	}
}

func checkPage(t *testing.T, p frame.Page) {
	t.Helper()
	require.Empty(t, meter.Faults(p.Marks, p.Frame.Body.Inset(-2.5), sheet.SizeNote), p.Title)
}

// withTargets adds a page with the anchors that other sheets would set.
func withTargets(a page.Ask, pages []frame.Page) []frame.Page {
	known := frame.Places(pages)
	var c sheet.Canvas
	for _, p := range pages {
		for _, m := range p.Marks {
			if l, ok := m.(sheet.Link); ok && !strings.HasPrefix(l.Target, "wire/") && !strings.HasPrefix(l.Target, "end/") {
				if _, ok := known[l.Target]; !ok {
					c.Anchor(l.Target, 50, 50)
					known[l.Target] = frame.Place{}
				}
			}
		}
	}
	return append(pages, frame.Page{Frame: a.Upright(), Marks: c.Marks})
}

// TestEveryWireStandsOnItsRows counts rows: one a wire where wires are cut, two where they end.
func TestEveryWireStandsOnItsRows(t *testing.T) {
	for name, a := range map[string]page.Ask{"fan": fan(), "crowded": crowded(), "fitted": withFittings(t, crowded())} {
		t.Run(name, func(t *testing.T) { checkRows(t, a) })
	}
}

func checkRows(t *testing.T, a page.Ask) {
	t.Helper()
	cut, ends := map[string]int{}, map[string]int{}
	for _, row := range cutTable(a).Rows {
		cut[row.Anchor]++
	}
	rows := endTable(a).Rows
	for _, s := range used(a.R.Splices) {
		rows = append(rows, spliceRows(a, s, pullsOf(a))...)
	}
	for _, row := range rows {
		if len(row.Cells) > 2 {
			ends[row.Cells[1].S]++
		}
	}
	require.Len(t, ends, len(a.H.Wires))
	anchors := map[string]bool{}
	sheets := settled(a)
	for _, p := range slices.Concat(sheets["terminals"], sheets["splices"]) {
		for _, m := range p.Marks {
			if at, ok := m.(sheet.Anchor); ok {
				anchors[at.Name] = true
			}
		}
	}
	for _, w := range a.H.Wires {
		require.Equal(t, 1, cut["wire/"+w.Name], w.Name)
		require.Equal(t, 2, ends[page.Firm(w.Name)], w.Name)
		require.True(t, anchors["end/"+w.Name], w.Name)
	}
	checkSums(t, a)
}

// checkSums holds what is cut against what is bought.
func checkSums(t *testing.T, a page.Ask) {
	t.Helper()
	sum := total(a.R.Reels)
	cut := unit.Millimetre(0)
	for i, way := range a.R.Ways {
		if a.H.Wires[i].Core == harness.None {
			cut += way.Length
		}
	}
	require.InDelta(t, float64(cut), float64(sum.Need), 0.5)
	require.GreaterOrEqual(t, sum.Buy, sum.Need)
	bought := 0.0
	for _, item := range a.R.Shopping {
		if item.Group == "wire" {
			bought += item.Count * 1000
		}
	}
	require.GreaterOrEqual(t, bought, float64(cut))
	_, count := fittings(a)
	pieces, inSplices := 0, 0
	for _, n := range count {
		pieces += n
	}
	for _, s := range used(a.R.Splices) {
		inSplices += len(s.Wires)
	}
	shared := 0
	for _, two := range a.R.Ends {
		for _, e := range two {
			if e.Second {
				shared++
			}
		}
	}
	require.Equal(t, 2*len(a.H.Wires)-inSplices+len(used(a.R.Splices))-shared, pieces)
}

func TestNothingToSay(t *testing.T) {
	empty := fan()
	empty.R.Reels, empty.R.Ends, empty.R.Splices, empty.R.Runs, empty.R.Shopping, empty.R.Labels = nil, nil, nil, nil, nil, nil
	empty.R.Tracing = colour.Report{}
	for _, k := range kinds {
		require.Empty(t, k.lay(empty), k.name)
	}
}

func TestSidesOfASplice(t *testing.T) {
	a := fan()
	got := sides(a, a.R.Splices[0])
	require.Equal(t, []side{
		{"towards engine bay", []harness.WireID{3, 4}}, {"towards under the dash", []harness.WireID{5}},
	}, got)
	a.R.Ways[5].Places = nil // to another splice further along the run
	a.H.Parts[4].Along = &harness.Along{Run: 1, Distance: 800}
	require.Equal(t, "towards under the dash", toward(a, 3, 5))
	a.H.Parts[4].Along.Distance = 100
	require.Equal(t, "towards engine bay", toward(a, 3, 5))
}

// Water stands in conduit and tube (46 CFR 183.340(b)(6)), not in braid; tape has no bore.
func TestWhatIsSaidOfCovers(t *testing.T) {
	drains := func(cover string, imperial bool) string {
		a := fan()
		a.H.Sheet.Imperial = imperial
		for i := range a.R.Runs {
			a.R.Runs[i].CoverName = cover
		}
		var said strings.Builder
		for _, p := range Runs(a) {
			said.WriteString(plainSpaces(sheet.DumpMarks(p.Marks)))
		}
		return strings.ReplaceAll(said.String(), "\\u00a0", " ")
	}
	require.Contains(t, drains("Conduit", false), "a drain hole of 6 mm at the lowest point")
	require.Contains(t, drains("tube", true), "a drain hole of 1/4 in at the lowest point")
	require.NotContains(t, drains("braid", false), "drain hole")
	require.Contains(t, drains("braid", true), "1/2 in at most when it is pressed")
	require.Equal(t, "tape", covered(fitted.Run{CoverName: "tape"}, false))
	require.Equal(t, "braid, bore 12 mm", plainSpaces(covered(fitted.Run{CoverName: "braid", Cover: 12}, false)))
}

func TestTogether(t *testing.T) {
	a := fan()
	require.Equal(t, "", together(a, 0))
	require.Equal(t, "twisted with 31B\nscreened with 31B", together(a, 6))
	require.Equal(t, "twisted with 31A\nscreened with 31A", together(a, 7))
	for range 4 {
		add(a.H, a.R, wired{name: "99A", from: "K1.30", to: "K1.87"})
	}
	for i := range a.H.Wires {
		a.H.Wires[i].Twist = "all"
	}
	a = page.Of(a.H, a.R, a.Paper, a.For)
	require.Equal(t, fmt.Sprintf("twisted: all, %d wires", len(a.H.Wires)), together(a, 0), "too many to name beside each")
}

func TestPrintedFigures(t *testing.T) {
	for _, c := range []struct{ name, got, want string }{
		{"pull", pulls{}.cell(222.4, "").Note, "50\u00a0lbf"}, // UL 486A, 14 AWG: 50 lbf, 222.4 N
		{"pull remembered", pulls{lists: map[string]pullList{"memory": listOf("abyc-pull-memory")}}.cell(22.2, "memory").Note, "5\u00a0lbf\nfrom memory"},
		{"pull in pounds", pulls{imperial: true}.cell(222.4, "").Note, "222\u00a0N"},
		{"circular mils", circularMils(5.261), "10380\u00a0circular mils"}, // ASTM B258, 10 AWG: 10 380 circular mils
		{"list", listOf("ul-486a").name, "UL 486A"},
		{"list by its table", listOf("abyc-pull").name, "ABYC E-11 table XVI"},
		{"pieces", quantity(fitted.Item{Count: 12, Unit: "pcs"}, false), "12\u00a0pcs"},
		{"tube", quantity(fitted.Item{Count: 0.4, Unit: "m"}, true), "1.4\u00a0ft"},
	} {
		require.Equal(t, c.want, c.got, c.name)
	}
}
