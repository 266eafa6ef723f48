package pdf

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestPoints(t *testing.T) {
	require.Equal(t, "0", Points(-0.0001))
	require.Equal(t, "1.5", Points(1.5))
	require.Equal(t, "-2.346", Points(-2.3456))
	require.Equal(t, "0", Points(math.Copysign(0, -1)))
}
