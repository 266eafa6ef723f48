package shelf_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose/shelf"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

func metric(size string) unit.Gauge { return unit.Gauge{System: unit.Metric, Size: size} }

func harnessOf(insulations ...string) *harness.Harness {
	h := &harness.Harness{Sheet: harness.Sheet{Gauge: unit.Metric}}
	for i, in := range insulations {
		h.Wires = append(h.Wires, harness.Wire{ID: harness.WireID(i), Insulation: in})
	}
	return h
}

// A shelf goes from thin to thick: copper and diameter grow, resistance falls; wires of
// one insulation share it, and no section is numbered twice.
func TestShelvesAreInOrder(t *testing.T) {
	h := harnessOf("thin-wall-125", "thin-wall-125", "gpt")
	s := shelf.New(h, make([]unit.Gauge, 3))
	require.Equal(t, s.Keys[0], s.Keys[1])
	require.NotEqual(t, s.Keys[0], s.Keys[2])
	for _, row := range s.Of {
		for i := 1; i < len(row); i++ {
			require.Greater(t, float64(row[i].Conductor.Area), float64(row[i-1].Conductor.Area))
			require.GreaterOrEqual(t, float64(row[i].Over), float64(row[i-1].Over))
			require.Less(t, row[i].Ohms, row[i-1].Ohms)
		}
	}
	for i, a := range s.Kinds {
		require.NotContains(t, s.Kinds[:i], a)
	}
}

// A given gauge that no table holds lies on a shelf of its own; one of another system on a
// shelf of that system.
func TestHeldGaugeOffTheShelf(t *testing.T) {
	h := harnessOf("thin-wall-125", "thin-wall-125", "thin-wall-125")
	awg := unit.Gauge{System: unit.AWG, Size: "12"}
	s := shelf.New(h, []unit.Gauge{metric("1.25"), metric("1.5"), awg})
	require.Len(t, s.Of[0], 1)
	require.InDelta(t, 1.25, float64(s.Of[0][0].Conductor.Area), 1e-9)
	require.InDelta(t, 18.9e-3/1.25, s.Of[0][0].Ohms, 1e-9, "18.9 ohm.mm2/km, the worst row of ISO 6722")
	require.GreaterOrEqual(t, s.Of[1].Index(metric("1.5")), 0)
	require.GreaterOrEqual(t, s.Of[2].Index(awg), 0)
	require.Equal(t, -1, s.Of[2].Index(metric("1.5")))
	require.NotEqual(t, s.Keys[0], s.Keys[1])
}

// The smallest that is used is 0.5 mm2 or 20 gauge unless practice says otherwise; a
// size of the other system counts by its area.
func TestSmallest(t *testing.T) {
	row := shelf.New(harnessOf("thin-wall-125"), make([]unit.Gauge, 1)).Of[0]
	at := func(p harness.Practice) unit.Gauge { return row[row.Smallest(&p)].Conductor.Gauge }
	require.Equal(t, metric("0.5"), at(harness.Practice{}))
	require.Equal(t, metric("0.75"), at(harness.Practice{Smallest: metric("0.75")}))
	require.Equal(t, metric("1"), at(harness.Practice{Smallest: unit.Gauge{System: unit.AWG, Size: "18"}}), "0.82 mm2 less 5 %")
}

// A reel with data of its own is believed; what it leaves open comes from the tables.
func TestOwnReel(t *testing.T) {
	h := harnessOf("blue reel")
	h.Practice.WireTypes = []harness.WireType{{Name: "blue reel", Class: 90, Sizes: []harness.WireTypeSize{
		{Size: metric("2.5"), Resistance: 0.009, Diameter: 3.3}, {Size: metric("1"), Area: 1.1},
	}}}
	row := shelf.New(h, make([]unit.Gauge, 1)).Of[0]
	require.Len(t, row, 2)
	require.Equal(t, metric("1"), row[0].Conductor.Gauge, "thinnest first")
	require.InDelta(t, 1.1, float64(row[0].Conductor.Area), 1e-9)
	require.InDelta(t, 0.009, row[1].Ohms, 1e-9)
	require.InDelta(t, 3.3, float64(row[1].Over), 1e-9)
	require.Equal(t, unit.Celsius(90), row[1].Class)
	require.Greater(t, float64(row[1].Overload), 90.0)
}
