//go:build unix

package testplan_test

import (
	"fmt"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/grown"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/polarity"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/testplan"
	"example.com/loomfolio/sizing/testplan/point"
)

func fill(b *testing.B, h *harness.Harness, r *result.Result) {
	h, _ = polarity.Mend(h)
	b.ResetTimer()
	from := cpu(b)
	for b.Loop() {
		r.Proof = proof.Proof{Points: point.All(h)}
		require.NoError(b, testplan.Fill(h, r))
	}
	b.ReportMetric((cpu(b)-from)/float64(b.N), "cpu-s/op")
}

// cpu is the processor time of the whole process so far, s.
func cpu(b *testing.B) float64 {
	var u syscall.Rusage
	require.NoError(b, syscall.Getrusage(syscall.RUSAGE_SELF, &u))
	return float64(u.Utime.Nano()+u.Stime.Nano()) / 1e9
}

// BenchmarkFill makes the test plan of the kestrel.
func BenchmarkFill(b *testing.B) {
	h, r := worked.Named(b, "kestrel")
	fill(b, h, r)
}

// BenchmarkGrown makes those of made-up vehicles.
func BenchmarkGrown(b *testing.B) {
	for _, wires := range []int{100, 300, 1000} {
		b.Run(fmt.Sprint(wires), func(b *testing.B) {
			h := grown.Harness(b, wires, 1)
			r, err := sizing.Size(h, nil)
			require.NoError(b, err)
			fill(b, h, r)
		})
	}
}
