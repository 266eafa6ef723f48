package heat

import (
	"math"
	"testing"

	"example.com/loomfolio/sizing/unit"
	"github.com/stretchr/testify/require"
)

// Whatever is put in: temperatures are numbers from the air to Melting, the heat
// closes, and the capacity brings its wire to the limit.
func FuzzBundle(f *testing.F) {
	f.Add(7, 1.6, 0.4, 12.7, 40.0, 12.0, 3.0, 0.5, 1.0, 7.2, 105.0)
	f.Add(1, 8.0, 0.0, 0.52, -40.0, 150.0, 0.0, 0.0, 0.0, 0.0, 80.0)
	f.Add(40, 0.5, 0.2, 136.0, 1080.0, 1e-30, 1e-3, 0.0, 30.0, 1e4, 1e4)
	f.Fuzz(func(t *testing.T, wires int, conductor, wall, ohms, air, amps, step, cover, gap, diameter, limit float64) {
		b := Bundle{Diameter: unit.Millimetre(diameter), Air: unit.Celsius(air), Cover: Cover{Wall: unit.Millimetre(cover), Gap: unit.Millimetre(gap)}}
		var currents []unit.Ampere
		for i := range 1 + wires&31 {
			k := 1 + float64(i%3)
			b.Wires = append(b.Wires, wireOf(conductor*k, (conductor+2*wall)*k, ohms/k))
			currents = append(currents, unit.Ampere(amps+step*float64(i)))
		}
		at := b.Balance(currents)
		requireSane(t, b, currents, at)
		own := b.Capacity(0, currents, unit.Celsius(limit))
		require.True(t, own >= 0 && !math.IsInf(float64(own), 0))
		currents[0] = own
		if back := b.Balance(currents); own > 0 && back.Found && limit < 1000 {
			require.InDelta(t, limit, float64(back.Conductors[0]), 1e-5)
		}
	})
}

func requireSane(t *testing.T, b Bundle, amps []unit.Ampere, at Balance) {
	require.Len(t, at.Conductors, len(b.Wires))
	least, whole := math.Max(float64(b.Air), coldest), at.Found
	for _, c := range append([]unit.Celsius{at.Rim, at.Surface}, at.Conductors...) {
		require.True(t, c <= Melting)
		require.False(t, float64(c) < math.Min(least, float64(Melting))-1e-9)
		whole = whole && c < Melting
	}
	if _, ok := b.medium(); whole && ok {
		require.InDelta(t, made(b, amps, at), at.Heat, 1e-9*at.Heat+1e-80)
	}
}
