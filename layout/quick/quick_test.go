package quick

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/samples/grown"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing"
)

// TestOnePage: the quick page is exactly one sheet for every sample on every paper, without a fault
// of the meter, and each fuse that is fitted stands on it with its rating.
func TestOnePage(t *testing.T) {
	for name, a := range toy.Samples(t) {
		for _, a.Paper = range frame.Papers() {
			checkOne(t, a, name+" on "+a.Paper)
		}
	}
}

func checkOne(t *testing.T, a page.Ask, at string) {
	t.Helper()
	pages := Quick(a)
	require.Equal(t, 1, len(pages), at)
	toy.CheckPage(t, pages[0])
	require.False(t, pages[0].Frame.Lying(), at)
	said := " " + toy.Plain(toy.Words(pages)) + " "
	for _, f := range a.R.Fuses {
		if len(f.Feeds)+len(f.Wires) > 0 {
			require.Contains(t, said, " "+f.Name+" "+f.Rating.String()+" "+f.BodyColour, at)
		}
	}
}

// TestGrownVehicles: one sheet up to 60 fuses; with more it goes on.
func TestGrownVehicles(t *testing.T) {
	seen := 0
	for _, wires := range []int{40, 80, 150, 250, 400} {
		h := grown.Harness(t, wires, 1)
		r, err := sizing.Size(h, nil)
		require.NoError(t, err)
		a := page.Of(h, r, "A4", page.Customer)
		if n := len(r.Fuses); n <= 60 {
			seen++
			checkOne(t, a, fmt.Sprint(wires, " wires, ", n, " fuses"))
			continue
		}
		for _, p := range Quick(a) {
			toy.CheckPage(t, p)
		}
	}
	require.Positive(t, seen)
	checkOne(t, toy.Car(59, 3), "60 fuses")
	require.Greater(t, len(Quick(toy.Car(200, 3))), 1)
}

// TestPolarity: the grounded lead comes off first whichever it is, and jump leads follow it.
func TestPolarity(t *testing.T) {
	a := toy.Car(6, 3)
	for positive, want := range map[bool][3]string{
		false: {"negative (grounded) lead first", "1: plus to plus", "2: the helping minus"},
		true:  {"positive (grounded) lead first", "1: minus to minus", "2: the helping plus"},
	} {
		a.H.System.PositiveEarth = positive
		said := strings.Join((teller{a, levels[0]}).battery(), " ")
		for _, w := range want {
			require.Contains(t, said, w)
		}
	}
}

// TestWhereToLookFirst: the kestrel's lamps begin at a main fuse, posts, feeds and grounds of its own.
func TestWhereToLookFirst(t *testing.T) {
	k := teller{toy.Samples(t)["kestrel"], levels[0]}
	said := strings.Join(k.dead(), "\n")
	for _, want := range []string{"FX.1", "Power post PP", "Dash panel by FX.1", "ground, G", "One lamp: its bulb"} {
		require.Contains(t, toy.Plain(said), want)
	}
	require.Contains(t, strings.Join((teller{toy.Samples(t)["camper"], levels[0]}).live(), "\n"), "take out MF20 and FB2.split before work there")
	require.Contains(t, strings.Join(k.power(), "\n"), "Isolator, turn off: Battery isolator ISO (Battery shelf)")
}

// TestWhereLampsAreFed: a panel's feeds are those of its lamps' fuses, and a corner's ground is
// the one at the lamp, not the straps that all share.
func TestWhereLampsAreFed(t *testing.T) {
	tell := teller{Ask: toy.Samples(t)["kestrel"], level: level{names: 9}}
	loads, lamps := tell.tried()
	require.True(t, lamps)
	require.Contains(t, toy.Plain(strings.Join(tell.panelFeeds(loads), "; ")), "Dash panel by FX.1 40 A and FX.2 20 A")
	grounds := strings.Join(tell.groundsOf(loads), "; ")
	for _, at := range []string{"G2 (Left wing)", "G3 (Right wing)", "G5 (Dash)", "G6 (Rear panel)", "G7 (Rear panel)"} {
		require.Contains(t, grounds, at)
	}
	require.NotContains(t, grounds, "G0")
}

// TestMainFuses: only a fuse that makes something dead is offered to cut the power with; one between
// dynamo and battery is not.
func TestMainFuses(t *testing.T) {
	all := toy.Samples(t)
	mains := func(name string) string { return strings.Join((teller{all[name], levels[0]}).mainFuses(), "\n") }
	require.Empty(t, mains("tender"))
	require.Contains(t, mains("kestrel"), "MF1 ")
	require.NotContains(t, mains("kestrel"), "MF2 ")
	require.Contains(t, mains("camper"), "MF20 ")
	require.NotContains(t, mains("camper"), "MF10 ")
}
