package plan

import (
	"cmp"
	"slices"

	"example.com/loomfolio/sizing/choose/bought"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// lifting is a group of wires that may take a thicker size of the set.
type lifting struct {
	group int
	step  int
	gain  float64 // in the sum, if every reel that is freed is one less
}

// liftPasses is how often all groups are looked at again.
const liftPasses = 3

// lift moves groups of wires that are alone on a reel to thicker sizes of the set, what may
// save most first, where the sum falls. The colours stay as they are meanwhile.
func (w *weighing) lift(o *Option) {
	for range liftPasses {
		again := false
		for _, l := range w.liftings(o) {
			next := w.lifted(o, l)
			f := w.shop.Of(w.bought(next), o.Pairs, w.ask)
			if w.sum(next, f).sum < o.Sum-1e-9 {
				o.Gauges, again = next, true
				w.measure(o, f)
			}
		}
		if !again {
			return
		}
	}
}

// liftings lists what may save something, the most first.
func (w *weighing) liftings(o *Option) []lifting {
	users := map[reel]int{}
	for i := range w.h.Wires {
		users[w.reelOf(o, harness.WireID(i))]++
	}
	uses := w.kinds.uses(o.Gauges)
	var out []lifting
	for i := range w.menu.Groups {
		g := &w.menu.Groups[i]
		freed := float64(w.freed(o, g, users))*(1+w.ask.Tracer) + kindWeight*float64(w.kinds.freed(g, o.Gauges, uses))
		if g.Least == g.Most || freed == 0 {
			continue
		}
		now := w.least.Shelf[g.Wires[0]].Index(o.Gauges[g.Wires[0]])
		for _, step := range o.set.Steps[g.Shelf] {
			if gain := freed - w.dearer(g, now, step); step > now && step <= g.Most && gain > 0 {
				out = append(out, lifting{i, step, gain})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b lifting) int { return cmp.Compare(b.gain, a.gain) })
	return out
}

// dearer gives the copper that a group has more at a step than at another, in reels.
func (w *weighing) dearer(g *bought.Group, from, to int) float64 {
	return float64(g.Copper[to]-g.Copper[from]) / w.mass
}

// freed counts the reels that nobody but a group needs.
func (w *weighing) freed(o *Option, g *bought.Group, users map[reel]int) int {
	own := map[reel]int{}
	for _, id := range g.Wires {
		own[w.reelOf(o, id)]++
	}
	n := 0
	for r, count := range own {
		if users[r] == count {
			n++
		}
	}
	return n
}

// lifted gives the gauges with a group at another size.
func (w *weighing) lifted(o *Option, l lifting) []unit.Gauge {
	next := slices.Clone(o.Gauges)
	for _, id := range w.menu.Groups[l.group].Wires {
		next[id] = w.least.Shelf[id][l.step].Conductor.Gauge
	}
	return next
}

func (w *weighing) reelOf(o *Option, id harness.WireID) reel {
	return reel{o.Gauges[id], w.h.Wires[id].Insulation, o.Pairs[id]}
}
