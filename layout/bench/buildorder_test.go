package bench

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/harness"
)

// TestBuildOrderOfSamples: each run is laid once and, after the first, joins what
// is laid where it can; each splice is made once; each part is closed on the bench or stays open, once.
func TestBuildOrderOfSamples(t *testing.T) {
	for name, a := range toy.Samples(t) {
		t.Run(name, func(t *testing.T) {
			order := layOrder(a)
			laid := map[harness.PlaceID]bool{}
			wired := 0
			for i, r := range order {
				run := a.H.Runs[r.Run]
				require.True(t, i == 0 || laid[run.From] || laid[run.To], "run %s hangs in the air", page.Letter(r.Run))
				require.LessOrEqual(t, len(r.Wires), len(order[0].Wires), "the trunk is laid first")
				laid[run.From], laid[run.To] = true, true
			}
			for _, r := range a.R.Runs {
				if len(r.Wires) > 0 {
					wired++
				}
			}
			require.Len(t, order, wired)
			for _, s := range used(a) {
				require.Regexp(t, `\b`+a.H.Parts[s.Part].Ref+`\b`, toy.Said(spliceSteps(a)))
			}
			for _, row := range coverSteps(a) {
				for _, r := range order {
					on := strings.EqualFold(row.Cells[1].S, r.CoverName)
					require.Equal(t, on, regexp.MustCompile(`\b`+page.Letter(r.Run)+`\b`).MatchString(row.Cells[2].S), "run %s", page.Letter(r.Run))
				}
			}
			named := 0
			for _, row := range finishTable(a).Rows {
				for _, c := range row.Cells[3:min(5, len(row.Cells))] {
					named += strings.Count(c.S, "(")
				}
			}
			parts := 0
			for _, p := range endsByPart(a) {
				if p.part == nil || p.part.Kind != harness.Splice {
					parts++
				}
			}
			require.Equal(t, parts, named)
		})
	}
}

// A housing stays open while its run has a hole to pass; a run within one zone has none.
func TestHousingStaysOpen(t *testing.T) {
	a := toy.Fan()
	a.R.Runs[0].Open, a.R.Runs[0].Hole, a.R.Runs[0].Wall = []harness.PartID{4}, 12, true
	a.R.Runs[1].Open, a.R.Runs[1].Hole, a.R.Runs[1].Wall = []harness.PartID{4}, 14, true
	require.Equal(t, []harness.PartID{4}, stillOpen(a), "once, though it waits for two runs")
	require.Len(t, wallTable(a).Rows, 2)
	require.Contains(t, toy.Said(wallTable(a).Rows), "|12|")
	require.Contains(t, toy.Said(finishTable(a).Rows), a.H.Parts[4].Ref+" (")
	require.Len(t, finishTable(a).Columns, 5)
	a.R.Runs[0].Wall, a.R.Runs[1].Wall = false, false
	require.Empty(t, stillOpen(a))
	require.Len(t, finishTable(a).Columns, 4, "no column for what stays open")
	require.Empty(t, wallTable(a).Rows)
}

// What is done in the vehicle names every wall, every housing that stays open, and the earthed lead as the last.
func TestStepsInTheVehicle(t *testing.T) {
	says := func(rows []table.Row) map[string]string {
		out := map[string]string{}
		for _, row := range rows {
			out[row.Cells[1].S] = toy.Plain(row.Cells[2].S)
		}
		return out
	}
	a := toy.Fan()
	require.Contains(t, says(proofSteps(a)), "Screens")
	a.R.Runs[0].Open, a.R.Runs[0].Wall = []harness.PartID{4}, true
	steps := says(vehicleSteps(a))
	require.Equal(t, "pull through run A; table below", steps["Bulkheads"])
	require.Contains(t, steps["Open ends"], a.H.Parts[4].Ref)
	require.Equal(t, "the negative (grounded) lead at the very end", steps["Battery last"])
	a.R.Runs[0].Wall, a.H.System.PositiveEarth = false, true
	steps = says(vehicleSteps(a))
	require.NotContains(t, steps, "Bulkheads")
	require.NotContains(t, steps, "Open ends")
	require.Equal(t, "the positive (grounded) lead at the very end", steps["Battery last"])
	require.Contains(t, steps, "Grounds")
	a.H.System.WiredReturn = true
	a.H.Parts = slices.DeleteFunc(slices.Clone(a.H.Parts), func(p harness.Part) bool { return p.Kind == harness.Ground })
	steps = says(vehicleSteps(a))
	require.NotContains(t, steps, "Grounds")
	require.Equal(t, "the positive (return) lead at the very end", steps["Battery last"])
}

// What hangs out by different lengths at one place has rows of its own, the farthest first.
func TestEndsByHowFarTheyHangOut(t *testing.T) {
	a := toy.Fan()
	by := endsByPart(a)
	at := slices.IndexFunc(by, func(e ended) bool { return e.part != nil && e.part.Place != harness.None })
	group := by[at : at+1]
	far, near := *by[at].part, *by[at].part
	far.Tail, near.Tail = 200, 50
	group = append(group[:1:1], ended{part: &near}, ended{part: &far}, ended{part: &near})
	a.H.Practice.EachEnd = 50
	out := byReach(a, group[1:])
	require.Len(t, out, 2)
	require.Equal(t, []int{1, 2}, []int{len(out[0]), len(out[1])})
	require.Equal(t, "250", toy.Plain(away(a, out[0][0])))
	require.Equal(t, "100", toy.Plain(away(a, out[1][0])))
	require.Equal(t, "–", away(a, ended{}))
}

func TestUnitsAreStepsOfTheirOwn(t *testing.T) {
	rows := unitSteps(toy.Fan())
	require.Len(t, rows, 2)
	require.Equal(t, []string{"Twist pair-1", "31A, 31B; lay 30.5 mm; 3 175 mm finished"}, []string{rows[0].Cells[1].S, toy.Plain(rows[0].Cells[2].S)})
	require.Equal(t, []string{"Screen foil", "31A, 31B; braid 3 115 mm; grounded at ECU.temp-return alone"}, []string{rows[1].Cells[1].S, toy.Plain(rows[1].Cells[2].S)})
}

// A splice that is moved says how far and towards where.
func TestStaggerIsPrinted(t *testing.T) {
	a := toy.Fan()
	s := a.R.Splices[0]
	require.Empty(t, staggered(a, s, "staggered"))
	s.Shift, s.Into = 45, 1
	require.Equal(t, "staggered: move it 45 mm along run B towards under the dash", toy.Plain(staggered(a, s, "staggered")))
	s.Shift = -45
	require.Equal(t, "staggered: move it 45 mm along run B towards engine bay", toy.Plain(staggered(a, s, "staggered")))
	require.Equal(t, []string{staggered(a, s, "Staggered") + "."}, cares(a, s))
}
