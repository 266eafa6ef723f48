package layout_test

import (
	"flag"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/cover"
	"example.com/loomfolio/layout/faces"
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/fusemap"
	"example.com/loomfolio/layout/guide"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/power"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
)

var update = flag.Bool("update", false, "write the golden files anew")

// kind is one kind of sheet.
type kind struct {
	name, anchor string
	lay          func(page.Ask) []frame.Page
}

// explained are the sheets that explain and map, the cover apart.
var explained = []kind{
	{"reading-guide", "sheet/reading-guide", guide.ReadingGuide}, {"load-budget", "sheet/load-budget", power.LoadBudget},
	{"connectors", "sheet/connectors", faces.ConnectorFaces}, {"fuse-map", "sheet/fuse-map", fusemap.FuseMap}, {"grounds", "sheet/grounds", power.Grounds},
}

// withCover lays the sheets that explain, and the cover that lists them, until its references stand still.
func withCover(a page.Ask) (byKind map[string][]frame.Page, all []frame.Page) {
	for range 4 {
		byKind = map[string][]frame.Page{}
		var rest []frame.Page
		var list []cover.Entry
		for _, k := range explained {
			pages := k.lay(a)
			byKind[k.name] = pages
			if len(pages) > 0 {
				list = append(list, cover.Entry{Title: k.name, Anchor: k.anchor, Sheet: len(rest), Count: len(pages)})
				rest = append(rest, pages...)
			}
		}
		front := len(cover.Cover(a, list))
		for i := range list {
			list[i].Sheet += front + 1
		}
		byKind["cover"] = cover.Cover(a, list)
		all = append(byKind["cover"], rest...)
		a.Known = frame.Places(all)
	}
	return byKind, all
}

func TestGoldenOfWhatExplains(t *testing.T) {
	byKind, _ := withCover(toy.Car(6, 3))
	for name, pages := range byKind {
		t.Run(name, func(t *testing.T) { toy.CheckGolden(t, name, pages, *update) })
	}
}

// TestExplainingSheetsKeepApart lays the sheets on every paper, small and dense, with short
// names and long ones: no text lies on another or reaches the frame, every link has its anchor.
func TestExplainingSheetsKeepApart(t *testing.T) {
	models := map[string]func() page.Ask{
		"small":  func() page.Ask { return toy.Car(4, 2) },
		"middle": func() page.Ask { return toy.Car(7, 12) },
		"dense":  func() page.Ask { return toy.Car(24, 30) },
		"worded": func() page.Ask { return toy.Worded(toy.Car(16, 7)) },
	}
	for name, model := range models {
		for _, paper := range frame.Papers() {
			t.Run(name+" "+paper, func(t *testing.T) {
				a := model()
				a.Paper, a.H.System.PositiveEarth, a.H.Sheet.Imperial = paper, name == "dense", name == "middle"
				_, all := withCover(a)
				for _, p := range all {
					toy.CheckPage(t, p)
				}
				require.NoError(t, sheet.Verify(sheet.Packet{Sheets: frame.Bind(all, frame.Block{})}))
			})
		}
	}
}

// TestNothingToExplain: a harness without loads, fuses, grounds and connectors has no sheets for them.
func TestNothingToExplain(t *testing.T) {
	a := page.Of(&harness.Harness{}, &result.Result{}, "A4", page.Archive)
	require.Empty(t, power.LoadBudget(a))
	require.Empty(t, faces.ConnectorFaces(a))
	require.Empty(t, fusemap.FuseMap(a))
	require.Empty(t, power.Grounds(a))
	require.Len(t, cover.Cover(a, nil), 1)
	require.NotEmpty(t, guide.ReadingGuide(a))
}

// TestExplainedSamplesKeepApart lays every sample on the usual papers: no fault of the meter,
// and every link has its anchor.
func TestExplainedSamplesKeepApart(t *testing.T) {
	for k, s := range samples.List() {
		a := toy.Archive(t, s)
		for i, paper := range []string{"A4", "letter", "A3"} {
			if testing.Short() && i != k%3 { // each on one paper
				continue
			}
			t.Run(s.Name+" "+paper, func(t *testing.T) {
				a.Paper = paper
				_, all := withCover(a)
				for _, p := range all {
					toy.CheckPage(t, p)
				}
				require.NoError(t, sheet.Verify(sheet.Packet{Sheets: frame.Bind(all, frame.Block{})}))
			})
		}
	}
}
