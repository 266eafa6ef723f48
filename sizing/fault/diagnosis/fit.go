package diagnosis

import (
	"slices"

	"example.com/loomfolio/sizing/fault"
	"example.com/loomfolio/sizing/fault/tree"
)

// fits gives how likely each symptom, then each reading, is with a fault; none for a sound vehicle.
func (e *evidence) fits(i int) []float64 {
	var out []float64
	lost := e.losses(i)
	for k, s := range e.told.Symptoms {
		out = append(out, e.works(s, lost[k]))
	}
	return append(out, e.reads(e.expected(i))...)
}

// seenWith is what is seen with a fault in a state; none: without.
func (e *evidence) seenWith(i, state int) *fault.Seen {
	if i == none {
		return e.Book.Sound(state)
	}
	return e.seen[state][i]
}

// works is how likely a symptom is with a fault: what is dim may pass for dead, the more so
// the more of its voltage it loses, and for well, the more so the less.
func (e *evidence) works(s Symptom, lost float64) float64 {
	switch s.Works {
	case Dead:
		return max(Mistaken, tree.CalledDead(lost))
	case Weak:
		if lost == 1 {
			return Wrong
		}
		return max(Mistaken, calledWeak(lost))
	}
	return max(Mistaken, 1-calledWeak(lost))
}

// calledWeak is how likely one says that a load is weak which loses a part of its voltage:
// hardly so at a twentieth, surely from a quarter on (judgement, not published).
func calledWeak(lost float64) float64 { return min(1, max(0, (lost-.05)/.2)) }

// losses are the parts of their voltage that the loads that were told of lose by a fault; of
// a joint as far as half way to the next step.
func (e *evidence) losses(i int) []float64 {
	out := make([]float64, len(e.told.Symptoms))
	for k, s := range e.told.Symptoms {
		out[k] = e.lost(s, e.seenWith(i, s.State))
		if steps := e.beside(i); steps != nil {
			out[k] = max(out[k], (out[k]+e.lost(s, e.seenWith(steps[1], s.State)))/2)
		}
	}
	return out
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

// together is how likely all that is dead, weak and live is at once where so much is lost:
// one who calls a load dead that loses so much calls no other one live that loses as much or
// more. One of them may be mistaken.
func (e *evidence) together(lost []float64) float64 {
	p := e.room(lost, none)
	for k := range lost {
		p = max(p, Mistaken*e.room(lost, k))
	}
	return max(p, Mistaken*Mistaken)
}

// room is what lies between the least loss that is noticed and the greatest that is not, and
// between the least that is called dead and the greatest that is not; one symptom is left out.
func (e *evidence) room(lost []float64, without int) float64 {
	noticed, not := 1.0, 0.0
	dead, alive := 1.0, 0.0
	for k, s := range e.told.Symptoms {
		if k == without {
			continue
		}
		if s.Works == Live {
			not = max(not, calledWeak(lost[k]))
		} else {
			noticed = min(noticed, calledWeak(lost[k]))
		}
		if s.Works == Dead {
			dead = min(dead, tree.CalledDead(lost[k]))
		} else {
			alive = max(alive, tree.CalledDead(lost[k]))
		}
	}
	return max(0, noticed-not) * max(0, dead-alive)
}
