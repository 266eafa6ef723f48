package network_test

import (
	"bytes"
	"fmt"
	"math"
	"math/rand"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/circuit"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/network/spicecheck"
)

var sizes = []int{10, 100, 1000}

func ready(b *testing.B, wires int) (*bench, network.Resistances, *network.Prepared) {
	b.Helper()
	car := vehicle(rand.New(rand.NewSource(1)), wires)
	r := network.Resistances{Wires: car.ohms}
	p, err := network.Prepare(car.Harness, 1, r, network.Options{})
	require.NoError(b, err)
	return car, r, p
}

func BenchmarkSolve(b *testing.B) {
	for _, wires := range sizes {
		car, r, _ := ready(b, wires)
		b.Run(fmt.Sprint(wires, " wires"), func(b *testing.B) {
			for b.Loop() {
				_, err := network.Solve(car.Harness, 1, r, network.Options{})
				require.NoError(b, err)
			}
		})
	}
}

// Other resistances in a structure that is there.
func BenchmarkWith(b *testing.B) {
	for _, wires := range sizes {
		car, _, p := ready(b, wires)
		r := car.other(rand.New(rand.NewSource(2)))
		b.Run(fmt.Sprint(wires, " wires"), func(b *testing.B) {
			for b.Loop() {
				again, err := p.With(r)
				require.NoError(b, err)
				_, err = again.Solve()
				require.NoError(b, err)
			}
		})
	}
}

func BenchmarkFault(b *testing.B) {
	for _, wires := range sizes {
		car, _, p := ready(b, wires)
		faults, err := p.Faults()
		require.NoError(b, err)
		list := car.faultList()
		b.Run(fmt.Sprint(wires, " wires"), func(b *testing.B) {
			for n := 0; b.Loop(); n++ {
				_, err := faults.Try(list[n%len(list)])
				require.NoError(b, err)
			}
		})
	}
}

// 3,000 single faults of 1,500 wires: each wire open, each with a bad contact;
// the structure and the sound state included.
func BenchmarkFaults3000(b *testing.B) {
	car, r, _ := ready(b, 1500)
	for b.Loop() {
		p, err := network.Prepare(car.Harness, 1, r, network.Options{})
		require.NoError(b, err)
		faults, err := p.Faults()
		require.NoError(b, err)
		for n := range 3000 {
			ohms := 1.0
			if n%2 == 0 {
				ohms = math.Inf(1)
			}
			_, err := faults.Try(network.Fault{Wire: harness.WireID(n / 2), Ohms: ohms})
			require.NoError(b, err)
		}
	}
}

// One solving of a network of 1,600 elements, from nothing, structure included,
// beside a whole run of ngspice on the same netlist.
func BenchmarkBesideSpice(b *testing.B) {
	spicecheck.Need(b)
	car, _, p := ready(b, 793)
	s, err := p.Solve()
	require.NoError(b, err)
	var text bytes.Buffer
	require.NoError(b, network.Netlist(&text, car.Harness, s))
	folder, ours, theirs := b.TempDir(), time.Duration(0), time.Duration(0)
	for b.Loop() {
		start := time.Now()
		_, err := circuit.Solve(s.Network)
		ours += time.Since(start)
		require.NoError(b, err)
		start = time.Now()
		_, err = spicecheck.Run(folder, text.Bytes())
		theirs += time.Since(start)
		require.NoError(b, err)
	}
	b.ReportMetric(float64(len(s.Network.Elements)), "elements")
	b.ReportMetric(float64(ours.Microseconds())/float64(b.N), "µs/solve")
	b.ReportMetric(float64(theirs.Microseconds())/float64(b.N), "µs/ngspice")
	b.ReportMetric(float64(theirs)/float64(ours), "times")
}
