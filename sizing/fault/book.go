package fault

import (
	"math"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/unit"
)

// A Book is the fault dictionary of a sized harness, with what it takes to see the same
// faults in other states, for who looks for the next measurement.
//
//	book, err := fault.New(h, r)             // r with its Proof.Points
//	book.Faults()                            // the dictionary: what goes into r.Proof.Faults
//	book.Ladders(), book.Together()          // what goes into r.Proof.Ladders, .Together
//	book.Suspects(load, state)               // the faults that leave a load dead or weak in a state
//	seen, err := book.In(state, faults)      // the same faults in another state, each solved once
//	seen[i].At(point)                        // volts of faults[i] at a point, NaN where it floats
//	book.Sound(state).At(point)              // without a fault
//
// Faults are named by their place in Faults. In a state in which a fault does nothing (an
// open contact that is burnt) Seen says what is seen without it. Where a fault opens
// fuses, what is seen is what stands once they are open. Readings that move by less than
// Moves are those of the sound state: no meter of the trade tells them apart.
//
// A Book may be used by several goroutines at once. It keeps what was solved.

// Moves is the least change of a reading that counts as one, V: what the last digits of a
// cheap meter and its leads leave open; judgement, not published.
const Moves unit.Volt = 0.05

// Seen is what is seen with one fault in one state.
type Seen struct {
	sound []float64     // by point
	Volts []proof.Shows // at the points that move, in the order of the points
	Dead  []harness.ElementID
	Weak  []harness.ElementID
	Extra []harness.ElementID
	Blown []harness.ElementID // fuses that it opens in this state, the first to go first
}

// At gives the volts at a point; NaN where nothing defines any.
func (s *Seen) At(point int) float64 {
	lo, hi := 0, len(s.Volts)
	for lo < hi {
		if mid := (lo + hi) / 2; s.Volts[mid].Point < point {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	switch {
	case lo == len(s.Volts) || s.Volts[lo].Point != point:
		return s.sound[point]
	case s.Volts[lo].Float:
		return math.NaN()
	}
	return float64(s.Volts[lo].Volts)
}
