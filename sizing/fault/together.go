package fault

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// Together folds the faults by what is seen of the loads: those that are dead, weak and on
// without being switched in a state, where they are more than one. Of several states that
// tell the same faults it is the one in which most loads are dead. The error is one of the
// solver.
//
// Looked at is every fault in its own state, and in the states in which the loads are
// measured that it leaves without their voltage.
func (b *Book) Together() ([]proof.Together, error) {
	ladders, err := b.Ladders()
	if err != nil {
		return nil, err
	}
	g := groups{b: b, at: map[string]int{}, in: map[[2]int]bool{}}
	for i := range b.faults {
		g.add(b.faults[i].State, i)
	}
	for i := range ladders {
		for _, f := range ladders[i].Suspects() {
			g.add(ladders[i].State, f)
		}
	}
	return g.folded(), nil
}

// groups are symptoms with the faults that have them.
type groups struct {
	b    *Book
	list []proof.Together
	at   map[string]int
	in   map[[2]int]bool // state and fault
}

// add enters a fault under its symptoms in a state.
func (g *groups) add(state, fault int) {
	seen := g.b.states[state].seen[fault]
	if g.in[[2]int{state, fault}] || len(seen.Dead)+len(seen.Weak)+len(seen.Extra) < 2 {
		return
	}
	g.in[[2]int{state, fault}] = true
	key := fmt.Sprint(state, seen.Dead, seen.Weak, seen.Extra)
	n, ok := g.at[key]
	if !ok {
		n = len(g.list)
		g.at[key] = n
		g.list = append(g.list, proof.Together{State: state, Dead: seen.Dead, Weak: seen.Weak, Extra: seen.Extra})
	}
	g.list[n].Faults = append(g.list[n].Faults, fault)
}

// folded gives the groups, the largest first, those that tell the same faults once.
func (g *groups) folded() []proof.Together {
	for i := range g.list {
		slices.Sort(g.list[i].Faults)
	}
	slices.SortStableFunc(g.list, func(x, y proof.Together) int {
		return cmp.Or(cmp.Compare(len(y.Dead), len(x.Dead)), cmp.Compare(len(y.Weak)+len(y.Extra), len(x.Weak)+len(x.Extra)), cmp.Compare(x.State, y.State))
	})
	told, out := map[string]bool{}, []proof.Together{}
	for _, t := range g.list {
		if key := fmt.Sprint(t.Faults); !told[key] {
			told[key] = true
			t.Live = g.b.beside(&t)
			slices.SortStableFunc(t.Faults, g.b.likelier)
			out = append(out, t)
		}
	}
	return out
}

// likelier orders faults, the likeliest first.
func (b *Book) likelier(x, y int) int { return cmp.Compare(b.faults[y].Weight, b.faults[x].Weight) }

// mostLive is how many loads that live are told of a group: those that share most.
const mostLive = 6

// beside lists the loads that work in a group's state though they share wires or elements
// with one that does not: those that share most come first.
func (b *Book) beside(t *proof.Together) []harness.ElementID {
	ill := slices.Concat(t.Dead, t.Weak, t.Extra)
	used := map[int]bool{}
	for _, l := range ill {
		b.passes(l, used)
	}
	type sharing struct {
		load harness.ElementID
		n    int
	}
	var list []sharing
	for _, l := range b.r.Loads {
		if !slices.Contains(l.On, b.h.States[t.State].Name) || slices.Contains(ill, l.Element) {
			continue
		}
		own, n := map[int]bool{}, 0
		b.passes(l.Element, own)
		for k := range own {
			if used[k] {
				n++
			}
		}
		if n > 0 {
			list = append(list, sharing{l.Element, n})
		}
	}
	slices.SortStableFunc(list, func(x, y sharing) int { return cmp.Compare(y.n, x.n) })
	var out []harness.ElementID
	for _, s := range list[:min(mostLive, len(list))] {
		out = append(out, s.load)
	}
	return out
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
