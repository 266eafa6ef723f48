package choose

import (
	"fmt"
	"testing"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
	"github.com/stretchr/testify/require"
)

// wide is a car with many circuits: each a fuse off a bus, a switch, a lamp and
// a ground of its own; four wires a circuit.
func wide(circuits int) *bench {
	b := newBench(unit.Metric)
	b.battery("BAT")
	b.fuse("MAIN")
	b.part("BUS", harness.Bus)
	b.ground("G0")
	b.wire("0A", "BAT.+", "MAIN.1", 150)
	b.wire("0B", "MAIN.2", "BUS.a", 1200)
	b.wire("0C", "BAT.-", "G0", 300)
	on := []string{}
	for i := 1; i <= circuits; i++ {
		n := fmt.Sprint(i)
		b.fuse("F" + n)
		b.switched("S" + n)
		b.load("L"+n, harness.Lamp, unit.Ampere(1+i%7), harness.AsLamp)
		b.ground("G" + n + "x")
		b.wire(n+"A", "BUS.a", "F"+n+".1", 60)
		b.wire(n+"B", "F"+n+".2", "S"+n+".1", unit.Millimetre(500+90*(i%13)))
		b.wire(n+"C", "S"+n+".2", "L"+n+".+", unit.Millimetre(800+140*(i%11)))
		b.wire(n+"D", "L"+n+".-", "G"+n+"x", 300)
		if i%3 == 0 {
			on = append(on, "S"+n)
		}
	}
	b.state("parked", harness.EngineOff)
	b.state("night", harness.EngineOff, on...)
	return b
}

// Every load keeps its limit on a wide harness, and no wire is under its fuse.
func TestWideHarness(t *testing.T) {
	b := wide(30)
	c, ps := b.choose(t)
	require.Empty(t, dropsOver(c))
	require.Zero(t, ps.Count(0), "%v", slugsOf(ps))
	for _, f := range c.Fuses {
		if f.Amps > 0 {
			require.LessOrEqual(t, float64(f.Rating), float64(f.MostAllowed), f.Name)
			require.GreaterOrEqual(t, float64(f.Rating)*0.75, float64(f.Amps)*0.9999, f.Name)
		}
	}
}

func BenchmarkAll(b *testing.B) {
	for _, circuits := range []int{3, 25, 250} {
		b.Run(fmt.Sprintf("%d wires", 4*circuits+3), func(b *testing.B) {
			w := wide(circuits)
			for b.Loop() {
				w.choose(b)
			}
		})
	}
}

// The shorts behind the fuses of a whole car: some 60 fuses, 250 wires.
func BenchmarkShorts(b *testing.B) {
	w := wide(60)
	s := newSizer(w.h, w.ways)
	require.NoError(b, s.settle())
	for b.Loop() {
		s.findShorts()
	}
}
