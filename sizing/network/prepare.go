package network

import (
	"fmt"
	"iter"
	"math"
	"slices"

	"example.com/loomfolio/sizing/circuit"
	"example.com/loomfolio/sizing/harness"
)

// Prepared is the harness in one state with its structure worked out, for
// solving it more than once: with other resistances, or with faults. It may be
// used by several goroutines at once. The harness must not be changed meanwhile.
type Prepared struct {
	b       *builder
	network circuit.Network
	circuit *circuit.Prepared
}

// Prepare works out the structure of the harness in one of its states. The
// error says which value cannot be solved with.
func Prepare(h *harness.Harness, state int, r Resistances, o Options) (*Prepared, error) {
	if state < 0 || state >= len(h.States) {
		return nil, fmt.Errorf("network: there is no state %d", state)
	}
	b := &builder{h: h, state: &h.States[state], index: state, r: r, o: o}
	n, err := b.build()
	if err != nil {
		return nil, err
	}
	b.orderJoins()
	p, err := circuit.Prepare(n)
	if err != nil {
		return nil, b.named(err)
	}
	return b.settled(&Prepared{b: b, network: n, circuit: p})
}

// named says in which state an error arose.
func (b *builder) named(err error) error {
	return fmt.Errorf("state %s: %w", b.state.Name, err)
}

// Solve solves the state with the resistances that it was prepared with.
func (p *Prepared) Solve() (State, error) {
	s, err := p.circuit.Solve()
	if err != nil {
		return State{}, p.b.named(err)
	}
	return p.b.stateOf(p.network, s), nil
}

// With is the same state with other resistances. The structure is shared, and
// its solving starts from what was found with those of p; the answer is that of
// Solve with them, within the residual.
func (p *Prepared) With(r Resistances) (*Prepared, error) {
	if err := r.check(p.b.h); err != nil {
		return nil, err
	}
	b := *p.b
	b.r = r
	c, err := p.circuit.With(b.newOhms())
	if err != nil {
		return nil, b.named(err)
	}
	n := c.Network()
	b.elements = n.Elements
	return b.settled(&Prepared{b: &b, network: n, circuit: c})
}

// newOhms gives the resistance of each element of the network that may have
// another one than before, 0 for the rest.
func (b *builder) newOhms() []float64 {
	ohms := make([]float64, len(b.elements))
	for w, at := range b.wireAt {
		ohms[at] = b.r.Wires[w]
	}
	for i, at := range b.elementAt {
		if e := &b.h.Elements[i]; at >= 0 && e.Kind != harness.Load {
			law, _ := b.law(e)
			ohms[at] = law.Ohms
		}
	}
	return ohms
}

// Fault is a wire or an element that has another resistance than it should;
// a coil that is replaced so moves nothing.
type Fault struct {
	Wire    harness.WireID    // harness.None where an element is at fault
	Element harness.ElementID // heeded only where Wire is None
	Bridge  int               // an index into Options.Bridges, heeded only where Wire and Element are None
	Ohms    float64           // +Inf: open
}

// Reading is the state with a fault, for reading what is of interest. It holds
// until the next fault is tried.
type Reading struct {
	Residual float64 // A
	b        *builder
	solution *circuit.Solution
}

// Volts is a terminal's voltage against the reference, NaN where it floats.
func (r Reading) Volts(t harness.TerminalID) float64 {
	if node := r.b.of[t]; node >= 0 {
		return r.solution.Volts[node]
	}
	return math.NaN()
}

// WireAmps is a wire's current, From to To.
func (r Reading) WireAmps(w harness.WireID) float64 { return r.solution.Amps[r.b.wireAt[w]] }

// Amps is an element's current, A to B; 0 for a join that is a node, and for
// what is left out in this state.
func (r Reading) Amps(e harness.ElementID) float64 {
	if at := r.b.elementAt[e]; at >= 0 {
		return r.solution.Amps[at]
	}
	return 0
}

// Energised tells whether a coil holds.
func (r Reading) Energised(e harness.ElementID) bool {
	at := r.b.elementAt[e]
	return at >= 0 && r.solution.Energised[at]
}

// Chatters tells whether any coil finds no rest.
func (r Reading) Chatters() bool { return len(r.solution.Chatter) > 0 }

// Faults tries faults one after another in a state. One Faults must not be used
// by several goroutines at once; each may have its own.
type Faults struct {
	p      *Prepared
	faults *circuit.Faults
	at     []circuit.Fault
}

// Faults makes ready for trying faults. The error is that of the sound state.
func (p *Prepared) Faults() (*Faults, error) {
	f, err := p.circuit.Faults()
	if err != nil {
		return nil, p.b.named(err)
	}
	return &Faults{p: p, faults: f}, nil
}

// Try solves the state with these faults at once; without any it is sound. The
// answer is that of solving the faulty harness from nothing, within the
// residual. The error names a fault that is not part of the network in this
// state (an open switch, a join that is a node), or that no rest was found.
func (f *Faults) Try(faults ...Fault) (Reading, error) {
	f.at = f.at[:0]
	for _, fault := range faults {
		at, err := f.p.b.faultAt(fault)
		if err != nil {
			return Reading{}, err
		}
		f.at = append(f.at, circuit.Fault{Element: at, Ohms: fault.Ohms})
	}
	s, err := f.faults.Try(f.at...)
	if err != nil {
		return Reading{}, f.p.b.named(err)
	}
	return Reading{Residual: s.Residual, b: f.p.b, solution: s}, nil
}

// Each tries every fault of a list alone and gives the readings in order.
// Where one cannot be tried, the reading is empty and the error given beside it.
func (f *Faults) Each(list []Fault) iter.Seq2[Reading, error] {
	return func(yield func(Reading, error) bool) {
		for _, fault := range list {
			if !yield(f.Try(fault)) {
				return
			}
		}
	}
}

// faultAt finds the element of the network that a fault replaces.
func (b *builder) faultAt(f Fault) (int, error) {
	switch {
	case f.Wire >= 0 && int(f.Wire) < len(b.wireAt):
		return b.wireAt[f.Wire], nil
	case f.Wire != harness.None:
		return 0, fmt.Errorf("network: there is no wire %d", f.Wire)
	case f.Element == harness.None:
		return b.bridge(f.Bridge)
	case f.Element < 0 || int(f.Element) >= len(b.elementAt):
		return 0, fmt.Errorf("network: there is no element %d", f.Element)
	case b.elementAt[f.Element] < 0:
		return 0, fmt.Errorf("network: %s is no element of the network in state %s", b.h.Elements[f.Element].Name, b.state.Name)
	}
	return b.elementAt[f.Element], nil
}

// bridge finds the element that a fault closes.
func (b *builder) bridge(i int) (int, error) {
	switch {
	case i < 0 || i >= len(b.bridgeAt):
		return 0, fmt.Errorf("network: there is no bridge %d", i)
	case b.bridgeAt[i] < 0:
		return 0, fmt.Errorf("network: bridge %d joins what is one node in state %s", i, b.state.Name)
	}
	return b.bridgeAt[i], nil
}

// Broken is the whole state with faults, for its netlist and for all its currents. The
// errors are those of Faults.Try.
func (p *Prepared) Broken(faults ...Fault) (State, error) {
	n := p.network
	n.Elements = slices.Clone(n.Elements)
	for _, f := range faults {
		at, err := p.b.faultAt(f)
		if err != nil {
			return State{}, err
		}
		n.Elements[at].Kind, n.Elements[at].Ohms = circuit.Resistor, f.Ohms
		for i := range n.Elements { // what follows a replaced coil stays as when it is released
			if e := &n.Elements[i]; e.Kind == circuit.Contact && e.Control == at {
				e.Kind, e.Ohms = circuit.Resistor, released(e)
			}
		}
	}
	s, err := circuit.Solve(n)
	if err != nil {
		return State{}, p.b.named(err)
	}
	return p.b.stateOf(n, s), nil
}

// released is the resistance of a contact whose coil is released.
func released(e *circuit.Element) float64 {
	if e.Breaks {
		return e.Ohms
	}
	return math.Inf(1)
}
