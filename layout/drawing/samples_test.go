package drawing

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/harness"
)

// Every diagram of every sample on every paper: no text on a text, no wire
// through a tile, a flag or a caption, nothing outside the body, and every wire.
func TestSamplesAreClean(t *testing.T) {
	for k, sample := range samples.List() {
		h, r := worked.Out(t, sample)
		for i, paper := range frame.Papers() {
			if testing.Short() && i != k%len(frame.Papers()) { // each on one paper
				continue
			}
			t.Run(sample.Name+" on "+paper, func(t *testing.T) {
				measured(t, h, r, body(t, paper).Body, sample.Name)
			})
		}
	}
}

func BenchmarkSamples(b *testing.B) {
	for _, sample := range samples.List() {
		h, r := worked.Out(b, sample)
		area := body(b, "A4").Body
		b.Run(sample.Name, func(b *testing.B) {
			for b.Loop() {
				Lay(h, r, area)
			}
			b.ReportMetric(float64(len(Lay(h, r, area))), "sheets")
		})
	}
}

// TestDrawnLoadsAlone: a part tells what it draws through the wires that are
// drawn: the side lamp's current and not the main beam's; one speed of a motor,
// not the sum of both.
func TestDrawnLoadsAlone(t *testing.T) {
	for _, sample := range samples.List() {
		if sample.Name != "kestrel" {
			continue
		}
		h, r := worked.Out(t, sample)
		s := newSheets(h, r, body(t, "A4").Body)
		says := func(ref, wires string) string {
			for i := range h.Parts {
				if p := &h.Parts[i]; p.Ref == ref {
					return s.takes(p, func(w harness.WireID) bool { return strings.Contains(" "+wires+" ", " "+h.Wires[w].Name+" ") })
				}
			}
			return "no such part"
		}
		drawn := func(load string) string {
			for _, l := range r.Loads {
				if l.Name == load {
					return amps(float64(l.Amps))
				}
			}
			return "no such load"
		}
		require.Equal(t, "0.34 A", says("HLL", "24B 24N"))
		require.Equal(t, drawn("HLL.56a-31"), says("HLL", "27C"))
		require.Equal(t, "7 A", says("WIP", "37B 37C 37N"))
		require.Equal(t, "", says("ECU", "13C"))
		require.Equal(t, "8 A, starts 18 A", says("PUMP", "20N"))
	}
}
