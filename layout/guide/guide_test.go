package guide

import (
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

// TestSymbolsOnShelves: each stands once, as wide as its tile and its words ask for, none over the edge
// of the room or the head of its shelf, no words on more than three lines.
func TestSymbolsOnShelves(t *testing.T) {
	var all []symbol.Example
	for _, g := range symbol.Key() {
		all = append(all, g.Examples...)
	}
	for _, width := range []float64{90, 172, 180, 259} {
		met := map[symbol.Variant]bool{}
		for _, f := range shelved(byHeight(all), width) {
			end := 0.0
			for _, l := range f {
				require.GreaterOrEqual(t, l.x, end-1e-9)
				require.LessOrEqual(t, l.high(), f.high()+1e-6)
				for _, e := range l.all {
					require.False(t, met[e.Words], e.Words)
					met[e.Words] = true
					require.GreaterOrEqual(t, l.w+1e-9, e.Tile.W*tileScale)
					require.LessOrEqual(t, len(typeface.Wrap(string(e.Words), sheet.Regular, sheet.SizeBody, wordsOf(e, l.w).W)), 3, string(e.Words))
				}
				end = l.x + l.w
			}
			require.LessOrEqual(t, end, width+1e-9)
		}
		require.Len(t, met, len(all))
	}
}

// TestLowSymbolsStandOverOneAnother beside a high one, and all that a room has width for on one shelf.
func TestLowSymbolsStandOverOneAnother(t *testing.T) {
	of := func(wide, high float64, words symbol.Variant) symbol.Example {
		return symbol.Example{Words: words, Tile: symbol.Tile{W: wide, H: high}}
	}
	shelves := shelved(byHeight([]symbol.Example{of(20, 15, "a"), of(20, 15, "b"), of(30, 40, "high"), of(20, 15, "c"), of(20, 22, "middle")}), 90)
	require.Len(t, shelves, 1)
	var got [][]symbol.Variant
	for _, l := range shelves[0] {
		var words []symbol.Variant
		for _, e := range l.all {
			words = append(words, e.Words)
		}
		got = append(got, words)
	}
	require.Equal(t, [][]symbol.Variant{{"high"}, {"middle", "a"}, {"b", "c"}}, got)
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
