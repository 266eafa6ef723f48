package testplan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/testplan"
)

// TestSamplesHaveSanePlans: what is true of any plan is true of the samples; every wire is
// in a chain.
func TestSamplesHaveSanePlans(t *testing.T) {
	for _, s := range samples.List() {
		h, r := worked.Out(t, s)
		sane(t, h, r)
	}
	_, r := worked.Named(t, "kestrel")
	require.Less(t, len(r.Proof.Power), 45, "the first power of the kestrel")
}

// TestNothingBeepsWithTheseUnplugged: between points that must not beep there are 100 Ω or
// more with the parts out that the plan names, and less with any of them in; 30 Ω is where
// every beeper sounds, 100 Ω where the last does.
func TestNothingBeepsWithTheseUnplugged(t *testing.T) {
	for _, name := range []string{"first", "tender", "camper"} {
		h, r := worked.Named(t, name)
		named := 0
		for _, x := range r.Proof.Before.Apart {
			if len(x.Off) == 0 {
				require.GreaterOrEqual(t, float64(x.Ohms), 100.0)
				continue
			}
			named++
			out, err := testplan.DeadOhms(h, r, x.Ground, x.Off, x.A, x.B)
			require.NoError(t, err)
			require.GreaterOrEqualf(t, out, 99.0, "%s: %s to %s with %d parts out", name, h.Terminals[x.A].Full, h.Terminals[x.B].Full, len(x.Off))
			less, err := testplan.DeadOhms(h, r, x.Ground, x.Off[:len(x.Off)-1], x.A, x.B)
			require.NoError(t, err)
			require.Lessf(t, less, 110.0, "%s: %s to %s: the last part need not be out", name, h.Terminals[x.A].Full, h.Terminals[x.B].Full)
		}
		require.Positive(t, named)
	}
}
