package colour

import (
	"slices"

	"example.com/loomfolio/sizing/colour/spread"
	"example.com/loomfolio/sizing/harness"
)

// most is what can be reached at a spot.
type most struct {
	nets int
	spread.Ceiling
}

// ceilings gives it for all parts and runs.
func (t *task) ceilings() []most {
	c, here := spread.NewCeilings(t.far), t.bySpot()
	out := make([]most, t.meetings())
	for s := range out {
		out[s].nets, out[s].Ceiling = t.ceiling(c, here[s])
	}
	return out
}

// ceiling tells how many nets meet at a spot, and how far apart their colours
// can be at most. Wires that are told apart by their size bind each other to
// nothing: the ceiling is that of the most nets within one step of size.
func (t *task) ceiling(c *spread.Ceilings, wires []harness.WireID) (nets int, out spread.Ceiling) {
	all := t.nets(wires)
	out = spread.Ceiling{Distance: never, Exact: true}
	for _, band := range t.bands(wires) {
		want, settled, candidates := t.present(band)
		if want > 0 {
			if got := c.Of(want, settled, candidates); got.Distance < out.Distance {
				out = got
			}
		}
	}
	return all, out
}

func (t *task) nets(wires []harness.WireID) int {
	seen := map[int]bool{}
	for _, w := range wires {
		seen[t.classes[t.class[w]].net] = true
	}
	return len(seen)
}

// bands gives the wires of each step of size in which all may be mistaken for
// each other; a step within another is left out.
func (t *task) bands(wires []harness.WireID) [][]harness.WireID {
	var areas []float64
	for _, w := range wires {
		areas = append(areas, t.areas[w])
	}
	slices.Sort(areas)
	areas = slices.Compact(areas)
	var out [][]harness.WireID
	top := -1.0
	for _, thin := range areas {
		var band []harness.WireID
		heaviest := 0.0
		for _, w := range wires {
			if a := t.areas[w]; a == 0 || a >= thin && !sizesApart(thin, a) {
				band = append(band, w)
				heaviest = max(heaviest, a)
			}
		}
		if heaviest > top {
			out, top = append(out, band), heaviest
		}
	}
	return out
}

// present counts the nets among some wires that have a choice, lists the
// colours of those that have none, and joins the domains of the rest.
func (t *task) present(wires []harness.WireID) (choosing int, settled, candidates []int) {
	open, fixed := map[int]bool{}, map[int]int{}
	in := newSeen(len(t.combos))
	done := map[int]bool{}
	for _, w := range wires {
		if done[t.class[w]] {
			continue
		}
		done[t.class[w]] = true
		c := &t.classes[t.class[w]]
		if c.fixed() {
			fixed[c.net] = c.domain[0]
			continue
		}
		open[c.net] = true
		for _, i := range c.domain {
			candidates = in.add(candidates, i)
		}
	}
	at := newSeen(len(t.combos))
	for _, w := range wires {
		if c := &t.classes[t.class[w]]; c.fixed() && !open[c.net] {
			settled = at.add(settled, c.domain[0])
		}
	}
	return len(open), settled, candidates
}

// seen keeps a list free of doubles.
type seen []bool

func newSeen(n int) seen { return make(seen, n) }

func (s seen) add(list []int, i int) []int {
	if s[i] {
		return list
	}
	s[i] = true
	return append(list, i)
}
