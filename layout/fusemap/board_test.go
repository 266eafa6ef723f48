package fusemap

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/harness"
)

// TestPanelsStandWhole: the face of a panel is on one sheet, with all its positions by their names.
func TestPanelsStandWhole(t *testing.T) {
	for k, s := range samples.List() {
		a := toy.Archive(t, s)
		for i, paper := range frame.Papers() {
			if testing.Short() && i != k%len(frame.Papers()) { // each on one paper
				continue
			}
			a.Paper = paper
			pages := FuseMap(a)
			places := frame.Places(pages)
			for _, p := range a.H.Parts {
				if p.Panel == nil {
					continue
				}
				first := places["panel/"+p.Ref]
				for _, row := range p.Panel.Layout {
					for _, position := range row {
						name := p.Ref + "." + position
						require.Contains(t, places, "fuse/"+name, s.Name)
						require.Contains(t, " "+toy.Words(pages[first.Sheet-1:first.Sheet])+" ", " "+name+" ", "%s %s", s.Name, paper)
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
	require.Equal(t, "12C: FP.1", landing(a, k, "30", 12), "no room for the plain name")
	require.Equal(t, "12C: FP.1, Fuse panel", landing(a, k, "30", 80))
	require.Equal(t, unused, landing(a, &harness.Part{}, "87a", 80))
}
