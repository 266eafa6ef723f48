package cost

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/purchase"
)

// TestSourcesOfWhatIsCounted: each mass and time names what it rests on, a given time nothing.
func TestSourcesOfWhatIsCounted(t *testing.T) {
	h := &harness.Harness{Wires: []harness.Wire{{Insulation: "thin-wall-125"}, {Insulation: "thin-wall-105"}, {Insulation: "thin-wall-125"}}}
	require.Empty(t, Sources(h, &purchase.Cost{}))
	c := &purchase.Cost{Wire: 1, Cover: 1, Operation: []purchase.Operation{{Minutes: 2, Source: "build-minutes"}, {Minutes: 1, Source: "build-minutes"}, {Minutes: 3}}}
	require.ElementsMatch(t, []string{"density-xlpe", "density-pvc", "cover-mass", "build-minutes"}, Sources(h, c))
}
