package choose_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/grown"
	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/finding"
	"example.com/loomfolio/sizing/choose/reason"
	"example.com/loomfolio/sizing/route"
)

// Looms settle in ten rounds at most, however many wires lie together, and what they
// settle on meets every rule that can be met: no wire is below its floors.
func TestFewRounds(t *testing.T) {
	seeds := uint64(6)
	if testing.Short() {
		seeds = 2
	}
	for _, wires := range []int{60, 100, 200, 300} {
		for seed := range seeds {
			h := grown.Harness(t, wires, seed+1)
			ways, _ := route.Find(h)
			s, err := choose.Settle(h, ways)
			require.NoError(t, err)
			require.LessOrEqual(t, s.Rounds, 13, "%d wires, seed %d", wires, seed+1)
			for w, f := range s.Floors {
				require.True(t, s.Fixed[w] || s.At[w] >= f.Least(), "wire %s", h.Wires[w].Name)
			}
		}
	}
}

// BenchmarkGrown chooses all in looms with runs.
func BenchmarkGrown(b *testing.B) {
	for _, wires := range []int{100, 300, 1000, 3000} {
		b.Run(fmt.Sprintf("%d wires", wires), func(b *testing.B) {
			h := grown.Harness(b, wires, 1)
			ways, _ := route.Find(h)
			b.ReportAllocs()
			for b.Loop() {
				s, err := choose.Settle(h, ways)
				require.NoError(b, err)
				c := reason.Of(s)
				finding.All(s, &c)
			}
		})
	}
}
