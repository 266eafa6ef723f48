package live

import (
	"fmt"
	"math"
	"slices"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/proof"
)

// column is what is solved beside the declared states.
type column struct {
	name  string
	state harness.State
	like  int // the state whose resistances it takes
	off   []harness.ElementID
}

// mostKeyed is how many columns tell what works with the key off, and is in no state.
const mostKeyed = 6

// columns lists them: each isolator open with the engine turning, the batteries off the
// loom with the engine turning, and with the key off each switch that turns something on.
func (t *table) columns() []column {
	var out []column
	if run := t.fullestRunning(); run >= 0 {
		for i := range t.h.Parts {
			if p := &t.h.Parts[i]; p.Kind == harness.Isolator {
				out = t.isolated(out, p, run)
			}
		}
		if batteries := t.of(harness.EMF); len(batteries) > 0 && len(t.of(harness.Charger)) > 0 {
			out = append(out, column{"battery off, " + t.h.States[run].Name, t.h.States[run], run, batteries})
		}
	}
	return t.keyedOff(out)
}

// isolated adds the column of an isolator open while the engine turns.
func (t *table) isolated(out []column, p *harness.Part, run int) []column {
	open := t.h.Opened(p)
	if open < 0 {
		return out
	}
	s := with(t.h.States[run], p.ID, open)
	if t.declared(s) {
		return out
	}
	return append(out, column{fmt.Sprintf("%s %s, %s", p.Ref, p.Positions[open], s.Name), s, run, nil})
}

// with is a state with one part in another position.
func with(s harness.State, p harness.PartID, n int) harness.State {
	s.Position = slices.Clone(s.Position)
	s.Position[p] = n
	return s
}

func (t *table) declared(s harness.State) bool {
	return slices.ContainsFunc(t.h.States, func(o harness.State) bool {
		return o.Engine == s.Engine && slices.Equal(o.Position, s.Position)
	})
}

func (t *table) of(k harness.ElementKind) []harness.ElementID {
	var out []harness.ElementID
	for i := range t.h.Elements {
		if t.h.Elements[i].Kind == k {
			out = append(out, t.h.Elements[i].ID)
		}
	}
	return out
}

// fullestRunning is the state with the engine running in which the loads take most, -1 for none.
func (t *table) fullestRunning() int {
	best, most := -1, -1.0
	for i := range t.states {
		if t.h.States[i].Engine != harness.EngineRunning {
			continue
		}
		if sum := t.loads(&t.states[i]); sum > most {
			best, most = i, sum
		}
	}
	return best
}

// loads sums what all loads take in a state, A.
func (t *table) loads(st *network.State) float64 {
	sum := 0.0
	for i := range t.h.Elements {
		if a := math.Abs(st.Amps[i]); t.h.Elements[i].Kind == harness.Load && a > 0 {
			sum += a
		}
	}
	return sum
}

// keyedOff adds a column for each position of a switch that, with the key off and all else
// at rest, turns a load on.
func (t *table) keyedOff(out []column) []column {
	rest := t.resting()
	if rest < 0 {
		return out
	}
	base := t.loads(&t.states[rest])
	for i, n := 0, 0; i < len(t.h.Parts) && n < mostKeyed; i++ {
		p := &t.h.Parts[i]
		if p.Kind != harness.Switch || p.Momentary {
			continue
		}
		at := t.keyedAt(p, rest, base)
		if at < 0 {
			continue
		}
		s := with(t.h.States[rest], p.ID, at)
		out = append(out, column{fmt.Sprintf("%s %s, %s", p.Ref, p.Positions[at], s.Name), s, rest, nil})
		n++
	}
	return out
}

// keyedAt gives the position of a switch in which the loads take most with all else at
// rest, more than there by a tenth of an ampere; -1 for none, and where a state tells it.
func (t *table) keyedAt(p *harness.Part, rest int, base float64) int {
	at, most := -1, base+0.1
	for n := range p.Positions {
		s := with(t.h.States[rest], p.ID, n)
		if n == t.h.States[rest].Position[p.ID] || t.told(p.ID, n) {
			continue
		}
		st, err := t.solve(column{p.Ref, s, rest, nil})
		if err != nil {
			continue
		}
		if sum := t.loads(&st); sum > most {
			at, most = n, sum
		}
	}
	return at
}

// told tells that a declared state with the ignition off has a part in a position.
func (t *table) told(p harness.PartID, n int) bool {
	return slices.ContainsFunc(t.h.States, func(s harness.State) bool {
		return s.Engine == harness.EngineOff && s.Position[p] == n && t.keyOff(&s)
	})
}

func (t *table) keyOff(s *harness.State) bool {
	for i := range t.h.Parts {
		if t.h.Parts[i].Kind == harness.IgnitionSwitch && s.Position[i] != 0 {
			return false
		}
	}
	return true
}

// resting gives the state in which everything is at rest, isolators apart; -1 for none.
func (t *table) resting() int {
	return slices.IndexFunc(t.h.States, func(s harness.State) bool {
		for i, n := range s.Position {
			if n != 0 && t.h.Parts[i].Kind != harness.Isolator {
				return false
			}
		}
		return s.Engine == harness.EngineOff
	})
}

// solve solves a column.
func (t *table) solve(c column) (network.State, error) {
	h := *t.h
	h.States = []harness.State{c.state}
	var o network.Options
	for _, id := range c.off {
		o.Sources = append(o.Sources, network.Source{Element: id, Ohms: math.Inf(1)})
	}
	return network.Solve(&h, 0, t.states[c.like].Resistances(), o)
}

// fusesOut takes each fuse out in the state in which it carries most.
func (t *table) fusesOut(fuses []chosen.Fuse) error {
	ready := make([]*network.Faults, len(t.states))
	for i := range fuses {
		f := &fuses[i]
		s := slices.IndexFunc(t.states, func(st network.State) bool { return st.Name == f.State })
		if s < 0 {
			continue
		}
		if ready[s] == nil {
			p, err := network.Prepare(t.h, s, t.states[s].Resistances(), network.Options{})
			if err != nil {
				return err
			}
			if ready[s], err = p.Faults(); err != nil {
				return err
			}
		}
		out, err := ready[s].Try(network.Fault{Wire: harness.None, Element: f.Element, Ohms: math.Inf(1)})
		if err != nil {
			return err
		}
		t.without(f, s, t.stand(&pulled{t.h, &t.h.States[s], f.Element, out}, nil))
	}
	return nil
}

// without notes what differs with a fuse out, and what behind it stays live all the same.
func (t *table) without(f *chosen.Fuse, state int, now []proof.Lives) {
	w := proof.Without{Fuse: f.Element, State: state}
	behind := make([]bool, len(t.Nets))
	for _, id := range f.Wires {
		behind[t.net[t.h.Wires[id].From]] = true
	}
	for i, l := range now {
		if l != t.Nets[i].When[state] {
			w.Nets, w.Lives = append(w.Nets, i), append(w.Lives, l)
		}
		if behind[i] && (l == proof.Fed || l == proof.Behind) {
			w.Still = append(w.Still, i)
		}
	}
	t.Without = append(t.Without, w)
}
