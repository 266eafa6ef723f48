package bench

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/toy"
)

// The trailer cable of the camper: the core that is left over is named in the build order.
func TestACableIsCutBackAtBothEnds(t *testing.T) {
	require.Contains(t, toy.Said(unitSteps(toy.Samples(t)["camper"])), "cut 1 525 mm; sheath back 50 mm at X1, 50 mm at TOW; spare: 2 (54g) BU")
}
