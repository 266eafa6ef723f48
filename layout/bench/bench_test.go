package bench

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
)

// TestEveryWireEndsOnTwoRows of the terminals and splices together.
func TestEveryWireEndsOnTwoRows(t *testing.T) {
	for name, a := range map[string]page.Ask{"fan": toy.Fan(), "crowded": toy.Crowded(), "fitted": toy.Fitted(t, toy.Crowded())} {
		t.Run(name, func(t *testing.T) { checkRows(t, a) })
	}
}

func checkRows(t *testing.T, a page.Ask) {
	t.Helper()
	ends := map[string]int{}
	for _, row := range slices.Concat(endTable(a).Rows, allSplices(a)) {
		if len(row.Cells) > 2 {
			ends[row.Cells[1].S]++
		}
	}
	require.Len(t, ends, len(a.H.Wires))
	anchors := map[string]bool{}
	for _, p := range toy.Settled(a, Terminals, Splices) {
		for _, m := range p.Marks {
			if at, ok := m.(sheet.Anchor); ok {
				anchors[at.Name] = true
			}
		}
	}
	for _, w := range a.H.Wires {
		require.Equal(t, 2, ends[page.Firm(w.Name)], w.Name)
		require.True(t, anchors["end/"+w.Name], w.Name)
	}
	checkPieces(t, a)
}

// checkPieces holds the fittings that are counted against the ends of the wires.
func checkPieces(t *testing.T, a page.Ask) {
	t.Helper()
	_, count := fittings(a)
	pieces, inSplices := 0, 0
	for _, n := range count {
		pieces += n
	}
	for _, s := range used(a.R.Splices) {
		inSplices += len(s.Wires)
	}
	shared := 0
	for _, two := range a.R.Ends {
		for _, e := range two {
			if e.Second {
				shared++
			}
		}
	}
	require.Equal(t, 2*len(a.H.Wires)-inSplices+len(used(a.R.Splices))-shared, pieces)
}

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
	require.Equal(t, "tape", covered(fitted.Run{CoverName: "tape"}, false))
	require.Equal(t, "braid, bore 12 mm", toy.Plain(covered(fitted.Run{CoverName: "braid", Cover: 12}, false)))
}

func TestPrintedFigures(t *testing.T) {
	for _, c := range []struct{ name, got, want string }{
		{"pull", pulls{}.cell(222.4, "").Note, "50\u00a0lbf"}, // UL 486A, 14 AWG: 50 lbf, 222.4 N
		{"pull remembered", pulls{lists: map[string]pullList{"memory": listOf("abyc-pull-memory")}}.cell(22.2, "memory").Note, "5\u00a0lbf\nfrom memory"},
		{"pull in pounds", pulls{imperial: true}.cell(222.4, "").Note, "222\u00a0N"},
		{"circular mils", circularMils(5.261), "10380\u00a0circular mils"}, // ASTM B258, 10 AWG: 10 380 circular mils
		{"list", listOf("ul-486a").name, "UL 486A"},
		{"list by its table", listOf("abyc-pull").name, "ABYC E-11 table XVI"},
	} {
		require.Equal(t, c.want, c.got, c.name)
	}
}

// allSplices are the rows of all splices.
func allSplices(a page.Ask) []table.Row {
	var rows []table.Row
	for _, s := range used(a.R.Splices) {
		rows = append(rows, spliceRows(a, s, pullsOf(a))...)
	}
	return rows
}
