package guide

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/symbol"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/rating"
)

// TestFewSheets: the guide of the samples on A4.
func TestFewSheets(t *testing.T) {
	for name, most := range map[string]struct {
		archive, bench, customer int
		filled                   float64
	}{
		"first": {1, 1, 1, 1}, "kestrel": {2, 2, 1, 1.7}, "camper": {2, 2, 1, 1.7}, "tender": {2, 1, 1, 1.4},
	} {
		for _, s := range samples.List() {
			if s.Name != name {
				continue
			}
			h := toy.Archive(t, s)
			count := func(reader string) int { return len(ReadingGuide(page.Of(h.H, h.R, "A4", reader))) }
			require.LessOrEqual(t, count(page.Archive), most.archive, name)
			require.LessOrEqual(t, count(page.Bench), most.bench, name)
			require.LessOrEqual(t, count(page.Customer), most.customer, name)
			require.LessOrEqual(t, filledOf(ReadingGuide(page.Of(h.H, h.R, "A4", page.Archive))), most.filled, name)
		}
	}
}

// filledOf is how many sheets pages fill, the last one as far down as something stands on it.
func filledOf(pages []frame.Page) float64 {
	last := pages[len(pages)-1]
	return float64(len(pages)-1) + (last.Bottom-last.Frame.Body.Y)/last.Frame.Body.H
}

// TestGuideOfTheSamples: every symbol, colour and terminal number that occurs is explained; every
// rule stands for who builds, every source in the archive, and neither before the customer.
func TestGuideOfTheSamples(t *testing.T) {
	toy.Each(t, func(t *testing.T, a page.Ask) {
		pages := ReadingGuide(a)
		for _, p := range pages {
			toy.CheckPage(t, p)
		}
		text := strings.ReplaceAll(toy.Running(pages), "Reading guide, continued ", "")
		for i := range a.H.Parts {
			require.Contains(t, text, string(symbol.VariantOf(a.H, &a.H.Parts[i])))
		}
		for _, l := range coloursUsed(a) {
			require.Regexp(t, `\b`+l+`\b`, text)
		}
		customer := a.For == page.Customer
		for name := range numbered(a) {
			meaning, _ := rating.Designation(name)
			require.Equal(t, !customer, strings.Contains(text, name+" "+meaning), name)
		}
		for _, r := range ruleLines(a) {
			require.Equal(t, !customer && r[1] != "", strings.Contains(toy.Squeezed(text), toy.Squeezed(r[0]+r[1])), r[0])
		}
		for _, note := range documents(a.R.Sources) {
			require.Equal(t, a.For == page.Archive, strings.Contains(toy.Squeezed(text), toy.Squeezed(note.document+" "+note.taken)), note)
		}
	})
}

// TestEverySourceIsNoted: its document, with a sign where its edition is not known, what was taken from it
// and the sign of how it was come by.
func TestEverySourceIsNoted(t *testing.T) {
	for _, x := range rating.Sources() {
		n := noted(x)
		document, _, _ := strings.Cut(x.Title, ": ")
		if strings.Contains(document, "not known") {
			require.Contains(t, n.document, editionSign, x.Key)
		}
		require.True(t, strings.HasPrefix(document, strings.TrimRight(n.document, unnamedSign+memorySign+practiceSign+editionSign)), x.Key)
		require.True(t, strings.HasSuffix(n.document+n.taken, sign(x.Status)), x.Key)
		require.NotContains(t, n.document+n.taken, "not known", x.Key)
		for _, figure := range regexp.MustCompile(`\b(table [0-9IVX]+[-.0-9]*|p\. [0-9-]+|[0-9]+-[0-9]{2,}|[0-9]+\.[0-9]+\.[0-9]+)\b`).FindAllString(n.taken, -1) {
			require.Contains(t, x.Title, figure, x.Key)
		}
	}
	for status, s := range map[rating.Status]string{rating.Read: "", rating.Unnamed: unnamedSign, rating.FromMemory: memorySign, rating.CommonPractice: practiceSign} {
		require.Equal(t, s, sign(status))
		require.Contains(t, sourcesRemark, s)
	}
	require.Equal(t, []note{{"FAA AC 43.13-1B (1998)", "11-96 supports; table 11-9 currents°"}, {"ISO 8820-3‡", "colours†; UL 1‡*"}}, documents([]rating.Source{
		{Title: "FAA AC 43.13-1B (1998), 11-96: supports of looms", Brief: "11-96 supports", Status: rating.Read},
		{Title: "FAA AC 43.13-1B (1998), table 11-9: largest currents", Brief: "table 11-9 currents", Status: rating.Unnamed},
		{Title: "ISO 8820-3, edition not known: colours", Brief: "colours", Status: rating.CommonPractice},
		{Title: "ISO 8820-3, edition not known, ageing: how", Brief: "UL 1 (edition not known)", Status: rating.FromMemory},
	}))
}

// TestNotesRunOn: no line is wider than its column, and all words stand in their order.
func TestNotesRunOn(t *testing.T) {
	notes := documents(rating.Sources())
	text := ""
	for _, line := range running(notes, 53) {
		for _, w := range line.words {
			require.LessOrEqual(t, w.x+typeface.Width(strings.TrimRight(w.text, " "), w.face, sheet.SizeNote), 53+1e-6)
			text += w.text
		}
	}
	want := ""
	for _, n := range notes {
		want += n.document + " " + n.taken
	}
	require.Equal(t, want, text)
}

// TestColumnsEndAlike: items flow in order, no column is higher than the room, and the columns of
// the last sheet end at about one height.
func TestColumnsEndAlike(t *testing.T) {
	var items []item
	for i := range 40 {
		items = append(items, item{label: fmt.Sprint(i), text: strings.Repeat("word ", 1+i%7), size: sheet.SizeBody, clear: 1})
	}
	for n := 1; n <= len(items); n++ {
		starts, high := balanced(items[:n], 2, 83, 120)
		sum := func(from, to int) (h float64) {
			for _, t := range items[from:to] {
				h += t.high(83)
			}
			return h
		}
		require.LessOrEqual(t, sum(starts[0], starts[1]), high+1e-6)
		require.LessOrEqual(t, sum(starts[1], starts[2]), high+1e-6)
		require.LessOrEqual(t, high, 120.0)
		if starts[2] == n {
			require.LessOrEqual(t, high-sum(0, n)/2, 13.0, "%d items", n)
		}
	}
	starts, _ := balanced(items, 2, 83, 1)
	require.Equal(t, []int{0, 1, 1}, starts, "one that fits nowhere stands out")
}
