package spare

import (
	"math"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/choose/demand"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// held is a draw whose drop is held to its limit, and keeps it.
type held struct {
	*demand.Draw
	lost, limit float64 // V
}

// hold lists the draws that keep their limit, by solving.
func (r *reader) hold() {
	r.held = make([][]held, len(r.Solvings))
	for _, list := range [][]demand.Draw{r.Draws, r.Charge} {
		for i := range list {
			if d := &list[i]; d.Counts && !r.Exceeds(d) {
				limit, _ := r.LimitOf(d)
				r.held[d.State] = append(r.held[d.State], held{d, r.Drop(d), float64(limit)})
			}
		}
	}
}

// drops: every load that shares a wire with this one keeps within its limit.
func (l *load) drops() {
	for _, t := range l.takes {
		if t.solving != t.State {
			continue
		}
		adds := l.adds(t, l.top())
		for i := range l.held[t.solving] {
			if d := &l.held[t.solving][i]; d.Load == l.e.ID || sum(d.Draw, adds) > 0 {
				l.drop(t, d, d.lost+sum(d.Draw, adds))
			}
		}
	}
}

// adds gives by WireID how much more a draw loses in the wires of one way of the load at k
// times its current, V.
func (l *load) adds(t taken, k float64) []float64 {
	out := l.scratch
	clear(out)
	for _, list := range [][]harness.WireID{t.Feed.Wires, t.Back.Wires} {
		for _, w := range list {
			a, ohms := l.flow(t.solving, w), l.OhmsIn(t.solving, w)
			then := ohms
			if !l.Solvings[t.solving].Cranking && !l.ByRule() {
				then = l.OhmsAt(w, l.warmer(w, k))
			}
			out[w] = (a+(k-1)*t.amps)*then - a*ohms
		}
	}
	return out
}

func sum(d *demand.Draw, by []float64) (out float64) {
	for _, list := range [][]harness.WireID{d.Feed.Wires, d.Back.Wires} {
		for _, w := range list {
			out += by[w]
		}
	}
	return out
}

// drop asks one draw's limit; at most it loses so much at the largest k so far.
func (l *load) drop(t taken, d *held, most float64) {
	at := l.onElement(chosen.ByDrop, d.Load)
	switch {
	case l.ByRule():
		l.allows(at, l.largest(func(k float64) bool { return l.byRule(t, d.Draw, k) }))
	case most > d.limit*(1+1e-6):
		l.allows(at, l.largest(func(k float64) bool { return l.lost(t, d.Draw, k) <= d.limit*(1+1e-6) }))
	}
}

// lost gives a draw's drop with the load k times as large.
func (l *load) lost(t taken, d *demand.Draw, k float64) (out float64) {
	for _, list := range [][]harness.WireID{d.Feed.Wires, d.Back.Wires} {
		for _, w := range list {
			amps, ohms := l.flow(d.State, w)+d.More, l.OhmsIn(d.State, w)
			if t.passes(w) {
				amps += (k - 1) * t.amps
				if !l.Solvings[d.State].Cranking && !l.ByRule() {
					ohms = l.OhmsAt(w, l.warmer(w, k))
				}
			}
			out += amps * ohms
		}
	}
	return out
}

// warmer estimates how warm one of the load's wires gets at k times the current: what it
// adds to its warmth goes with the square of the current, and brings it to its class at
// what it carries there.
func (l *load) warmer(w harness.WireID, k float64) unit.Celsius {
	z, carries := l.Size(w), l.Carries(w, l.Size(w))
	most := l.Peaks[w].Amps
	for _, t := range l.takes {
		if now := l.flow(t.solving, w); !l.Solvings[t.solving].Cranking {
			most = math.Max(most, now+(k-1)*t.amps)
		}
	}
	had, has := square(l.Peaks[w].Amps/carries), square(most/carries)
	if had > 0.99 {
		return z.Overload
	}
	alone := float64(l.Hottest[w]) - (float64(z.Class)-float64(l.Hottest[w]))*had/(1-had)
	return min(unit.Celsius(alone+(float64(z.Class)-alone)*has), z.Overload)
}

func square(x float64) float64 { return x * x }

// byRule asks the published rule of every wire that both have.
func (l *load) byRule(t taken, d *demand.Draw, k float64) bool {
	more := *d
	more.More += (k - 1) * t.amps
	for _, w := range d.Wires() {
		if t.passes(w) && !l.RuleOf(l.H.Practice.Method, &more, w)(l.Size(w)) {
			return false
		}
	}
	return true
}
