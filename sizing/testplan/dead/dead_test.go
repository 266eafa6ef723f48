package dead_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/testplan/dead"
)

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
			out, err := dead.Ohms(h, r, x.Ground, x.Off, x.A, x.B)
			require.NoError(t, err)
			require.GreaterOrEqualf(t, out, 99.0, "%s: %s to %s with %d parts out", name, h.Terminals[x.A].Full, h.Terminals[x.B].Full, len(x.Off))
			less, err := dead.Ohms(h, r, x.Ground, x.Off[:len(x.Off)-1], x.A, x.B)
			require.NoError(t, err)
			require.Lessf(t, less, 110.0, "%s: %s to %s: the last part need not be out", name, h.Terminals[x.A].Full, h.Terminals[x.B].Full)
		}
		require.Positive(t, named)
	}
}
