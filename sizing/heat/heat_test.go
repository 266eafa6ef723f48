package heat

import (
	"math"
	"math/rand"
	"testing"

	"example.com/loomfolio/sizing/unit"
	"github.com/stretchr/testify/require"
)

// Dry air: Carroll (1968) at 1 bar 24.545, 28.245, 31.695 mW/m.K at 0, 50 and
// 100 C, IEC 60287-2-3 0.0242 + 7.2e-5 per C, both as a cable-calculation page
// quotes them; viscosity 184.6e-7 Pa.s at 300 K, Prandtl number 0.707, from memory.
func TestAir(t *testing.T) {
	for celsius, carroll := range map[float64]float64{0: 0.024545, 50: 0.028245, 100: 0.031695} {
		k := airConductivity(celsius + kelvin)
		require.InEpsilon(t, carroll, k, 0.02)
		require.LessOrEqual(t, k, carroll, "the safe side")
		require.InEpsilon(t, 0.0242+7.2e-5*celsius, k, 0.015)
	}
	require.InEpsilon(t, 184.6e-7, airViscosity(300), 0.005)
	require.InEpsilon(t, 0.707, airViscosity(300)*airHeat/airConductivity(300), 0.015)
	require.LessOrEqual(t, stillAir, airConductivity(26+kelvin))
}

// The check value of ht, an open heat-transfer library in Python: conv_free_immersed,
// Nu_horizontal_cylinder_Churchill_Chu at Prandtl 0.69, Grashof 2.63e9, from a textbook's
// example 9.2 that it names.
func TestNusselt(t *testing.T) {
	require.InEpsilon(t, 139.13493970073597, nusselt(0.69*2.63e9, 0.69), 1e-12)
}

// A textbook's steam pipe (from memory): 0.1 m, 165 C in 23 C, emissivity 0.85
// gives off 325 W/m by convection (7.29 W/m2.K) and 441 by radiation.
func TestSteamPipe(t *testing.T) {
	s := surface{0.1, 23, 0.85}
	require.InEpsilon(t, 7.29, s.convection(142), 0.01)
	require.InEpsilon(t, 441, math.Pi*0.1*142*s.radiation(142), 0.002)
	require.InEpsilon(t, 325+441, s.loss(142), 0.01)
}

// The search is safe as long as a surface's loss grows at least with its rise
// (the heat of copper grows more slowly).
func TestLossGrows(t *testing.T) {
	for d := 1e-4; d < 1; d *= 2 {
		for air := coldest; air < 1000; air += 50 {
			s := surface{d, air, 0.05}
			for x := 1e-9; air+x < float64(Melting); x *= 1.5 {
				require.Greater(t, s.loss(x*1.01)/s.loss(x), 1.0099, "%g m, %g C, %g K", d, air, x)
			}
		}
	}
}

// Inside a bundle: the drop from a wire in the middle to the rim, summed up in
// thin rings with its own heat from the middle and the others' from between.
func TestInsideAgainstRings(t *testing.T) {
	w := wireOf(1.6, 2.4, 12.7)
	b := alike(w, 12, 40)
	m, ok := b.medium()
	require.True(t, ok)
	own, others := 3.0, 17.0
	a, r := 1.2, float64(b.Diameter)/2
	k := 1 / (4 * math.Pi * m.spread)
	const rings = 20000
	drop := 0.0
	for i := range rings {
		at := a + (r-a)*(float64(i)+0.5)/rings
		passing := own + others*(at*at-a*a)/(r*r-a*a)
		drop += passing / (2 * math.Pi * at * k) * (r - a) / rings
	}
	to := m.path(w)
	require.InEpsilon(t, drop+own*w.wall(), to.all*(own+others)+to.own*own, 1e-7)
	require.InDelta(t, 0.11, k, 0.03, "W/m.K, between air and plastic")
}

// A bundle that is nearly all air conducts as air, one that is all wall as its wall.
func TestMediumLimits(t *testing.T) {
	loose := Bundle{Wires: []Wire{wireOf(1.6, 2.4, 12.7)}, Diameter: 1000}
	m, _ := loose.medium()
	require.InEpsilon(t, stillAir, 1/(4*math.Pi*m.spread), 1e-4)
	full := Bundle{Wires: []Wire{wireOf(1, 1e3, 10)}, Diameter: 1e3}
	m, _ = full.medium()
	require.InEpsilon(t, wallConductivity, 1/(4*math.Pi*m.spread), 1e-4)
}

// A cover by hand: 10 mm bundle, gap 1 mm, wall 1 mm of 0.2 W/m.K, air 27 C.
//
//	wall ln(14/12)/(2 pi 0.2) = 0.122669
//	gap  2 pi 0.026/ln(12/10) = 0.896014; shine 0.9/1.1 x 4 x 5.670374e-8 x 300.15^3 = 5.018070 W/m2.K x pi 0.010 = 0.157647; 1/(sum) = 0.949072
func TestCover(t *testing.T) {
	r, outside := Cover{Wall: 1, Gap: 1, Conductivity: 0.2}.resistance(10, 27)
	require.InDelta(t, 14, outside, 1e-12)
	require.InDelta(t, 0.122669+0.949072, r, 2e-6)
	r, outside = Cover{}.resistance(10, 27)
	require.Zero(t, r)
	require.InDelta(t, 10, outside, 1e-12)
}

// A loose tube warms a bundle; a bright one warms it more.
func TestCoversWarm(t *testing.T) {
	b := alike(wireOf(1.6, 2.4, 12.7), 12, 40)
	bare := b.Balance(all(8, 12))
	b.Cover = Cover{Wall: 0.8, Gap: 1.2}
	tube := b.Balance(all(8, 12))
	b.Cover.Emissivity = 0.1
	bright := b.Balance(all(8, 12))
	require.Greater(t, tube.Conductors[0], bare.Conductors[0]+1)
	require.Greater(t, bright.Conductors[0], tube.Conductors[0]+1)
	require.Greater(t, tube.Rim, tube.Surface+1)
	require.InDelta(t, float64(bare.Rim), float64(bare.Surface), 1e-9)
}

// The rule that tables of ambient factors follow (Canadian Electrical Code table
// 5A within 0.01): the current goes as the root of the rise. The model gives a
// little less in warm air, as a surface cools better the hotter it gets.
func TestAmbientFactorsAgainstTheRootRule(t *testing.T) {
	w := wireOf(1.6, 2.4, 12.7)
	for _, air := range []unit.Celsius{40, 50, 60, 70, 80} {
		rule := math.Sqrt(float64(105-air) / (105 - 30))
		got := float64(w.Current(105, air) / w.Current(105, 30))
		require.InDelta(t, rule, got, 0.05)
		require.LessOrEqual(t, got, rule+0.005, "the safe side")
	}
}

// random makes a bundle of one to thirty usual wires with currents.
func random(r *rand.Rand) (Bundle, []unit.Ampere) {
	b := Bundle{Air: unit.Celsius(r.Float64()*140 - 40)}
	squares := 0.0
	var amps []unit.Ampere
	for range 1 + r.Intn(30) {
		d := 0.5 + 5*r.Float64()*r.Float64()
		o := d + 0.4 + r.Float64()
		b.Wires = append(b.Wires, wireOf(d, o, 24/(d*d)))
		squares += o * o
		amps = append(amps, unit.Ampere(float64(r.Intn(3))*3*d*r.Float64()))
	}
	b.Diameter = unit.Millimetre(math.Sqrt(squares) * (1 + 0.5*r.Float64()))
	if r.Intn(2) == 0 {
		b.Cover = Cover{Wall: unit.Millimetre(r.Float64()), Gap: unit.Millimetre(r.Intn(2)) * b.Diameter / 8}
	}
	return b, amps
}

// made is I²R of all wires at the temperatures of a balance.
func made(b Bundle, amps []unit.Ampere, at Balance) float64 {
	sum := 0.0
	for i, w := range b.Wires {
		sum += square(amps, i) * w.ohms(float64(at.Conductors[i]))
	}
	return sum
}

func TestHeatMadeIsHeatGivenOff(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	for range 500 {
		b, amps := random(r)
		at := b.Balance(amps)
		if !at.Found {
			continue
		}
		m, _ := b.medium()
		require.InDelta(t, at.Heat, made(b, amps, at), 1e-9*at.Heat)
		require.InDelta(t, at.Heat, m.loss(float64(at.Surface-b.Air)), 1e-9*at.Heat+1e-12)
	}
}

func TestNothingCoolsByMoreHeat(t *testing.T) {
	r := rand.New(rand.NewSource(2))
	warmer := func(cold, hot Balance) {
		for i := range cold.Conductors {
			require.GreaterOrEqual(t, float64(hot.Conductors[i]), float64(cold.Conductors[i])-1e-9)
		}
	}
	for range 500 {
		b, amps := random(r)
		before := b.Balance(amps)
		more := append([]unit.Ampere(nil), amps...)
		more[r.Intn(len(more))] += unit.Ampere(5 * r.Float64())
		warmer(before, b.Balance(more))
		hotter := b
		hotter.Air += unit.Celsius(20 * r.Float64())
		warmer(before, hotter.Balance(amps))
		w := r.Intn(len(amps))
		own := b.Capacity(w, amps, 105)
		require.LessOrEqual(t, float64(hotter.Capacity(w, amps, 105)), float64(own)*(1+1e-9))
		more[w] = 0
		require.LessOrEqual(t, float64(b.Capacity(w, more, 105)), float64(b.Capacity(w, amps, 105))*(1+1e-9))
		require.GreaterOrEqual(t, float64(b.Capacity(w, amps, 125)), float64(own))
	}
}

// Down every published table a thicker wire carries more; in every row more
// current or warmer air makes it hotter.
func TestSizesCurrentAndAirInOrder(t *testing.T) {
	rows := publishedRows(t)
	for i, p := range rows {
		for air := unit.Celsius(-40); air < 100; air += 20 {
			for a := unit.Ampere(1); a < p.amps; a++ {
				here := p.wire.Temperature(a, air)
				require.Greater(t, p.wire.Temperature(a*1.05, air), here)
				require.Greater(t, p.wire.Temperature(a, air+1), here)
			}
		}
		if i > 0 && rows[i-1].set == p.set && rows[i-1].wire.Resistance > p.wire.Resistance {
			require.Greater(t, p.wire.Current(105, 40), rows[i-1].wire.Current(105, 40), "%s %s", p.set, p.size)
		}
	}
}

// With the same copper a thicker wall cools better, as the surface grows faster
// than the wall resists: until k/h, some 7 mm of radius, wider than these.
func TestThickerWallsCoolThinWires(t *testing.T) {
	before := unit.Celsius(200)
	for o := 2.0; o < 8; o += 0.5 {
		now := wireOf(1.6, o, 12.7).Temperature(18, 40)
		require.Less(t, now, before)
		before = now
	}
}

func TestCurrentAndTemperatureThereAndBack(t *testing.T) {
	for _, p := range publishedRows(t) {
		for air := unit.Celsius(-40); air < 100; air += 10 {
			a := p.wire.Current(p.conductor, air)
			if air >= p.conductor {
				require.Zero(t, a)
				continue
			}
			require.InDelta(t, float64(p.conductor), float64(p.wire.Temperature(a, air)), 1e-8)
			require.InEpsilon(t, float64(p.amps), float64(p.wire.Current(p.wire.Temperature(p.amps, air), air)), 1e-9)
		}
	}
}

func TestCapacityThereAndBack(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	carried := 0
	for range 1000 {
		b, amps := random(r)
		w := r.Intn(len(amps))
		amps[w] = 1e3 // passed over
		a := b.Capacity(w, amps, 105)
		amps[w] = a
		at := b.Balance(amps).Conductors[w]
		if a == 0 {
			require.GreaterOrEqual(t, float64(at), 105-1e-8)
			continue
		}
		carried++
		require.InDelta(t, 105, float64(at), 1e-7)
	}
	require.Greater(t, carried, 500)
}

// One wire in a bundle of its own is that wire; its place in the list does not
// matter, nor the sign of a current, nor wires listed beyond the currents.
func TestBundlesThatAreTheSame(t *testing.T) {
	w, v := wireOf(1.6, 2.4, 12.7), wireOf(2.6, 3.7, 4.71)
	require.Equal(t, w.Temperature(15, 40), Bundle{Wires: []Wire{w}, Air: 40}.Balance([]unit.Ampere{-15}).Conductors[0])
	one := Bundle{Wires: []Wire{w, v, w}, Diameter: 7, Air: 40}
	two := Bundle{Wires: []Wire{v, w, w}, Diameter: 7, Air: 40}
	x, y := one.Balance([]unit.Ampere{10, 20}), two.Balance([]unit.Ampere{20, -10, 0})
	require.InDelta(t, float64(x.Conductors[0]), float64(y.Conductors[1]), 1e-9)
	require.InDelta(t, float64(x.Conductors[1]), float64(y.Conductors[0]), 1e-9)
	require.InDelta(t, float64(x.Conductors[2]), float64(y.Conductors[2]), 1e-9)
	require.Less(t, x.Conductors[2], x.Conductors[0], "an idle wire is cooler than its loaded like")
	require.Greater(t, x.Conductors[2], unit.Celsius(41), "and is warmed by the others")
}

// Without current all is as warm as the air; far beyond any balance it melts.
func TestEnds(t *testing.T) {
	b := alike(wireOf(1.6, 2.4, 12.7), 7, 55)
	idle := b.Balance(nil)
	require.True(t, idle.Found)
	require.Zero(t, idle.Heat)
	for _, c := range idle.Conductors {
		require.Equal(t, unit.Celsius(55), c)
	}
	for _, a := range []float64{200, 1e4, 1e200, math.Inf(1), math.NaN()} {
		at := b.Balance(all(a, 1))
		require.False(t, at.Found)
		for _, c := range at.Conductors {
			require.Equal(t, Melting, c)
		}
		require.Zero(t, b.Capacity(1, all(a, 1), 105))
	}
	require.Zero(t, b.Capacity(7, nil, 105))
	require.Zero(t, b.Capacity(-1, nil, 105))
	require.Zero(t, b.Capacity(0, nil, 55))
	require.Positive(t, float64(b.Capacity(0, nil, 1e9)))
	require.Empty(t, Bundle{}.Balance(nil).Conductors)
}

// What makes no sense carries nothing, and melts when it must.
func TestNonsenseIsTheSafeSide(t *testing.T) {
	good := wireOf(1.6, 2.4, 12.7)
	for name, w := range map[string]Wire{
		"nothing": {}, "thin outside": wireOf(2.4, 1.6, 12.7), "no copper": wireOf(0, 1, 12.7), "no ohms": wireOf(1.6, 2.4, 0),
		"no number": wireOf(math.NaN(), 2.4, 12.7), "endless": wireOf(1.6, math.Inf(1), 12.7), "odd ohms": wireOf(1.6, 2.4, math.NaN()),
	} {
		require.Equal(t, Melting, w.Temperature(1, 20), name)
		require.Equal(t, unit.Celsius(20), w.Temperature(0, 20), name)
		require.Zero(t, w.Current(105, 20), name)
		require.Zero(t, Bundle{Wires: []Wire{good, w}, Diameter: 5, Air: 20}.Capacity(0, nil, 105), name)
	}
	for name, c := range map[string]Cover{"wall": {Wall: -1}, "gap": {Gap: unit.Millimetre(math.NaN())}, "shine": {Emissivity: 2}, "conducts": {Conductivity: -1}} {
		b := Bundle{Wires: []Wire{good}, Cover: c, Air: 20}
		require.Zero(t, b.Capacity(0, nil, 105), name)
		require.Equal(t, Melting, b.Balance(all(1, 1)).Conductors[0], name)
	}
	require.Zero(t, good.Current(105, unit.Celsius(math.NaN())))
	require.Zero(t, good.Current(unit.Celsius(math.NaN()), 20))
	require.Equal(t, good.Current(105, -100), good.Current(105, -1000))
}
