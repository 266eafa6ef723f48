package reason_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/choose/reason"
	"example.com/loomfolio/sizing/choose/rig"
	"example.com/loomfolio/sizing/unit"
)

// What speaks against a neighbour is broken by its own numbers: a drop, a start or a
// rating is above its limit, what is carried or held below it.
func TestNeighboursBreakWhatTheySay(t *testing.T) {
	seen := map[string]bool{}
	thin := rig.Fan(unit.Metric, 8, 500)
	thin.Given("1C", unit.Gauge{System: unit.Metric, Size: "0.35"})
	for _, b := range []*rig.Rig{rig.Fan(unit.SAE, 20, 2400), rig.Fan(unit.Metric, 2, 300), rig.Charged(), rig.Split(), rig.Wide(20), thin} {
		c := reason.Of(b.Settled(t))
		var all []chosen.Neighbour
		for _, w := range c.Wires {
			all = append(all, w.Below)
		}
		for _, f := range c.Fuses {
			all = append(all, f.Below, f.Above)
		}
		for _, n := range all {
			for _, f := range n.Fails {
				seen[f.Rule] = true
				require.NotEmpty(t, f.Text)
				switch f.Rule {
				case "drop", "continuous", "holder":
					require.Greater(t, f.Has, f.Limit, f.Text)
				case "handling", "earth", "protection", "start", "wire", "short":
					require.Less(t, f.Has, f.Limit, f.Text)
				}
			}
		}
	}
	for _, rule := range []string{"drop", "handling", "earth", "protection", "continuous", "start", "holder", "wire"} {
		require.True(t, seen[rule], "no neighbour fails by %s: %v", rule, seen)
	}
}

// The size that a wire has stands between its neighbour and what the rules want of it.
func TestWiresReachWhatTheRulesWant(t *testing.T) {
	s := rig.Wide(20).Settled(t)
	c := reason.Of(s)
	for i, w := range c.Wires {
		for _, wants := range []unit.Gauge{w.Wants.Heat, w.Wants.Protection, w.Wants.Handling} {
			if wants.Given() {
				require.GreaterOrEqual(t, s.At[i], s.Shelf[i].Index(wants), w.Reason)
			}
		}
		require.NotEmpty(t, w.Sources)
		require.Contains(t, w.Reason, w.Gauge.String())
	}
}
