package fault

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
)

// leastAmps is the current below which a fuse counts as idle, A.
const leastAmps = 0.001

// withoutFuse gives the loads that lose their supply when a fuse is out: those
// that it feeds, save what stays joined to the same post of a battery in each
// state in which the fuse works. shared tells that nothing is cut off at all, as
// with an alternator's charging fuse: the loads are then all that it feeds.
func (v *vehicle) withoutFuse(states []joins, f chosen.Fuse) (loads []string, shared bool) {
	var fed []harness.Element
	for _, n := range f.Feeds {
		if id, ok := v.named[n]; ok {
			fed = append(fed, v.h.Elements[id])
		}
	}
	kept, fallen, lost, carries := make([]bool, len(fed)), make([]bool, len(fed)), make([]bool, len(fed)), false
	for i := range v.States {
		if math.Abs(v.States[i].Amps[f.Element]) < leastAmps {
			continue
		}
		carries = true
		c := states[i].without(v.h.Elements[f.Element])
		for k, e := range fed {
			ends := v.ends(states[i], e)
			kept[k] = kept[k] || c.keeps(ends)
			fallen[k] = fallen[k] || c.drops(ends)
			lost[k] = lost[k] || c.loses(ends)
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

// cut is a state of the harness with one fuse taken out: the fuse's island falls
// into the terminals that the search reached through the fuse, and the rest, where
// no other way joins the two.
type cut struct {
	joins
	island [2]int  // of the fuse's two sides; the same where it conducts
	beyond span    // what was reached through the fuse; empty where another way joins its sides
	fed    [2]bool // whether a post of a battery is left on the island: outside beyond, and within
}

// still tells whether a terminal is joined, without the fuse, to a post that the fuse led to.
func (c cut) still(t harness.TerminalID) bool {
	if c.in[t] != c.island[0] {
		return false
	}
	if c.beyond.holds(c.met[t]) {
		return c.fed[1]
	}
	return c.fed[0]
}

// dark tells whether a terminal is on a side of the fuse that reaches no battery without it.
func (c cut) dark(t harness.TerminalID) bool {
	return (c.in[t] == c.island[0] || c.in[t] == c.island[1]) && !c.still(t)
}

// ends are the terminals by which an element hangs on the rest: its own, and where the
// metal that one lies on reaches no battery, those on the other side of the diodes that
// let current into it.
type ends [2][]harness.TerminalID

func (v *vehicle) ends(j joins, e harness.Element) ends {
	return ends{v.through(j, e.A, 0), v.through(j, e.B, 0)}
}

// mostDiodes is how many diodes in a row are followed.
const mostDiodes = 3

func (v *vehicle) through(j joins, t harness.TerminalID, depth int) []harness.TerminalID {
	out := []harness.TerminalID{t}
	if depth == mostDiodes || j.postsIn(j.islands[j.in[t]]) > 0 {
		return out
	}
	for _, d := range v.diodes {
		if e := &v.h.Elements[d]; j.in[e.B] == j.in[t] && j.in[e.A] != j.in[t] {
			out = append(out, v.through(j, e.A, depth+1)...)
		}
	}
	return out
}

// keeps tells whether an element stays joined to the post; one that was not
// joined before, being off or in series with another, tells nothing.
func (c cut) keeps(e ends) bool {
	return slices.ContainsFunc(e[0], c.still) || slices.ContainsFunc(e[1], c.still)
}

// drops tells whether an element was joined to the post and is so no more.
func (c cut) drops(e ends) bool {
	on := func(t harness.TerminalID) bool { return c.in[t] == c.island[0] }
	return (slices.ContainsFunc(e[0], on) || slices.ContainsFunc(e[1], on)) && !c.keeps(e)
}

// loses tells whether one of an element's ends is dark, by whatever way it is reached.
func (c cut) loses(e ends) bool {
	gone := func(list []harness.TerminalID) bool {
		return slices.ContainsFunc(list, c.dark) && !slices.ContainsFunc(list, c.still)
	}
	return gone(e[0]) || gone(e[1])
}

// unfed are the spans of the island that reach no battery any more; none where nothing
// on it reached one before.
func (c cut) unfed() []span {
	all := c.islands[c.island[0]]
	switch {
	case c.fed[0] && !c.fed[1]:
		return []span{c.beyond}
	case c.fed[1] && !c.fed[0]:
		return []span{{all.from, c.beyond.from}, {c.beyond.to, all.to}}
	}
	return nil
}

// without takes a fuse out.
func (j joins) without(fuse harness.Element) cut {
	c := cut{joins: j, island: [2]int{j.in[fuse.A], j.in[fuse.B]}}
	if b, ok := j.bridges[fuse.ID]; ok {
		c.beyond = b
	}
	all, within := j.islands[c.island[0]], c.beyond
	n := j.postsIn(within)
	c.fed = [2]bool{j.postsIn(all) > n, n > 0}
	return c
}

// closed tells whether a condition holds in a state.
func (v *vehicle) closed(state int, c harness.Condition) bool {
	s := v.h.States[state]
	switch c.Kind {
	case harness.InPosition:
		return slices.Contains(c.Positions, s.Position[c.Switch])
	case harness.Energised:
		return v.States[state].Energised[c.Coil]
	case harness.Released:
		return !v.States[state].Energised[c.Coil]
	case harness.EngineIs:
		return slices.Contains(c.Engines, s.Engine)
	}
	return true
}
