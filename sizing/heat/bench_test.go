package heat

import (
	"fmt"
	"testing"

	"example.com/loomfolio/sizing/unit"
)

func BenchmarkTemperature(b *testing.B) {
	w := wireOf(1.6, 2.4, 12.7)
	for b.Loop() {
		w.Temperature(15, 40)
	}
}

func BenchmarkCurrent(b *testing.B) {
	w := wireOf(1.6, 2.4, 12.7)
	for b.Loop() {
		w.Current(105, 40)
	}
}

// loaded is a bundle in which the wires carry 0 to 6 A.
func loaded(wires int) (Bundle, []unit.Ampere) {
	amps := make([]unit.Ampere, wires)
	for i := range amps {
		amps[i] = unit.Ampere(i % 7)
	}
	return alike(wireOf(1.6, 2.4, 12.7), wires, 40), amps
}

func BenchmarkBalance(b *testing.B) {
	for _, wires := range []int{10, 40, 100} {
		b.Run(fmt.Sprint(wires), func(b *testing.B) {
			bundle, amps := loaded(wires)
			for b.Loop() {
				bundle.Balance(amps)
			}
		})
	}
}

func BenchmarkCapacity(b *testing.B) {
	bundle, amps := loaded(40)
	for b.Loop() {
		bundle.Capacity(3, amps, 105)
	}
}

// BenchmarkCar is a whole car: 270 wires, each in three of 30 runs of 27 wires;
// ten states, three rounds; in each the balance of every run and the capacity
// of every wire.
func BenchmarkCar(b *testing.B) {
	bundle, amps := loaded(27)
	for b.Loop() {
		for range 10 * 3 {
			for range 30 {
				bundle.Balance(amps)
			}
			for i := range 270 {
				bundle.Capacity(i%27, amps, 105)
			}
		}
	}
}
