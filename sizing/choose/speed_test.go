package choose_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose/rig"
)

// Every load keeps its limit on a wide harness, and no wire is under its fuse.
func TestWideHarness(t *testing.T) {
	b := rig.Wide(30)
	c, ps := b.Choose(t)
	require.Empty(t, dropsOver(c))
	require.Zero(t, ps.Count(0), "%v", rig.Slugs(ps))
	for _, f := range c.Fuses {
		if f.Amps > 0 {
			require.LessOrEqual(t, float64(f.Rating), float64(f.MostAllowed), f.Name)
			require.GreaterOrEqual(t, float64(f.Rating)*0.75, float64(f.Amps)*0.9999, f.Name)
		}
	}
}

func BenchmarkAll(b *testing.B) {
	for _, circuits := range []int{3, 25, 250} {
		b.Run(fmt.Sprintf("%d wires", 4*circuits+3), func(b *testing.B) {
			w := rig.Wide(circuits)
			for b.Loop() {
				w.Choose(b)
			}
		})
	}
}
