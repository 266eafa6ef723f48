package cover

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/caution"
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/samples/toy"
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
	require.Equal(t, "lines 5, 6 and 7", lines(nil, groups[0]))
	require.Equal(t, "X is far.", summaries(groups[1]))
	require.Equal(t, "The fuse of 5 A is odd.\nNobody has seen this relay.", summaries(groups[3]))
	require.Empty(t, alike(found, source.Error))
}

// TestABodyOfSparesStaysTogether: the fuses of a body stand on the line of its name where a line holds them.
func TestABodyOfSparesStaysTogether(t *testing.T) {
	few := func(body string, n int) spares { return spares{body, make([]page.Fuse, n)} }
	list, _ := layFuses([]spares{few("blade", 8), few("maxi", 8)}, 130)
	line := 0.0
	for _, p := range list {
		if p.word != "" {
			line = p.y
		}
		require.Equal(t, line, p.y)
	}
	require.Positive(t, line)
	_, bottom := layFuses([]spares{few("blade", 30)}, 130)
	require.Greater(t, bottom, fuseHigh)
}
