package cutlist

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
)

// TestNoLineOfTheListIsLost: every item with what it is for and how much, every reel with its
// colour, its metres and its wires.
func TestNoLineOfTheListIsLost(t *testing.T) {
	for name, a := range toy.Samples(t) {
		t.Run(name, func(t *testing.T) {
			imperial := a.H.Sheet.Imperial
			said := toy.Squeezed(toy.Words(Shopping(a)))
			for _, it := range a.R.Shopping {
				if it.Group == "wire" {
					continue
				}
				what := page.Dashed(it.What)
				told := strings.Contains(said, toy.Squeezed(what))
				for _, part := range []func(string) (own, kind string){afterFirst, beforeLast, beforeSize} {
					own, kind := part(what)
					told = told || kind != "" && strings.Contains(said, toy.Squeezed(page.Capital(kind))) && strings.Contains(said, toy.Squeezed(own))
				}
				require.True(t, told, what)
				require.True(t, toldFor(said, usersOf(a, it.For)), "%s: %s", it.What, it.For)
				need, buy := amounts(it, imperial)
				require.Contains(t, said, toy.Squeezed(need+buy), it.What)
			}
			for _, r := range a.R.Reels {
				if r.ToCut() == 0 {
					continue
				}
				buy := page.BareToBuy(r.Buy, imperial)
				if r.Buy == 0 {
					buy = "shelf"
				}
				require.Contains(t, said, toy.Squeezed(fmt.Sprintf("%s%s%s%d", pairOf(r), page.Bare(r.Need, imperial), buy, r.ToCut())), r.Name())
			}
		})
	}
}

// toldFor tells whether it is said what an item is for, of many by some of them and the number of the others.
func toldFor(said string, u users) bool {
	for n := range len(u.named) {
		if strings.Contains(said, toy.Squeezed(u.first(n+1))) {
			return true
		}
	}
	return len(u.named) == 0
}

// TestUsers: runs by their letters, few in full, of many as many as there is room for, none left uncounted.
func TestUsers(t *testing.T) {
	a := toy.Samples(t)["kestrel"]
	require.Equal(t, users{}, usersOf(a, ""))
	require.Equal(t, []string{"all runs", "both sides of each splice"}, plainly(usersOf(a, "all runs, both sides of each splice").named))
	require.Equal(t, []string{"40A", "run E"}, plainly(usersOf(a, "40A, Dash – Instrument pod").named))
	u := usersOf(a, "40A, Dash – Instrument pod, 53N, Dash – Footwell and 5 more")
	require.Equal(t, []string{"40A", "53N", "runs E", "G"}, plainly(u.named))
	require.Equal(t, 5, u.more)
	require.Equal(t, "40A, 53N and 7 more", toy.Plain(u.first(2)))
	require.Equal(t, "40A, 53N and 7 more", toy.Plain(u.within(30)), "two at least")
	require.Equal(t, "40A, 53N, runs E, G and 5 more", toy.Plain(u.within(80)))
	few := usersOf(a, "G1, G2, G3, G4")
	require.Equal(t, "G1, G2, G3, G4", few.within(1))
}

func plainly(words []string) []string {
	var out []string
	for _, w := range words {
		out = append(out, toy.Plain(w))
	}
	return out
}

// TestAmounts: as much as is needed is said once; packs are told where there are some.
func TestAmounts(t *testing.T) {
	for _, c := range []struct {
		item      fitted.Item
		need, buy string
	}{
		{fitted.Item{Count: 3, Buy: 3, Unit: "pcs"}, "", "3 pcs"},
		{fitted.Item{Count: 1, Buy: 1, Unit: "pcs"}, "", "1 pc"},
		{fitted.Item{Count: 22, Buy: 30, Pack: 10, Unit: "pcs"}, "need 22:", "3 × 10 pcs"},
		{fitted.Item{Count: 7, Buy: 10, Pack: 10, Unit: "pcs"}, "need 7:", "10 pcs"},
		{fitted.Item{Count: 0.3, Buy: 1.2, Pack: 1.2, Unit: "m"}, "need 0.3 m:", "1.2 m"},
		{fitted.Item{Group: "markers", Count: 86, Unit: "pcs"}, "need 86 pcs", ""},
	} {
		need, buy := amounts(c.item, false)
		require.Equal(t, []string{c.need, c.buy}, []string{toy.Plain(need), toy.Plain(buy)})
	}
}

// TestPricesOnlyWhereThereAreSome: no lines to write prices on where the description has none.
func TestPricesOnlyWhereThereAreSome(t *testing.T) {
	a := toy.Samples(t)["first"]
	require.NotContains(t, toy.Words(Shopping(a)), "Price")
	require.NotContains(t, toy.Words(Shopping(a)), "All together")
	a.H.Practice.Prices, a.H.Practice.Currency = []harness.Price{{Item: "fuses"}}, "EUR"
	for i := range a.R.Shopping {
		if a.R.Shopping[i].Group == "fuses" {
			a.R.Shopping[i].Priced, a.R.Shopping[i].Sum = true, 1.5
		}
	}
	pages := Shopping(a)
	require.Contains(t, toy.Words(pages), "Price")
	require.Contains(t, toy.Words(pages), "1.50")
	require.Contains(t, toy.Plain(toy.Words(pages)), "All together, EUR, but for")
	for _, p := range pages {
		toy.CheckPage(t, p)
	}
}

// TestFewSheetsToBuy: kestrel three at most, with what was weighed.
func TestFewSheetsToBuy(t *testing.T) {
	all := toy.Samples(t)
	for name, most := range map[string]float64{"first": 1.7, "tender": 1.9, "camper": 3.6, "kestrel": 3} {
		pages := Shopping(all[name])
		last := pages[len(pages)-1]
		require.LessOrEqual(t, float64(len(pages)-1)+(last.Bottom-last.Frame.Body.Y)/last.Frame.Body.H, most, name)
	}
}

// TestHeadingsStayWithTheirItems: no heading of a group is the lowest text of a column.
func TestHeadingsStayWithTheirItems(t *testing.T) {
	for _, a := range toy.Samples(t) {
		heads := map[string]bool{}
		for _, e := range entries(a, itemColumn) {
			heads[e.group] = e.group != ""
		}
		for _, p := range Shopping(a) {
			lowest := map[bool]sheet.Text{}
			for _, m := range p.Marks {
				if x, ok := m.(sheet.Text); ok && x.Y > lowest[x.X > p.Frame.W/2].Y {
					lowest[x.X > p.Frame.W/2] = x
				}
			}
			for _, x := range lowest {
				require.False(t, heads[x.S] && x.Face == sheet.Bold, x.S)
			}
		}
	}
}

// TestTheStartersSwitch is bought by the current that it closes for seconds.
func TestTheStartersSwitch(t *testing.T) {
	for _, it := range toy.Samples(t)["tender"].R.Shopping {
		if it.For == "SSW" && it.Group == "switches" {
			require.Contains(t, it.What, "at least 200 A")
			return
		}
	}
	t.Fatal("no starter switch is bought")
}
