package fault

import (
	"slices"
	"sync"

	"example.com/loomfolio/sizing/fault/way"
	"example.com/loomfolio/sizing/harness"
)

// Suspects gives the faults that leave a load dead or weak in a state, the likeliest
// first; none where it is not on there.
//
// Looked at are the faults of what lies on the load's own way and on the ways of the
// relays that switch it, what opens a fuse there, what touches metal there, the sources,
// and what costs the load its voltage in the state in which the fault itself is solved.
func (b *Book) Suspects(load harness.ElementID, state int) []int {
	var out []int
	for _, f := range b.index().about(b, load) {
		seen := b.In(state, f)
		if slices.Contains(seen.Dead, load) || slices.Contains(seen.Weak, load) {
			out = append(out, f)
		}
	}
	slices.SortStableFunc(out, b.likelier)
	return out
}

// index is where the faults of the dictionary are found.
type index struct {
	wire, element, fuse, hurt map[int][]int // by WireID; ElementID; ElementID of a fuse that it opens; ElementID of a load that it costs voltage
	metal                     map[int][]int // by metal that touches
	source                    []int
	once                      sync.Once
}

// index makes it on the first call.
func (b *Book) index() *index {
	x := &b.found
	x.once.Do(func() {
		x.wire, x.element, x.fuse, x.hurt, x.metal = map[int][]int{}, map[int][]int{}, map[int][]int{}, map[int][]int{}, map[int][]int{}
		for i := range b.causes {
			b.enter(x, i)
		}
	})
	return x
}

func (b *Book) enter(x *index, i int) {
	c := &b.causes[i]
	for _, f := range c.Cuts {
		if f.Wire != harness.None {
			x.wire[int(f.Wire)] = append(x.wire[int(f.Wire)], i)
		} else {
			x.element[int(f.Element)] = append(x.element[int(f.Element)], i)
		}
	}
	if c.Touch != harness.None {
		for _, t := range []harness.TerminalID{b.touches[c.Touch].A, b.touches[c.Touch].B} {
			if m := b.metal[t]; m != b.metal[harness.Chassis] {
				x.metal[m] = append(x.metal[m], i)
			}
		}
	}
	if c.Sources != nil {
		x.source = append(x.source, i)
	}
	for _, f := range c.Blown {
		x.fuse[int(f)] = append(x.fuse[int(f)], i)
	}
	for _, l := range slices.Concat(c.Dead, c.Weak) {
		x.hurt[int(l)] = append(x.hurt[int(l)], i)
	}
}

// about lists the faults that may concern a load, in their order.
func (x *index) about(b *Book, load harness.ElementID) []int {
	out := slices.Concat(x.source, x.hurt[int(load)])
	for _, n := range b.ways.Behind(b.h, load) {
		w := &b.ways.List[n]
		out = append(out, x.element[int(w.Draw)]...)
		out = append(out, b.onWay(x, w)...)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// onWay lists the faults of what lies on a way.
func (b *Book) onWay(x *index, w *way.Way) []int {
	var out []int
	for _, id := range w.Own.All.Wires {
		out = append(out, x.wire[int(id)]...)
		out = append(out, x.metal[b.metal[b.h.Wires[id].From]]...)
	}
	for _, id := range w.Own.All.Elements {
		e := &b.h.Elements[id]
		out = append(out, x.element[int(id)]...)
		out = append(out, x.fuse[int(id)]...)
		out = append(out, x.metal[b.metal[e.A]]...)
		out = append(out, x.metal[b.metal[e.B]]...)
	}
	return out
}
