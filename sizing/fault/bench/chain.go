package bench

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/circuit"
	"example.com/loomfolio/sizing/fault/cause"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/unit"
)

// chains are the elements of a network that follow one another with no branch, no
// reference and nothing else between. Wherever on its chain an element is open, or gets
// the same ohms on top, the rest of the network is the same: only the nodes between the
// two places differ, and by what is known. So one solving serves a whole chain.
type chains struct {
	of, at []int  // by element: its chain, and its place there from 0
	turned []bool // by element: its B comes before its A
	list   [][]int
	nodeIn []int // by node: the chain that it lies within, harness.None for others
	nodeAt []int // by node: the place of the element before it
}

// chainsOf finds the chains of a network.
func chainsOf(n *circuit.Network) *chains {
	size := len(n.Elements)
	c := &chains{of: none(size), at: make([]int, size), turned: make([]bool, size), nodeIn: none(n.Nodes), nodeAt: make([]int, n.Nodes)}
	ends := make([][]int, n.Nodes)
	for i := range n.Elements {
		e := &n.Elements[i]
		ends[e.A], ends[e.B] = append(ends[e.A], i), append(ends[e.B], i)
	}
	ends[n.Reference] = nil
	for _, g := range n.Grounds {
		ends[g] = nil
	}
	for i := range n.Elements {
		if c.of[i] == harness.None {
			c.follow(n, ends, i)
		}
	}
	return c
}

func none(n int) []int { return slices.Repeat([]int{harness.None}, n) }

// follow enters the chain of an element: back to where it begins, then forth.
func (c *chains) follow(n *circuit.Network, ends [][]int, i int) {
	first, node := i, n.Elements[i].A
	for len(ends[node]) == 2 {
		next := other(ends[node], first)
		if next == i || next == first {
			break // a ring
		}
		first, node = next, far(&n.Elements[next], node)
	}
	chain := len(c.list)
	c.list = append(c.list, nil)
	for e := first; c.of[e] == harness.None; {
		c.of[e], c.at[e], c.turned[e] = chain, len(c.list[chain]), n.Elements[e].A != node
		c.list[chain] = append(c.list[chain], e)
		node = far(&n.Elements[e], node)
		if len(ends[node]) != 2 || c.nodeIn[node] != harness.None {
			return
		}
		next := other(ends[node], e)
		if c.of[next] != harness.None {
			return
		}
		c.nodeIn[node], c.nodeAt[node] = chain, c.at[e]
		e = next
	}
}

func other(two []int, one int) int {
	if two[0] == one {
		return two[1]
	}
	return two[0]
}

func far(e *circuit.Element, node int) int {
	if e.A == node {
		return e.B
	}
	return e.A
}

// solvedAt is what was solved with a fault at one place of a chain.
type solvedAt struct {
	at            int       // place
	before, after float64   // volts at the ends of the element
	amps          float64   // along the chain
	volts         []float64 // by point
	seen          *Seen
	load          harness.ElementID
	part          float64       // what that load loses; NaN: not asked
	costs         unit.Fraction // what it was sought to lose
}

// place is a chain and the ohms that an element of it has on top; +Inf: it is open.
type place struct {
	chain int
	ohms  float64
}

// inChain gives the element of the network at which a cause lies in a chain; false for one
// that is no open element or bad joint of a single place.
func (b *Bench) inChain(c *cause.Cause, ohms float64) (element int, key place, ok bool) {
	if len(c.Cuts) != 1 || !c.Adds && !math.IsInf(c.Cuts[0].Ohms, 1) {
		return 0, place{}, false
	}
	if !c.Adds {
		ohms = math.Inf(1)
	}
	st := &b.r.States[b.state]
	if f := c.Cuts[0]; f.Wire != harness.None {
		element = st.WireAt[f.Wire]
	} else {
		element = st.ElementAt[f.Element]
	}
	return element, place{b.chains.of[element], ohms}, true
}

// plain tells an element that passes any current, and none without a voltage.
func plain(kind circuit.Kind) bool {
	switch kind {
	case circuit.Resistor, circuit.Coil, circuit.Lamp, circuit.Current, circuit.Power:
		return true
	}
	return false
}

// elsewhere gives what was solved at another place of a cause's chain, where it serves:
// between the two lie only elements whose current alone says how they stand.
func (b *Bench) elsewhere(c *cause.Cause, ohms float64) (*solvedAt, int) {
	element, key, ok := b.inChain(c, ohms)
	if !ok || b.solved[key] == nil {
		return nil, 0
	}
	s, at := b.solved[key], b.chains.at[element]
	if c.Adds {
		if math.Abs(s.amps) < 1e-4 { // a contact between may be open
			return nil, 0
		}
		return s, at
	}
	for _, e := range b.chains.list[key.chain][min(at, s.at) : max(at, s.at)+1] {
		if !plain(b.r.States[b.state].Network.Elements[e].Kind) {
			return nil, 0
		}
	}
	return s, at
}

// remember keeps what was solved at a place of a chain, for the rest of it.
func (b *Bench) remember(c *cause.Cause, ohms float64, reading network.Reading, seen *Seen, part float64) {
	element, key, ok := b.inChain(c, ohms)
	st := &b.r.States[b.state]
	if !ok || len(b.chains.list[key.chain]) < 2 || seen.Buzz || seen.Lost || len(seen.Blown) > 0 || !plain(st.Network.Elements[element].Kind) {
		return
	}
	s := &solvedAt{at: b.chains.at[element], volts: slices.Clone(b.now), seen: seen, load: c.Load, part: part, costs: c.Costs}
	f := c.Cuts[0]
	var x, y harness.TerminalID
	if f.Wire != harness.None {
		x, y, s.amps = b.h.Wires[f.Wire].From, b.h.Wires[f.Wire].To, reading.WireAmps(f.Wire)
	} else {
		x, y, s.amps = b.h.Elements[f.Element].A, b.h.Elements[f.Element].B, reading.Amps(f.Element)
	}
	if s.before, s.after = reading.Volts(x), reading.Volts(y); b.chains.turned[element] {
		s.before, s.after, s.amps = s.after, s.before, -s.amps
	}
	b.solved[key] = s
}

// moved gives what is seen with the fault at another place of its chain than where it was
// solved.
func (b *Bench) moved(c *cause.Cause, ohms float64, s *solvedAt, at int) *Seen {
	out := &Seen{sound: b.sound.sound, Dead: s.seen.Dead, Weak: s.seen.Weak, Extra: s.seen.Extra}
	_, key, _ := b.inChain(c, ohms)
	copy(b.now, s.volts)
	for i, t := range b.points {
		node := b.r.States[b.state].Of[t]
		if node < 0 || b.chains.nodeIn[node] != key.chain {
			continue
		}
		switch k := b.chains.nodeAt[node]; {
		case k >= s.at && k < at && c.Adds:
			b.now[i] += s.amps * ohms
		case k >= at && k < s.at && c.Adds:
			b.now[i] -= s.amps * ohms
		case k >= s.at && k < at:
			b.now[i] = s.before
		case k >= at && k < s.at:
			b.now[i] = s.after
		}
	}
	b.volts(out)
	if b.state == c.State {
		b.shown(out, c)
	}
	return out
}
