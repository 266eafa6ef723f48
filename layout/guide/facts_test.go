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

// words are those of pages with every line's end a blank, as a reader takes them.
func words(pages []frame.Page) string { return toy.Running(pages) }

func joined(s string) string { return toy.OneLine(s) }

// unspaced takes all blanks out, for texts whose lines end within a word.
func unspaced(s string) string { return strings.ReplaceAll(joined(s), " ", "") }

// each calls a test for every sample, reader and paper.
func each(t *testing.T, test func(t *testing.T, a page.Ask)) { toy.Each(t, test) }

// TestFewSheets: the guide of the samples on A4.
func TestFewSheets(t *testing.T) {
	for name, most := range map[string]struct{ archive, bench, customer int }{
		"first": {2, 2, 1}, "kestrel": {3, 2, 1}, "camper": {3, 2, 1}, "tender": {2, 2, 1},
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
		}
	}
}

// TestGuideOfTheSamples: every symbol, colour and terminal number that occurs is explained; every
// rule stands for who builds, every source in the archive, and neither before the customer.
func TestGuideOfTheSamples(t *testing.T) {
	each(t, func(t *testing.T, a page.Ask) {
		pages := ReadingGuide(a)
		for _, p := range pages {
			toy.CheckPage(t, p)
		}
		text := strings.ReplaceAll(words(pages), "Reading guide, continued ", "")
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
			require.Equal(t, !customer && r[1] != "", strings.Contains(text, joined(r[0]+" "+r[1])), r[0])
		}
		for _, note := range documents(a.R.Sources) {
			require.Equal(t, a.For == page.Archive, strings.Contains(unspaced(text), unspaced(note)), note)
		}
	})
}

// TestEverySourceIsNoted: its document, what was taken from it and how it was come by.
func TestEverySourceIsNoted(t *testing.T) {
	all := rating.Sources()
	notes := strings.Join(documents(all), "\n")
	for _, s := range all {
		for _, part := range regexp.MustCompile(`: |, `).Split(s.Title, -1) {
			require.Contains(t, notes, part, s.Key)
		}
	}
	for status, n := range map[rating.Status]int{rating.Unnamed: 0, rating.FromMemory: 0, rating.CommonPractice: 0} {
		for _, s := range all {
			if s.Status == status {
				n++
			}
		}
		require.Equal(t, n, strings.Count(notes, "("+string(status)+")"), status)
	}
	require.Equal(t, []string{"FAA AC 43.13-1B (1998): 11-96 supports; table 11-9 currents (unnamed)", "Studs (from memory)"}, documents([]rating.Source{
		{Title: "FAA AC 43.13-1B (1998), 11-96: supports", Status: rating.Read},
		{Title: "FAA AC 43.13-1B (1998), table 11-9: currents", Status: rating.Unnamed},
		{Title: "Studs", Status: rating.FromMemory},
	}))
}

// TestNotesRunOn: no line is wider than its column, and all words stand in their order.
func TestNotesRunOn(t *testing.T) {
	notes := documents(rating.Sources())
	var text []string
	for _, line := range running(notes, 83) {
		for _, w := range line.words {
			require.LessOrEqual(t, w.x+typeface.Width(strings.TrimRight(w.text, " "), w.face, sheet.SizeNote), 83+1e-6)
			text = append(text, w.text)
		}
	}
	want := ""
	for i, n := range notes {
		want += fmt.Sprint(i+1) + n
	}
	require.Equal(t, want, strings.Join(text, ""))
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
