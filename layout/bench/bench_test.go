package bench

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
)

func TestSidesOfASplice(t *testing.T) {
	a := toy.Fan()
	got := sides(a, a.R.Splices[0])
	require.Equal(t, []side{
		{"towards engine bay", []harness.WireID{3, 4}}, {"towards under the dash", []harness.WireID{5}},
	}, got)
	a.R.Ways[5].Places = nil // to another splice further along the run
	a.H.Parts[4].Along = &harness.Along{Run: 1, Distance: 800}
	require.Equal(t, "towards under the dash", toward(a, 3, 5))
	a.H.Parts[4].Along.Distance = 100
	require.Equal(t, "towards engine bay", toward(a, 3, 5))
}

func TestWhatIsSaidOfCovers(t *testing.T) {
	require.Equal(t, "tape", covered(fitted.Run{CoverName: "tape"}, false))
	require.Equal(t, "braid, bore 12 mm", toy.Plain(covered(fitted.Run{CoverName: "braid", Cover: 12}, false)))
}

func TestCircularMils(t *testing.T) {
	require.Equal(t, "10380\u00a0circular mils", circularMils(5.261)) // ASTM B258, 10 AWG: 10 380 circular mils
}

// allSplices are the rows of all splices.
func allSplices(a page.Ask) []table.Row {
	var rows []table.Row
	for _, s := range used(a.R.Splices) {
		rows = append(rows, spliceRows(a, s, page.ForcesOf(a))...)
	}
	return rows
}
