package fault_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/result"
)

// half tells a load that runs from one that is fed backwards through lamps: gauges whose
// fuse is out still get a quarter of their current through the warning lamps beside them.
const half = 0.5

// bench tries faults in a state and reads which loads run.
type bench struct {
	*network.Faults
	h     *harness.Harness
	r     *result.Result
	state int
}

func benchOf(t *testing.T, h *harness.Harness, r *result.Result, state int) bench {
	t.Helper()
	p, err := network.Prepare(h, state, network.Resistances{Wires: r.Cold()}, network.Options{})
	require.NoError(t, err)
	faults, err := p.Faults()
	require.NoError(t, err)
	return bench{faults, h, r, state}
}

// open is an element that conducts no more.
func open(e harness.ElementID) network.Fault {
	return network.Fault{Wire: harness.None, Element: e, Ohms: math.Inf(1)}
}

// chargers are those that charge in the state, taken out.
func (b bench) chargers() (out []network.Fault) {
	for _, e := range b.h.Elements {
		if e.Kind == harness.Charger && b.r.States[b.state].ElementAt[e.ID] >= 0 {
			out = append(out, open(e.ID))
		}
	}
	return out
}

// amps are the currents of all loads, and of all fuses, with some faults.
func (b bench) amps(t *testing.T, faults ...network.Fault) (loads, fuses []float64) {
	t.Helper()
	reading, err := b.Try(faults...)
	require.NoError(t, err)
	for _, l := range b.r.Loads {
		loads = append(loads, math.Abs(reading.Amps(l.Element)))
	}
	for _, f := range b.r.Fuses {
		fuses = append(fuses, math.Abs(reading.Amps(f.Element)))
	}
	return loads, fuses
}

// stopped tells, by fuse and load, where a load runs in some state and the solver has it
// dead with that fuse open, beside what is out in any case.
func stopped(t *testing.T, h *harness.Harness, r *result.Result, without func(bench) []network.Fault) [][]bool {
	t.Helper()
	out := make([][]bool, len(r.Fuses))
	for i := range out {
		out[i] = make([]bool, len(r.Loads))
	}
	for state := range h.States {
		b := benchOf(t, h, r, state)
		always := without(b)
		sound, carried := b.amps(t, always...)
		for i, f := range r.Fuses {
			if carried[i] < 0.001 {
				continue
			}
			left, _ := b.amps(t, append(slices.Clone(always), open(f.Element))...)
			for k, l := range r.Loads {
				runs := slices.Contains(l.On, h.States[state].Name) && sound[k] > half*float64(l.Amps)
				out[i][k] = out[i][k] || runs && left[k] < half*sound[k]
			}
		}
	}
	return out
}

// TestOutagesAreThoseOfTheSolver: with each fuse of every sample open in turn, in every
// state, what is told to stop does stop in one at least, with nothing but batteries to
// supply it; and what the solver has dead with the chargers as they are is told. A load
// runs where it is on with more than half of its greatest current.
func TestOutagesAreThoseOfTheSolver(t *testing.T) {
	for _, s := range samples.List() {
		h, r := worked.Out(t, s)
		alone := stopped(t, h, r, bench.chargers)
		whole := stopped(t, h, r, func(bench) []network.Fault { return nil })
		for i, f := range r.Fuses {
			o := r.Outages[i]
			told := append(o.Behind(), o.Stops...)
			if o.Shared {
				told = nil
			}
			for k, l := range r.Loads {
				says := slices.Contains(told, l.Name)
				require.False(t, says && !alone[i][k], "%s, %s out: %s is told to stop and runs on", s.Name, f.Name, l.Name)
				require.False(t, whole[i][k] && !says, "%s, %s out: %s stops and is not told", s.Name, f.Name, l.Name)
			}
		}
	}
}
