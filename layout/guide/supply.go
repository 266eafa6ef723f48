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

// withoutFuse gives the loads that lose their supply when a fuse is out: those
// that it feeds, save what stays joined to the same post of a battery in each
// state in which the fuse works. shared tells that nothing is cut off at all, as
// with an alternator's charging fuse: the loads are then all that it feeds.
func withoutFuse(a page.Ask, f choose.Fuse) (loads []string, shared bool) {
	var fed []harness.Element
	for _, n := range f.Feeds {
		if e, ok := a.ElementNamed(n); ok {
			fed = append(fed, e)
		}
	}
	kept, fallen, lost, carries := make([]bool, len(fed)), make([]bool, len(fed)), make([]bool, len(fed)), false
	for i := range a.R.States {
		if math.Abs(a.R.States[i].Amps[f.Element]) < leastAmps {
			continue
		}
		carries = true
		c := opened(a, i, f)
		for k, e := range fed {
			kept[k] = kept[k] || c.keeps(e)
			fallen[k] = fallen[k] || c.drops(e)
			lost[k] = lost[k] || c.loses(e)
		}
	}
	if !carries {
		return f.Feeds, false
	}
	if !slices.Contains(lost, true) {
		return f.Feeds, true
	}
	for k, e := range fed {
		if !kept[k] || fallen[k] {
			loads = append(loads, e.Name)
		}
	}
	return loads, false
}

// cut is a state of the harness with one fuse taken out, by terminal.
type cut struct {
	sound []bool // joined to the post that the fuse leads to, with the fuse
	still []bool // joined to such a post without it
	dark  []bool // on a side of the fuse that reaches no battery without it
}

// keeps tells whether an element stays joined to the post; one that was not
// joined before, being off or in series with another, tells nothing.
func (c cut) keeps(e harness.Element) bool { return c.still[e.A] || c.still[e.B] }

// drops tells whether an element was joined to the post and is so no more.
func (c cut) drops(e harness.Element) bool {
	return (c.sound[e.A] || c.sound[e.B]) && !c.keeps(e)
}

func (c cut) loses(e harness.Element) bool { return c.dark[e.A] || c.dark[e.B] }

// opened takes a fuse out in a state.
func opened(a page.Ask, state int, f choose.Fuse) cut {
	fuse := a.H.Elements[f.Element]
	whole, open := conductors(a, state, harness.None), conductors(a, state, f.Element)
	c := cut{sound: reach(whole, fuse.A)}
	c.still, c.dark = make([]bool, len(open)), make([]bool, len(open))
	for _, e := range a.H.Elements {
		for _, post := range []harness.TerminalID{e.A, e.B} {
			if e.Kind == harness.EMF && c.sound[post] {
				mark(c.still, reach(open, post))
			}
		}
	}
	for _, side := range []harness.TerminalID{fuse.A, fuse.B} {
		if !c.still[side] {
			mark(c.dark, reach(open, side))
		}
	}
	return c
}

func mark(all, more []bool) {
	for i, m := range more {
		all[i] = all[i] || m
	}
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
