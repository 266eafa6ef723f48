package drawing

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
)

// worked reads a sample and works it out.
func worked(t testing.TB, s samples.Sample) (*harness.Harness, *sizing.Result) {
	d, problems := describe.Parse(s.Name+".yaml", s.Text)
	require.NotNil(t, d, problems)
	h, problems := check.Check(d)
	require.NotNil(t, h, problems)
	r, err := sizing.Size(h, problems)
	require.NoError(t, err)
	return h, r
}

// Every diagram of every sample on every paper: no text on a text, no wire
// through a tile, a flag or a caption, nothing outside the body, and every wire.
func TestSamplesAreClean(t *testing.T) {
	for _, sample := range samples.List() {
		h, r := worked(t, sample)
		for _, paper := range frame.Papers() {
			t.Run(sample.Name+" on "+paper, func(t *testing.T) {
				measured(t, h, r, body(t, paper).Body, sample.Name)
			})
		}
	}
}

func BenchmarkSamples(b *testing.B) {
	for _, sample := range samples.List() {
		h, r := worked(b, sample)
		area := body(b, "A4").Body
		b.Run(sample.Name, func(b *testing.B) {
			for b.Loop() {
				Lay(h, r, area)
			}
			b.ReportMetric(float64(len(Lay(h, r, area))), "sheets")
		})
	}
}
