// Package meter says what a cheap meter and a lamp tell, and where they mislead: pure
// numbers, by the laws of instruments.
//
// In: volts, amperes, ohms, watts. Out: errors of readings, the light of a lamp behind a
// bad joint, its volts at a current. Method: a filament's current follows its volts to the
// power of 0.55, its light to that of 3.4 (engineering rule, from memory).
package meter

import "math"

// Nothing is a current that is none, A: less than a cheap meter is sure of.
const Nothing = 0.002

const (
	current = 0.55
	light   = 3.4
)

// Range is a range of a meter of 3 1/2 digits: an error of a part of the reading, and so
// many digits.
type Range struct {
	Part   float64
	Digits int
	Digit  float64 // V or A
}

// The ranges that the plan asks for, by the worse of two makers' manuals (0.8 % and 5
// digits; 0.5 % and 2 is usual for the cheapest, common practice).
var (
	Volts20 = Range{0.008, 5, 0.01}
	Volts2  = Range{0.008, 5, 0.001}
	Amps10  = Range{0.02, 5, 0.01} // from memory: the 10 A range of the cheapest
)

// Sources are the keys of the documents behind these figures, the ohms of beepers and the
// light of lamps.
func Sources() []string { return []string{"meter-manuals", "meter-memory", "filament-law"} }

// Error is the most by which a reading is off.
func (r Range) Error(reading float64) float64 {
	return r.Part*math.Abs(reading) + float64(r.Digits)*r.Digit
}

// Difference is the most by which the difference of two readings to ground is off, taken
// with one meter in one minute, so that its part counts for the difference alone.
func (r Range) Difference(a, b float64) float64 {
	return r.Part*math.Abs(a-b) + 2*float64(r.Digits)*r.Digit
}

// Ghost is what a meter of an input resistance reads on a wire that no load holds and that
// has a leak of so many ohms to volts.
func Ghost(volts, leak, input float64) float64 { return volts * input / (input + leak) }

// Lamp is a filament lamp: the watts it takes at its rated volts.
type Lamp struct{ Watts, Volts float64 }

// Amps is its current at so many volts.
func (l Lamp) Amps(volts float64) float64 {
	return l.Watts / l.Volts * math.Pow(math.Abs(volts)/l.Volts, current)
}

// At is the voltage across it at a current.
func (l Lamp) At(amps float64) float64 {
	return l.Volts * math.Pow(amps*l.Volts/l.Watts, 1/current)
}

// Light is its light at so many volts, of that at its rated ones.
func (l Lamp) Light(volts float64) float64 { return math.Pow(math.Abs(volts)/l.Volts, light) }

// Behind is the voltage across it behind a joint.
func (l Lamp) Behind(volts, ohms float64) float64 {
	return Behind(volts, ohms, l.Amps)
}

// Behind is what is left of volts across a load behind a joint, by how its current follows
// its volts; found by halving.
func Behind(volts, ohms float64, amps func(volts float64) float64) float64 {
	low, high := 0.0, volts
	for range 60 {
		mid := (low + high) / 2
		if mid+ohms*amps(mid) > volts {
			high = mid
		} else {
			low = mid
		}
	}
	return (low + high) / 2
}
