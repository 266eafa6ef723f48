package alteration_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// TestFewAndInOrder: at most two notes a circuit, in the order of the circuits, each with
// words and figures.
func TestFewAndInOrder(t *testing.T) {
	for _, s := range samples.List() {
		h, changes := noted(t, s.Name, s.Text)
		require.NotEmpty(t, changes, s.Name)
		count, last := map[harness.CircuitID]int{}, harness.CircuitID(0)
		for _, c := range changes {
			require.GreaterOrEqual(t, c.Circuit, last)
			require.Less(t, int(c.Circuit), len(h.Circuits))
			require.NotEmpty(t, c.If)
			require.NotEmpty(t, c.Then)
			require.NotEmpty(t, c.Numbers)
			last = c.Circuit
			count[c.Circuit]++
			require.LessOrEqual(t, count[c.Circuit], 2)
		}
	}
}

// TestMovedBattery: cables of 35 mm² (0.527 mΩ a metre, ISO 6722-1 table 3) lose 0.5 V at
// 160 A over 5.9 m, of 70 mm² (0.259 mΩ) over 12 m.
func TestMovedBattery(t *testing.T) {
	for _, s := range samples.List() {
		if s.Name != "camper" {
			continue
		}
		_, changes := noted(t, s.Name, s.Text)
		i := slices.IndexFunc(changes, func(c proof.Change) bool { return c.Alters == proof.BatteryMoved })
		require.GreaterOrEqual(t, i, 0)
		c := changes[i]
		require.InDelta(t, 160, c.Number("now_a"), 0.5)
		require.InDelta(t, 0.5/160/0.527e-3, c.Number("most_m_35"), 0.1)
		require.InDelta(t, 0.5/160/0.259e-3, c.Number("most_m_70"), 0.1)
		require.Contains(t, c.Then, "35 mm² 5.9 m")
	}
}
