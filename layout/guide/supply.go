package guide

import (
	"math"
	"slices"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/harness"
)

// leastAmps is the current below which a fuse counts as idle, A.
const leastAmps = 0.001

// sharedSupply tells whether a fuse is one of several supplies: in each state in which it
// carries current, all that it feeds stays joined to a battery without it, as with an
// alternator's charging fuse. When it is out nothing stops at once.
func sharedSupply(a page.Ask, f choose.Fuse) bool {
	carries := false
	for i := range a.R.States {
		if math.Abs(a.R.States[i].Amps[f.Element]) < leastAmps {
			continue
		}
		carries = true
		if cutsOff(a, i, f) {
			return false
		}
	}
	return carries
}

// cutsOff tells whether a load of the fuse stands on a side that reaches no post of
// a battery without it in a state.
func cutsOff(a page.Ask, state int, f choose.Fuse) bool {
	fuse := a.H.Elements[f.Element]
	next := conductors(a, state, f.Element)
	for _, side := range []harness.TerminalID{fuse.A, fuse.B} {
		seen := reach(next, side)
		live := slices.ContainsFunc(a.H.Elements, func(e harness.Element) bool {
			return e.Kind == harness.EMF && (seen[e.A] || seen[e.B])
		})
		if live {
			continue
		}
		for _, n := range f.Feeds {
			if e, ok := a.ElementNamed(n); ok && (seen[e.A] || seen[e.B]) {
				return true
			}
		}
	}
	return false
}

// conductors joins the terminals that wires and closed contacts connect in a state,
// by terminal, with one element taken out.
func conductors(a page.Ask, state int, without harness.ElementID) [][]harness.TerminalID {
	next := make([][]harness.TerminalID, len(a.H.Terminals))
	join := func(x, y harness.TerminalID) {
		next[x], next[y] = append(next[x], y), append(next[y], x)
	}
	for _, w := range a.H.Wires {
		join(w.From, w.To)
	}
	for _, e := range a.H.Elements {
		conducts := e.Kind == harness.Join || e.Kind == harness.Contact || e.Kind == harness.FuseLink
		if conducts && e.ID != without && closed(a, state, e.When) {
			join(e.A, e.B)
		}
	}
	return next
}

// closed tells whether a condition holds in a state.
func closed(a page.Ask, state int, c harness.Condition) bool {
	s := a.H.States[state]
	switch c.Kind {
	case harness.InPosition:
		return slices.Contains(c.Positions, s.Position[c.Switch])
	case harness.Energised:
		return a.R.States[state].Energised[c.Coil]
	case harness.Released:
		return !a.R.States[state].Energised[c.Coil]
	case harness.EngineIs:
		return slices.Contains(c.Engines, s.Engine)
	}
	return true
}

// reach is every terminal joined to one, by terminal.
func reach(next [][]harness.TerminalID, from harness.TerminalID) []bool {
	seen := make([]bool, len(next))
	seen[from] = true
	for queue := []harness.TerminalID{from}; len(queue) > 0; queue = queue[1:] {
		for _, t := range next[queue[0]] {
			if !seen[t] {
				seen[t] = true
				queue = append(queue, t)
			}
		}
	}
	return seen
}
