package bought

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/ladder"
	"example.com/loomfolio/sizing/unit"
)

// Set is some sizes that serve all groups.
type Set struct {
	Steps  map[string][]int // by shelf, ascending, on the whole shelf
	Number int              // of sizes, over all shelves
	Copper unit.Gram        // with every group at the thinnest size of the set that serves it
}

// Menu is what may be bought for a Settled.
type Menu struct {
	Groups []Group
	s      *choose.Settled
	kinds  []kind        // that any group may use
	needs  []ladder.Need // those of one range put together
}

// kind is one size on one shelf.
type kind struct {
	shelf string
	step  int
}

// Of lays out what may be bought.
func Of(s *choose.Settled) *Menu {
	m := &Menu{Groups: Groups(s), s: s}
	for i := range m.Groups {
		for step := m.Groups[i].Least; step <= m.Groups[i].Most; step++ {
			m.kinds = append(m.kinds, kind{m.Groups[i].Shelf, step})
		}
	}
	slices.SortFunc(m.kinds, func(a, b kind) int {
		return cmp.Or(cmp.Compare(a.shelf, b.shelf), cmp.Compare(a.step, b.step))
	})
	m.kinds = slices.Compact(m.kinds)
	m.gather()
	return m
}

// gather makes the needs of the groups, one of all groups that have one range.
func (m *Menu) gather() {
	at, number := map[kind]int{}, map[[2]int]int{}
	for i, k := range m.kinds {
		at[k] = i
	}
	for i := range m.Groups {
		g := &m.Groups[i]
		least, most := at[kind{g.Shelf, g.Least}], at[kind{g.Shelf, g.Most}]
		n, known := number[[2]int{least, most}]
		if !known {
			n = len(m.needs)
			number[[2]int{least, most}] = n
			m.needs = append(m.needs, ladder.Need{Least: least, Most: most, Cost: make([]float64, len(m.kinds))})
		}
		for k := least; k <= most; k++ {
			m.needs[n].Cost[k] += float64(g.Copper[m.kinds[k].step])
		}
	}
}

// Curve gives for every number of sizes that serves all the set with the least copper, fewest
// sizes first, up to the number with which every group has its own least size. There tells, by
// insulation and gauge, which sizes are there already: they stand in every set and do not count;
// nil for none.
func (m *Menu) Curve(there func(insulation string, g unit.Gauge) bool) []Set {
	free := make([]bool, len(m.kinds))
	for i, k := range m.kinds {
		free[i] = there != nil && m.there(k, there)
	}
	var out []Set
	for _, set := range ladder.Curve(len(m.kinds), m.needs, free) {
		if math.IsInf(set.Cost, 1) || len(set.Kinds) == 0 {
			continue
		}
		if n := len(out); n > 0 && set.Cost >= float64(out[n-1].Copper)-1e-6 {
			break
		}
		out = append(out, m.set(set))
	}
	return out
}

// there asks for one size.
func (m *Menu) there(k kind, there func(insulation string, g unit.Gauge) bool) bool {
	for w, key := range m.s.Keys {
		if key == k.shelf && k.step < len(m.s.Shelf[w]) {
			return there(m.s.H.Wires[w].Insulation, m.s.Shelf[w][k.step].Conductor.Gauge)
		}
	}
	return false
}

// All lists the sizes of a set, by shelf and step.
func (set Set) All() [][2]int {
	var out [][2]int
	for i, key := range slices.Sorted(maps.Keys(set.Steps)) {
		for _, step := range set.Steps[key] {
			out = append(out, [2]int{i, step})
		}
	}
	return out
}

func (m *Menu) set(of ladder.Set) Set {
	out := Set{Steps: map[string][]int{}, Number: len(of.Kinds), Copper: unit.Gram(of.Cost)}
	for _, i := range of.Kinds {
		k := m.kinds[i]
		out.Steps[k.shelf] = append(out.Steps[k.shelf], k.step)
	}
	return out
}

// Best gives the sets of a number of sizes with the least copper, cheapest first, at most so
// many. Each that is taken is left out by trying the others without one of its sizes, in turn.
func (m *Menu) Best(sizes, most int) []Set {
	var out []Set
	open, seen := []without{m.without(nil, sizes)}, []ladder.Set{}
	for len(out) < most && len(open) > 0 {
		slices.SortStableFunc(open, func(a, b without) int { return cmp.Compare(a.best.Cost, b.best.Cost) })
		next := open[0]
		open = open[1:]
		if math.IsInf(next.best.Cost, 1) {
			break
		}
		if slices.ContainsFunc(seen, func(s ladder.Set) bool { return slices.Equal(s.Kinds, next.best.Kinds) }) {
			continue
		}
		seen, out = append(seen, next.best), append(out, m.set(next.best))
		for _, k := range next.best.Kinds {
			open = append(open, m.without(append(slices.Clone(next.left), k), sizes))
		}
	}
	return out
}

// without is the best set that has none of some kinds.
type without struct {
	left []int
	best ladder.Set
}

// without finds it: the kinds that remain make a shorter ladder.
func (m *Menu) without(left []int, sizes int) without {
	var remain []int
	for k := range m.kinds {
		if !slices.Contains(left, k) {
			remain = append(remain, k)
		}
	}
	none := without{left, ladder.Set{Cost: math.Inf(1)}}
	if sizes > len(remain) {
		return none
	}
	var needs []ladder.Need
	for _, x := range m.needs {
		least, _ := slices.BinarySearch(remain, x.Least)
		most, found := slices.BinarySearch(remain, x.Most)
		if !found {
			most--
		}
		if most < least {
			return none
		}
		short := ladder.Need{Least: least, Most: most, Cost: make([]float64, len(remain))}
		for i, k := range remain {
			short.Cost[i] = x.Cost[k]
		}
		needs = append(needs, short)
	}
	best := ladder.Curve(len(remain), needs, nil)[sizes]
	for i, k := range best.Kinds {
		best.Kinds[i] = remain[k]
	}
	return without{left, best}
}

// Sizes gives by WireID the gauge of every wire with a set: what is not bought off reels, and
// what the set does not serve, keeps its own.
func (m *Menu) Sizes(set Set) []unit.Gauge {
	out := make([]unit.Gauge, len(m.s.At))
	for w := range out {
		out[w] = m.s.Size(harness.WireID(w)).Conductor.Gauge
	}
	for i := range m.Groups {
		g := &m.Groups[i]
		step, ok := set.serving(g)
		for _, w := range g.Wires {
			if ok {
				out[w] = m.s.Shelf[w][step].Conductor.Gauge
			}
		}
	}
	return out
}

// serving gives the thinnest step of a set that serves a group.
func (set Set) serving(g *Group) (step int, ok bool) {
	for _, step := range set.Steps[g.Shelf] {
		if step >= g.Least {
			return step, step <= g.Most
		}
	}
	return 0, false
}

// Plan gives the plan of a set for choose.Again: its sizes by shelf, and every wire no thinner
// than its own.
func (m *Menu) Plan(set Set) choose.Plan {
	out := choose.Plan{Sizes: map[string][]unit.Gauge{}, Least: make([]unit.Gauge, len(m.s.At))}
	for w, key := range m.s.Keys {
		if _, done := out.Sizes[key]; done {
			continue
		}
		for _, step := range set.Steps[key] {
			if step < len(m.s.Shelf[w]) {
				out.Sizes[key] = append(out.Sizes[key], m.s.Shelf[w][step].Conductor.Gauge)
			}
		}
	}
	for w := range out.Least {
		out.Least[w] = m.s.Size(harness.WireID(w)).Conductor.Gauge
	}
	return out
}
