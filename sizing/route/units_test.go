package route_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/unit"
)

// paired is two wires from a to c, one to a part 200 mm further off, in one unit.
func paired(kind harness.UnitKind, change func(*harness.Harness)) *harness.Harness {
	h := loom()
	p := part(h, "P", 0, 100, nil)
	for _, tail := range []unit.Millimetre{150, 350} {
		wire(h, p, part(h, "Q", 2, tail, nil), func(w *harness.Wire) {
			w.Gauge, w.Insulation, w.Core = unit.Gauge{System: unit.Metric, Size: "0.5"}, "thin-wall-125", harness.None
			if kind == harness.Twisted {
				w.Twist = "pair"
			}
		})
	}
	h.Units = []harness.Unit{{Kind: kind, Name: "pair", Wires: []harness.WireID{0, 1}}}
	if change != nil {
		change(h)
	}
	return h
}

// TestATwistIsCutToOneLength: 0.5 mm² thin-wall is 1.6 mm over its insulation (ISO 6722-1, as
// a data sheet prints it), so two lie 1.6 mm apart; FAA AC 43.13-1B, twists per foot, from
// memory: 10 for 20 gauge, a lay of 30.48 mm.
func TestATwistIsCutToOneLength(t *testing.T) {
	ways, problems := route.Find(paired(harness.Twisted, nil))
	require.Empty(t, problems)
	for _, w := range ways {
		require.Equal(t, unit.Millimetre(3730), w.Whole)  // (3000 + 100 + 350 + 2·50) · 1.05 = 3727.5
		require.Equal(t, unit.Millimetre(3785), w.Length) // · √(1 + (π·1.6 ÷ 30.48)²) = 3780.4, rounded up to 5
		require.Contains(t, w.Reason, "× 1.014 for the turns of the twist")
	}
	require.Contains(t, ways[0].Reason, "as long as the others in pair, 3 730 mm")

	ways, _ = route.Find(paired(harness.Twisted, func(h *harness.Harness) { h.Practice.Lay = 10 }))
	require.Equal(t, unit.Millimetre(4175), ways[0].Length) // 3730 · √(1 + (π·1.6 ÷ 10)²) = 4174.7
}

// Thicker wires lie further apart, so their turns are longer.
func TestTheTurnsFollowTheSections(t *testing.T) {
	h := paired(harness.Twisted, func(h *harness.Harness) { h.Practice.Lay = 25 })
	sections := []route.Section{{Over: 3, Area: 2.5}, {Over: 3, Area: 2.5}}
	ways, _ := route.FindFor(h, sections)
	require.Equal(t, unit.Millimetre(3990), ways[1].Length) // 3730 · √(1 + (π·3 ÷ 25)²) = 3986.2
	twists := route.Twists(h, &h.Units[0], sections)
	require.Len(t, twists, 1)
	require.InDelta(t, 1.06870, twists[0].Factor, 1e-5)
	require.Equal(t, unit.Millimetre(25), twists[0].Lay)
}

func TestAScreenAndACableAreCutToOneLength(t *testing.T) {
	for _, kind := range []harness.UnitKind{harness.Screened, harness.Cabled} {
		ways, problems := route.Find(paired(kind, nil))
		require.Empty(t, problems)
		require.Equal(t, []unit.Millimetre{3730, 3730}, []unit.Millimetre{ways[0].Length, ways[1].Length})
	}
}

// A given length is cut as it is written; the other wire follows it.
func TestTheOthersFollowAGivenLength(t *testing.T) {
	ways, _ := route.Find(paired(harness.Screened, func(h *harness.Harness) { h.Wires[0].Length = 3600 }))
	require.Equal(t, []unit.Millimetre{3600, 3600}, []unit.Millimetre{ways[0].Length, ways[1].Length})
	ways, _ = route.Find(paired(harness.Twisted, func(h *harness.Harness) { h.Wires[0].Length = 3785 }))
	require.Equal(t, []unit.Millimetre{3785, 3785}, []unit.Millimetre{ways[0].Length, ways[1].Length})
	require.InDelta(t, 3734.6, float64(ways[1].Whole), 0.1)
}

// What is built stays as long as it was cut.
func TestABuiltWireOfATwistKeepsItsLength(t *testing.T) {
	ways, _ := route.Find(paired(harness.Twisted, func(h *harness.Harness) {
		h.Wires[0].Kept = harness.Kept{State: harness.Built, Length: 3800}
	}))
	require.Equal(t, []unit.Millimetre{3800, 3785}, []unit.Millimetre{ways[0].Length, ways[1].Length})
	require.Equal(t, unit.Millimetre(3785), ways[0].Wants)
}

func TestWiresOfAUnitGoTogether(t *testing.T) {
	ways, problems := route.Find(paired(harness.Twisted, func(h *harness.Harness) { h.Parts[2].Place = 1 }))
	require.Less(t, float64(ways[1].Length), float64(ways[0].Length)) // each keeps its own
	require.Len(t, problems, 1)
	require.Equal(t, "unit-apart", problems[0].Slug)
	require.Contains(t, problems[0].Summary, "do not take the same route, and both belong to the twist pair")

	_, problems = route.Find(paired(harness.Twisted, func(h *harness.Harness) { h.Parts[2].Tail = 900 }))
	require.Len(t, problems, 1)
	require.Equal(t, "unit-uneven", problems[0].Slug)
	require.Contains(t, problems[0].Summary, "needs 3 520 mm and 1A (P to Q) needs 4 305 mm")

	// the wires of a pair often run against each other
	_, problems = route.Find(paired(harness.Twisted, func(h *harness.Harness) {
		h.Wires[1].From, h.Wires[1].To = h.Wires[1].To, h.Wires[1].From
	}))
	require.Empty(t, problems)
}
