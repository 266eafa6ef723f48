package live_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/grown"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/fault/live"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/proof"
)

func sheet(t *testing.T, name string) (*harness.Harness, live.Sheet) {
	h, r := worked.Named(t, name)
	s, err := live.All(h, r.States, r.Fuses)
	require.NoError(t, err)
	return h, s
}

// at gives how the net of a terminal stands in a column.
func at(t *testing.T, h *harness.Harness, s *live.Sheet, terminal, column string) proof.Lives {
	t.Helper()
	c := slices.Index(s.When, column)
	require.GreaterOrEqual(t, c, 0, "%v", s.When)
	for _, n := range s.Nets {
		for _, p := range n.Points {
			if h.Terminals[p].Full == terminal {
				return n.When[c]
			}
		}
	}
	t.Fatalf("no net has %s", terminal)
	return 0
}

func TestKestrel(t *testing.T) {
	h, s := sheet(t, "kestrel")
	for _, c := range []struct {
		terminal, column string
		is               proof.Lives
	}{
		{"BAT.+", "parked", proof.Fed},
		{"G2", "parked", proof.Ground},
		{"IGN.15", "parked", proof.NotLive},
		{"IGN.15", "key-on", proof.Fed},
		{"KN.85", "parked", proof.Behind}, // the coil is fed, and the button is up
		{"KN.85", "by-day", proof.Ground}, // pressed
		{"ISO.3", "ISO off, by-night-in-rain", proof.Behind},
		{"IGN.15", "battery off, by-night-in-rain", proof.Fed}, // by the alternator
		{"FD.7", "hazard-stop", proof.NotLive},                 // the hazard feed does not reach the key's bus
	} {
		require.Equal(t, c.is, at(t, h, &s, c.terminal, c.column), "%s in %s", c.terminal, c.column)
	}
}

// With the plus on earth the minus is what is live.
func TestPlusOnEarth(t *testing.T) {
	h, s := sheet(t, "tender")
	require.Equal(t, proof.Ground, at(t, h, &s, "BAT.+", "parked"))
	require.Equal(t, proof.Fed, at(t, h, &s, "BAT.-", "parked"))
}

// Every wire lies on one net with both its ends, every net stands somehow in every column,
// and what is said agrees with the volts that were solved.
func TestNetsAgreeWithTheSolvedVolts(t *testing.T) {
	for _, x := range samples.List() {
		h, r := worked.Out(t, x)
		s, err := live.All(h, r.States, r.Fuses)
		require.NoError(t, err)
		seen := make([]int, len(h.Wires))
		for _, n := range s.Nets {
			require.Len(t, n.When, len(s.When))
			for _, w := range n.Wires {
				seen[w]++
				require.Contains(t, n.Points, h.Wires[w].From)
				require.Contains(t, n.Points, h.Wires[w].To)
			}
			for i := range r.States {
				v := math.Abs(r.States[i].Volts[n.Net])
				if l := n.When[i]; l == proof.Fed || l == proof.Behind {
					require.Greater(t, v, 0.5)
				} else {
					require.False(t, l == proof.NotLive && v > 0.5, "%s in %s: %.2f V", h.Terminals[n.Net].Full, s.When[i], v)
				}
			}
		}
		require.NotContains(t, seen, 0)
		require.Equal(t, len(h.Wires), slices.Index(append(seen, -1), -1))
	}
}

// What is told of a fuse that is out is what the whole harness shows when it is solved anew
// with that fuse open.
func TestFusesOutAgreeWithTheSolver(t *testing.T) {
	h, r := worked.Named(t, "kestrel")
	s, err := live.All(h, r.States, r.Fuses)
	require.NoError(t, err)
	require.NotEmpty(t, s.Without)
	for _, w := range s.Without {
		ohms := r.States[w.State].Resistances()
		ohms.Links[w.Fuse] = math.Inf(1)
		st, err := network.Solve(h, w.State, ohms, network.Options{})
		require.NoError(t, err)
		now := map[int]proof.Lives{}
		for i, n := range w.Nets {
			now[n] = w.Lives[i]
		}
		for i, n := range s.Nets {
			l, differs := now[i]
			if !differs {
				l = n.When[w.State]
			}
			shows := math.Abs(st.Volts[n.Net]) > 0.5
			require.Equal(t, shows && l != proof.Ground, l == proof.Fed || l == proof.Behind,
				"%s out, %s: %d", h.Elements[w.Fuse].Name, h.Terminals[n.Net].Full, l)
		}
	}
}

func BenchmarkAll(b *testing.B) {
	for _, wires := range []int{100, 300, 1000, 3000} {
		b.Run(fmt.Sprint(wires), func(b *testing.B) {
			h := grown.Harness(b, wires, 1)
			r, err := sizing.Size(h, nil)
			require.NoError(b, err)
			for b.Loop() {
				_, err := live.All(h, r.States, r.Fuses)
				require.NoError(b, err)
			}
		})
	}
}
