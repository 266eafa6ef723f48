package page

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// UL 486A, 14 AWG: 50 lbf, 222.4 N.
func TestForces(t *testing.T) {
	require.Equal(t, "50\u00a0lbf", Forces{}.Cell(222.4, "").Note)
	require.Equal(t, "222\u00a0N", Forces{imperial: true}.Cell(222.4, "").Note)
	memory := Forces{lists: map[string]forceList{"memory": listOf("abyc-pull-memory")}}
	require.Equal(t, "5\u00a0lbf\nfrom memory", memory.Cell(22.2, "memory").Note)
	require.Equal(t, "UL 486A", listOf("ul-486a").name)
	require.Equal(t, "ABYC E-11 table XVI", listOf("abyc-pull").name, "up to its table")
}
