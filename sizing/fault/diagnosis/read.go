package diagnosis

import (
	"math"

	"example.com/loomfolio/sizing/fault"
	"example.com/loomfolio/sizing/fault/tree"
	"example.com/loomfolio/sizing/proof"
)

// What readings may be off by; judgement, not published.
const (
	common = .06 // of all readings of one state together: the battery is fuller or emptier than described
	fine   = .1  // of each on its own, V
	rough  = .03 // or this part of it: loads, lengths and contacts
	least  = .25 // of the likelihood, for a joint that may cost anything in a wide range
	span   = 15. // V over which a wrong reading lies, where it is not one of next to nothing
)

// expected is what the meter of each reading would show with a fault: from, to, for a joint
// may cost anything between the steps of the dictionary.
func (e *evidence) expected(i int) [][2]float64 {
	out := make([][2]float64, len(e.told.Reads))
	for k, r := range e.told.Reads {
		v := at(r, e.seenWith(i, r.State))
		out[k] = [2]float64{v, v}
		for _, j := range e.beside(i) {
			mid := (v + at(r, e.seenWith(j, r.State))) / 2
			out[k] = [2]float64{min(out[k][0], mid), max(out[k][1], mid)}
		}
	}
	return out
}

// at is what the meter of a reading shows.
func at(r proof.Read, seen *fault.Seen) float64 {
	if r.Against == proof.None {
		return tree.Across(seen.At(r.Point), 0)
	}
	return tree.Across(seen.At(r.Point), seen.At(r.Against))
}

// beside are the steps next to one of a joint: what costs the next less, or nothing, and
// what costs the next more, or all.
func (e *evidence) beside(i int) []int {
	if i == none || e.faults[i].Costs == 0 {
		return nil
	}
	less, more := none, i
	own := e.faults[i].Costs
	for _, j := range e.at[e.faults[i].Element] {
		f := &e.faults[j]
		costs := f.Costs
		if f.Kind == proof.Open || f.Kind == proof.Unearthed {
			costs = 1
		}
		switch {
		case costs == 0:
		case costs < own && (less == none || costs > e.faults[less].Costs):
			less = j
		case costs > own && (more == i || costs == 1 || costs < e.faults[more].Costs):
			if more == i || costs < 1 {
				more = j
			}
		}
	}
	return []int{less, more}
}

// reads is how likely each reading is where so much is expected: all of a state may be off
// together by the battery, each on its own by little.
func (e *evidence) reads(expected [][2]float64) []float64 {
	out := make([]float64, len(expected))
	for _, state := range e.told.states() {
		best := 0.0
		for _, scale := range e.scales(expected, state) {
			if p := e.product(expected, state, scale); p > best {
				best = p
				e.each(expected, state, scale, out)
			}
		}
	}
	return out
}

// scales are the factors that would bring one of the readings of a state right, and 1.
func (e *evidence) scales(expected [][2]float64, state int) []float64 {
	out := []float64{1}
	for k, r := range e.told.Reads {
		if mid := (expected[k][0] + expected[k][1]) / 2; r.State == state && math.Abs(mid) > 1 {
			out = append(out, min(1+common, max(1-common, float64(r.Volts)/mid)))
		}
	}
	return out
}

func (e *evidence) product(expected [][2]float64, state int, scale float64) float64 {
	p := 1.0
	for k, r := range e.told.Reads {
		if r.State == state {
			p *= near(float64(r.Volts), scale*expected[k][0], scale*expected[k][1])
		}
	}
	return p
}

func (e *evidence) each(expected [][2]float64, state int, scale float64, out []float64) {
	for k, r := range e.told.Reads {
		if r.State == state {
			out[k] = near(float64(r.Volts), scale*expected[k][0], scale*expected[k][1])
		}
	}
}

// near is how likely a reading is where one between two values is expected, against 1 for
// one that is met; the wider what is expected the less each value of it. A wrong reading is
// most often one of next to nothing, since the probe did not touch.
func near(volts, from, to float64) float64 {
	may := max(fine, rough*math.Abs(volts))
	wrong := Wrong
	if math.Abs(volts) > fine {
		wrong *= 2 * may / span
	}
	off := max(0, from-volts, volts-to)/may - 1
	met := max(least, 2*may/(to-from+2*may))
	return max(wrong, met*math.Pow(Wrong, max(0, off)))
}
