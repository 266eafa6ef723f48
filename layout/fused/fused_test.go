package fused

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/fault/outage"
)

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
	require.Equal(t, []string{"K1 Radiator fan"}, through(a, coil))
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
