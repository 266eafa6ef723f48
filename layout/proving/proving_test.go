package proving

import (
	"flag"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/samples/grown"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/proof"
)

var update = flag.Bool("update", false, "write the golden files anew")

// TestGolden holds the sheets of a small car with a plan made by hand, word by word.
func TestGolden(t *testing.T) {
	pages := toy.Settled(toy.Proved(), Tests)
	for _, p := range pages {
		toy.CheckPage(t, p)
	}
	toy.CheckGolden(t, "tests", pages, *update)
}

// TestEverySample, paper and reader: nothing on anything, no heading at the foot, and on each sheet who
// tested and when.
func TestEverySample(t *testing.T) {
	toy.Each(t, func(t *testing.T, a page.Ask) {
		pages := toy.Settled(a, Tests)
		require.NotEmpty(t, pages)
		for _, p := range pages {
			toy.CheckPage(t, p)
			toy.CheckFoot(t, p)
			require.Equal(t, 1, strings.Count(toy.Words([]frame.Page{p}), "Tested by"))
		}
	})
}

// TestNothingAsked: no sheet without a plan.
func TestNothingAsked(t *testing.T) {
	a := toy.Fan()
	require.Empty(t, Tests(a))
	a.R.Proof.Points = []proof.Point{{At: 1}}
	require.Empty(t, Tests(a))
}

// TestFewSheets: what a whole car is tested by fits into a jacket.
func TestFewSheets(t *testing.T) {
	for name, a := range toy.Samples(t) {
		require.LessOrEqual(t, len(Tests(a)), map[string]int{"first": 2, "tender": 2, "camper": 4, "kestrel": 4}[name], name)
	}
}

// TestPoles: where plus is grounded everything is told from there.
func TestPoles(t *testing.T) {
	a := toy.Proved()
	said := toy.Running(Tests(a))
	for _, text := range []string{"the negative (grounded) one first", "in the lead to battery + what", "Black lead on battery −", "red on battery +, black on the load's feed", "red on the load's return, black on battery −"} {
		require.Contains(t, said, text)
	}
	a.H.System.PositiveEarth = true
	said = toy.Running(Tests(a))
	for _, text := range []string{"the positive (grounded) one first", "in the lead to battery − what", "Black lead on battery +", "red on the load's feed, black on battery −", "red on battery +, black on the load's return"} {
		require.Contains(t, said, text)
	}
	a.H.System.WiredReturn = true
	require.Contains(t, toy.Running(Tests(a)), "the positive (return) one first")
}

// TestSeveralBatteries are told apart, and each has its own first power.
func TestSeveralBatteries(t *testing.T) {
	said := toy.Running(Tests(toy.Samples(t)["camper"]))
	require.Contains(t, said, "in the lead to BAT1 + what")
	require.Contains(t, said, "In the lead to BAT2 +, every other battery off")
	require.Contains(t, said, "Black lead on BAT1 −")
}

// TestCautions of work on a live vehicle stand where it begins.
func TestCautions(t *testing.T) {
	a := toy.Proved()
	said := toy.Running(Tests(a))
	require.Contains(t, said, "A fire extinguisher at hand"[2:])
	require.Contains(t, said, "sleeves and leads clear of belts and fans")
	for i := range a.H.States {
		a.H.States[i].Engine = "off"
	}
	require.NotContains(t, toy.Running(Tests(a)), "belts and fans", "nothing turns")
	for name, a := range toy.Samples(t) {
		require.Contains(t, toy.Running(Tests(a)), "never at †", name)
	}
}

// TestLongNames wrap, and nothing is set over anything.
func TestLongNames(t *testing.T) {
	a := toy.Worded(toy.Proved())
	for _, a.Paper = range frame.Papers() {
		for _, p := range Tests(a) {
			toy.CheckPage(t, p)
		}
	}
}

// TestMadeUpVehicles of up to 140 wires: nothing on anything, and every point once.
func TestMadeUpVehicles(t *testing.T) {
	for seed, wires := range []int{15, 60, 140} {
		h := grown.Harness(t, wires, uint64(seed))
		r, err := sizing.Size(h, nil)
		require.NoError(t, err)
		require.NoError(t, sizing.Prove(h, r))
		a := page.Of(h, r, frame.Papers()[seed%len(frame.Papers())], page.Archive)
		for _, p := range Tests(a) {
			toy.CheckPage(t, p)
		}
		everyPointOnce(t, h.Info.Title, of(a))
	}
}
