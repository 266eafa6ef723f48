// Package cause lists everything single that can break in a sized harness, and the state
// in which each shows.
//
// In: the model, its solved states, where its wires lie, the own ways of its loads. Out:
// the causes in the order of wires, then elements, then what may touch, each with what is
// replaced in the network to see it.
//
// What is listed: every wire open, with a bad joint that costs its load 10 %, 30 % and
// 60 %, and shorted to ground; every fuse, contact and cavity open and burnt; contacts
// welded; ground points off, straps open; coils open, shorted and stuck; diodes, resistors
// and loads open and shorted; batteries flat, dead and disconnected, alternators dead and
// disconnected; neighbours touching. A short is listed where the metal is live in some
// state: metal of the return touches nothing new.
//
// Neighbours are bounded so: cavities side by side or one over the other in the rows of a
// connector or module (in the order of the cavities where no rows are given), and in each
// run of loom every wire with the next one in the order of the wires; each pair of metals
// stands once.
//
// The state: where the element lies on the way of a load or coil, that in which the one
// with the most current over it is measured; else that in which the element carries most.
// What touches or is welded shows where the two ends differ most without it (within a
// fifth of the largest difference a state with the engine off goes before others).
package cause

import (
	"fmt"
	"math"

	"example.com/loomfolio/sizing/fault/way"
	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/unit"
)

// Levels are the parts of its voltage that a joint or burnt contact costs the load.
var Levels = [...]unit.Fraction{0.1, 0.3, 0.6}

// ShortOhms is the resistance where metal touches metal: chafed copper on a screw's edge;
// judgement, not published.
const ShortOhms = 0.01

// least is the current below which an element does nothing that could be missed, A.
const least = 1e-3

// Cause is one thing that breaks.
type Cause struct {
	proof.Fault                  // all but what is found by solving
	Cuts        []network.Fault  // what is replaced; where Adds, what gets Ohms on top
	Adds        bool             // a bad joint: its ohms are sought so that it costs what it says
	Of          int              // where Adds: the cause in which the same element is open
	Touch       int              // what touches, an index into Causes.Touches; harness.None
	Sources     []network.Source // batteries that are other than described
	Contact     harness.ElementID
}

// Causes are all of them.
type Causes struct {
	List    []Cause
	Touches []network.Bridge
	Metal   []int    // by terminal: the first terminal of the metal that it is whatever is switched
	Silent  []string // what no state shows: it carries nothing in any of them
}

// All lists the causes; lie is where the wires lie, by WireID.
func All(h *harness.Harness, states []network.State, ways *way.Ways, lie []route.Way) *Causes {
	l := &lister{h: h, states: states, ways: ways, lie: lie, taken: map[string]bool{}, touched: map[[2]harness.TerminalID]int{}}
	l.metal = l.metals()
	for i := range h.Wires {
		l.wire(&h.Wires[i])
	}
	for i := range h.Elements {
		l.element(&h.Elements[i])
	}
	l.neighbours()
	l.out.Metal = l.metal
	for t := range l.metal {
		l.metal[t] = l.metal.Root(t)
	}
	return &l.out
}

// lister is the list being made.
type lister struct {
	h       *harness.Harness
	states  []network.State
	ways    *way.Ways
	lie     []route.Way
	metal   forest.Forest // by terminal: joined by wires, cavities and inside parts
	taken   map[string]bool
	touched map[[2]harness.TerminalID]int
	out     Causes
}

// metals joins the terminals that are one piece of metal whatever is switched.
func (l *lister) metals() forest.Forest {
	f := forest.New(len(l.h.Terminals))
	for t, to := range l.ways.Joined {
		f.Join(t, to)
	}
	for i := range l.h.Wires {
		f.Join(int(l.h.Wires[i].From), int(l.h.Wires[i].To))
	}
	for i := range l.h.Elements {
		if e := &l.h.Elements[i]; e.Kind == harness.Contact && e.When.Kind == harness.Always {
			f.Join(int(e.A), int(e.B))
		}
	}
	return f
}

// blank is a cause with nothing but its name.
func (l *lister) blank(element string, kind proof.Kind, ending string) Cause {
	id := element + ":" + ending
	for l.taken[id] {
		id += "'"
	}
	l.taken[id] = true
	return Cause{Touch: harness.None, Contact: harness.None, Fault: proof.Fault{
		ID: id, Element: element, Kind: kind, Part: harness.None, Wire: harness.None, Load: harness.None,
	}}
}

// add enters a cause at a wire or element, where some state shows it.
func (l *lister) add(c Cause, at spot) int {
	if at.state == harness.None {
		l.out.Silent = append(l.out.Silent, c.ID)
		return harness.None
	}
	c.State, c.Load = at.state, at.load
	l.out.List = append(l.out.List, c)
	return len(l.out.List) - 1
}

// spot is the state in which something shows, and the load or coil that it is looked at for.
type spot struct {
	state int
	load  harness.ElementID
}

var nowhere = spot{harness.None, harness.None}

// onWay is the spot of what lies on a way and carries amps, by state.
func (l *lister) onWay(n int, amps func(s *network.State) float64) spot {
	if n != harness.None {
		if x := &l.ways.List[n]; math.Abs(amps(&l.states[x.State])) >= least {
			return spot{x.State, x.Draw}
		}
	}
	return l.busiest(amps)
}

// busiest is the state in which most flows, one while cranking only where there is no other.
func (l *lister) busiest(amps func(s *network.State) float64) spot {
	best, most, calm := harness.None, least, false
	for i := range l.states {
		a, quiet := math.Abs(amps(&l.states[i])), way.Rank(l.h, i) > 0
		if a < least || calm && !quiet {
			continue
		}
		if a > most || quiet && !calm {
			best, most, calm = i, a, quiet
		}
	}
	return spot{best, harness.None}
}

// differ is the state, of those asked for, in which two terminals differ most: of those
// within a fifth of that the best for measuring. Nowhere where they never differ by a volt.
func (l *lister) differ(a, b harness.TerminalID, asked func(state int) bool) spot {
	apart := func(i int) float64 {
		if d := math.Abs(l.states[i].Volts[a] - l.states[i].Volts[b]); d >= 1 && asked(i) {
			return d
		}
		return 0 // floating too
	}
	most := 0.0
	for i := range l.states {
		most = max(most, apart(i))
	}
	best := nowhere
	for i := range l.states {
		if d := apart(i); d > 0 && d >= 0.8*most && (best.state == harness.None || way.Rank(l.h, i) > way.Rank(l.h, best.state)) {
			best.state = i
		}
	}
	return best
}

func always(int) bool { return true }

// percent is the ending of a joint's name.
func percent(kind proof.Kind, costs unit.Fraction) string {
	return fmt.Sprintf("%s-%.0f", kind, 100*float64(costs))
}

var open = math.Inf(1)

// onWire and onElement are a fault of one wire, of one element.
func onWire(w harness.WireID, ohms float64) []network.Fault {
	return []network.Fault{{Wire: w, Element: harness.None, Ohms: ohms}}
}

func onElement(e harness.ElementID, ohms float64) []network.Fault {
	return []network.Fault{{Wire: harness.None, Element: e, Ohms: ohms}}
}

// family enters an element open, and then its bad joints.
func (l *lister) family(opened Cause, kind proof.Kind, at spot) {
	of := l.add(opened, at)
	if of == harness.None {
		return
	}
	for _, costs := range Levels {
		c := l.blank(opened.Element, kind, percent(kind, costs))
		c.Part, c.Wire, c.Contact = opened.Part, opened.Wire, opened.Contact
		c.Cuts, c.Adds, c.Of, c.Costs = opened.Cuts, true, of, costs
		l.add(c, at)
	}
}
