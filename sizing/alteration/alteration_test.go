package alteration_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// TestFewAndInOrder: at most two notes a circuit, in the order of the circuits, each with
// words and figures.
func TestFewAndInOrder(t *testing.T) {
	for _, s := range samples.List() {
		h, r := worked.Out(t, s)
		require.NotEmpty(t, r.Proof.Changes, s.Name)
		count, last := map[harness.CircuitID]int{}, harness.CircuitID(0)
		for _, c := range r.Proof.Changes {
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

func of(t *testing.T, sample string, alters proof.Alters) *proof.Change {
	t.Helper()
	_, r := worked.Named(t, sample)
	for i := range r.Proof.Changes {
		if c := &r.Proof.Changes[i]; c.Alters == alters {
			return c
		}
	}
	t.Fatalf("%s says nothing of %s", sample, alters)
	return nil
}

// TestMovedBattery: 0.5 V at 160 A over copper of 0.259 mΩ a metre (70 mm², IEC 60228 class
// 5: 0.272) is 12 m.
func TestMovedBattery(t *testing.T) {
	c := of(t, "camper", proof.BatteryMoved)
	require.InDelta(t, 160, c.Number("now_a"), 0.5)
	for _, size := range []string{"35", "50", "70"} {
		require.Greater(t, c.Number("most_m_"+size), 5.0, size)
	}
	require.Less(t, c.Number("most_m_35"), c.Number("most_m_50"))
}
