package point_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/testplan/point"
)

// TestPointsAreWhereWiresEnd: every end of a wire is a point, each half of a plug's cavity
// by itself, with words and minutes for the probe; no test lamp at a module, sensor or
// gauge.
func TestPointsAreWhereWiresEnd(t *testing.T) {
	for _, s := range samples.List() {
		h, r := worked.Out(t, s)
		points := point.All(h)
		at := point.At(h, points)
		for _, w := range h.Wires {
			for _, end := range []harness.TerminalID{w.From, w.To} {
				require.GreaterOrEqual(t, at[end], 0, h.Terminals[end].Full)
			}
		}
		for _, p := range points {
			part := h.PartOf(p.At)
			require.NotNil(t, part)
			require.True(t, p.Reach > 0 && p.Reach < 20, "%s: %g min", h.Terminals[p.At].Full, p.Reach)
			require.Equal(t, p.Lamp, p.NoBut == "")
			switch part.Kind {
			case harness.Module, harness.Sender, harness.Gauge:
				require.False(t, p.Lamp, h.Terminals[p.At].Full)
			case harness.Connector:
				require.Contains(t, p.Side, "cavity "+h.Terminals[p.At].Cavity)
			case harness.Splice:
				require.Contains(t, p.Side, "tape")
			}
		}
		require.Equal(t, len(points), len(r.Proof.Points))
	}
}

// TestPlugsBeforeSplices: a plug by the bonnet is reached sooner than a splice in the tape,
// and an open stud or a fuse sooner than either.
func TestPlugsBeforeSplices(t *testing.T) {
	h, _ := worked.Named(t, "kestrel")
	points := point.All(h)
	at := point.At(h, points)
	minutes := func(full string) float64 {
		for i := range h.Terminals {
			if h.Terminals[i].Full == full {
				return points[at[i]].Reach
			}
		}
		t.Fatal(full)
		return 0
	}
	require.Less(t, minutes("FE.3"), minutes("X1.1.in"))
	require.Less(t, minutes("PP.in"), minutes("X1.1.in"))
	require.Less(t, minutes("X1.1.in"), minutes("SK"))
}

// TestEachCircuitIsMeasured: each circuit has one state or two, and is measured while
// cranking only where its loads, if it feeds any, are on in no other state.
func TestEachCircuitIsMeasured(t *testing.T) {
	for _, s := range samples.List() {
		h, r := worked.Out(t, s)
		for c, states := range point.Asked(h, r.Loads, r.States) {
			require.True(t, len(states) == 1 || len(states) == 2, h.Circuits[c].Key)
			for _, l := range r.Loads {
				if n := len(l.Feed); n == 0 || int(h.Wires[l.Feed[n-1]].Circuit) != c || h.States[states[0]].Engine != harness.EngineCranking {
					continue
				}
				for _, st := range h.States {
					require.False(t, st.Engine != harness.EngineCranking && slices.Contains(l.On, st.Name), "%s: %s is measured while cranking", s.Name, l.Name)
				}
			}
		}
	}
}
