package fault_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/grown"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/fault"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/testplan/point"
)

// whole works out the dictionary, the ladders and what dies together.
func whole(b *testing.B, h *harness.Harness, r *result.Result) {
	b.ReportAllocs()
	for b.Loop() {
		k := fault.New(h, r)
		_ = k.Ladders()
		_ = k.Together()
		b.ReportMetric(float64(len(k.Faults())), "faults")
	}
}

func BenchmarkKestrel(b *testing.B) {
	h, r := worked.Named(b, "kestrel")
	whole(b, h, r)
}

// How it grows with the wires.
func BenchmarkGrown(b *testing.B) {
	for _, wires := range []int{125, 250, 500, 1000} {
		b.Run(fmt.Sprint(wires), func(b *testing.B) {
			h := grown.Harness(b, wires, 1)
			r, err := sizing.Size(h, nil)
			require.NoError(b, err)
			r.Proof.Points = point.All(h)
			whole(b, h, r)
		})
	}
}
