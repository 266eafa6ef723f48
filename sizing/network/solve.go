package network

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/circuit"
	"example.com/loomfolio/sizing/harness"
)

// Solve solves the harness in one of its states. The error says which value
// cannot be solved with (a wire without resistance), or that no rest was found.
// Where a state is solved more than once, Prepare is quicker.
func Solve(h *harness.Harness, state int, r Resistances, o Options) (State, error) {
	p, err := Prepare(h, state, r, o)
	if err != nil {
		return State{}, err
	}
	return p.Solve()
}

// Resistances are the ohms that a state was solved with.
func (s *State) Resistances() Resistances {
	r := Resistances{Wires: make([]float64, len(s.WireAt)), Links: make([]float64, len(s.ElementAt))}
	for w, at := range s.WireAt {
		r.Wires[w] = s.Network.Elements[at].Ohms
	}
	for e, at := range s.ElementAt {
		if at >= 0 {
			r.Links[e] = s.Network.Elements[at].Ohms
		}
	}
	return r
}

// stateOf gives a solution back by terminal, element and wire.
func (b *builder) stateOf(n circuit.Network, solution circuit.Solution) State {
	s := State{
		Name: b.state.Name, Index: b.index, Residual: solution.Residual,
		Network: n, Solution: solution, NodeNames: b.names, Of: b.of,
		WireAt: b.wireAt, ElementAt: b.elementAt,
	}
	b.byTerminal(&s)
	b.byElement(&s)
	b.joins(&s)
	b.addBeside(&s)
	s.Elements = b.printed(&s)
	return s
}

func (b *builder) byTerminal(s *State) {
	s.Volts = make([]float64, len(b.of))
	for t, node := range b.of {
		s.Volts[t] = math.NaN()
		if node >= 0 {
			s.Volts[t] = s.Solution.Volts[node]
		}
	}
}

func (b *builder) byElement(s *State) {
	s.WireAmps = make([]float64, len(b.wireAt))
	for w, at := range b.wireAt {
		s.WireAmps[w] = s.Solution.Amps[at]
	}
	s.Amps = make([]float64, len(b.elementAt))
	s.Energised = make([]bool, len(b.elementAt))
	for e, at := range b.elementAt {
		if at < 0 {
			continue
		}
		s.Amps[e], s.Energised[e] = s.Solution.Amps[at], s.Solution.Energised[at]
		if slices.Contains(s.Solution.Chatter, at) {
			s.Chatter = append(s.Chatter, harness.ElementID(e))
		}
	}
}

// pass is a join that takes on all that comes in at one of its ends, which is
// its A or its B.
type pass struct {
	join     harness.ElementID
	from, to harness.TerminalID
	fromA    bool
}

// joins gives each join that made a node the current through it: what comes in
// at the terminals on its A side. A join that closes a ring of joins is given
// none, since nothing says how the current parts there.
func (b *builder) joins(s *State) {
	into := b.into(s)
	for _, p := range b.passing {
		amps := into[p.from]
		into[p.to] += amps
		if !p.fromA {
			amps = -amps
		}
		s.Amps[p.join] = amps
	}
}

// orderJoins finds the order of the joins, from the outermost terminals inwards.
func (b *builder) orderJoins() {
	at := make([][]harness.ElementID, len(b.h.Terminals))
	for _, id := range b.nodes.tree {
		e := &b.h.Elements[id]
		at[e.A] = append(at[e.A], id)
		at[e.B] = append(at[e.B], id)
	}
	done := make([]bool, len(b.h.Elements))
	left := make([]int, len(b.h.Terminals))
	var leaves []harness.TerminalID
	for t := range at {
		if left[t] = len(at[t]); left[t] == 1 {
			leaves = append(leaves, harness.TerminalID(t))
		}
	}
	for ; len(leaves) > 0; leaves = leaves[1:] {
		for _, id := range at[leaves[0]] {
			if done[id] {
				continue
			}
			done[id] = true
			p := b.passFrom(id, leaves[0])
			b.passing = append(b.passing, p)
			if left[p.to]--; left[p.to] == 1 {
				leaves = append(leaves, p.to)
			}
		}
	}
}

func (b *builder) passFrom(id harness.ElementID, from harness.TerminalID) pass {
	e := &b.h.Elements[id]
	if e.A == from {
		return pass{id, from, e.B, true}
	}
	return pass{id, from, e.A, false}
}

// into is the current that wires and elements bring to each terminal.
func (b *builder) into(s *State) []float64 {
	into := make([]float64, len(b.h.Terminals))
	for i := range b.h.Wires {
		w := &b.h.Wires[i]
		into[w.From] -= s.WireAmps[i]
		into[w.To] += s.WireAmps[i]
	}
	for i := range b.h.Elements {
		e := &b.h.Elements[i]
		into[e.A] -= s.Amps[i]
		into[e.B] += s.Amps[i]
	}
	return into
}

// printed lists the elements as they stand in the solution.
func (b *builder) printed(s *State) []Printed {
	out := make([]Printed, len(b.elements))
	for i, e := range b.elements {
		p := Printed{Name: e.Name, A: b.names[e.A], B: b.names[e.B], Note: b.notes[i]}
		switch f := s.Solution.Frozen[i]; f.Form {
		case circuit.IsResistance:
			p.Kind, p.Value = "resistance", f.Ohms
		case circuit.IsCurrent:
			p.Kind, p.Value = "current", f.Amps
		case circuit.IsVoltage:
			p.Kind, p.Value, p.Ohms = "voltage", f.Volts, f.Ohms
		default:
			p.Kind = "open"
		}
		out[i] = p
	}
	return out
}
