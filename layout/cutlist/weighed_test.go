package cutlist

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/purchase"
	"example.com/loomfolio/sizing/unit"
)

// unweighed is a harness of which nothing was weighed.
func unweighed(a page.Ask) page.Ask {
	r := *a.R
	r.Purchase = purchase.Purchase{}
	a.R = &r
	return a
}

// TestNothingWeighedNothingSaid: without a purchase the list is all there is.
func TestNothingWeighedNothingSaid(t *testing.T) {
	for name, a := range toy.Samples(t) {
		said := toy.Running(Shopping(unweighed(a)))
		for _, word := range []string{"weighed", "hank", "Told apart", "Time to build"} {
			require.NotContains(t, said, word, name)
		}
	}
}

// TestWhatWasWeighedIsOnTheList, on every paper, with and without prices, few and many reels; nothing overlaps.
func TestWhatWasWeighedIsOnTheList(t *testing.T) {
	for name, a := range toy.Samples(t) {
		for i, buy := range []string{"few", "clear", "numbers"} {
			a := toy.Bought(toy.FewReels(a, 3+3*i), buy)
			if i == 1 {
				a = toy.WithPrices(a)
			}
			for _, a.Paper = range frame.Papers() {
				pages := Shopping(a)
				for _, p := range pages {
					toy.CheckPage(t, p)
				}
				said := toy.Running(pages)
				taken := a.R.Purchase.Curve[a.R.Purchase.Taken]
				require.Contains(t, said, "Taken: "+page.Counted(len(taken.Sizes), "size")+", "+page.Counted(taken.Reels, "reel")+",", name)
				require.Equal(t, buy != "numbers", strings.Contains(said, a.R.Purchase.Taught), name)
				require.Equal(t, i == 1, priced(a))
				if i == 1 {
					require.Contains(t, said, "By circuit", name)
				}
			}
		}
	}
}

// TestPairsOnTheSleeve: counted at the head, each listed once; those by rule in a sentence.
func TestPairsOnTheSleeve(t *testing.T) {
	a := toy.Bought(toy.Samples(t)["kestrel"], "few")
	byRule := 0
	for _, p := range a.R.Purchase.Pairs {
		if p.ByRule {
			byRule++
		}
	}
	require.Positive(t, byRule)
	pages := toy.Settled(a, Tracing)
	said := toy.Running(pages)
	require.Contains(t, said, toy.Plain(pairsHead(a))+" look alike where they meet")
	require.Len(t, pairTable(a).Rows, len(a.R.Purchase.Pairs)-byRule)
	for _, p := range pages {
		toy.CheckPage(t, p)
	}
	a.R.Purchase.Pairs = []purchase.Pair{{A: 0, B: 1, Part: harness.None, Run: 2, ByRule: true}}
	require.Empty(t, Tracing(a), "a sentence in its place")
	require.Contains(t, toy.Plain(tracingRule(a)), "Alike by rule: "+a.H.Wires[0].Name+" and "+a.H.Wires[1].Name+" (run C).")
}

// TestAskFor: a hank where little is needed, by the length where a hank would be far too much.
func TestAskFor(t *testing.T) {
	for buy, want := range map[float64]string{0: "", 1: "by the metre", 3: "by the metre", 4: "5 m hank", 5: "5 m hank", 8: "10 m hank", 12: "by the metre", 24: "30 m reel", 60: "30 m reel"} {
		require.Equal(t, want, toy.Plain(askFor(unit.Millimetre(1000*buy), false)), buy)
	}
	require.Equal(t, "25 ft hank", toy.Plain(askFor(12*foot, true)))
	a := toy.Bought(toy.FewReels(toy.Samples(t)["kestrel"], 2), "few")
	require.True(t, asked(a))
	require.Contains(t, toy.Running(Shopping(a)), "by the metre")
	a = toy.Bought(toy.Samples(t)["kestrel"], "few")
	if !asked(a) {
		require.Contains(t, toy.Running(Shopping(a)), "in hanks of 5 m")
	}
}
