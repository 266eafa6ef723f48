package colour

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// No chosen colour of a wire that is no ground has the ground's base, with a tracer or without:
// not where the shelf has nothing else, not in thick wire, not by a convention.
func TestNoLiveWireInTheGroundsColour(t *testing.T) {
	for _, c := range []struct{ ground, conventions string }{{"BK", ""}, {"BK", "german"}, {"BN", "german"}, {"BN/WH", "marine"}, {"GN", ""}} {
		b := newTree(200, 45, 40, 3)
		b.h.Practice.GroundColour, b.h.Practice.Conventions = c.ground, asked(c.conventions)
		choices, _, _ := Assign(b.h, b.ways, b.gauges, nil)
		task := newTask(b.h, b.ways, b.gauges, nil)
		for w, x := range choices {
			if task.classes[task.class[w]].role != ground {
				require.NotEqual(t, c.ground[:2], x.Pair.Base, "%s, %s: %s", c.ground, c.conventions, b.h.Wires[w].Name)
			}
		}
	}
	b := build(car+"\nH horn", `
		2A F1.2 L1.+ 16 0
		3A F2.2 H.+ 1 0
		4A SW.2 SW.1 1 0`)
	b.horn("F2.2")
	b.h.Practice.Conventions = asked("german") // horn: BK/YE
	b.h.Practice.Stock = []harness.Stock{{Gauge: unit.Gauge{Size: "1"}, Colours: []harness.StockColour{{Base: "BK"}, {Base: "BK", Tracer: "WH"}}}}
	got, _, _ := b.assign()
	for _, w := range []string{"2A", "3A", "4A"} {
		require.NotEqual(t, "BK", got[w][:2], w)
	}
}

// A given colour is obeyed, with one warning for all live wires; not for what lies behind a load,
// where a ground's colour with a tracer is customary, nor for the cores of a cable.
func TestGivenGroundColourIsWarnedOf(t *testing.T) {
	b := build(car+"\nSW2 switch", `
		1A BAT.+ F1.1 6 0
		1N BAT.- G1 6 0
		2A F1.2 SW.1 1 0 =BK/YE
		2B SW.2 L1.+ 1 0 =BK
		3A L1.- SW2.1 1 0 =BK/OG
		3B SW2.2 G2 1 0 =BK`)
	b.element("BAT", harness.EMF, "BAT.+", "BAT.-")
	b.element("F1", harness.FuseLink, "F1.1", "F1.2")
	b.element("SW", harness.Contact, "SW.1", "SW.2")
	b.element("L1", harness.Load, "L1.+", "L1.-")
	b.element("SW2", harness.Contact, "SW2.1", "SW2.2")
	got, _, problems := b.assign()
	require.Equal(t, "BK/YE", got["2A"])
	require.Equal(t, "BK", got["2B"])
	var found []string
	for _, p := range problems {
		if p.Slug == "live-in-ground-colour" {
			require.Empty(t, found, "told once")
			found = p.Subjects
			require.Equal(t, "warning", p.Level.String())
		}
	}
	require.Equal(t, []string{"2A", "2B"}, found)
}
