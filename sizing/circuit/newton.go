package circuit

import (
	"fmt"
	"math"
)

const (
	mostRounds = 200  // Newton rounds for one set of contacts
	goodEnough = 1e-9 // A that may be left over at a node, at the very most
	epsilon    = 0x1p-52
)

// settle finds the voltages for the contacts as they stand. Nodes that float,
// or that are held by no current at all (a dead end beyond a diode), are set to
// 0 V before a second look, so that their answer does not depend on the way
// there: it is what an ideal meter from the reference would make of them.
func (w *work) settle() error {
	return w.settleFrom(w.balance())
}

// settleFrom is settle where the balance is taken already.
func (w *work) settleFrom(worst float64, clean bool) error {
	if err := w.newton(worst, clean); err != nil || !w.sink() {
		return err
	}
	return w.newton(w.balance())
}

func (w *work) newton(worst float64, clean bool) error {
	best, idle := math.Inf(1), 0
	w.exact = false
	for range mostRounds {
		if worst < best/2 {
			best, idle = worst, 0
		} else {
			idle++
		}
		if clean || idle >= 3 && worst <= goodEnough {
			w.group()
			return nil
		}
		if err := w.direction(); err != nil {
			return err
		}
		last := worst
		worst, clean = w.advance(worst)
		w.exact = worst > last/16
		w.rounds++
	}
	w.group()
	if clean || worst <= goodEnough {
		return nil
	}
	return fmt.Errorf("circuit: the voltages do not settle: %.3g A are left over after %d rounds", worst, mostRounds)
}

// advance goes along the step, as far as is good, and balances there.
func (w *work) advance(worst float64) (float64, bool) {
	copy(w.before, w.volts)
	copy(w.beneath, w.low)
	first := w.along()
	w.move(1)
	next, clean := w.balance()
	if worst < 1e-7 || !(first < 0) {
		return next, clean
	}
	if at := w.along(); at >= first/2 && at <= -first/100 {
		return next, clean
	}
	copy(w.volts, w.before)
	copy(w.low, w.beneath)
	w.move(w.length(first))
	return w.balance()
}

// along is the slope of the co-content along the step where the balance was
// last taken: what each node has left over, times its step.
func (w *work) along() float64 {
	sum := 0.0
	for n, row := range w.row {
		if row >= 0 {
			sum += w.spare[n] * w.step[row]
		}
	}
	return sum
}

func (w *work) stepAt(node int32) float64 {
	if row := w.row[node]; row >= 0 {
		return w.step[row]
	}
	return 0
}

// move goes a length of the step. What rounding takes from the sum is kept
// (Knuth's two-sum, then Dekker's). Where the step takes a voltage away to the
// last digits nothing is left, as in a branch that goes dead; the balance sees
// to it that this is true.
func (w *work) move(length float64) {
	for n, row := range w.row {
		if row < 0 {
			continue
		}
		v, by := w.volts[n], length*w.step[row]
		sum := v + by
		if math.Abs(sum) <= 4*epsilon*math.Abs(by) {
			w.volts[n], w.low[n] = 0, 0
			continue
		}
		part := sum - v
		low := w.low[n] + ((v - (sum - part)) + (by - part))
		w.volts[n] = sum + low
		w.low[n] = low - (w.volts[n] - sum)
	}
}

// pull is the slope of the co-content along the step, at a length of it: below
// zero while a longer step is better. It never falls.
func (w *work) pull(length float64) float64 {
	sum := 0.0
	for i := range w.branches {
		if w.across[i] == 0 {
			continue
		}
		b := &w.branches[i]
		v := w.between(b) + length*w.across[i]
		switch b.way {
		case straight:
			sum += (v - b.emf) * b.siemens * w.across[i]
		case lawful:
			amps, _ := w.exactly(i, v)
			sum += amps * w.across[i]
		}
	}
	return sum
}

// length says how far to go along the step; first is the pull at its start.
func (w *work) length(first float64) float64 {
	for i := range w.branches {
		w.across[i] = w.stepAt(w.branches[i].a) - w.stepAt(w.branches[i].b)
	}
	low, high := 0.0, 1.0
	atHigh := w.pull(high)
	for n := 0; atHigh < first/2 && n < 60; n++ {
		low, high = high, 2*high
		atHigh = w.pull(high)
	}
	if atHigh <= -first/100 {
		return high
	}
	return w.falsi(low, high, w.pull(low), atHigh, -first/100)
}

// falsi finds, inside a span of lengths, one at which the pull is nearly
// nothing: by regula falsi, which halves the kept end's pull (Illinois).
func (w *work) falsi(low, high, atLow, atHigh, enough float64) float64 {
	side := 0
	for range 80 {
		length := (low*atHigh - high*atLow) / (atHigh - atLow)
		at := w.pull(length)
		switch {
		case math.Abs(at) <= enough:
			return length
		case at < 0:
			low, atLow = length, at
			if side < 0 {
				atHigh /= 2
			}
			side = -1
		default:
			high, atHigh = length, at
			if side > 0 {
				atLow /= 2
			}
			side = 1
		}
	}
	return (low + high) / 2
}
