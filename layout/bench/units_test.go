package bench

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/toy"
)

// The trailer cable of the camper: the core that is left over is named at both ends and in the build order.
func TestACableIsCutBackAtBothEnds(t *testing.T) {
	a := toy.Samples(t)["camper"]
	ends := screenTable(a).Rows
	require.Len(t, ends, 2)
	require.Equal(t, 2, strings.Count(toy.Said(ends), "Fold back and insulate 2 (54g) BU"))
	require.Contains(t, toy.Said(unitSteps(a)), "cut 1 525 mm; sheath back 50 mm at X1, 50 mm at TOW; spare: 2 (54g) BU")
	require.Contains(t, toy.Said(endTable(a).Rows), "core 3 (31) of tow")
}

// The kestrel's crank sensor hangs on a pair under a screen that is earthed at the
// engine module alone.
func TestAPairUnderAScreen(t *testing.T) {
	a := toy.Samples(t)["kestrel"]
	require.Contains(t, toy.Said(screenTable(a).Rows), "Drain, sleeved, to ECU.s1: into the crimp of 15B")
}
