package fusemap

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/toy"
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
