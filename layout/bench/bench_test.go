package bench

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/harness"
)

func TestSidesOfASplice(t *testing.T) {
	a := toy.Fan()
	got := sides(a, a.R.Splices[0])
	require.Equal(t, []side{
		{"engine bay", []harness.WireID{3, 4}}, {"under the dash", []harness.WireID{5}},
	}, got)
	a.R.Ways[5].Places = nil // to another splice further along the run
	a.H.Parts[4].Along = &harness.Along{Run: 1, Distance: 800}
	require.Equal(t, "under the dash", toward(a, 3, 5))
	a.H.Parts[4].Along.Distance = 100
	require.Equal(t, "engine bay", toward(a, 3, 5))
}

// Water stands in conduit and tube (46 CFR 183.340(b)(6)), not in braid; tape has no bore.
func TestWhatIsSaidOfCovers(t *testing.T) {
	drains := func(cover string, imperial bool) string {
		a := toy.Fan()
		a.H.Sheet.Imperial = imperial
		for i := range a.R.Runs {
			a.R.Runs[i].CoverName = cover
		}
		var said strings.Builder
		for _, p := range Runs(a) {
			said.WriteString(toy.Plain(sheet.DumpMarks(p.Marks)))
		}
		return strings.ReplaceAll(said.String(), "\\u00a0", " ")
	}
	require.Contains(t, drains("Conduit", false), "a drain hole of 6 mm at the lowest point")
	require.Contains(t, drains("tube", true), "a drain hole of 1/4 in at the lowest point")
	require.NotContains(t, drains("braid", false), "drain hole")
	require.Contains(t, drains("braid", true), "1/2 in at most when it is pressed")
}

func TestCircularMils(t *testing.T) {
	require.Equal(t, "10380\u00a0circular mils", circularMils(5.261)) // ASTM B258, 10 AWG: 10 380 circular mils
}

// allSplices has a row a wire in a splice.
func allSplices(a page.Ask) []table.Row {
	var rows []table.Row
	for _, s := range used(a.R.Splices) {
		for _, w := range s.Wires {
			rows = append(rows, table.Texts("", page.Firm(a.H.Wires[w].Name), ""))
		}
	}
	return rows
}
