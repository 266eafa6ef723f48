package harness

import (
	"strings"
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

// TestShortNames: the terminal at which an element ends is left out, a dash in its part's
// name is not.
func TestShortNames(t *testing.T) {
	for name, short := range map[string]string{"T.54-31": "T.54", "H-left.56a-31": "H-left.56a", "H-left": "H-left", "RAD.+--": "RAD.+", "FAN": "FAN"} {
		p := Part{Ref: strings.SplitN(name, ".", 2)[0]}
		require.Equal(t, short, p.Short(name), name)
	}
}
