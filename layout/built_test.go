package layout_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/bench"
	"example.com/loomfolio/layout/cutlist"
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/label"
	"example.com/loomfolio/layout/loom"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/colour"
)

// built are the sheets that the harness is built from.
var built = []kind{
	{"wires", "sheet/wires", cutlist.Wires}, {"splices", "sheet/splices", bench.Splices}, {"labels", "sheet/labels", label.Labels},
	{"loom", "sheet/loom", func(a page.Ask) []frame.Page { return loom.Sheets(a, loom.Lay(a)) }}, {"build-order", "sheet/build-order", bench.BuildOrder}, {"tracing", "sheet/tracing", cutlist.Tracing}, {"shopping", "sheet/shopping", cutlist.Shopping},
}

// together lays the sheets to build from until their references stand.
func together(a page.Ask) map[string][]frame.Page {
	out := map[string][]frame.Page{}
	for range 2 {
		var all []frame.Page
		for _, k := range built {
			out[k.name] = k.lay(a)
			all = append(all, out[k.name]...)
		}
		a.Known = frame.Places(all)
	}
	return out
}

func TestGoldenOfWhatIsBuiltFrom(t *testing.T) {
	for name, pages := range together(toy.Fan()) {
		t.Run(name, func(t *testing.T) { toy.CheckGolden(t, name, pages, *update) })
	}
}

// TestSheetsToBuildFromKeepApart lays the sheets on every paper and in both systems of
// units: no text lies on another or reaches the frame, and every link has its anchor.
func TestSheetsToBuildFromKeepApart(t *testing.T) {
	for _, paper := range frame.Papers() {
		for _, imperial := range []bool{false, true} {
			t.Run(fmt.Sprint(paper, imperial), func(t *testing.T) {
				a := toy.Fitted(t, toy.Crowded())
				a.Paper, a.H.Sheet.Imperial = paper, imperial
				var all []frame.Page
				laid := together(a)
				for _, k := range built {
					pages := laid[k.name]
					require.NotEmpty(t, pages)
					for _, p := range pages {
						toy.CheckPage(t, p)
					}
					all = append(all, pages...)
				}
				require.NoError(t, sheet.Verify(sheet.Packet{Sheets: frame.Bind(withTargets(a, all), frame.Block{})}))
			})
		}
	}
}

// withTargets adds a page with the anchors that other sheets would set.
func withTargets(a page.Ask, pages []frame.Page) []frame.Page {
	known := frame.Places(pages)
	var c sheet.Canvas
	for _, p := range pages {
		for _, m := range p.Marks {
			if l, ok := m.(sheet.Link); ok && !strings.HasPrefix(l.Target, "wire/") {
				if _, ok := known[l.Target]; !ok {
					c.Anchor(l.Target, 50, 50)
					known[l.Target] = frame.Place{}
				}
			}
		}
	}
	return append(pages, frame.Page{Frame: a.Upright(), Marks: c.Marks})
}

func TestNothingToBuild(t *testing.T) {
	empty := toy.Fan()
	empty.R.Reels, empty.R.Ends, empty.R.Splices, empty.R.Runs, empty.R.Shopping, empty.R.Labels = nil, nil, nil, nil, nil, nil
	empty.R.Tracing = colour.Report{}
	for _, k := range built {
		require.Empty(t, k.lay(empty), k.name)
	}
}

// TestBuiltSamplesKeepApart on the usual papers of the bench.
func TestBuiltSamplesKeepApart(t *testing.T) {
	for name, a := range toy.Samples(t) {
		for _, paper := range []string{"A4", "letter"} {
			if testing.Short() && paper != "A4" {
				continue
			}
			t.Run(name+" "+paper, func(t *testing.T) {
				a.Paper = paper
				for _, pages := range together(a) {
					for _, p := range pages {
						toy.CheckPage(t, p)
					}
				}
			})
		}
	}
}

// TestInchesAlone: no millimetre stands on the bench sheets of an imperial sample.
func TestInchesAlone(t *testing.T) {
	a := toy.Samples(t)["tender"]
	require.True(t, a.H.Sheet.Imperial)
	metric := regexp.MustCompile(`\bmm\b|mm²`)
	for _, k := range built {
		for _, p := range k.lay(a) {
			for _, m := range p.Marks {
				if text, ok := m.(sheet.Text); ok {
					require.NotRegexp(t, metric, text.S, k.name)
				}
			}
		}
	}
}
