package diagnosis

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/fault"
	"example.com/loomfolio/sizing/fault/tree"
	"example.com/loomfolio/sizing/proof"
)

// fits gives how likely each symptom, then each reading, is where this is seen.
func (e *evidence) fits(seen func(state int) *fault.Seen) []float64 {
	var out []float64
	for _, s := range e.told.Symptoms {
		out = append(out, e.works(s, seen(s.State)))
	}
	for _, r := range e.told.Reads {
		out = append(out, reads(r, seen(r.State)))
	}
	return out
}

// works is how likely a symptom is where this is seen: what is dim may pass for dead, the more
// so the more of its voltage it loses, and for well, the more so the less.
func (e *evidence) works(s Symptom, seen *fault.Seen) float64 {
	lost := e.lost(s, seen)
	switch {
	case s.Works == Dead:
		return max(Mistaken, tree.CalledDead(lost))
	case s.Works == Live:
		return max(Mistaken, 1-tree.CalledDead(lost))
	case lost == 0:
		return Mistaken
	case lost == 1:
		return Wrong
	}
	return 1
}

// lost is the part of its voltage that a load loses: all where it is dead.
func (e *evidence) lost(s Symptom, seen *fault.Seen) float64 {
	switch {
	case slices.Contains(seen.Dead, s.Load), !e.On(s.Load, s.State) && !slices.Contains(seen.Extra, s.Load):
		return 1
	case slices.Contains(seen.Weak, s.Load):
		x := e.loads[e.Harness.Elements[s.Load].Name]
		if x == nil {
			return .5
		}
		return min(.9, x.at.Lost(seen, e.Book.Sound(s.State)))
	}
	return 0
}

// symptoms is how likely all that is dead and live together is with a fault: one who calls
// a load dead that loses so much calls no other one live that loses as much or more. One of
// them may be mistaken.
func (e *evidence) symptoms(i int) float64 {
	p := e.apart(e.fit[i], none)
	for k := range e.told.Symptoms {
		p = max(p, Mistaken*e.apart(e.fit[i], k))
	}
	return max(p, Mistaken*Mistaken)
}

// apart is the room between the least loss that is called dead and the greatest that is
// called live, one symptom left out.
func (e *evidence) apart(fit []float64, without int) float64 {
	least, most, weak := 1.0, 0.0, 1.0
	for k, s := range e.told.Symptoms {
		switch p := fit[k]; {
		case k == without:
		case s.Works == Dead:
			least = min(least, p)
		case s.Works == Live:
			most = max(most, 1-p)
		default:
			weak *= p
		}
	}
	return weak * max(0, least-most)
}

// reads is how likely a reading is where this is seen: 1 within what a meter leaves open,
// then falling to that of a wrong reading.
func reads(r proof.Read, seen *fault.Seen) float64 {
	return near(float64(r.Volts), at(r, seen))
}

// at is what the meter of a reading would show.
func at(r proof.Read, seen *fault.Seen) float64 {
	if r.Against == proof.None {
		return tree.Across(seen.At(r.Point), 0)
	}
	return tree.Across(seen.At(r.Point), seen.At(r.Against))
}

// near is how well a reading fits an expected one.
func near(volts, expected float64) float64 {
	off := math.Abs(volts-expected) / tree.Apart(volts, expected)
	return math.Pow(Wrong, min(1, max(0, off-1)))
}

// spread lets what a joint may cost lie between the steps of the dictionary: a reading that
// lies between those of two steps of one joint fits both by halves.
func (e *evidence) spread(i int) {
	f := e.faults[i]
	if f.Costs == 0 {
		return
	}
	for k, r := range e.told.Reads {
		k += len(e.told.Symptoms)
		for _, j := range e.beside(i) {
			a, b := at(r, e.seen[r.State][i]), at(r, e.seen[r.State][j])
			if v := float64(r.Volts); (v-a)*(v-b) < 0 && math.Abs(v-a) <= math.Abs(v-b) {
				e.fit[i][k] = 1
			}
		}
	}
}

// beside are the faults of the same place that cost a step more or less, open as the last.
func (e *evidence) beside(i int) []int {
	var out []int
	for _, j := range e.at[e.faults[i].Element] {
		if f := e.faults[j]; j != i && (f.Costs > 0 || f.Kind == proof.Open) {
			out = append(out, j)
		}
	}
	return out
}
