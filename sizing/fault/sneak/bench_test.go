package sneak_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/grown"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/fault/sneak"
)

// Kestrel: at most 0.3 s of processor time; 1,000 made-up wires: at most 5 s.
func BenchmarkSearch(b *testing.B) {
	for _, s := range samples.List() {
		b.Run(s.Name, func(b *testing.B) {
			h, r := worked.Out(b, s)
			for b.Loop() {
				_, err := sneak.Search(h, r.States, nil)
				require.NoError(b, err)
			}
		})
	}
	for _, wires := range []int{100, 300, 1000, 3000} {
		b.Run(fmt.Sprint("grown ", wires), func(b *testing.B) {
			h := grown.Harness(b, wires, 1)
			r, err := sizing.Size(h, nil)
			require.NoError(b, err)
			for b.Loop() {
				_, err := sneak.Search(h, r.States, nil)
				require.NoError(b, err)
			}
		})
	}
}
