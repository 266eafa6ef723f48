package figures

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
)

// TestFusesTellWhatStops: without its control fuse the kestrel's injection relay drops
// out, and with it the relays of the fans and the pump, which its contact feeds.
func TestFusesTellWhatStops(t *testing.T) {
	for _, s := range samples.List() {
		d := Of(worked.Out(t, s))
		for _, f := range d.Fuses {
			require.NotNil(t, f.Stops, f.ID)
			require.NotNil(t, f.DropsOut, f.ID)
			if s.Name != "kestrel" || f.ID != "FD.12" {
				continue
			}
			require.Equal(t, []string{"KE.coil"}, f.Stops)
			stops := map[string][]string{}
			for _, r := range f.DropsOut {
				stops[r.Relay] = r.Stops
			}
			require.Contains(t, stops, "KE")
			require.Equal(t, []string{"PUMP"}, stops["KP"])
			require.False(t, f.Shared)
		}
	}
}
