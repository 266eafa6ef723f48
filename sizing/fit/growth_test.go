package fit

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/grown"
	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/reason"
	"example.com/loomfolio/sizing/route"
)

// BenchmarkGrown fits all in looms with runs.
func BenchmarkGrown(b *testing.B) {
	for _, wires := range []int{100, 300, 1000, 3000} {
		b.Run(fmt.Sprintf("%d wires", wires), func(b *testing.B) {
			h := grown.Harness(b, wires, 1)
			ways, _ := route.Find(h)
			settled, err := choose.Settle(h, ways)
			require.NoError(b, err)
			chosen := reason.Of(settled)
			b.ReportAllocs()
			for b.Loop() {
				All(h, ways, chosen)
			}
		})
	}
}
