package testplan_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/circuit"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/testplan/tolerance"
)

// instance is a vehicle with every tolerance drawn inside its range, in one state.
type instance struct {
	s     *network.State
	volts []float64
	amps  []float64
	same  bool // every relay stands as it should
	of    []int
}

// draw draws one: each span anywhere in its range, or, for one in two, at one of its ends.
func draw(t *testing.T, lot *rand.Rand, spans []tolerance.Span, s *network.State) instance {
	ends := lot.IntN(2) == 0
	at := make([]float64, len(spans))
	for i := range at {
		if at[i] = 2*lot.Float64() - 1; ends {
			at[i] = math.Copysign(1, at[i])
		}
	}
	got, err := circuit.Solve(tolerance.Set(s.Network, spans, func(span int, _ tolerance.Setting) float64 { return at[span] }))
	require.NoError(t, err)
	return instance{s: s, volts: got.Volts, amps: got.Amps, same: slices.Equal(got.Energised, s.Solution.Energised), of: s.Of}
}

func (i *instance) between(a, b harness.TerminalID) float64 {
	return i.volts[i.of[a]] - i.volts[i.of[b]]
}

// TestLimitsHold: a thousand vehicles drawn by lot from the samples read inside every
// limit that is told, in every state: volts at the points, drops over the sections, amps
// through fuses and coils. What a relay does otherwise is counted apart.
func TestLimitsHold(t *testing.T) {
	for name, instances := range map[string]int{"first": 550, "tender": 330, "kestrel": 60, "camper": 60} {
		if testing.Short() {
			instances /= 20
		}
		t.Run(name, func(t *testing.T) {
			h, r := worked.Named(t, name)
			holds(t, h, r, instances)
		})
	}
}

func holds(t *testing.T, h *harness.Harness, r *result.Result, instances int) {
	lot := rand.New(rand.NewPCG(1, uint64(len(h.Wires))))
	moved, looked := 0, 0
	for s := range r.States {
		spans := tolerance.Spans(h, &r.States[s], r.Cold())
		for range max(1, instances) {
			i := draw(t, lot, spans, &r.States[s])
			if looked++; !i.same {
				moved++
				continue
			}
			readingsHold(t, h, r, s, &i)
			ampsHold(t, h, r, s, &i)
		}
	}
	require.LessOrEqual(t, moved, looked/100, "relays that stand otherwise")
}

func readingsHold(t *testing.T, h *harness.Harness, r *result.Result, s int, i *instance) {
	p := &r.Proof
	for _, x := range p.Readings {
		if at := p.Points[x.Point].At; x.State == s && !x.Floats {
			v := i.volts[i.of[at]]
			require.Truef(t, v >= float64(x.Low) && v <= float64(x.High), "%s, %s: %.4f V is not within %.4f and %.4f", r.States[s].Name, h.Terminals[at].Full, v, x.Low, x.High)
		}
	}
	for _, x := range p.Sections {
		if x.State == s {
			v := i.between(x.From, x.To)
			require.LessOrEqualf(t, v, float64(x.Most), "%s, %s", r.States[s].Name, x.What)
		}
	}
}

func ampsHold(t *testing.T, h *harness.Harness, r *result.Result, s int, i *instance) {
	inside := func(e harness.ElementID, low, high float64) {
		a := math.Abs(i.amps[i.s.ElementAt[e]])
		require.Truef(t, a >= low && a <= high, "%s, %s: %.4f A is not within %.4f and %.4f", r.States[s].Name, h.Elements[e].Name, a, low, high)
	}
	for _, x := range r.Proof.Through {
		if x.State == s {
			inside(x.Fuse, float64(x.Low), float64(x.High))
		}
	}
	for _, x := range r.Proof.Coils {
		if x.State == s {
			inside(x.Coil, float64(x.Low), float64(x.High))
		}
	}
}
