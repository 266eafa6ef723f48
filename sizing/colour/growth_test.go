package colour_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/grown"
	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/reason"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/unit"
)

// BenchmarkGrown gives colours in looms with fat runs.
func BenchmarkGrown(b *testing.B) {
	for _, wires := range []int{100, 300, 1000, 3000} {
		b.Run(fmt.Sprintf("%d wires", wires), func(b *testing.B) {
			h := grown.Harness(b, wires, 1)
			ways, _ := route.Find(h)
			settled, err := choose.Settle(h, ways)
			require.NoError(b, err)
			chosen := reason.Of(settled)
			var gauges []unit.Gauge
			for _, w := range chosen.Wires {
				gauges = append(gauges, w.Gauge)
			}
			b.ReportAllocs()
			for b.Loop() {
				colour.Assign(h, ways, gauges, nil)
			}
		})
	}
}
