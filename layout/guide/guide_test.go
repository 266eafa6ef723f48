package guide

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/symbol"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
)

// TestEverySymbolThatOccursIsExplained on every paper, none of its words left out, and no other.
func TestEverySymbolThatOccursIsExplained(t *testing.T) {
	for _, paper := range frame.Papers() {
		a := toy.Car(6, 3)
		a.Paper = paper
		text := toy.Words(ReadingGuide(a))
		used := symbol.Occurring(a.H)
		met := map[bool]int{}
		for _, g := range symbol.Key() {
			for _, e := range g.Examples {
				met[used[e.Words]]++
				if used[e.Words] {
					require.Contains(t, text, string(e.Words))
					require.Contains(t, text, g.Title)
					require.Contains(t, text, g.Words)
				}
			}
		}
		for i := range a.H.Parts {
			require.True(t, used[symbol.VariantOf(a.H, &a.H.Parts[i])], a.H.Parts[i].Ref)
		}
		require.Greater(t, met[true], 6)
		require.Greater(t, met[false], 20)
		require.NotContains(t, text, "starter")
	}
}

// TestSymbolsInRows: each as wide as its tile and its words ask for, none over the edge, no words on more than two lines.
func TestSymbolsInRows(t *testing.T) {
	for _, width := range []float64{90, 172, 180, 259} {
		for _, g := range symbol.Key() {
			for _, row := range symbolRows(g.Examples, width) {
				end := 0.0
				for _, f := range row {
					require.GreaterOrEqual(t, f.x, end-1e-9)
					require.GreaterOrEqual(t, f.w+1e-9, math.Min(tileWide(f.Example), width))
					at := f.words(sheet.Rect{})
					require.LessOrEqual(t, len(typeface.Wrap(string(f.Words), sheet.Regular, sheet.SizeBody, at.W)), 2, string(f.Words))
					end = f.x + f.w
				}
				require.LessOrEqual(t, end, width+1e-9)
			}
		}
	}
}

// DIN 72552 by the numbers of relays and switches; the pins of a plug and the
// poles of a switch named 1 and 2 are none of its numbers.
func TestTerminalNumbers(t *testing.T) {
	a := page.Of(&harness.Harness{}, &result.Result{}, "A4", page.Archive)
	add := func(ref string, kind harness.Kind, names ...string) {
		p := harness.Part{ID: harness.PartID(len(a.H.Parts)), Ref: ref, Kind: kind}
		for _, n := range names {
			p.Terminals = append(p.Terminals, harness.TerminalID(len(a.H.Terminals)))
			a.H.Terminals = append(a.H.Terminals, harness.Terminal{Part: p.ID, Name: n})
		}
		a.H.Parts = append(a.H.Parts, p)
	}
	add("K1", harness.Relay, "30", "85", "86", "87")
	add("SW", harness.Switch, "1", "2", "31b")
	add("ECU", harness.Module, "14", "15", "30", "31")
	add("X1", harness.Connector, "30", "31")
	require.Equal(t, map[string]bool{"30": true, "85": true, "86": true, "87": true, "31b": true}, numbered(a))
}
