package unit

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// One circular mil is the area of a circle of 0.001 in: 1 mm² is 1 973.5 of them.
func TestAreasAndLengthsOfAnImperialSheet(t *testing.T) {
	require.Equal(t, "8.37 mm²", AreaText(8.367, false))
	require.Equal(t, "16 500 circular mils", AreaText(8.367, true))
	require.Equal(t, "1 020 circular mils", AreaText(0.518, true))
	require.Equal(t, "19.1 m", FarText(19123, false))
	require.Equal(t, "63 ft", FarText(19123, true))
}

func TestOneThingIsSingular(t *testing.T) {
	for n, want := range map[int]string{0: "0 cavities", 1: "1 cavity", 2: "2 cavities"} {
		require.Equal(t, want, Counted(n, "cavity"))
	}
	require.Equal(t, []string{"1 way", "3 ways", "1 fuse", "2 fuses"}, []string{Counted(1, "way"), Counted(3, "way"), Counted(1, "fuse"), Counted(2, "fuse")})
}
