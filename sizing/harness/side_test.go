package harness

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestSidesAreSaidAsWritten: each word is one side, joined ones come in the format's order.
func TestSidesAreSaidAsWritten(t *testing.T) {
	for word, side := range map[string]Side{"front": Front, "rear": Rear, "left": Left, "right": Right} {
		got, ok := SideOf(word)
		require.True(t, ok)
		require.Equal(t, side, got)
		require.Equal(t, word, side.String())
	}
	_, ok := SideOf("middle")
	require.False(t, ok)
	require.Equal(t, "front left", (Left | Front).String())
	require.Empty(t, Side(0).String())
	require.True(t, (Left | Front).Is(Left))
	require.False(t, (Left | Front).Is(Rear))
}
