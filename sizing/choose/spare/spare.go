// Package spare says how much more a load may draw before anything that was chosen has to
// change: fuse, wire, contact, drop, alternator. In: a Settled of package choose and what
// was written down of it, for reading only. Out: by load the described current up to which
// all is kept, what gives out beyond it, and what has to be changed then. Units: A. Always
// holds: what was chosen passes every rule up to the stated current; a rule that is broken
// already gives no room. Method: a load of k times the described current takes k times
// what it takes in every solved state, and all that is more flows on the way that the
// load's current takes (superposition); each rule is asked for the largest k that it
// allows. Where a way divides, nothing is said.
package spare

import (
	"cmp"
	"math"
	"slices"

	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/choose/demand"
	"example.com/loomfolio/sizing/choose/protect"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Of gives the spare current of every load of which it is known, in the order of the
// elements, and then of every source that charges.
func Of(s *choose.Settled, c *chosen.Chosen) []chosen.Spare {
	r := &reader{Settled: s, c: c, draws: map[harness.ElementID][]*demand.Draw{}, series: map[harness.ElementID]*series{}}
	for i := range s.Draws {
		r.draws[s.Draws[i].Load] = append(r.draws[s.Draws[i].Load], &s.Draws[i])
	}
	for i := range s.Charge {
		r.draws[s.Charge[i].Load] = append(r.draws[s.Charge[i].Load], &s.Charge[i])
	}
	for j := range s.Solvings {
		r.rushes = append(r.rushes, protect.Rushes(s.Demand, j))
	}
	r.crowded()
	r.hold()
	r.scratch = make([]float64, len(s.H.Wires))
	var out []chosen.Spare
	for i := range s.H.Elements {
		if e := &s.H.Elements[i]; r.asked(e) {
			if one, ok := r.of(e); ok {
				out = append(out, one)
			}
		}
	}
	return out
}

// reader reads what was settled.
type reader struct {
	*choose.Settled
	c       *chosen.Chosen
	draws   map[harness.ElementID][]*demand.Draw
	rushes  [][]protect.Rush // by solving
	crowds  []crowd
	in      [][]int // by WireID: into crowds
	held    [][]held
	series  map[harness.ElementID]*series
	scratch []float64 // by WireID
}

// asked tells a load, or a source that charges, that may be exchanged for a larger one. A
// starter is a matter of its cables; what lies in series with another load shares its
// volts.
func (r *reader) asked(e *harness.Element) bool {
	if e.Amps <= 0 || len(r.draws[e.ID]) == 0 {
		return false
	}
	if e.Kind == harness.Charger {
		return r.batteries() == 1
	}
	return e.Kind == harness.Load && r.PartOf(e.ID).Kind != harness.Starter && !r.Owns[e.ID].Series
}

// batteries counts the batteries, those in series once: what a larger alternator gives
// more divides among several.
func (r *reader) batteries() int {
	sum := 0.0
	for _, id := range r.ElementsOf(harness.EMF) {
		sum += float64(r.H.Elements[id].Holds())
	}
	return int(math.Round(sum))
}

// taken is what a load takes in one solved state.
type taken struct {
	solving int
	amps    float64
	*demand.Draw
	way []bool // by WireID: what it passes
}

func (t taken) passes(w harness.WireID) bool { return t.way[w] }

// load is one load that is asked for.
type load struct {
	*reader
	e     *harness.Element
	takes []taken
	wires []bool  // by WireID: on one of its ways
	most  float64 // the largest k that is allowed so far
	found []chosen.Limit
	bare  []harness.PartID // switches and relays of no known rating
}

func (r *reader) of(e *harness.Element) (chosen.Spare, bool) {
	l := &load{reader: r, e: e, most: math.Inf(1), wires: make([]bool, len(r.H.Wires))}
	l.take()
	if e.Kind == harness.Load && l.divided() || l.onlyCranking() {
		return chosen.Spare{}, false
	}
	// the hard limits first: none is looked for beyond the least so far
	for _, rule := range []func(){l.fuses, l.heat, l.contacts, l.starts, l.alternators, l.keyOff, l.drops, l.beside} {
		rule()
	}
	if len(l.found) == 0 {
		return chosen.Spare{}, false
	}
	slices.SortStableFunc(l.found, func(a, b chosen.Limit) int { return cmp.Compare(a.UpTo, b.UpTo) })
	return l.spare(), true
}

// spare writes down what was found, with the cure of what gives out first, and first of
// what is dangerous.
func (l *load) spare() chosen.Spare {
	out := chosen.Spare{Element: l.e.ID, Amps: l.e.Amps, UpTo: l.found[0].UpTo, Limits: l.found, Unrated: l.bare}
	l.cure(&l.found[0])
	i := slices.IndexFunc(l.found, func(x chosen.Limit) bool { return x.Hard() })
	if i < 0 {
		return out
	}
	if i > 0 {
		l.cure(&l.found[i])
	}
	out.Safe = l.found[i].UpTo
	k := float64(out.Safe / out.Amps)
	out.Lost, out.Allowed = l.losing(k)
	out.Warm = l.warmed(k)
	return out
}

// losing gives the most that the load itself loses in its wires at k times the current, of
// what that is held to a limit, and this limit.
func (l *load) losing(k float64) (lost, limit unit.Volt) {
	for _, t := range l.takes {
		if !t.Counts || t.solving != t.State || l.e.Kind != harness.Load {
			continue
		}
		allowed, _ := l.LimitOf(t.Draw)
		if v := unit.Volt(l.lost(t, t.Draw, k)); limit == 0 || v/allowed > lost/limit {
			lost, limit = v, allowed
		}
	}
	return lost, limit
}

// take lists what the load takes in every solved state: in those that were solved for the
// sake of flat batteries or low voltages by the way of the state that they were made from.
func (l *load) take() {
	by := map[int]bool{}
	for _, d := range l.draws[l.e.ID] {
		by[d.State] = true
		way := make([]bool, len(l.wires))
		for _, w := range d.Wires() {
			way[w], l.wires[w] = true, true
		}
		l.takes = append(l.takes, taken{d.State, d.Most(), d, way})
	}
	declared := l.takes
	for j := len(l.States); j < len(l.Solvings); j++ {
		from := declared[0]
		for _, t := range declared {
			if t.State == l.Solvings[j].Index {
				from = t
			}
		}
		if a := math.Abs(l.Solvings[j].State.Amps[l.e.ID]); !by[j] && a > demand.OnFrom { // false for NaN
			l.takes = append(l.takes, taken{j, a, from.Draw, from.way})
		}
	}
}

// divided tells a load whose current does not all flow on its way: it has another beside it.
func (l *load) divided() bool {
	for _, t := range l.takes {
		if t.Feed.Source == harness.None || t.Back.Source == harness.None {
			return true
		}
		for _, w := range t.Wires() {
			if l.flow(t.solving, w) < t.Amps*0.98 && t.solving == t.State {
				return true
			}
		}
	}
	return len(l.takes) == 0
}

// onlyCranking tells a load of which nothing is known but the seconds of cranking.
func (l *load) onlyCranking() bool {
	return !slices.ContainsFunc(l.takes, func(t taken) bool { return !l.Solvings[t.solving].Cranking })
}

// on tells whether a wire lies on one of the load's ways.
func (l *load) on(w harness.WireID) bool { return l.wires[w] }

// flow and through give what flows in a wire, or through an element, in a solved state.
func (l *load) flow(solving int, w harness.WireID) float64 {
	return size(l.Solvings[solving].State.WireAmps[w])
}

func (l *load) through(solving int, e harness.ElementID) float64 {
	return size(l.Solvings[solving].State.Amps[e])
}

func size(a float64) float64 {
	if math.IsNaN(a) {
		return 0
	}
	return math.Abs(a)
}

// allows notes how many times the described current a rule allows.
func (l *load) allows(at chosen.Limit, k float64) {
	if math.IsInf(k, 1) || math.IsNaN(k) {
		return
	}
	l.most = min(l.most, k)
	at.UpTo = unit.Ampere(k * float64(l.e.Amps))
	i := slices.IndexFunc(l.found, func(x chosen.Limit) bool { return x.Rule == at.Rule && x.Name == at.Name })
	if i < 0 {
		l.found = append(l.found, at)
	} else if at.UpTo < l.found[i].UpTo {
		l.found[i].UpTo = at.UpTo
	}
}

// onElement and onWire begin a limit.
func (l *load) onElement(rule string, e harness.ElementID) chosen.Limit {
	return chosen.Limit{Rule: rule, Name: l.H.Elements[e].Name, Element: e, Wire: harness.None}
}

func (l *load) onWire(rule string, w harness.WireID) chosen.Limit {
	return chosen.Limit{Rule: rule, Name: l.H.Wires[w].Name, Element: harness.None, Wire: w}
}

// passed visits the elements of a kind on the load's ways, with what it takes there.
func (l *load) passed(kind harness.ElementKind, visit func(t taken, e harness.ElementID)) {
	for _, t := range l.takes {
		for e := range t.Elements() {
			if l.H.Elements[e].Kind == kind {
				visit(t, e)
			}
		}
	}
}

// largest gives the largest k from 1 up to the most so far that a test allows, which fails
// from somewhere on; 1 where it fails there. A thousandth is near enough.
func (l *load) largest(allows func(k float64) bool) float64 {
	top := l.top()
	if allows(top) {
		return math.Inf(1)
	}
	low, high := 1.0, top
	for high-low > 1e-3*low {
		if mid := (low + high) / 2; allows(mid) {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// top is the largest k that is looked at.
func (l *load) top() float64 {
	if math.IsInf(l.most, 1) {
		return furthest
	}
	return l.most
}

// furthest is how many times the described current is looked at where nothing else bounds
// it.
const furthest = 20
