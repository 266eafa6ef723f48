package marker

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/unit"
)

// TestMarkersByTheWire: a face is half the way round, a printed tube lies flat at π/2
// times its bore, and what holds no capitals of 2 mm becomes a flag.
func TestMarkersByTheWire(t *testing.T) {
	for _, c := range []struct {
		wish string
		wire unit.Millimetre
		as   string
		face float64
		tube string
	}{
		{fitted.Wrap, 3, fitted.Wrap, 4.712, "1/8"}, {fitted.Wrap, 1.6, fitted.Flag, flagFace, ""}, {fitted.Wrap, 20, fitted.Wrap, mostWrap, "1"},
		{fitted.Sleeve, 1.6, fitted.Sleeve, 3.707, "3/32"}, {fitted.Sleeve, 3, fitted.Sleeve, 4.979, "1/8"}, {fitted.Flag, 9, fitted.Flag, flagFace, ""},
	} {
		as, face, tube := Made(c.wish, c.wire)
		require.Equal(t, c.as, as, "%v", c)
		require.InDelta(t, c.face, float64(face), 0.001, "%v", c)
		require.Equal(t, c.tube, tube.Inch, "%v", c)
	}
}
