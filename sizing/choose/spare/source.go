package spare

import (
	"math"

	"example.com/loomfolio/sizing/harness"
)

// series is what lies in series with a source that limits its current: by WireID and by
// ElementID. Whatever is drawn, no more than its output flows there.
type series struct{ wires, elements []bool }

// seriesOf finds what carries in every solved state what a source gives.
func (r *reader) seriesOf(source harness.ElementID) *series {
	if s := r.series[source]; s != nil {
		return s
	}
	s := &series{make([]bool, len(r.H.Wires)), make([]bool, len(r.H.Elements))}
	for w := range s.wires {
		s.wires[w] = r.alike(source, func(j int) float64 { return size(r.Solvings[j].State.WireAmps[w]) })
	}
	for e := range s.elements {
		s.elements[e] = r.alike(source, func(j int) float64 { return size(r.Solvings[j].State.Amps[e]) })
	}
	r.series[source] = s
	return s
}

// alike tells that a current is the source's in every solved state in which it gives any.
func (r *reader) alike(source harness.ElementID, amps func(solving int) float64) bool {
	any := false
	for j := range r.Solvings {
		gives := size(r.Solvings[j].State.Amps[source])
		if gives < 0.5 {
			continue
		}
		if any = true; math.Abs(amps(j)-gives) > 0.02*gives+0.05 {
			return false
		}
	}
	return any
}

// room gives the k at which a current comes to its limit in a solved state, now being what
// flows there, made what flows there in the state by whose way the load is reckoned, with
// their signs: where they are opposed, more of the load takes from the current. What is in
// series with the source of the way carries no more than this gives.
func (l *load) room(t taken, limit, now, made float64, limited bool) float64 {
	if math.IsNaN(now) {
		now = 0
	}
	if t.solving != t.State && now*made < 0 {
		return math.Inf(1)
	}
	if source := &l.H.Elements[t.Feed.Source]; limited && source.ID != l.e.ID && math.Max(math.Abs(now), float64(source.Amps)) <= limit*(1+1e-9) {
		return math.Inf(1)
	}
	return 1 + (limit-math.Abs(now))/t.amps
}

// roomIn and roomThrough are room of a wire and of an element.
func (l *load) roomIn(t taken, w harness.WireID, limit float64) float64 {
	return l.room(t, limit, l.Solvings[t.solving].State.WireAmps[w], l.Solvings[t.State].State.WireAmps[w], l.limits(t) != nil && l.limits(t).wires[w])
}

func (l *load) roomThrough(t taken, e harness.ElementID, limit float64) float64 {
	return l.room(t, limit, l.Solvings[t.solving].State.Amps[e], l.Solvings[t.State].State.Amps[e], l.limits(t) != nil && l.limits(t).elements[e])
}

// limits gives what is in series with the source of a way, nil where that is none that
// limits its current.
func (l *load) limits(t taken) *series {
	if !l.H.Elements[t.Feed.Source].Regulates() {
		return nil
	}
	return l.seriesOf(t.Feed.Source)
}
