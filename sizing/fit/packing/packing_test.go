package packing

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"
)

// Rim over circle for N equal circles: best known packings, two published lists
// (unnamed; see sizing/rating/packing.csv); those of 1 to 7 are proved, and 3, 4, 5, 8, 13 and 19 have closed forms
// that agree.
var bestKnown = [...]float64{1, 2, 2.1547, 2.41421, 2.7013, 3, 3, 3.30476, 3.61313, 3.81303, 3.9238, 4.02960, 4.23607, 4.32843, 4.52136, 4.61543, 4.79203, 4.86370, 4.86370, 5.12232}

func TestEqualCircles(t *testing.T) {
	for i, best := range bestKnown {
		equal := make([]float64, i+1)
		for k := range equal {
			equal[k] = 1.7
		}
		p := Pack(equal)
		sound(t, p)
		ratio := p.Diameter / 1.7
		require.GreaterOrEqual(t, ratio, best*(1-1e-5), "N = %d: better than the best known", i+1)
		t.Logf("N = %d: %.4f, best %.4f, %.2f %%", i+1, ratio, best, 100*(ratio/best-1))
		require.LessOrEqual(t, ratio, best*1.015, "N = %d", i+1)
	}
}

// sound holds a packing to its promise.
func sound(t *testing.T, p Packing) {
	for i, a := range p.Circles {
		require.LessOrEqual(t, math.Hypot(a.X, a.Y)+a.Diameter/2, p.Diameter/2*(1+1e-9))
		for _, b := range p.Circles[:i] {
			if a.Diameter > 0 && b.Diameter > 0 {
				require.GreaterOrEqual(t, math.Hypot(a.X-b.X, a.Y-b.Y), (a.Diameter+b.Diameter)/2*(1-1e-9))
			}
		}
	}
}

func mixed(seed int64, n int) []float64 {
	r := rand.New(rand.NewSource(seed))
	sizes := [...]float64{1.6, 1.9, 2.1, 2.4, 3, 3.7, 4.3, 6}
	out := make([]float64, n)
	for i := range out {
		out[i] = sizes[r.Intn(len(sizes))]
		if r.Intn(3) > 0 {
			out[i] = sizes[r.Intn(3)]
		}
	}
	return out
}

// Mixed circles fill more than two thirds of their rim: the 1.2 of the trade's
// formula (common practice, no source) is 69 %.
func TestMixedCircles(t *testing.T) {
	for seed := range int64(20) {
		for _, n := range []int{3, 8, 25, 60, 100, 300} {
			d := mixed(seed, n)
			p := Pack(d)
			sound(t, p)
			area := 0.0
			for _, x := range d {
				area += x * x
			}
			if n >= 25 {
				require.LessOrEqual(t, p.Diameter, 1.2*math.Sqrt(area), "%d circles, seed %d", n, seed)
			}
		}
	}
}

// The cells find the same pairs in the same order as comparing each with each.
func TestNear(t *testing.T) {
	for _, n := range []int{plainly + 1, 250, 600} {
		p := newPress(append(mixed(2, n), 12, 12, 0.8, 0.8))
		for _, at := range [][]point{p.rings(), p.scattered(), make([]point, n+4)} {
			require.Equal(t, p.nearOf(at, nil), p.near(at))
		}
	}
}

func TestOrderDoesNotMatter(t *testing.T) {
	d := mixed(3, 30)
	back := make([]float64, len(d))
	for i := range d {
		back[len(d)-1-i] = d[i]
	}
	require.Equal(t, Pack(d).Diameter, Pack(back).Diameter)
	require.Equal(t, Pack(d), Pack(d))
}

func TestFewCircles(t *testing.T) {
	require.Zero(t, Pack(nil).Diameter)
	require.Equal(t, 3.0, Pack([]float64{3}).Diameter)
	require.InDelta(t, 5, Pack([]float64{2, 3}).Diameter, 1e-12)
	require.InDelta(t, 5, Pack([]float64{2, 0, 3, math.NaN()}).Diameter, 1e-12)
	big := Pack([]float64{30, 1, 1, 1})
	sound(t, big)
	require.Less(t, big.Diameter, 31.3, "small ones lie round a large one")
}

func BenchmarkPack(b *testing.B) {
	for _, c := range []struct {
		name string
		n    int
	}{{"10", 10}, {"20", 20}, {"40", 40}, {"100", 100}, {"300", 300}, {"1000", 1000}} {
		b.Run(c.name, func(b *testing.B) {
			d := mixed(1, c.n)
			for b.Loop() {
				Pack(d)
			}
		})
	}
}
