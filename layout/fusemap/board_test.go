package fusemap

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/harness"
)

// TestPanelsStandWhole: a panel of up to eight positions across is on one sheet, with
// all its positions.
func TestPanelsStandWhole(t *testing.T) {
	for k, s := range samples.List() {
		a := toy.Archive(t, s)
		for i, paper := range frame.Papers() {
			if testing.Short() && i != k%len(frame.Papers()) { // each on one paper
				continue
			}
			a.Paper = paper
			places := frame.Places(FuseMap(a))
			for _, p := range a.H.Parts {
				if p.Panel == nil {
					continue
				}
				first := places["panel/"+p.Ref]
				for _, row := range p.Panel.Layout {
					for _, position := range row {
						require.Equal(t, first.Sheet, places["fuse/"+p.Ref+"."+position].Sheet, "%s %s: %s.%s", s.Name, paper, p.Ref, position)
					}
				}
			}
		}
	}
}

// TestRelaysHaveTheirSockets, each with what stands on its pins.
func TestRelaysHaveTheirSockets(t *testing.T) {
	a := toy.Car(6, 3)
	places := frame.Places(FuseMap(a))
	require.Contains(t, places, "relay/K1")
	k := a.Part(a.R.Relays[0].Part)
	require.Equal(t, []string{"30", "87", "86", "85"}, relayTerminals(a, k))
	require.Equal(t, "12C: FP.1", landing(a, k, "30", 12))
	require.Equal(t, "12C: FP.1, Fuse panel", landing(a, k, "30", 80))
	require.Equal(t, unused, landing(a, &harness.Part{}, "87a", 80))
}
