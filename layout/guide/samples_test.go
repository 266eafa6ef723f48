package guide

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/unit"
)

// TestHeaviest: the guide's bounds are the sizes at which a diagram's line changes
// its weight: 1 and 4 mm² of ISO 6722 lie above 18 and 12 of ASTM B258 (0.82, 3.31 mm²).
func TestHeaviest(t *testing.T) {
	require.Equal(t, "18 AWG", heaviest(unit.AWG, page.ThinLine))
	require.Equal(t, "12 AWG", heaviest(unit.AWG, page.MediumLine))
	require.Equal(t, "18 ga", heaviest(unit.SAE, page.ThinLine))
	require.Equal(t, "4 mm²", heaviest(unit.Metric, page.MediumLine))
}
