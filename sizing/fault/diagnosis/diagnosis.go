// Package diagnosis weighs the faults of a dictionary by what was seen and measured.
//
// In: the dictionary, what a meter shows with each fault, symptoms and readings. Out: the
// faults that remain, the likeliest first, and the next measurement (proof.Standing).
//
// Method: Bayes' rule. Each fault begins with its weight; whatever is told multiplies it by
// how likely that is with it. Nothing is struck out for good: a reading may be wrong
// (Wrong), and a fault may come and go, so that a good reading clears nothing (Sometimes).
// The next measurement is the one that is expected to tell most for its minutes, wrong
// readings reckoned with.
package diagnosis

import (
	"cmp"
	"math"
	"slices"

	"example.com/loomfolio/sizing/fault"
	"example.com/loomfolio/sizing/fault/tree"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

const (
	// Wrong is the chance that a reading is wrong; judgement, not published.
	Wrong = .03
	// Mistaken is the chance that a load is said to be dead that works, or the other way round;
	// judgement, not published.
	Mistaken = .002
	// Sometimes is how many of the faults come and go: poor and intermittent contact among the
	// failures of connectors and connections (MIL-HDBK-338B, 1998, failure mode distributions).
	Sometimes = .23
	// Seldom is the same of what is no contact: windings, filaments, batteries; judgement, not published.
	Seldom = .03
	// Shows is the chance that a fault that comes and goes shows at a given time, where nothing
	// is known (judgement, not published).
	Shows = .5
	// Sure is the share of a class above which no further measurement is asked for.
	Sure = .9
	// Faint is the share below which a fault is not told.
	Faint = .001
)

// Symptom is a load that was looked at in a state.
type Symptom struct {
	Load  harness.ElementID
	State int
	Works Works
}

// Works says how a load does.
type Works int

// How a load does.
const (
	Dead Works = iota
	Weak       // dim, slow
	Live
)

// Told is what was seen and measured.
type Told struct {
	Symptoms  []Symptom
	Reads     []proof.Read
	Sometimes bool // it comes and goes
}

// Case is a vehicle that something is wrong with.
type Case struct {
	Harness *harness.Harness
	Points  []proof.Point
	Book    Book
	On      func(load harness.ElementID, state int) bool // whether it works there when all is well
}

// Book is the fault dictionary as it is asked (fault.Book).
type Book interface {
	Faults() []proof.Fault
	In(state, fault int) *fault.Seen
	Sound(state int) *fault.Seen
}

// evidence is what was told, and what each fault makes of it.
type evidence struct {
	Case
	told   Told
	faults []proof.Fault
	seen   map[int][]*fault.Seen // by state, of all faults
	most   map[int]float64       // by state, the highest voltage when sound
	fit    [][]float64           // by fault, how likely each symptom, then each reading, is
	sound  []float64             // the same without a fault
	share  []float64             // by fault, of 1
	at     map[string][]int      // faults by element
	loads  map[string]*spot      // by the element's name
}

// spot is a load with the points at its terminals.
type spot struct{ at tree.Pair }

// Of weighs the faults. State is in which the next measurement is to be made.
func Of(c Case, told Told, state int) proof.Standing {
	e := evidence{Case: c, told: told, faults: c.Book.Faults(), seen: map[int][]*fault.Seen{}, most: map[int]float64{}, at: map[string][]int{}, loads: map[string]*spot{}}
	for i := range c.Harness.Elements {
		if x := &c.Harness.Elements[i]; x.Kind == harness.Load {
			e.loads[x.Name] = &spot{tree.LoadAt(c.Harness, c.Points, x.ID)}
		}
	}
	for i, f := range e.faults {
		e.at[f.Element] = append(e.at[f.Element], i)
	}
	for _, s := range append(told.states(), state) {
		e.see(s)
	}
	e.weigh()
	return e.standing(state)
}

// states are those in which something was told.
func (t Told) states() []int {
	var out []int
	for _, s := range t.Symptoms {
		out = append(out, s.State)
	}
	for _, r := range t.Reads {
		out = append(out, r.State)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// see finds what all faults show in a state.
func (e *evidence) see(state int) {
	if _, done := e.seen[state]; done {
		return
	}
	e.seen[state] = make([]*fault.Seen, len(e.faults))
	for i := range e.faults {
		e.seen[state][i] = e.Book.In(state, i)
	}
	for p := range e.Points {
		if v := math.Abs(e.Book.Sound(state).At(p)); v > e.most[state] {
			e.most[state] = v
		}
	}
}

// weigh gives each fault its share.
func (e *evidence) weigh() {
	e.sound = e.fits(none)
	e.fit = make([][]float64, len(e.faults))
	e.share = make([]float64, len(e.faults))
	sum := 0.0
	for i, f := range e.faults {
		e.fit[i] = e.fits(i)
		e.share[i] = max(f.Weight, slight) * e.likely(i, none)
		sum += e.share[i]
	}
	for i := range e.share {
		e.share[i] /= sum
	}
}

// slight is the least weight that a fault has.
const slight = 1e-6

// none leaves no evidence out.
const none = -1

// likely is how likely all that was told is with a fault, but for one of it: as one that is
// always there or as one that comes and goes, by how often its kind is the latter.
func (e *evidence) likely(i, without int) float64 {
	steady, coming := e.together(e.losses(i)), 1.0
	for k, p := range e.fit[i] {
		if k == without {
			continue
		}
		if k >= len(e.told.Symptoms) {
			steady *= p
		}
		coming *= Shows*p + (1-Shows)*e.sound[k]
	}
	often := e.often(i)
	if e.told.Sometimes {
		return often * coming
	}
	return (1-often)*steady + often*coming
}

// often is how often a fault of its kind comes and goes.
func (e *evidence) often(i int) float64 {
	switch f := e.faults[i]; {
	case f.Kind == proof.Joint, f.Kind == proof.Burnt, f.Kind == proof.Short, f.Kind == proof.Unearthed:
		return Sometimes
	case f.Kind == proof.Open && e.loads[f.Element] == nil:
		return Sometimes
	}
	return Seldom
}

// standing is what remains.
func (e *evidence) standing(state int) proof.Standing {
	s := proof.Standing{Wrong: e.wrong(), Sound: !slices.ContainsFunc(e.sound, func(p float64) bool { return p < Shows })}
	list := e.ranked()
	if len(list) == 0 {
		return s
	}
	c := e.remaining(list, state)
	asks := c.Asks()
	classes := c.Problem(asks).ClassOf()
	for i, f := range list {
		s.Left = append(s.Left, proof.Suspect{Fault: f, Share: e.share[f], Class: classes[i]})
	}
	if !s.Sound {
		s.Odd = e.odd(list[0])
	}
	if len(s.Odd) > 0 {
		s.Both = e.both()
	}
	if len(s.Odd) > 0 || !sure(s.Left) {
		s.Next = e.next(c, e.open(asks, state), s.Left)
		s.Look = e.look(s.Left, state)
	}
	if len(s.Odd) > 0 || s.Next == nil {
		s.Again = e.again(s.Left, s.Odd)
	}
	return s
}

// sure tells whether the likeliest class is all but certain.
func sure(left []proof.Suspect) bool {
	first := 0.0
	for _, x := range left {
		if x.Class == left[0].Class {
			first += x.Share
		}
	}
	return first >= Sure
}

// ranked are the faults of which enough is left, the likeliest first.
func (e *evidence) ranked() []int {
	var list []int
	for i, x := range e.share {
		if x >= Faint {
			list = append(list, i)
		}
	}
	slices.SortStableFunc(list, func(a, b int) int { return cmp.Compare(e.share[b], e.share[a]) })
	return list
}

// odd is what was told that a fault does not explain.
func (e *evidence) odd(i int) []int {
	var out []int
	for k, p := range e.fit[i] {
		if p <= Wrong {
			out = append(out, k)
		}
	}
	return out
}
