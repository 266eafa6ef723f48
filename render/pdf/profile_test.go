package pdf

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Lab values: sRGB red, green and blue under D50 from the adapted primaries as
// published with IEC 61966-2-1 profiles (Lindbloom, "RGB/XYZ matrices", sRGB adapted to D50).
func TestProfile(t *testing.T) {
	want := matrix{{0.4360747, 0.3850649, 0.1430804}, {0.2225045, 0.7168786, 0.0606169}, {0.0139322, 0.0971045, 0.7141733}}
	got := primaries()
	for i := range want {
		require.InDeltaSlice(t, want[i][:], got[i][:], 0.0005)
	}
	require.InDelta(t, 1, got.times(vector{1, 1, 1})[1], 1e-9)
	p := sRGB()
	require.Equal(t, len(p), int(p[0])<<24|int(p[1])<<16|int(p[2])<<8|int(p[3]))
	require.Equal(t, "acsp", string(p[36:40]))
	require.Zero(t, len(p)%4)
	require.InDelta(t, 0.2140, linear(0.5), 0.0001)
}
