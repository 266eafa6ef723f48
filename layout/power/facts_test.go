package power

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/fit/fitted"
)

// TestNoFactOfAGroundIsLost: every card has the rings once each and in their order, with the
// loads, the stud and its surface, the current and the offset; the work at a surface and the torques
// of a thread stand once on the sheets.
func TestNoFactOfAGroundIsLost(t *testing.T) {
	for name, a := range toy.Samples(t) {
		pages := Grounds(a)
		cards := toy.Under(pages, "ground/")
		all := toy.Squeezed(toy.Words(pages))
		for _, g := range a.R.Grounds {
			ref := a.H.Parts[g.Part].Ref
			t.Run(name+" "+ref, func(t *testing.T) {
				checkStack(t, a, g, cards[ref])
				said := toy.Squeezed(toy.Joined(cards[ref]))
				for _, fact := range []string{g.Stud + ", " + g.Surface, g.StudWhy, "Carries " + carriesWords(g), "Offset " + offsetWords(g)} {
					require.Contains(t, said, toy.Squeezed(fact))
				}
				for _, once := range []string{g.Surface + page.Sentence(g.Prep), page.Sentence(g.Washer), g.Stud + g.Tighten} {
					require.Equal(t, 1, strings.Count(all, toy.Squeezed(once)), once)
				}
			})
		}
	}
}

// checkStack holds the rings of a card against the stack, which is drawn from the bottom up.
func checkStack(t *testing.T, a page.Ask, g fitted.Ground, card []sheet.Text) {
	t.Helper()
	said := toy.Joined(card)
	low := -1.0
	for _, w := range slices.Backward(g.Rings) {
		head := page.List(" ", a.H.Wires[w].Name, a.Pair(w).String(), a.Gauge(w))
		at := slices.IndexFunc(card, func(x sheet.Text) bool { return toy.Plain(x.S) == head })
		require.GreaterOrEqual(t, at, 0, head)
		require.Greater(t, card[at].Y, low, "%s lies under the ring after it", head)
		low = card[at].Y
		end := farEnd(a, w, g.Part)
		_, plain := a.Stop(end)
		require.Contains(t, said, page.List(", ", page.FarStop(a, end), plain))
		require.Equal(t, 1, strings.Count(said, head))
	}
}

// TestFewSheetsOfGrounds: small looms leave room for more on the sheet.
func TestFewSheetsOfGrounds(t *testing.T) {
	for name, most := range map[string]float64{"first": 0.5, "tender": 0.9, "camper": 1.25, "kestrel": 1.6} {
		pages := Grounds(toy.Samples(t)[name])
		last := pages[len(pages)-1]
		filled := (last.Bottom - last.Frame.Body.Y) / last.Frame.Body.H
		require.LessOrEqual(t, float64(len(pages)-1)+filled, most, name)
	}
}

// TestTheRingsAreToldApart: the words of two rings are never closer than the lines of one.
func TestTheRingsAreToldApart(t *testing.T) {
	a := toy.Samples(t)["kestrel"]
	for _, g := range a.R.Grounds {
		st := stackOf(a, g, 80)
		for _, r := range st.rings {
			if !r.same {
				require.Greater(t, r.high, sheet.SizeBody*1.25+sheet.SizeNote*1.25*float64(len(r.from))+0.9)
			}
		}
	}
}
