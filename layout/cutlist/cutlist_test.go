package cutlist

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// TestCutFromLeftOvers: of a colour with several lengths every row says which it is
// cut from, the rows of one length stand together, and no length gives more than it has.
func TestCutFromLeftOvers(t *testing.T) {
	a := toy.Samples(t)["tender"]
	p := planned(a)
	rings, news := 0, 0
	for i := range a.R.Reels {
		r := &a.R.Reels[i]
		last := -1
		for _, w := range r.Wires {
			at := r.CutOf(w)
			require.GreaterOrEqual(t, at, last, a.H.Wires[w].Name)
			last = at
			require.Equal(t, len(r.Cuts) > 1 || r.Cuts[0].Shelf, p[w] != "", a.H.Wires[w].Name)
			require.Equal(t, p[r.Cuts[at].Wires[0]], p[w], "one name for what is cut from one length")
		}
		for _, c := range r.Cuts {
			sum := unit.Millimetre(0)
			for _, w := range c.Wires {
				sum += a.R.Ways[w].Length
			}
			require.InDelta(t, float64(c.Whole), float64(sum+c.Over), 0.1*float64(len(c.Wires))+0.01, "planned in tenths, each wire rounded up")
			if c.Shelf {
				rings++
			} else if len(r.Cuts) > 1 {
				news++
			}
		}
	}
	require.Positive(t, rings, "the shelf serves first")
	require.Len(t, planTable(a, p).Rows, rings+news, "and what is bought beside them")
}

// TestEveryWireIsCutOnce counts rows: one a wire, on hand-made harnesses and samples.
func TestEveryWireIsCutOnce(t *testing.T) {
	all := toy.Samples(t)
	all["fan"], all["crowded"], all["fitted"] = toy.Fan(), toy.Crowded(), toy.Fitted(t, toy.Crowded())
	for name, a := range all {
		t.Run(name, func(t *testing.T) {
			cut := map[string]int{}
			for _, row := range wireTable(a, planned(a)).Rows {
				cut[row.Anchor]++
			}
			for _, w := range a.H.Wires {
				require.Equal(t, 1, cut["wire/"+w.Name], w.Name)
			}
			checkSums(t, a)
		})
	}
}

// checkSums holds what is cut against what is bought.
func checkSums(t *testing.T, a page.Ask) {
	t.Helper()
	sum := page.Total(a.R.Reels)
	cut := unit.Millimetre(0)
	for i, way := range a.R.Ways {
		if a.H.Wires[i].Core == harness.None {
			cut += way.Length
		}
	}
	require.InDelta(t, float64(cut), float64(sum.Need), 0.5)
	require.GreaterOrEqual(t, sum.Buy, sum.Need)
	bought := 0.0
	for _, item := range a.R.Shopping {
		if item.Group == "wire" {
			bought += item.Count * 1000
		}
	}
	require.GreaterOrEqual(t, bought, float64(cut))
}

// TestNoHeadingAtTheFoot of a page, on every sample.
func TestNoHeadingAtTheFoot(t *testing.T) {
	for _, a := range toy.Samples(t) {
		for _, a.Paper = range []string{"A4", "letter"} {
			for _, p := range toy.Settled(a, Wires, Tracing, Shopping) {
				toy.CheckFoot(t, p, wireTable(a, planned(a)).Rows, nearTable(a).Rows, wireRows(a, priced(a)))
			}
		}
	}
}

// TestEveryPaper: the pages of every sample have no fault of the meter.
func TestEveryPaper(t *testing.T) {
	for name, a := range toy.Samples(t) {
		for _, a.Paper = range frame.Papers() {
			t.Run(name+" "+a.Paper, func(t *testing.T) {
				for _, p := range toy.Settled(a, Wires, Tracing) {
					toy.CheckPage(t, p)
					require.Positive(t, p.Bottom, "another group may stand under it")
				}
			})
		}
	}
}

// TestFewSheets: the wires with both their ends and the key take no more sheets of A4 than this.
func TestFewSheets(t *testing.T) {
	all := toy.Samples(t)
	for name, most := range map[string]int{"first": 2, "tender": 4, "camper": 7, "kestrel": 9} {
		a := all[name]
		a.Paper = "A4"
		require.LessOrEqual(t, len(toy.Settled(a, Wires)), most, name)
		require.LessOrEqual(t, len(toy.Settled(a, Tracing)), 1, name)
	}
	apart := all["first"]
	apart.R.Purchase.Pairs = nil
	require.Empty(t, Tracing(apart), "one line in its place")
	require.Contains(t, tracingRule(apart), "held apart by colour differ by 12 or more")
	customer := all["kestrel"]
	customer.For = page.Customer
	require.Empty(t, Tracing(customer))
}

func TestQuantities(t *testing.T) {
	require.Equal(t, "12\u00a0pcs", quantity(fitted.Item{Count: 12, Unit: "pcs"}, false))
	require.Equal(t, "1.4\u00a0ft", quantity(fitted.Item{Count: 0.4, Unit: "m"}, true), "a tube")
}
