package fault

import (
	"fmt"
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
//	book := fault.New(h, r)                  // r with its Proof.Points
//	book.Faults()                            // the dictionary: what goes into r.Proof.Faults
//	book.Ladders(), book.Together()          // what goes into r.Proof.Ladders, .Together
//	book.Suspects(load, state)               // the faults that leave a load or coil without its voltage
//	seen := book.In(state, fault)            // a fault in another state, solved once
//	seen.At(point)                           // its volts at a point, NaN where it floats
//	book.Sound(state).At(point)              // without a fault
//
// Faults are named by their place in Faults. In a state in which a fault does nothing (an
// open contact that is burnt) Seen says what is seen without it. Where a fault opens
// fuses, what is seen is what stands once they are open. Readings that move by less than
// bench.Moves are those of the sound state: no meter of the trade tells them apart.
//
// A Book may be used by several goroutines at once. It keeps what was solved; asked in
// another order, readings may differ in the last digits that are computed (1e-7 V at most).
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
	laddersOnce sync.Once
	ladders     []proof.Ladder
}

// Seen is what is seen with one fault in one state.
type Seen = bench.Seen

// shelf is one state with what was solved in it.
type shelf struct {
	sync.Mutex
	bench *bench.Bench
	seen  []*Seen // by fault; nil where it was not asked for
}

// New solves the dictionary.
func New(h *harness.Harness, r *result.Result) *Book {
	h, _ = polarity.Mend(h)
	b := &Book{h: h, r: r, ways: way.All(h, r.Loads, r.States)}
	causes := cause.All(h, r.States, b.ways, r.Ways)
	b.silent, b.touches, b.metal = causes.Silent, causes.Touches, causes.Metal
	on := points(h, r, b.ways)
	for i := range r.States {
		b.states = append(b.states, &shelf{bench: bench.New(h, r, i, causes.Touches, on)})
	}
	found := b.solve(causes.List)
	for _, s := range b.states {
		s.seen = make([]*Seen, len(causes.List))
	}
	b.keep(causes.List, found)
	return b
}

// found is a cause as it was solved; nothing is seen where there is no such joint.
type found struct {
	seen *Seen
	load harness.ElementID // of an open element: that it costs most, or was asked for
	part float64           // what that loses of its voltage
}

// solve solves every cause in its state, two states side by side.
func (b *Book) solve(list []cause.Cause) []found {
	out, in := make([]found, len(list)), make([][]int, len(b.states))
	for i := range list {
		in[list[i].State] = append(in[list[i].State], i)
	}
	var wait sync.WaitGroup
	gate := make(chan struct{}, atOnce)
	for s := range b.states {
		wait.Go(func() {
			gate <- struct{}{}
			defer func() { <-gate }()
			for _, i := range in[s] {
				find(b.states[s].bench, list, i, out)
			}
		})
	}
	wait.Wait()
	return out
}

// atOnce is how many states are solved side by side.
const atOnce = 2

// find solves one cause; of a joint the same element open has been solved before.
func find(bench *bench.Bench, list []cause.Cause, i int, out []found) {
	c := &list[i]
	switch {
	case c.Adds:
		opened := out[c.Of]
		if opened.load == harness.None || opened.part <= float64(c.Costs) {
			return
		}
		c.Load = opened.load
		c.Ohms, out[i].seen = bench.Seek(c)
	case c.Kind == proof.Open || c.Kind == proof.Unearthed:
		out[i].seen, out[i].load, out[i].part = bench.Opened(c)
		c.Load = out[i].load
	default:
		out[i].seen = bench.Try(c, c.Ohms)
	}
}

// keep enters what was found, in its order.
func (b *Book) keep(list []cause.Cause, all []found) {
	odds := odds.New(b.h, b.r.Ways, b.r.States)
	for i := range list {
		c, seen := list[i], all[i].seen
		if seen == nil {
			continue
		}
		if joins := c.Wire != harness.None || c.Contact != harness.None; seen.Lost || seen.Nothing() && !(c.Kind == proof.Open && joins) {
			b.silent = append(b.silent, c.ID)
			continue
		}
		c.Amps = unit.Ampere(seen.Amps)
		c.Dead, c.Weak, c.Extra, c.Blown = seen.Dead, seen.Weak, seen.Extra, seen.Blown
		c.Volts = seen.Shown
		seen.Shown = nil
		c.Weight, c.Why = odds.Of(&c)
		c.Says = b.says(&c, seen)
		b.states[c.State].seen[len(b.faults)] = seen
		b.causes, b.faults = append(b.causes, c), append(b.faults, c.Fault)
	}
	for _, s := range b.states {
		s.seen = s.seen[:len(b.faults)]
	}
}

// says tells what no reading shows: that metal burns, or a relay buzzes.
func (b *Book) says(c *cause.Cause, seen *Seen) string {
	if c.Kind == proof.Short && c.Wire != harness.None && len(seen.Blown) == 0 {
		if most := b.r.Wires[c.Wire].Ampacity; c.Amps > most {
			return fmt.Sprintf("no fuse opens: %.0f A through wire %s, which carries %.0f A", float64(c.Amps), b.h.Wires[c.Wire].Name, float64(most))
		}
	}
	if seen.Buzz {
		return "a relay buzzes"
	}
	return ""
}

// Faults is the dictionary.
func (b *Book) Faults() []proof.Fault { return b.faults }

// Silent names the faults that are not in the dictionary: what they are in carries nothing
// in any state, or nothing is seen of them in any, or no rest was found with them.
func (b *Book) Silent() []string { return b.silent }

// Sound is what is seen in a state without a fault.
func (b *Book) Sound(state int) *Seen { return b.states[state].bench.Sound() }

// In gives what is seen with a fault in a state.
func (b *Book) In(state, fault int) *Seen {
	s := b.states[state]
	s.Lock()
	defer s.Unlock()
	if s.seen[fault] == nil {
		s.seen[fault] = s.bench.Try(&b.causes[fault], b.causes[fault].Ohms)
	}
	return s.seen[fault]
}

// points lists by ElementID of a load or coil the points on its way.
func points(h *harness.Harness, r *result.Result, ways *way.Ways) [][]int {
	at := point.At(h, r.Proof.Points)
	out := make([][]int, len(h.Elements))
	for i := range ways.List {
		x := &ways.List[i]
		for _, s := range append(ways.Feed(h, x), ways.Back(h, x)...) {
			for _, t := range []harness.TerminalID{s.From, s.To} {
				if at[t] != proof.None {
					out[x.Draw] = append(out[x.Draw], at[t])
				}
			}
		}
	}
	return out
}
