package layout_test

import (
	"fmt"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/fusemap"
	"example.com/loomfolio/layout/label"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/power"
	"example.com/loomfolio/layout/quick"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
)

// aside are the sheets that leave the binder: for the glove box, for lids, to be stuck on.
var aside = []kind{
	{"quick", "sheet/quick", quick.Quick}, {"fuse-cards", "sheet/card", fusemap.Cards}, {"warning-labels", "sheet/warnings", label.Warnings},
}

func TestGoldenOfWhatLeavesTheBinder(t *testing.T) {
	a := toy.Samples(t)["tender"]
	for _, k := range aside {
		t.Run(k.name, func(t *testing.T) { toy.CheckGolden(t, k.name, k.lay(a), *update) })
	}
}

// TestWhatLeavesTheBinderKeepsApart on every paper, with short names and long ones, in both systems of
// units: no text lies on another or reaches the frame, and every first sheet has its anchor.
func TestWhatLeavesTheBinderKeepsApart(t *testing.T) {
	models := toy.Samples(t)
	models["small"], models["dense"], models["worded"] = toy.Car(4, 2), toy.Car(24, 30), toy.Worded(toy.Car(16, 7))
	for name, a := range models {
		for i, paper := range frame.Papers() {
			a.Paper = paper
			a.H.System.PositiveEarth = name == "dense" || name == "tender"
			for _, k := range aside {
				pages := k.lay(a)
				for _, p := range pages {
					toy.CheckPage(t, p)
				}
				if len(pages) > 0 {
					require.Contains(t, frame.Places(pages), k.anchor, fmt.Sprint(name, i))
					require.NoError(t, sheet.Verify(sheet.Packet{Sheets: frame.Bind(pages, frame.Block{})}))
				}
			}
		}
	}
}

func TestNothingLeavesTheBinder(t *testing.T) {
	a := page.Of(&harness.Harness{}, &result.Result{}, "A4", page.Archive)
	for _, k := range aside {
		require.Empty(t, k.lay(a), k.name)
	}
}

// TestInchesAloneOutsideTheBinder: no millimetre stands on an imperial sample's fuse map, budget, quick page,
// cards, labels and warnings.
func TestInchesAloneOutsideTheBinder(t *testing.T) {
	a := toy.Samples(t)["tender"]
	require.True(t, a.H.Sheet.Imperial)
	metric := regexp.MustCompile(`\bmm\b|mm²`)
	for _, lay := range []func(page.Ask) []frame.Page{quick.Quick, fusemap.Cards, label.Warnings, label.Labels, fusemap.FuseMap, power.LoadBudget} {
		require.NotRegexp(t, metric, toy.Plain(toy.Words(lay(a))))
	}
}
