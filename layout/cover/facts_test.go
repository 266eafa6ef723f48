package cover

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/caution"
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/toy"
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

// TestCoverOfTheSamples: what a cover promises stands on its first sheet, and nothing on anything else.
func TestCoverOfTheSamples(t *testing.T) {
	lines := regexp.MustCompile(`\blines? \d`)
	toy.Each(t, func(t *testing.T, a page.Ask) {
		list := entriesFor(14)
		pages := Cover(a, list)
		require.LessOrEqual(t, len(pages), 2)
		for _, p := range pages {
			toy.CheckPage(t, p)
			require.Greater(t, p.Bottom, 0.0)
		}
		first, all := toy.Running(pages[:1]), toy.Running(pages)
		i := a.H.Info
		for _, fact := range append([]string{i.VehicleName, i.VehicleIdentity, i.Title, i.Date, i.Builder, i.Customer, polarity(a), returning(a), a.H.System.Volts.String(),
			"Hand-over", "Built by", "Built for", "Handed over on", "Mileage or hours", "Signature, builder", "Signature, owner", spareLabel}, caution.Full(a.H)...) {
			require.Contains(t, first, toy.OneLine(fact))
		}
		for _, x := range totals(a) {
			require.Contains(t, first, toy.OneLine(x.value))
			require.Contains(t, first, toy.OneLine(x.what))
		}
		for _, e := range list {
			require.Contains(t, first, e.Title)
		}
		require.Contains(t, all, toy.OneLine(i.Notes))
		for _, f := range a.R.Fuses {
			if !f.Breaker {
				require.True(t, slices.ContainsFunc(pages[0].Marks, says(page.Trimmed(float64(f.Rating), 1))), "a spare %s", f.Rating)
			}
		}
		for _, f := range a.R.Findings {
			require.Contains(t, all, toy.OneLine(f.Detail[1:len(f.Detail)-1]))
			require.Contains(t, all, toy.OneLine(strings.Split(f.Summary, ":")[0])[1:])
		}
		require.Equal(t, len(a.R.Findings) > 0 && a.For != page.Customer, lines.MatchString(all), "lines of the description")
	})
}

func says(s string) func(sheet.Mark) bool {
	return func(m sheet.Mark) bool { x, ok := m.(sheet.Text); return ok && x.S == s }
}

// TestFewCovers: those of the samples on A4.
func TestFewCovers(t *testing.T) {
	for name, most := range map[string]int{"first": 1, "kestrel": 2, "camper": 2, "tender": 2} {
		for _, s := range samples.List() {
			if s.Name == name {
				h := toy.Archive(t, s)
				require.LessOrEqual(t, len(Cover(page.Of(h.H, h.R, "A4", page.Archive), entriesFor(14))), most, name)
			}
		}
	}
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
		text := toy.Running(Cover(a, nil))
		require.Contains(t, text, "The drain is 80 mA")
		require.Equal(t, reader != page.Customer, strings.Contains(text, "slack alone"))
		require.Equal(t, reader != page.Customer, strings.Contains(text, "old reel"))
	}
	require.Len(t, a.R.Findings, 2, "the results stay as they are")
}

// TestVehiclesPicture stands on the cover in its shape, and no other does.
func TestVehiclesPicture(t *testing.T) {
	for _, paper := range frame.Papers() {
		for _, wide := range []int{60, 300, 900} {
			a := toy.Car(6, 3)
			a.Paper = paper
			require.Empty(t, toy.Pictures(Cover(a, nil)))
			a.H.Sheet.Picture = toy.Photograph(t, "car.png", wide, 300)
			a.H.Places[0].Picture = toy.Photograph(t, "tray.png", 400, 300)
			cover := Cover(a, nil)
			for _, p := range cover {
				toy.CheckPage(t, p)
			}
			first := toy.Pictures(cover)
			require.Len(t, first, 1)
			require.InDelta(t, float64(wide)/300, first[0].W/first[0].H, 1e-6)
		}
	}
}
