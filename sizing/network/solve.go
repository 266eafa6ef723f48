package network

import (
	"fmt"
	"math"

	"example.com/loomfolio/sizing/circuit"
	"example.com/loomfolio/sizing/harness"
)

// Solve solves the harness in one of its states. The error says which value
// cannot be solved with (a wire without resistance), or that no rest was found.
func Solve(h *harness.Harness, state int, r Resistances, o Options) (State, error) {
	if state < 0 || state >= len(h.States) {
		return State{}, fmt.Errorf("network: there is no state %d", state)
	}
	b := &builder{h: h, state: &h.States[state], r: r, o: o}
	n, err := b.build()
	if err != nil {
		return State{}, err
	}
	solution, err := circuit.Solve(n)
	if err != nil {
		return State{}, fmt.Errorf("state %s: %w", h.States[state].Name, err)
	}
	s := State{
		Name: h.States[state].Name, Index: state, Residual: solution.Residual,
		Network: n, Solution: solution, NodeNames: b.names, Of: b.of,
		WireAt: b.wireAt, ElementAt: b.elementAt,
	}
	b.byTerminal(&s)
	b.byElement(&s)
	b.joins(&s)
	s.Elements = b.printed(&s)
	return s, nil
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
	chatters := map[int]bool{}
	for _, at := range s.Solution.Chatter {
		chatters[at] = true
	}
	for e, at := range b.elementAt {
		if at < 0 {
			continue
		}
		s.Amps[e], s.Energised[e] = s.Solution.Amps[at], s.Solution.Energised[at]
		if chatters[at] {
			s.Chatter = append(s.Chatter, harness.ElementID(e))
		}
	}
}

// joins gives each join that made a node the current through it: what comes in
// at the terminals on its A side. A join that closes a ring of joins is given
// none, since nothing says how the current parts there.
func (b *builder) joins(s *State) {
	into := b.into(s)
	at := map[harness.TerminalID][]harness.ElementID{}
	for _, id := range b.nodes.tree {
		e := &b.h.Elements[id]
		at[e.A] = append(at[e.A], id)
		at[e.B] = append(at[e.B], id)
	}
	done := map[harness.ElementID]bool{}
	left := map[harness.TerminalID]int{}
	var leaves []harness.TerminalID
	for t := range b.h.Terminals {
		t := harness.TerminalID(t)
		left[t] = len(at[t])
		if left[t] == 1 {
			leaves = append(leaves, t)
		}
	}
	for len(leaves) > 0 {
		t := leaves[0]
		leaves = leaves[1:]
		for _, id := range at[t] {
			if done[id] {
				continue
			}
			done[id] = true
			other := b.passOn(s, id, t, into[t])
			into[other] += into[t]
			if left[other]--; left[other] == 1 {
				leaves = append(leaves, other)
			}
		}
	}
}

// passOn notes the current that a join takes away from one of its ends, and
// gives the other end.
func (b *builder) passOn(s *State, id harness.ElementID, from harness.TerminalID, amps float64) harness.TerminalID {
	e := &b.h.Elements[id]
	if e.A == from {
		s.Amps[id] = amps
		return e.B
	}
	s.Amps[id] = -amps
	return e.A
}

// into is the current that wires and elements bring to each terminal.
func (b *builder) into(s *State) []float64 {
	into := make([]float64, len(b.h.Terminals))
	for i, w := range b.h.Wires {
		into[w.From] -= s.WireAmps[i]
		into[w.To] += s.WireAmps[i]
	}
	for i, e := range b.h.Elements {
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
