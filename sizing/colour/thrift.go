package colour

import "sort"

// thrift changes a solution at its threshold: it gives up reels where every
// wire on them can take wire of another reel that is there anyway, and then
// tracers where plain wire does as well.
type thrift struct {
	*task
	solution
	users map[reel]int // classes on each reel
}

// save gives the thriftier solution.
func (t *task) save(s solution) solution {
	if s.alike > 0 {
		return s
	}
	th := &thrift{task: t, solution: s, users: map[reel]int{}}
	th.colour = append([]int(nil), s.colour...)
	for c, combo := range th.colour {
		th.count(c, combo, 1)
	}
	for again, round := true, 0; again && round < 3; round++ {
		again = false
		for _, r := range th.reels() {
			again = th.dissolve(r) || again
		}
	}
	th.plain()
	return th.solution
}

func (th *thrift) count(c, combo, by int) {
	for _, g := range th.classes[c].gauges {
		th.users[reel{g, combo}] += by
	}
}

func (th *thrift) move(c, combo int) {
	th.count(c, th.colour[c], -1)
	th.colour[c] = combo
	th.count(c, combo, 1)
}

// reels lists the reels in use, least used first, then tracers before plain.
func (th *thrift) reels() []reel {
	var out []reel
	for r, n := range th.users {
		if n > 0 {
			out = append(out, r)
		}
	}
	sort.Slice(out, func(i, j int) bool {
		a, b := out[i], out[j]
		if th.users[a] != th.users[b] {
			return th.users[a] < th.users[b]
		}
		if a.combo != b.combo {
			return a.combo > b.combo
		}
		return a.gauge < b.gauge
	})
	return out
}

// dissolve moves every class off a reel, or leaves all as it was.
func (th *thrift) dissolve(r reel) bool {
	var moved []int
	for c := range th.classes {
		if th.colour[c] != r.combo || !contains(th.classes[c].gauges, r.gauge) {
			continue
		}
		to, ok := th.elsewhere(c, r)
		if !ok {
			for _, m := range moved {
				th.move(m, r.combo)
			}
			return false
		}
		th.move(c, to)
		moved = append(moved, c)
	}
	return len(moved) > 0
}

// elsewhere finds a combination for a class whose reels are all there, other
// than the given one.
func (th *thrift) elsewhere(c int, not reel) (combo int, ok bool) {
	for _, i := range th.classes[c].domain {
		if i != not.combo && th.free(c, i) && th.there(c, i) {
			return i, true
		}
	}
	return 0, false
}

// there tells whether a class would find every reel of a combination in use.
func (th *thrift) there(c, combo int) bool {
	for _, g := range th.classes[c].gauges {
		if th.users[reel{g, combo}] == 0 {
			return false
		}
	}
	return true
}

// free tells whether a class may take a combination next to its neighbours.
func (th *thrift) free(c, combo int) bool {
	for _, o := range th.near[c] {
		if th.far[combo][th.colour[o]] < th.threshold {
			return false
		}
	}
	return true
}

// plain takes plain wire for a class on its own reels of wire with a tracer,
// or where the plain reels are there.
func (th *thrift) plain() {
	for c := range th.classes {
		if th.combos[th.colour[c]].Tracer == "" {
			continue
		}
		for _, i := range th.classes[c].domain {
			if th.combos[i].Tracer == "" && th.free(c, i) && (th.there(c, i) || th.alone(c)) {
				th.move(c, i)
				break
			}
		}
	}
}

// alone tells whether no other class is on any of this one's reels.
func (th *thrift) alone(c int) bool {
	for _, g := range th.classes[c].gauges {
		if th.users[reel{g, th.colour[c]}] > 1 {
			return false
		}
	}
	return true
}

func contains(list []int, n int) bool {
	for _, m := range list {
		if m == n {
			return true
		}
	}
	return false
}
