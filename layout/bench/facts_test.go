package bench

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/fit/fitted"
)

// TestNoFactOfASpliceIsLost: every card has the wires once each, where they lead, the area, the
// barrel, the tube and the place.
func TestNoFactOfASpliceIsLost(t *testing.T) {
	for name, a := range toy.Samples(t) {
		pages := Splices(a)
		cards := toy.Under(pages, "splice/")
		require.Contains(t, toy.Plain(toy.Words(pages)), "Uninsulated barrels, adhesive-lined heat-shrink")
		for _, s := range used(a) {
			ref := a.H.Parts[s.Part].Ref
			t.Run(name+" "+ref, func(t *testing.T) {
				said := toy.Joined(cards[ref])
				checkWires(t, a, s, said)
				sum := area(s.AreaSum, a.H.Sheet.Imperial)
				for _, fact := range []string{ref, s.Where, sum + " in " + strings.TrimPrefix(page.Dashed(s.Size), "uninsulated "), "eat-shrink " + strings.TrimSuffix(s.Shrink, " adhesive-lined") + ", " + page.Piece(s.ShrinkLen, a.H.Sheet.Imperial), staggered(a, s, "Staggered"), beside(a, s), page.Called(&a.H.Parts[s.Part])} {
					require.Contains(t, said, toy.Plain(fact))
				}
			})
		}
	}
}

func checkWires(t *testing.T, a page.Ask, s fitted.Splice, said string) {
	t.Helper()
	for _, w := range s.Wires {
		mentions := 1
		for _, other := range s.Beside {
			if other == w {
				mentions++
			}
		}
		name := a.H.Wires[w].Name
		require.Len(t, regexp.MustCompile(`\b`+name+`\b`).FindAllString(said, -1), mentions, name)
		require.Contains(t, said, a.Pair(w).String())
		require.Contains(t, said, a.Gauge(w))
		if to := toward(a, s.Part, w); to != "" {
			require.Contains(t, said, "→ "+to)
		} else {
			require.Contains(t, said, "ends here")
		}
		far := a.H.Wires[w].To
		if a.H.Terminals[far].Part == s.Part {
			far = a.H.Wires[w].From
		}
		_, plain := a.Stop(far)
		require.Contains(t, said, page.FarStop(a, far))
		require.Contains(t, said, plain)
	}
}

// TestTheOwnersSplicesHaveNoBoxes to tick: one box less a line than those of the bench.
func TestTheOwnersSplicesHaveNoBoxes(t *testing.T) {
	a := toy.Samples(t)["first"]
	marks := func(reader string) int {
		a.For = reader
		n := 0
		for _, p := range Splices(a) {
			n += len(p.Marks)
		}
		return n
	}
	require.Equal(t, 2*len(used(a)), marks(page.Bench)-marks(page.Customer))
	require.Equal(t, marks(page.Bench), marks(page.Archive))
}

// TestNoStepIsLost: the sheets say every step, every run in its order, every splice, every part's
// ends and every bulkhead.
func TestNoStepIsLost(t *testing.T) {
	for name, a := range toy.Samples(t) {
		t.Run(name, func(t *testing.T) {
			said := toy.Squeezed(toy.Words(BuildOrder(a)))
			for _, rows := range [][]table.Row{stepTable(a).Rows, wallTable(a).Rows, finishTable(a).Rows} {
				for _, row := range rows {
					for _, c := range row.Cells {
						require.Contains(t, said, toy.Squeezed(c.S))
					}
				}
			}
			for _, s := range used(a) {
				require.Contains(t, said, a.H.Parts[s.Part].Ref)
			}
			for _, r := range walled(a) {
				require.Contains(t, said, toy.Squeezed(a.H.Places[a.H.Runs[r.Run].From].Zone+" and "+a.H.Places[a.H.Runs[r.Run].To].Zone))
			}
			for _, p := range endsByPart(a) {
				if p.part != nil {
					require.Contains(t, said, toy.Squeezed(fmt.Sprintf("%s (%d)", p.part.Ref, len(p.ends))))
				}
			}
		})
	}
}

// TestFewSheets: what the bench works from stays thin, and small looms leave room for more on a sheet.
func TestFewSheets(t *testing.T) {
	all := toy.Samples(t)
	for name, most := range map[string]struct{ build, splices int }{"first": {1, 1}, "tender": {1, 1}, "camper": {2, 2}, "kestrel": {2, 1}} {
		a := all[name]
		require.LessOrEqual(t, len(BuildOrder(a)), most.build, name)
		require.LessOrEqual(t, len(Splices(a)), most.splices, name)
	}
	require.Less(t, share(Splices(all["first"])), 0.4, "room for the grounds under the splices")
}

// share is how much of the last sheet is filled.
func share(pages []frame.Page) float64 {
	last := pages[len(pages)-1]
	return (last.Bottom - last.Frame.Body.Y) / last.Frame.Body.H
}
