package fault

import (
	"math"
	"slices"
	"sync"

	"example.com/loomfolio/sizing/fault/bench"
	"example.com/loomfolio/sizing/fault/cause"
	"example.com/loomfolio/sizing/fault/odds"
	"example.com/loomfolio/sizing/fault/way"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/polarity"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/testplan/point"
	"example.com/loomfolio/sizing/unit"
)

// A Book is the fault dictionary of a sized harness, with what it takes to see the same
// faults in other states, for who looks for the next measurement.
//
//	book, err := fault.New(h, r)             // r with its Proof.Points
//	book.Faults()                            // the dictionary: what goes into r.Proof.Faults
//	book.Ladders(), book.Together()          // what goes into r.Proof.Ladders, .Together
//	book.Suspects(load, state)               // the faults that leave a load or coil without its voltage
//	seen, err := book.In(state, fault)       // a fault in another state, solved once
//	seen.At(point)                           // its volts at a point, NaN where it floats
//	book.Sound(state).At(point)              // without a fault
//
// Faults are named by their place in Faults. In a state in which a fault does nothing (an
// open contact that is burnt) Seen says what is seen without it. Where a fault opens
// fuses, what is seen is what stands once they are open. Readings that move by less than
// bench.Moves are those of the sound state: no meter of the trade tells them apart.
//
// A Book may be used by several goroutines at once. It keeps what was solved.
type Book struct {
	h           *harness.Harness
	r           *result.Result
	ways        *way.Ways
	causes      []cause.Cause // by fault
	faults      []proof.Fault
	silent      []string
	states      []*shelf // by state
	touches     []network.Bridge
	metal       []int // by terminal: the same number where it is one piece of metal whatever is switched
	found       index
	onWays      [][]int // by way: its points
	laddersOnce sync.Once
	ladders     []proof.Ladder
	laddersErr  error
}

// Seen is what is seen with one fault in one state.
type Seen = bench.Seen

// shelf is one state with what was solved in it.
type shelf struct {
	sync.Mutex
	bench *bench.Bench
	seen  []*Seen // by fault; nil where it was not asked for
}

// New solves the dictionary. The error is one of the solver.
func New(h *harness.Harness, r *result.Result) (*Book, error) {
	h, _ = polarity.Mend(h)
	b := &Book{h: h, r: r, ways: way.All(h, r.Loads, r.States)}
	causes := cause.All(h, r.States, b.ways, r.Ways)
	b.silent, b.touches, b.metal = causes.Silent, causes.Touches, causes.Metal
	for i := range r.States {
		b.states = append(b.states, &shelf{bench: bench.New(h, r, i, causes.Touches)})
	}
	found, err := b.solve(causes.List)
	if err != nil {
		return nil, err
	}
	for _, s := range b.states {
		s.seen = make([]*Seen, len(causes.List))
	}
	b.onWays = b.points()
	b.keep(causes.List, found)
	return b, nil
}

// found is a cause as it was solved; nothing is seen where there is no such joint.
type found struct {
	seen *Seen
	load harness.ElementID // of an open element: that it costs most, or was asked for
	part float64           // what that loses of its voltage
}

// solve solves every cause in its state, two states side by side.
func (b *Book) solve(list []cause.Cause) ([]found, error) {
	out, in := make([]found, len(list)), make([][]int, len(b.states))
	for i := range list {
		in[list[i].State] = append(in[list[i].State], i)
	}
	errs := make([]error, len(b.states))
	var wait sync.WaitGroup
	gate := make(chan struct{}, atOnce)
	for s := range b.states {
		wait.Go(func() {
			gate <- struct{}{}
			defer func() { <-gate }()
			for _, i := range in[s] {
				if errs[s] = find(b.states[s].bench, list, i, out); errs[s] != nil {
					return
				}
			}
		})
	}
	wait.Wait()
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	return out, nil
}

// atOnce is how many states are solved side by side.
const atOnce = 2

// find solves one cause; of a joint the same element open has been solved before.
func find(bench *bench.Bench, list []cause.Cause, i int, out []found) (err error) {
	c := &list[i]
	switch {
	case c.Adds:
		opened := out[c.Of]
		if opened.load == harness.None || opened.part <= float64(c.Costs) {
			return nil
		}
		c.Load = opened.load
		c.Ohms, out[i].seen, err = bench.Seek(c)
	case c.Kind == proof.Open || c.Kind == proof.Unearthed:
		out[i].seen, out[i].load, out[i].part, err = bench.Opened(c)
		c.Load = out[i].load
	default:
		out[i].seen, err = bench.Try(c, c.Ohms)
	}
	return err
}

// keep enters what was found, in its order.
func (b *Book) keep(list []cause.Cause, all []found) {
	odds := odds.New(b.h, b.r.Ways, b.r.States)
	for i := range list {
		if all[i].seen == nil {
			continue
		}
		c, seen := list[i], all[i].seen
		c.Amps = unit.Ampere(seen.Amps)
		c.Dead, c.Weak, c.Extra, c.Blown = seen.Dead, seen.Weak, seen.Extra, seen.Blown
		c.Volts = b.shown(&c, seen)
		c.Weight, c.Why = odds.Of(&c)
		b.states[c.State].seen[len(b.faults)] = seen
		b.causes, b.faults = append(b.causes, c), append(b.faults, c.Fault)
	}
	for _, s := range b.states {
		s.seen = s.seen[:len(b.faults)]
	}
}

// Faults is the dictionary.
func (b *Book) Faults() []proof.Fault { return b.faults }

// Silent names the faults that no state shows, since what they are in carries nothing in
// any: not in the dictionary.
func (b *Book) Silent() []string { return b.silent }

// Sound is what is seen in a state without a fault.
func (b *Book) Sound(state int) *Seen { return b.states[state].bench.Sound() }

// In gives what is seen with a fault in a state. The error is one of the solver.
func (b *Book) In(state, fault int) (*Seen, error) {
	s := b.states[state]
	s.Lock()
	defer s.Unlock()
	if s.seen[fault] == nil {
		seen, err := s.bench.Try(&b.causes[fault], b.causes[fault].Ohms)
		if err != nil {
			return nil, err
		}
		s.seen[fault] = seen
	}
	return s.seen[fault], nil
}

// clearly is the change of a reading that is told wherever it is, V; a smaller one only on
// the ways of what the fault touches: what else there is gets a little more or less where
// a load falls out; judgement, not published.
const clearly = 0.5

// shown are the readings of a fault: on the ways of its load and of those that it touches,
// and wherever they move clearly.
func (b *Book) shown(c *cause.Cause, seen *Seen) []proof.Shows {
	var at []int
	for _, l := range slices.Concat([]harness.ElementID{c.Load}, seen.Dead, seen.Weak, seen.Extra) {
		if l != harness.None && b.ways.Of[l] != harness.None {
			at = append(at, b.onWays[b.ways.Of[l]]...)
		}
	}
	for _, s := range seen.Volts {
		if !(math.Abs(float64(s.Volts)-b.Sound(c.State).At(s.Point)) < clearly) {
			at = append(at, s.Point)
		}
	}
	slices.Sort(at)
	return seen.Of(slices.Compact(at))
}

// points lists by way the points on it.
func (b *Book) points() [][]int {
	at := point.At(b.h, b.r.Proof.Points)
	out := make([][]int, len(b.ways.List))
	for i := range b.ways.List {
		x := &b.ways.List[i]
		for _, s := range append(b.ways.Feed(b.h, x), b.ways.Back(b.h, x)...) {
			for _, t := range []harness.TerminalID{s.From, s.To} {
				if at[t] != proof.None {
					out[i] = append(out[i], at[t])
				}
			}
		}
	}
	return out
}
