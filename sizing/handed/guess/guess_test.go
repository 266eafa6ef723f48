package guess

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/handed/grid"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
)

// TestKindsExist: the table names kinds of the format.
func TestKindsExist(t *testing.T) {
	for _, row := range grid.Own(kindsCSV) {
		_, ok := kind.Of(harness.Kind(row[0]))
		require.True(t, ok, row[0])
	}
}

// TestKinds: plain ones are said, what may be two things is not.
func TestKinds(t *testing.T) {
	for ref, want := range map[string]string{
		"F1": "fuse", "MF2": "fuse", "K3": "relay", "BAT": "battery", "GND": "ground", "G4": "ground", "X1": "connector", "SP2": "splice", "Masse": "ground", "Fan relay": "relay",
		"Battery ground": "ground", "Fuel pump fuse": "fuse", "L1": "", "M1": "", "Box 7": "", "D4": "",
	} {
		require.Equal(t, want, Kind(ref, "", nil), ref)
	}
	require.Equal(t, "relay", Kind("Box 7", "", []string{"86", "30", "85"}))
}
