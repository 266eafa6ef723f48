package circuit

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"
)

// fed is a source of 12 V behind so much resistance with one load of constant power.
func fed(ohms, watts, floor float64) Network {
	return Network{Nodes: 3, Elements: []Element{
		{Name: "BAT", Kind: Source, A: 1, B: 0, Volts: 12, Ohms: ohms / 2},
		resistor("wire", 1, 2, ohms/2),
		{Name: "INV", Kind: Power, A: 2, B: 0, Amps: watts / 12, AtVolts: 12, Floor: floor},
	}}
}

// V = (E + √(E² − 4·R·P)) / 2, the higher answer of V·(E−V) = R·P.
func TestPowerByFormula(t *testing.T) {
	for _, c := range []struct{ ohms, watts, floor float64 }{
		{0.01, 1700, 6}, {0.01, 170, 10.5}, {0.001, 1700, 10.5}, {0.1, 100, 6.5}, {0.1, 350, 3}, {0.02, 1799, 3}, {0.02, 1799.9999, 3}, {1e-4, 5, 6},
	} {
		s, err := Solve(fed(c.ohms, c.watts, c.floor))
		require.NoError(t, err)
		want := (12 + math.Sqrt(144-4*c.ohms*c.watts)) / 2
		if want < c.floor {
			want = 12 / (1 + c.ohms*c.watts/c.floor/c.floor)
		}
		require.InDelta(t, want, s.Volts[2], 2e-6/math.Max(1e-6, 144-4*c.ohms*c.watts)*1e-3+1e-10, "%v", c)
		require.InEpsilon(t, c.watts, s.Volts[2]*s.Amps[2]*math.Pow(math.Max(1, c.floor/s.Volts[2]), 2), 1e-9, "%v", c)
		require.Less(t, s.Residual, 1e-9)
		require.Less(t, s.Rounds, 250, "%v", c)
	}
}

// More than E²/4R is to be had at no voltage: the load is then what it is below
// its floor, a resistance of floor²/watts.
func TestPowerCollapses(t *testing.T) {
	for _, watts := range []float64{1800.001, 1801, 1900, 3000, 1e5} {
		s, err := Solve(fed(0.02, watts, 3))
		require.NoError(t, err)
		require.InEpsilon(t, 12/(1+0.02*watts/9), s.Volts[2], 1e-9, "%g W", watts)
		require.Equal(t, IsResistance, s.Frozen[2].Form)
		require.Less(t, s.Volts[2], 3.0)
		require.Less(t, s.Rounds, 500, "%g W", watts)
	}
}

// Fed backwards, not fed at all, or on an island of its own.
func TestPowerElsewhere(t *testing.T) {
	n := fed(0.02, 500, 6)
	n.Elements[2].A, n.Elements[2].B = 0, 2
	s, err := Solve(n)
	require.NoError(t, err)
	require.InEpsilon(t, -12/(0.02+36.0/500), s.Amps[2], 1e-9, "fed backwards it is a resistance")

	n = fed(0.02, 500, 6)
	n.Elements[1].Ohms = math.Inf(1)
	s, err = Solve(n)
	require.NoError(t, err)
	require.Zero(t, s.Amps[2])
	require.InDelta(t, 0, s.Volts[2], 1e-12)

	n = fed(0.02, 500, 6)
	n.Nodes, n.Reference = 4, 3
	s, err = Solve(n)
	require.NoError(t, err)
	require.InEpsilon(t, 500/((12+math.Sqrt(144-4*0.02*500))/2), s.Amps[2], 1e-9)
}

// The alternator gives 95 A and no more: beyond that the battery holds the voltage.
func TestPowerBehindALimit(t *testing.T) {
	for watts, volts := range map[float64]float64{1000: 14.2, 1300: 14.2, 1400: 12.6, 2000: 12.6} {
		s, err := Solve(Network{Nodes: 2, Elements: []Element{
			{Name: "BAT", Kind: Source, A: 1, B: 0, Volts: 12.6, Ohms: 0.005, Idle: 14.2},
			{Name: "ALT", Kind: Limited, A: 1, B: 0, Volts: 14.2, Ohms: 0.0005, Amps: 95},
			{Name: "INV", Kind: Power, A: 1, B: 0, Amps: watts / 12, AtVolts: 12, Floor: 10.5},
		}})
		require.NoError(t, err)
		require.InDelta(t, volts, s.Volts[1], 0.4, "%g W", watts)
		require.InEpsilon(t, watts, s.Volts[1]*s.Amps[2], 1e-9)
	}
}

// powered turns some loads of a vehicle into loads of constant power.
func powered(r *rand.Rand, n Network) Network {
	for i := range n.Elements {
		if e := &n.Elements[i]; e.Kind == Current && r.Intn(2) == 0 {
			e.Kind, e.AtVolts = Power, 12
		}
	}
	return n
}

func TestPoweredVehicles(t *testing.T) {
	most, loads := 0, 0
	for seed := range 300 {
		r := rand.New(rand.NewSource(int64(seed)))
		n := powered(r, vehicle(r, 10+seed))
		s, err := Solve(n)
		require.NoError(t, err, "seed %d", seed)
		require.Less(t, s.Residual, 1e-9, "seed %d", seed)
		most = max(most, s.Rounds)
		for i, e := range n.Elements {
			if v := s.Volts[e.A] - s.Volts[e.B]; e.Kind == Power && v >= e.Floor {
				require.InEpsilon(t, e.Amps*12, v*s.Amps[i], 1e-9, "seed %d", seed)
				loads++
			}
		}
		if seed%10 == 0 {
			requireDense(t, n, s)
		}
	}
	require.Greater(t, loads, 1000)
	t.Log("most rounds", most, "loads", loads)
}

// A fault, and other resistances, give what solving from nothing gives.
func TestPoweredFaults(t *testing.T) {
	for seed := range 10 {
		r := rand.New(rand.NewSource(int64(seed)))
		n := powered(r, vehicle(r, 30+4*seed))
		p, err := Prepare(n)
		require.NoError(t, err)
		f, err := p.Faults()
		require.NoError(t, err)
		for i := range n.Elements {
			got, err := f.Try(Fault{i, math.Inf(1)})
			require.NoError(t, err)
			want, err := p.fromNothing(Fault{i, math.Inf(1)})
			require.NoError(t, err)
			require.InDeltaSlice(t, want.Amps, got.Amps, 1e-7, fmt.Sprint("seed ", seed, " element ", i))
		}
	}
}

// Networks that no car has, with loads of constant power between any two nodes.
func TestPoweredWild(t *testing.T) {
	most := 0
	for seed := range 8000 {
		r := rand.New(rand.NewSource(int64(seed)))
		n := powered(r, wild(r))
		s, err := Solve(n)
		require.NoError(t, err, "seed %d", seed)
		require.Less(t, s.Residual, 1e-9, "seed %d", seed)
		most = max(most, s.Rounds)
		if seed%10 == 0 {
			requireDense(t, n, s)
		}
	}
	t.Log("most rounds", most)
}

// Loads that ask for far more than their feeds can give: every one comes to rest, at
// its power or below its floor.
func TestOverloadedVehiclesComeToRest(t *testing.T) {
	most, fallen := 0, 0
	for seed := range 400 {
		r := rand.New(rand.NewSource(int64(seed)))
		n := powered(r, vehicle(r, 10+seed/2))
		for i := range n.Elements {
			if e := &n.Elements[i]; e.Kind == Power {
				e.Amps *= 1 + 40*r.Float64()
				e.Floor = 2 + 9*r.Float64()
			}
		}
		s, err := Solve(n)
		require.NoError(t, err, "seed %d", seed)
		require.Less(t, s.Residual, 1e-8, "seed %d", seed)
		most = max(most, s.Rounds)
		for i, e := range n.Elements {
			if v := s.Volts[e.A] - s.Volts[e.B]; e.Kind == Power {
				want := e.watts() / math.Max(v, e.Floor)
				if v < e.Floor {
					want, fallen = e.watts()*v/e.Floor/e.Floor, fallen+1
				}
				require.InDelta(t, want, s.Amps[i], 1e-8, "seed %d", seed)
			}
		}
	}
	require.Greater(t, fallen, 500)
	t.Log("most rounds", most, "fallen", fallen)
}
