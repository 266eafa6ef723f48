package fit

import (
	"fmt"
	"testing"

	"example.com/loomfolio/samples/grown"
	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/route"
	"github.com/stretchr/testify/require"
)

// BenchmarkGrown fits all in looms with runs.
func BenchmarkGrown(b *testing.B) {
	for _, wires := range []int{100, 300, 1000, 3000} {
		b.Run(fmt.Sprintf("%d wires", wires), func(b *testing.B) {
			h := grown.Harness(b, wires, 1)
			ways, _ := route.Find(h)
			chosen, _, err := choose.All(h, ways)
			require.NoError(b, err)
			b.ReportAllocs()
			for b.Loop() {
				All(h, ways, chosen)
			}
		})
	}
}
