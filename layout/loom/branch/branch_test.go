package branch_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/loom/branch"
	"example.com/loomfolio/layout/loom/rig"
)

// TestLoomsAreDividedAtAPlace a place that both sheets name.
func TestLoomsAreDividedAtAPlace(t *testing.T) {
	a := rig.Grown(2)
	for _, tr := range branch.Trees(a) {
		halves := tr.Halves()
		legs, cut := 0, 0
		for _, half := range halves {
			legs += len(half.Legs)
			for _, n := range half.Nodes {
				if n.Elsewhere {
					cut++
				}
			}
		}
		require.Equal(t, len(tr.Legs), legs)
		if len(halves) > 1 {
			require.Equal(t, 2, cut)
		}
	}
}

// TestTheTrunkIsTheLongestWay of a tree, found by trying every pair of ends.
func TestTheTrunkIsTheLongestWay(t *testing.T) {
	for seed := range uint64(30) {
		for _, tr := range branch.Trees(rig.Grown(seed)) {
			near := tr.Near()
			longest := 0.0
			for n := range tr.Nodes {
				longest = max(longest, farthest(tr, near, n, -1))
			}
			limbs := tr.Limbs(tr.Trunk())
			require.InDelta(t, longest, limbs[0].MM, 1e-9)
			seen := map[int]bool{}
			for _, b := range limbs {
				for _, l := range b.Legs {
					require.False(t, seen[l])
					seen[l] = true
				}
			}
			require.Len(t, seen, len(tr.Legs))
		}
	}
}

// farthest is the way from a node to the node that is farthest from it, not back through a leg.
func farthest(tr branch.Tree, near [][]int, n, not int) float64 {
	most := 0.0
	for _, l := range near[n] {
		if leg := tr.Legs[l]; l != not && !leg.Closing {
			most = max(most, leg.MM+farthest(tr, near, leg.From+leg.To-n, l))
		}
	}
	return most
}
