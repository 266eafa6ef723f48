package sizing_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
)

// backwards writes every leg from its other end; what is said of a wire stays with it.
func backwards(d *describe.Description) {
	for c := range d.Circuits {
		for l := range d.Circuits[c].Legs {
			stops := d.Circuits[c].Legs[l].Stops
			out := slices.Clone(stops)
			slices.Reverse(out)
			for i := range out {
				at := out[i]
				out[i] = describe.Stop{}
				if i > 0 {
					out[i] = stops[len(stops)-i]
				}
				out[i].To, out[i].Part, out[i].Terminal, out[i].Was = at.To, at.Part, at.Terminal, at.Was
				slices.Reverse(out[i].Via)
			}
			d.Circuits[c].Legs[l].Stops = out
		}
	}
}

// A whole vehicle written backwards, leg by leg, gets the same gauges, fuses and findings,
// whichever pole is on the bodywork.
func TestSamplesWrittenBackwards(t *testing.T) {
	for _, sample := range samples.List() {
		if testing.Short() && sample.Name != "tender" {
			continue
		}
		h, r := worked.Out(t, sample)
		sizes, findings := chosenIn(h, r)
		d, problems := describe.Parse(sample.Name, sample.Text)
		require.False(t, problems.HasErrors(), "%v", problems)
		backwards(d)
		turned, found := check.Check(d)
		require.NotNil(t, turned, "%v", found)
		again, err := sizing.Size(turned, found)
		require.NoError(t, err)
		got, said := chosenIn(turned, again)
		require.Equal(t, sizes, got, sample.Name)
		require.Equal(t, findings, said, sample.Name)
		for i := range h.Wires {
			a, b := &h.Wires[i], &turned.Wires[i]
			require.Equal(t, h.PartOf(a.From).Ref+h.PartOf(a.To).Ref, turned.PartOf(b.From).Ref+turned.PartOf(b.To).Ref, "%s: %s runs as the current does", sample.Name, a.Name)
		}
	}
}
