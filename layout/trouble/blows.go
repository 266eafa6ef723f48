package trouble

import (
	"cmp"
	"slices"
	"strings"

	"example.com/loomfolio/layout/cause"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/unit"
)

// What blows a fuse does so in those states in which it hangs behind the fuse: with what switched on
// the fuse blows parts twenty suspects into a few.
//
// Method: in each state terminals hang together over wires, joints, fuses and closed contacts; what hangs
// on a fuse without its being there, away from the sources, is behind it.

// reach are by TerminalID those that hang together.
type reach []bool

// behind is by fuse and state what hangs behind it, nil where the fuse is not fed.
type behind map[harness.ElementID][]reach

// ways finds what hangs together in a state.
type ways struct {
	a     page.Ask
	next  [][]harness.TerminalID // by TerminalID; without the elements
	elems []harness.Element      // that conduct
}

func waysOf(a page.Ask) ways {
	w := ways{a: a, next: make([][]harness.TerminalID, len(a.H.Terminals))}
	for _, x := range a.H.Wires {
		w.next[x.From], w.next[x.To] = append(w.next[x.From], x.To), append(w.next[x.To], x.From)
	}
	for _, e := range a.H.Elements {
		switch {
		case e.Kind == harness.Join, e.Kind == harness.Contact, e.Kind == harness.FuseLink, e.Kind == harness.Resistance && e.Ohms < strapOhms:
			w.elems = append(w.elems, e)
		}
	}
	return w
}

// strapOhms is below what a resistance is metal: a strap, not a resistor.
const strapOhms unit.Ohm = 0.05

// closed tells whether an element conducts in a state.
func (w ways) closed(state int, c harness.Condition) bool {
	s := w.a.H.States[state]
	switch c.Kind {
	case harness.InPosition:
		return slices.Contains(c.Positions, s.Position[c.Switch])
	case harness.Energised:
		return w.a.R.States[state].Energised[c.Coil]
	case harness.Released:
		return !w.a.R.States[state].Energised[c.Coil]
	case harness.EngineIs:
		return slices.Contains(c.Engines, s.Engine)
	}
	return true
}

// links are by TerminalID the terminals that elements join it to in a state.
func (w ways) links(state int, without harness.ElementID) [][]harness.TerminalID {
	out := make([][]harness.TerminalID, len(w.next))
	for _, e := range w.elems {
		if e.ID != without && w.closed(state, e.When) {
			out[e.A], out[e.B] = append(out[e.A], e.B), append(out[e.B], e.A)
		}
	}
	return out
}

// from is what hangs on some terminals.
func (w ways) from(links [][]harness.TerminalID, start ...harness.TerminalID) reach {
	seen := make(reach, len(w.next))
	open := slices.Clone(start)
	for len(open) > 0 {
		t := open[len(open)-1]
		open = open[:len(open)-1]
		if seen[t] {
			continue
		}
		seen[t] = true
		open = append(append(open, w.next[t]...), links[t]...)
	}
	return seen
}

// fed tells whether a source hangs on a reach.
func (w ways) fed(r reach) bool {
	return slices.ContainsFunc(w.a.H.Elements, func(e harness.Element) bool {
		return e.Gives() && (r[e.A] || r[e.B])
	})
}

// beyond is what is behind a fuse in a state; nil where the fuse is not fed.
func (w ways) beyond(fuse harness.ElementID, state int) reach {
	e, links := w.a.H.Elements[fuse], w.links(state, fuse)
	a, b := w.from(links, e.A), w.from(links, e.B)
	switch fedA, fedB := w.fed(a), w.fed(b); {
	case fedA && fedB:
		for t := range a {
			a[t] = a[t] || b[t]
		}
		return a
	case fedA:
		return b
	case fedB:
		return a
	}
	return nil
}

// behindOf is what is behind the fuses that faults blow.
func behindOf(a page.Ask) behind {
	out := behind{}
	w := waysOf(a)
	for _, f := range a.R.Proof.Faults {
		for _, fuse := range f.Blown {
			if out[fuse] != nil || len(a.R.States) < len(a.H.States) {
				continue
			}
			for s := range a.H.States {
				out[fuse] = append(out[fuse], w.beyond(fuse, s))
			}
		}
	}
	return out
}

// sides are the terminals between which a fault lets current through: the second None for ground.
func (t teller) sides(f *proof.Fault) (one, other harness.TerminalID, ok bool) {
	name, _, _ := strings.Cut(f.ID, ":")
	a, b, pair := strings.Cut(name, "~")
	switch {
	case pair:
		one, ok = t.metal(a)
		if other, pair = t.metal(b); !pair {
			ok = false
		}
		return one, other, ok
	case f.Wire != harness.None:
		return t.H.Wires[f.Wire].From, harness.None, true
	}
	e, ok := t.ElementNamed(f.Element)
	return e.A, e.B, ok
}

// metal is a terminal of a wire, or of a plug's cavity.
func (t teller) metal(name string) (harness.TerminalID, bool) {
	for _, w := range t.H.Wires {
		if w.Name == name {
			return w.From, true
		}
	}
	for i := range t.H.Terminals {
		if id := harness.TerminalID(i); t.say.Terminal(id) == name {
			return id, true
		}
	}
	return harness.None, false
}

// blowsIn are the states in which a fault blows a fuse, and all in which that is fed; the fault's own
// alone where it cannot be told.
func (t teller) blowsIn(f *proof.Fault, fuse harness.ElementID) (in, fed []int) {
	one, other, ok := t.sides(f)
	for s, r := range t.behind[fuse] {
		if r == nil {
			continue
		}
		fed = append(fed, s)
		if ok && r[one] != (other != harness.None && r[other]) {
			in = append(in, s)
		}
	}
	if len(in) == 0 {
		in = []int{f.State}
	}
	return in, fed
}

// blownAt is the fuse of a point; where it is at none that faults blow, the first that a fault blows.
func (t teller) blownAt(f *proof.Fault, point int) harness.ElementID {
	for i := range t.H.Elements {
		if id := harness.ElementID(i); t.behind[id] != nil && atFuse(t.Ask, id, point) {
			return id
		}
	}
	return f.Blown[0]
}

// leastParted is from how many things on that may have blown a fuse they are parted.
const leastParted = 8

// spells part the faults that blow the fuse of a point by the states in which they do: what blows it at
// once first. Where all do in the same, or they are few, nothing is said of it.
func (t teller) spells(point int, faults []int) []cause.Spell {
	var sets [][]int
	var of []int
	for _, f := range faults {
		x := &t.R.Proof.Faults[f]
		in, fed := t.blowsIn(x, t.blownAt(x, point))
		if len(in) == len(fed) {
			in = nil
		}
		at := slices.IndexFunc(sets, func(s []int) bool { return slices.Equal(s, in) })
		if at < 0 {
			at = len(sets)
			sets = append(sets, in)
		}
		of = append(of, at)
	}
	if len(sets) < 2 || len(faults) < leastParted {
		return []cause.Spell{{Faults: faults}}
	}
	var out []cause.Spell
	for i, f := range faults {
		when := t.spelled(sets[of[i]], sets)
		at := slices.IndexFunc(out, func(s cause.Spell) bool { return s.When == when })
		if at < 0 {
			at = len(out)
			out = append(out, cause.Spell{When: when})
		}
		out[at].Faults = append(out[at].Faults, f)
	}
	if i := slices.IndexFunc(out, func(s cause.Spell) bool { return s.When == atOnce }); i > 0 {
		out = slices.Concat(out[i:i+1], out[:i], out[i+1:])
	}
	return out
}

// atOnce is said of what blows a fuse as soon as it is fed.
const atOnce = "at once"

// spelled names a set of states by the one that is in fewest of the sets: with the engine off if it can be, and least on.
func (t teller) spelled(in []int, sets [][]int) string {
	if in == nil {
		return atOnce
	}
	best := slices.MinFunc(in, func(x, y int) int {
		return cmp.Or(cmp.Compare(sharing(sets, x), sharing(sets, y)), order(engineOf(t.Ask, x))-order(engineOf(t.Ask, y)), cmp.Compare(t.on(x), t.on(y)))
	})
	return "in " + page.Firm(t.H.States[best].Name)
}

// sharing is how many sets have a state.
func sharing(sets [][]int, state int) int {
	n := 0
	for _, s := range sets {
		if slices.Contains(s, state) {
			n++
		}
	}
	return n
}

// on is how many loads are on in a state.
func (t teller) on(state int) int {
	n := 0
	for _, l := range t.R.Loads {
		if slices.Contains(l.On, t.H.States[state].Name) {
			n++
		}
	}
	return n
}
