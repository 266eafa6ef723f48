package fault

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/loomfolio/sizing/fault/way"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// Together folds the faults by what is seen of the loads: those that are dead, weak and on
// without being switched in a state, where they are more than one. Each fault stands once,
// in the fullest state: that in which most loads are on, of those in which all are on that
// it leaves dead or weak in its own; a bad joint stands in its own.
func (b *Book) Together() []proof.Together {
	g := groups{b: b, at: map[string]int{}, on: b.on()}
	for i := range b.faults {
		f := &b.faults[i]
		if len(f.Dead)+len(f.Weak)+len(f.Extra) < 2 {
			continue
		}
		state := f.State
		if f.Costs == 0 {
			state = g.fullest(f)
		}
		g.add(state, i, b.In(state, i))
	}
	return g.folded()
}

// on tells by state and ElementID which loads are on.
func (b *Book) on() [][]bool {
	out := make([][]bool, len(b.h.States))
	for s := range out {
		out[s] = make([]bool, len(b.h.Elements))
		for _, l := range b.r.Loads {
			out[s][l.Element] = slices.Contains(l.On, b.h.States[s].Name)
		}
	}
	return out
}

// groups are symptoms with the faults that have them.
type groups struct {
	b    *Book
	list []proof.Together
	at   map[string]int
	on   [][]bool
}

// fullest is the state in which a fault is told.
func (g *groups) fullest(f *proof.Fault) int {
	ill := slices.Concat(f.Dead, f.Weak)
	best, most := f.State, g.count(f.State)
	for s := range g.on {
		all := len(ill) > 0
		for _, l := range ill {
			all = all && g.on[s][l]
		}
		if n := g.count(s); all && n > most && way.Rank(g.b.h, s) > 0 {
			best, most = s, n
		}
	}
	return best
}

// count is how many loads are on in a state.
func (g *groups) count(state int) int {
	n := 0
	for _, on := range g.on[state] {
		if on {
			n++
		}
	}
	return n
}

// add enters a fault under its symptoms in a state.
func (g *groups) add(state, fault int, seen *Seen) {
	if seen.Lost || len(seen.Dead)+len(seen.Weak)+len(seen.Extra) < 2 {
		return
	}
	key := fmt.Sprint(state, seen.Dead, seen.Weak, seen.Extra)
	n, ok := g.at[key]
	if !ok {
		n = len(g.list)
		g.at[key] = n
		g.list = append(g.list, proof.Together{State: state, Dead: seen.Dead, Weak: seen.Weak, Extra: seen.Extra})
	}
	g.list[n].Faults = append(g.list[n].Faults, fault)
}

// folded gives the groups, the largest first.
func (g *groups) folded() []proof.Together {
	slices.SortStableFunc(g.list, func(x, y proof.Together) int {
		return cmp.Or(cmp.Compare(len(y.Dead), len(x.Dead)), cmp.Compare(len(y.Weak)+len(y.Extra), len(x.Weak)+len(x.Extra)), cmp.Compare(x.State, y.State))
	})
	for i := range g.list {
		t := &g.list[i]
		t.Live = g.beside(t)
		slices.SortStableFunc(t.Faults, g.b.likelier)
	}
	return g.list
}

// likelier orders faults, the likeliest first.
func (b *Book) likelier(x, y int) int { return cmp.Compare(b.faults[y].Weight, b.faults[x].Weight) }

// mostLive is how many loads that live are told of a group: those that share most.
const mostLive = 6

// beside lists the loads that work in a group's state though they share wires or elements
// with one that does not: those that share most come first.
func (g *groups) beside(t *proof.Together) []harness.ElementID {
	ill := slices.Concat(t.Dead, t.Weak, t.Extra)
	used := map[int]bool{}
	for _, l := range ill {
		g.b.passes(l, used)
	}
	type sharing struct {
		load harness.ElementID
		n    int
	}
	var list []sharing
	for _, l := range g.b.r.Loads {
		if g.on[t.State][l.Element] && !slices.Contains(ill, l.Element) {
			if n := g.b.shared(l.Element, used); n > 0 {
				list = append(list, sharing{l.Element, n})
			}
		}
	}
	slices.SortStableFunc(list, func(x, y sharing) int { return cmp.Compare(y.n, x.n) })
	var out []harness.ElementID
	for _, s := range list[:min(mostLive, len(list))] {
		out = append(out, s.load)
	}
	return out
}

// shared counts the wires and elements of a load's own way that are marked.
func (b *Book) shared(load harness.ElementID, marks map[int]bool) int {
	own, n := map[int]bool{}, 0
	b.passes(load, own)
	for k := range own {
		if marks[k] {
			n++
		}
	}
	return n
}

// passes marks the wires (from 0 on) and elements (below 0) of a load's own way.
func (b *Book) passes(load harness.ElementID, marks map[int]bool) {
	n := b.ways.Of[load]
	if n == harness.None {
		return
	}
	for _, w := range b.ways.List[n].Own.All.Wires {
		marks[int(w)] = true
	}
	for _, e := range b.ways.List[n].Own.All.Elements {
		marks[-1-int(e)] = true
	}
}
