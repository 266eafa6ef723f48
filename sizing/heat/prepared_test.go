package heat

import (
	"math"
	"math/rand"
	"testing"

	"example.com/loomfolio/sizing/unit"
	"github.com/stretchr/testify/require"
)

// stock is wires of vehicles, from 0.35 to 70 mm2.
var stock = []Wire{
	wireOf(0.8, 1.2, 52), wireOf(1.0, 1.6, 37.1), wireOf(1.6, 2.4, 12.7), wireOf(2.0, 2.9, 7.6),
	wireOf(3.2, 4.3, 3.14), wireOf(5.5, 7.0, 1.16), wireOf(12.5, 15, 0.259),
}

// someBundle is made up: wires of the stock, of which some carry current.
func someBundle(rnd *rand.Rand) (b Bundle, of []int, amps []unit.Ampere) {
	b.Air = unit.Celsius(rnd.Float64() * 70)
	squares := 0.0
	for range 1 + rnd.Intn(30) {
		k := rnd.Intn(len(stock))
		of, b.Wires = append(of, k), append(b.Wires, stock[k])
		a := 0.0
		if rnd.Intn(3) > 0 {
			a = rnd.ExpFloat64() * 30 * float64(stock[k].Conductor) / 6
		}
		amps = append(amps, unit.Ampere(a))
		squares += float64(stock[k].Outside * stock[k].Outside)
	}
	b.Diameter = unit.Millimetre(1.2 * math.Sqrt(squares))
	if rnd.Intn(2) > 0 {
		b.Cover = Cover{Wall: 0.8, Gap: unit.Millimetre(rnd.Float64() * 2)}
	}
	return b, of, amps
}

// A prepared bundle answers as the bundle does, with any wire in any place.
func TestPrepared(t *testing.T) {
	rnd := rand.New(rand.NewSource(1))
	for range 400 {
		b, of, amps := someBundle(rnd)
		p := b.Prepare(stock, of)
		require.Equal(t, b.Balance(amps).Conductors, p.Conductors(amps))
		l := p.Carrying(amps)
		for i := range of {
			as, limit := rnd.Intn(len(stock)), unit.Celsius(60+rnd.Float64()*150)
			put := b
			put.Wires = append([]Wire(nil), b.Wires...)
			put.Wires[i] = stock[as]
			require.Equal(t, put.Capacity(i, amps, limit), l.Capacity(i, as, limit))
		}
	}
}

// What Carries knows at once is true, and it knows most: a twentieth in the rise is
// 3 % and more in the current.
func TestCarries(t *testing.T) {
	rnd := rand.New(rand.NewSource(2))
	known, asked := 0, 0
	for range 400 {
		b, of, amps := someBundle(rnd)
		l := b.Prepare(stock, of).Carrying(amps)
		for i := range of {
			as, limit := rnd.Intn(len(stock)), unit.Celsius(60+rnd.Float64()*150)
			most := float64(l.Capacity(i, as, limit))
			for _, share := range []float64{0, 0.5, 0.94, 0.999999, 1.000001, 1.06, 2} {
				yes, sure := l.Carries(i, as, most*share, limit)
				require.False(t, yes && !sure)
				require.False(t, sure && most > 0 && yes != (share < 1), "%v of %v A", share, most)
				if math.Abs(share-1) > 0.05 {
					asked++
					if sure {
						known++
					}
				}
			}
		}
	}
	require.Greater(t, float64(known)/float64(asked), 0.9)
}

// Wires that make no sense melt at any current and carry none.
func TestPreparedNonsense(t *testing.T) {
	kinds := []Wire{{}, wireOf(1.6, 2.4, 12.7)}
	p := Bundle{Diameter: 8, Air: 40}.Prepare(kinds, []int{0, 1})
	require.Equal(t, []unit.Celsius{40, 40}, p.Conductors(nil))
	require.Equal(t, []unit.Celsius{Melting, Melting}, p.Conductors([]unit.Ampere{0, 1}))
	l := p.Carrying([]unit.Ampere{0, 1})
	require.Zero(t, l.Capacity(1, 1, 105))
	yes, known := l.Carries(1, 1, 0, 105)
	require.False(t, yes || known)
}

func BenchmarkPreparedCapacity(b *testing.B) {
	bundle, amps := loaded(40)
	l := bundle.Prepare(bundle.Wires[:1], make([]int, 40)).Carrying(amps)
	for b.Loop() {
		l.Capacity(3, 0, 105)
	}
}

func BenchmarkCarries(b *testing.B) {
	bundle, amps := loaded(40)
	l := bundle.Prepare(bundle.Wires[:1], make([]int, 40)).Carrying(amps)
	for b.Loop() {
		l.Carries(3, 0, 5, 105)
	}
}
