package guide

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/caution"
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/symbol"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/rules"
	"example.com/loomfolio/sizing/source"
)

// sheets of a packet, by a list about as long as one has.
func entriesFor(n int) []Entry {
	var list []Entry
	for i := range n {
		list = append(list, Entry{Title: fmt.Sprintf("Kind of sheet %d.", i), Anchor: fmt.Sprintf("sheet/kind-%d", i), Sheet: i + 2, Count: 1})
	}
	return list
}

// words are those of pages with every line's end a blank, as a reader takes them.
func words(pages []frame.Page) string {
	return strings.Join(strings.Fields(toy.Plain(toy.Words(pages))), " ")
}

func joined(s string) string { return strings.Join(strings.Fields(toy.Plain(s)), " ") }

// unspaced takes all blanks out, for texts whose lines end within a word.
func unspaced(s string) string { return strings.ReplaceAll(joined(s), " ", "") }

// each calls a test for every sample, reader and paper.
func each(t *testing.T, test func(t *testing.T, a page.Ask)) {
	for k, s := range samples.List() {
		a := toy.Archive(t, s)
		for i, paper := range frame.Papers() {
			for _, reader := range []string{page.Archive, page.Bench, page.Customer} {
				if testing.Short() && i != k%len(frame.Papers()) {
					continue
				}
				b := page.Of(a.H, a.R, paper, reader)
				t.Run(s.Name+" "+reader+" "+paper, func(t *testing.T) { test(t, b) })
			}
		}
	}
}

// TestCoverOfTheSamples: what a cover promises stands on its first sheet, and nothing on anything else.
func TestCoverOfTheSamples(t *testing.T) {
	lines := regexp.MustCompile(`\blines? \d`)
	each(t, func(t *testing.T, a page.Ask) {
		list := entriesFor(14)
		pages := Cover(a, list)
		require.LessOrEqual(t, len(pages), 2)
		for _, p := range pages {
			toy.CheckPage(t, p)
			require.Greater(t, p.Bottom, 0.0)
		}
		first, all := words(pages[:1]), words(pages)
		i := a.H.Info
		for _, fact := range append([]string{i.VehicleName, i.VehicleIdentity, i.Title, i.Date, i.Builder, i.Customer, polarity(a), returning(a), a.H.System.Volts.String(),
			"Hand-over", "Built by", "Built for", "Handed over on", "Mileage or hours", "Signature, builder", "Signature, owner", spareLabel}, caution.Full(a.H)...) {
			require.Contains(t, first, joined(fact))
		}
		for _, x := range totals(a) {
			require.Contains(t, first, joined(x.value))
			require.Contains(t, first, joined(x.what))
		}
		for _, e := range list {
			require.Contains(t, first, e.Title)
		}
		require.Contains(t, all, joined(i.Notes))
		for _, f := range a.R.Fuses {
			if !f.Breaker {
				require.True(t, slices.ContainsFunc(pages[0].Marks, says(page.Trimmed(float64(f.Rating), 1))), "a spare %s", f.Rating)
			}
		}
		for _, f := range a.R.Findings {
			require.Contains(t, all, joined(f.Detail[1:len(f.Detail)-1]))
			require.Contains(t, all, joined(strings.Split(f.Summary, ":")[0])[1:])
		}
		require.Equal(t, len(a.R.Findings) > 0 && a.For != page.Customer, lines.MatchString(all), "lines of the description")
	})
}

func says(s string) func(sheet.Mark) bool {
	return func(m sheet.Mark) bool { x, ok := m.(sheet.Text); return ok && x.S == s }
}

// TestFewSheets: cover and guide of the samples on A4.
func TestFewSheets(t *testing.T) {
	for name, most := range map[string]struct{ cover, archive, bench, customer int }{
		"first": {1, 2, 2, 1}, "kestrel": {2, 3, 2, 1}, "camper": {2, 3, 2, 1}, "tender": {2, 2, 2, 1},
	} {
		for _, s := range samples.List() {
			if s.Name != name {
				continue
			}
			h := toy.Archive(t, s)
			count := func(reader string) int { return len(ReadingGuide(page.Of(h.H, h.R, "A4", reader))) }
			require.LessOrEqual(t, len(Cover(page.Of(h.H, h.R, "A4", page.Archive), entriesFor(14))), most.cover, name)
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

// TestNamesAreSetByTheirLength: one line as large as it fits, else two, never smaller than the least step.
func TestNamesAreSetByTheirLength(t *testing.T) {
	for _, c := range []struct {
		name     string
		capitals float64
		lines    int
	}{
		{"Kestrel GT", 12, 1},
		{"Kestrel GT Competition", 10, 1},
		{"Kestrel GT Competition, left", 8, 1},
		{"Kestrel GT Competition, left-hand drive, long tail", 10, 2},
	} {
		capitals, lines := stepOf(c.name, 172)
		require.Equal(t, c.capitals, capitals, c.name)
		require.Len(t, lines, c.lines, c.name)
	}
	capitals, lines := stepOf(strings.Repeat("Kestrel ", 40), 172)
	require.Equal(t, 6.0, capitals)
	require.Greater(t, len(lines), 2)
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

// TestRulesOfWritingAreRules, and their findings stay off the customer's cover alone.
func TestRulesOfWritingAreRules(t *testing.T) {
	list, err := rules.List()
	require.NoError(t, err)
	for _, slug := range ofWriting {
		require.True(t, slices.ContainsFunc(list, func(r source.Rule) bool { return r.Slug == slug }), slug)
	}
	a := toy.Car(6, 3)
	a.R.Findings = source.Problems{{Slug: "slack-only", Level: source.Advice, Summary: "wires at the tray are slack alone"}, {Slug: "key-off-drain", Level: source.Warning, Summary: "the drain is 80 mA"}}
	a.R.Accepted = []source.Accepted{{Problem: source.Problem{Slug: "size-from-strands", Summary: "28/0.30 is a count"}, Because: "old reel"}}
	for _, reader := range []string{page.Archive, page.Bench, page.Customer} {
		a.For = reader
		text := words(Cover(a, nil))
		require.Contains(t, text, "The drain is 80 mA")
		require.Equal(t, reader != page.Customer, strings.Contains(text, "slack alone"))
		require.Equal(t, reader != page.Customer, strings.Contains(text, "old reel"))
	}
	require.Len(t, a.R.Findings, 2, "the results stay as they are")
}

// photograph is a grey picture.
func photograph(t *testing.T, file string, wide, high int) *harness.Picture {
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, image.NewRGBA(image.Rect(0, 0, wide, high))))
	return &harness.Picture{File: file, Form: sheet.PNG, Data: b.Bytes(), Wide: wide, High: high}
}

func picturesOf(pages []frame.Page) (out []sheet.Picture) {
	for _, p := range pages {
		for _, m := range p.Marks {
			if x, ok := m.(sheet.Picture); ok {
				out = append(out, x)
			}
		}
	}
	return out
}

// TestPhotographs: the cover shows the vehicle's in its shape, the guide those of places and parts,
// each over its name, which leads to what it shows.
func TestPhotographs(t *testing.T) {
	for _, paper := range frame.Papers() {
		for _, wide := range []int{60, 300, 900} {
			a := toy.Car(6, 3)
			a.Paper = paper
			require.Empty(t, picturesOf(append(Cover(a, nil), ReadingGuide(a)...)))
			a.H.Sheet.Picture = photograph(t, "car.png", wide, 300)
			a.H.Places[0].Picture = photograph(t, "tray.png", 400, 300)
			for i := range a.H.Parts {
				a.H.Parts[i].Picture = photograph(t, "part.png", 300, wide)
			}
			a.H.Parts[1].Picture = &harness.Picture{File: "left-out.png"}
			a.Known = map[string]frame.Place{"connector/X1": {Sheet: 9}, "part/K1": {Sheet: 8}, "place/tray": {Sheet: 7}}
			cover, guide := Cover(a, nil), ReadingGuide(a)
			for _, p := range append(slices.Clone(cover), guide...) {
				toy.CheckPage(t, p)
			}
			first := picturesOf(cover)
			require.Len(t, first, 1)
			require.InDelta(t, float64(wide)/300, first[0].W/first[0].H, 1e-6)
			require.Len(t, picturesOf(guide), len(a.H.Parts))
			text := words(guide)
			require.Contains(t, text, "Photographs")
			dump := ""
			for _, p := range guide {
				dump += sheet.DumpMarks(p.Marks)
			}
			for _, want := range []string{"-> connector/X1", "-> part/K1", "-> place/tray", "photo/place/tray", "photo/K1", "Bulkhead connector"} {
				require.Contains(t, dump, want)
			}
			require.NotContains(t, dump, "photo/MF1")
		}
	}
}
