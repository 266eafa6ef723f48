package fusemap

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/fault/outage"
)

// TestEveryFuseHasItsCard: every position of the panel once, every in-line fuse, each an anchor.
func TestEveryFuseHasItsCard(t *testing.T) {
	for _, n := range []int{3, 7, 8, 12, 24} {
		places := frame.Places(FuseMap(toy.Car(n, 3)))
		require.Contains(t, places, "fuse/MF1")
		for i := range n - 1 {
			require.Contains(t, places, fmt.Sprintf("fuse/FP.%d", i+1), "of %d", n)
		}
	}
}

func TestRelayCoilStopsItsLoads(t *testing.T) {
	a := toy.Car(6, 3)
	var coil outage.Outage
	for i, out := range a.R.Outages {
		if a.R.Fuses[i].Name == "FP.2" {
			coil = out
		}
	}
	require.Equal(t, []string{"K1.coil"}, coil.Stops)
	require.Len(t, coil.Drops, 1)
	require.Equal(t, []string{"Fan relay (K1): Radiator fan"}, through(a, coil))
}

// TestOutagesOfTheKestrel: what a main fuse takes along is told by panels and
// positions, a relay's loads stand beside its coil's fuse, and the alternator's own fuse stops nothing at once.
func TestOutagesOfTheKestrel(t *testing.T) {
	var a page.Ask
	for _, s := range samples.List() {
		if s.Name == "kestrel" {
			a = toy.Archive(t, s)
		}
	}
	for i, out := range a.R.Outages {
		f := a.R.Fuses[i]
		require.LessOrEqual(t, len(strings.Join(stopped(a, f, out), ", ")), 330, "%s is told at length", f.Name)
		require.Equal(t, f.Name == "MF2", out.Shared, f.Name)
		for _, n := range out.Behind() {
			require.NotContains(t, out.Stops, n, "%s stops %s once", f.Name, n)
		}
	}
}

// TestWireBehindAPanelsFuse: the card of a fuse that feeds a panel names the wire
// behind it, not the heavy one before it.
func TestWireBehindAPanelsFuse(t *testing.T) {
	for _, s := range samples.List() {
		if s.Name != "kestrel" {
			continue
		}
		a := toy.Archive(t, s)
		for _, f := range a.R.Fuses {
			if f.Name == "FX.1" {
				require.Equal(t, "7B", a.H.Wires[f.Smallest].Name)
			}
		}
	}
}
