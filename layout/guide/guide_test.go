package guide

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/caution"
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/symbol"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/source"
)

// TestCautionsStandOnTheFirstSheet, in full, whatever else the cover has to say.
func TestCautionsStandOnTheFirstSheet(t *testing.T) {
	for _, positive := range []bool{false, true} {
		a := toy.Worded(toy.Car(24, 7))
		a.H.System.PositiveEarth, a.Paper = positive, "letter"
		first := Cover(a, make([]Entry, 20))[0]
		text := toy.Words([]frame.Page{first})
		for _, c := range caution.Full(a.H) {
			require.Contains(t, text, c)
		}
		lead := map[bool]string{false: "take the negative (grounded) lead off first", true: "take the positive (grounded) lead off first"}[positive]
		require.Contains(t, text, lead)
	}
}

// TestWiredReturnKnowsNoBodywork: the cover of a vehicle whose returns are all wires.
func TestWiredReturnKnowsNoBodywork(t *testing.T) {
	for _, positive := range []bool{false, true} {
		a := toy.Worded(toy.Car(6, 3))
		a.H.System.PositiveEarth, a.H.System.WiredReturn = positive, true
		text := toy.Words(Cover(a, nil)[:1])
		require.NotContains(t, text, "bodywork")
		require.NotContains(t, text, "chassis")
		post := map[bool]string{false: "back to the battery's negative (−) post", true: "back to the battery's positive (+) post"}[positive]
		require.Contains(t, text, post)
		require.Equal(t, positive, strings.Contains(text, "POSITIVE GROUND (positive earth)"))
	}
}

// TestEverySheetIsListed even where the list finds no room on the first sheet.
func TestEverySheetIsListed(t *testing.T) {
	for _, n := range []int{0, 5, 17, 60} {
		var list []Entry
		for i := range n {
			list = append(list, Entry{Title: fmt.Sprintf("Kind %d.", i), Sheet: i + 2, Count: 1})
		}
		a := toy.Car(6, 3)
		a.Paper = "letter"
		text := toy.Words(Cover(a, list))
		for _, e := range list {
			require.Contains(t, text, e.Title, "of %d", n)
		}
	}
}

func TestEveryFindingStands(t *testing.T) {
	a := toy.Worded(toy.Car(6, 3))
	text := toy.Words(Cover(a, nil))
	for _, f := range a.R.Findings {
		subject, rest, _ := strings.Cut(f.Summary, " of the emergency")
		if rest == "" {
			require.Contains(t, text, page.Sentence(f.Summary))
			continue
		}
		require.Regexp(t, `\b`+subject+`(,|:)`, text)
	}
	require.Contains(t, text, "Open findings: 1 error, 1 warning, 40 advisories")
}

// TestAcceptedFindingsStandWithTheirReason: also where nothing else is left to say.
func TestAcceptedFindingsStandWithTheirReason(t *testing.T) {
	a := toy.Car(6, 3)
	a.R.Accepted = []source.Accepted{{Problem: source.Problem{Slug: "look-alike", Level: source.Advice, Span: source.At(7, 1, 2), Summary: "2A and 3B look alike"}, Because: "both are sleeved"}}
	text := toy.Words(Cover(a, nil))
	require.Contains(t, text, "Open findings: 1 error, 1 warning, 1 accepted")
	require.Contains(t, text, "Accepted: 1")
	require.Contains(t, text, "2A and 3B look alike. Accepted, because both are sleeved. line 7")

	a.R.Findings = nil
	text = toy.Words(Cover(a, nil))
	require.Contains(t, text, "No open findings, 1 accepted")
	require.Contains(t, text, "Accepted, because both are sleeved.")
}

// TestFindingsAlikeStandTogether: one sentence where a word or two differ, else a
// sentence each, and what to do once.
func TestFindingsAlikeStandTogether(t *testing.T) {
	of := func(slug, detail string, line int, texts ...string) (all source.Problems) {
		for i, s := range texts {
			all = append(all, source.Problem{Slug: slug, Detail: detail, Level: source.Advice, Span: source.At(line+i, 1, 1), Summary: s})
		}
		return all
	}
	found := append(of("hot", "take a thicker wire", 5, "2A runs hot at night", "3B runs hot at night", "4C runs hot at night"), of("far", "", 9, "x is far", "y is far")...)
	found = append(found, of("odd", "look", 12, "the fuse of 5 A is odd", "nobody has seen this relay")...)
	groups := alike(found, source.Advice)
	require.Len(t, groups, 4)
	require.Equal(t, "2A, 3B, 4C: runs hot at night.", summaries(groups[0]))
	require.Equal(t, "lines 5, 6 and 7", lines(groups[0]))
	require.Equal(t, "X is far.", summaries(groups[1]))
	require.Equal(t, "The fuse of 5 A is odd.\nNobody has seen this relay.", summaries(groups[3]))
	require.Empty(t, alike(found, source.Error))
}

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
