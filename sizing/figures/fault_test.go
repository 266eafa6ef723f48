package figures

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/worked"
)

// The dictionary as figures: names resolve, what floats is listed apart, and a table has a
// row for each fault.
func TestFaultsAsFigures(t *testing.T) {
	h, r := worked.Named(t, "first")
	d := Of(h, r)
	require.Len(t, d.Faults, len(r.Proof.Faults))
	at := slices.IndexFunc(d.Faults, func(f Fault) bool { return f.ID == "3B:short" })
	f := d.Faults[at]
	require.Equal(t, "short", f.Kind)
	require.Equal(t, []string{"MF1"}, f.Blown)
	require.Equal(t, []string{"FAN"}, f.Dead)
	require.InDelta(t, 0, f.Readings["K1.30"], 0.03)
	require.Greater(t, f.Readings["MF1.1"], 13.5)
	header, rows := read(t, d, "faults")
	require.Len(t, rows, len(d.Faults))
	require.Equal(t, "id element kind state load costs_pct ohm touch_a blown dead weak extra readings floating says weight why", strings.Join(header, " "))
	require.Len(t, d.Ladders, len(r.Proof.Ladders))
	require.NotEmpty(t, d.Together)
	for _, g := range d.Together {
		require.NotNil(t, g.Live)
		require.NotEmpty(t, g.Faults)
	}
}
