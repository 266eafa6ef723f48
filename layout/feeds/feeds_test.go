package feeds

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/grown"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing"
)

func feeds(a page.Ask) []frame.Page { return Feeds(a, "") }

// diagrams stands for the sheets of the circuits.
func diagrams(a page.Ask) []frame.Page {
	var c sheet.Canvas
	for _, x := range a.H.Circuits {
		c.Anchor("circuit/"+x.Key, 60, 60)
	}
	return []frame.Page{{Frame: a.Landscape(), Title: "Circuits", Marks: c.Marks}}
}

// TestEveryCircuitStandsInTheTree: by its number and name, linked to its diagram, on one sheet, on
// every paper, with nothing on anything else.
func TestEveryCircuitStandsInTheTree(t *testing.T) {
	for name, a := range toy.Samples(t) {
		for _, paper := range frame.Papers() {
			a := a
			a.Paper = paper
			pages := toy.Settled(a, feeds, diagrams)
			pages = pages[:len(pages)-1]
			require.Len(t, pages, 1, "%s on %s", name, paper)
			toy.CheckPage(t, pages[0])
			require.LessOrEqual(t, pages[0].Bottom, pages[0].Frame.Body.Bottom()+0.01)
			links := map[string]bool{}
			for _, m := range pages[0].Marks {
				if l, ok := m.(sheet.Link); ok {
					links[l.Target] = true
				}
			}
			for _, c := range a.H.Circuits {
				if len(c.Wires) > 0 {
					require.True(t, links["circuit/"+c.Key], "%s: circuit %s", name, c.Name)
					said := strings.Fields(toy.Plain(c.Number + " " + c.Name))
					require.Contains(t, toy.Plain(toy.Words(pages)), strings.Join(said[:min(2, len(said))], " "), name)
				}
			}
		}
	}
}

// TestTheTreeIsLow: it leaves room for the cover or the findings on its sheet.
func TestTheTreeIsLow(t *testing.T) {
	for name, most := range map[string]float64{"first": 32, "tender": 46, "camper": 137.5, "kestrel": 190} {
		a := toy.Samples(t)[name]
		p := Feeds(a, "")[0]
		require.Less(t, p.Bottom-p.Frame.Body.Y, most, name)
	}
}

// TestLongTreesGoOn: several sheets, every circuit on one of them.
func TestLongTreesGoOn(t *testing.T) {
	h := grown.Harness(t, 1000, 3)
	r, err := sizing.Size(h, nil)
	require.NoError(t, err)
	a := page.Of(h, r, "A4", page.Archive)
	pages := Feeds(a, "The wiring at a glance is left out.")
	require.Greater(t, len(pages), 1)
	for _, p := range pages {
		toy.CheckPage(t, p)
	}
	words := toy.Words(pages)
	require.Contains(t, words, "left out")
	for _, c := range h.Circuits {
		require.Contains(t, words, strings.Fields(c.Number + " " + c.Name)[0])
	}
}

// TestRailsAndWhatFeedsThem: a rail joined to the bodywork is no supply; the one behind its fuse
// is, says what feeds it, and is named where that circuit begins.
func TestRailsAndWhatFeedsThem(t *testing.T) {
	a := toy.Samples(t)["kestrel"]
	refs := map[string]rail{}
	for _, r := range treeOf(a).rails() {
		if r.part >= 0 {
			refs[a.H.Parts[r.part].Ref] = r
		}
	}
	for _, ref := range []string{"BAT", "ALT", "PP", "FE", "FD", "BG"} {
		require.Contains(t, refs, ref)
	}
	require.NotContains(t, refs, "GB")
	require.NotContains(t, refs, "ST")
	words := toy.Plain(toy.Words(Feeds(a, "")))
	require.Contains(t, words, "fed by 1 and 5")
	require.Contains(t, words, "→ PP")
}

// TestOnwardFromWhereItFlows: a rail is named where its current leaves, not where a relay's coil
// is switched, and what is fed through a circuit never begins a column.
func TestOnwardFromWhereItFlows(t *testing.T) {
	a := toy.Samples(t)["kestrel"]
	feeds := map[string][]string{}
	for _, r := range treeOf(a).rails() {
		for _, x := range r.rows {
			if x.terminal >= 0 {
				feeds[a.H.Terminals[x.terminal].Full+" "+a.H.Circuits[x.circuit].Number] = x.feeds
			}
		}
	}
	require.Equal(t, []string{"FX"}, feeds["PP.box 7"])
	require.Equal(t, []string{"FD"}, feeds["FX.1 7"])
	require.Equal(t, []string{"FD"}, feeds["FX.3 9"])
	require.Equal(t, []string{"BG"}, feeds["FD.9 45"])
	for _, coil := range []string{"IGN.75 9", "FD.12 11", "DIP.56b 26", "BG.1 6"} {
		require.Contains(t, feeds, coil)
		require.Empty(t, feeds[coil], coil)
	}
	b := block{rail: rail{rows: []row{{}, {deep: 1}, {}}}, highs: []float64{4, 4, 4}, head: 8}
	require.Equal(t, 2, b.upTo(17))
	require.Equal(t, 0, b.upTo(13))
}

// TestPositiveEarth: where the bodywork is positive the supply comes from the battery's negative
// post through the fuses, though the current runs to them.
func TestPositiveEarth(t *testing.T) {
	a := toy.Samples(t)["tender"]
	var taps []string
	for _, f := range treeOf(a).feeders() {
		for _, x := range f.taps {
			taps = append(taps, a.H.Terminals[x.terminal].Full+" "+a.H.Circuits[x.circuit].Name)
		}
	}
	require.Subset(t, taps, []string{"BAT.- Starting", "BAT.- Ignition", "FB.3 Headlamps", "FB.4 Horn"})
	require.NotContains(t, taps, "STA.case Ignition")
}

// TestFirstFuses: a panel's position has its own, a bare tap the first one behind it.
func TestFirstFuses(t *testing.T) {
	a := toy.Samples(t)["kestrel"]
	words := map[string]string{}
	for _, r := range treeOf(a).rails() {
		for _, x := range r.rows {
			if x.terminal >= 0 {
				words[a.H.Terminals[x.terminal].Full+" "+a.H.Circuits[x.circuit].Number] = toy.Plain(x.fuse)
			}
		}
	}
	require.Equal(t, "100 A", words["BAT.+ 1"])
	require.Equal(t, "15 A", words["FE.5 36"])
	require.Equal(t, "", words["SF 19"])
}

// TestOneCircuitHasNoTree.
func TestOneCircuitHasNoTree(t *testing.T) {
	a := toy.Archive(t, samples.List()[0])
	a.H.Circuits = a.H.Circuits[:1]
	require.Empty(t, Feeds(a, ""))
}
