package spare

import (
	"slices"

	"example.com/loomfolio/sizing/choose/ampacity"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
)

// crowd is wires that lie together, and how much more heat they may make there before one
// of them no longer carries its current, or what its fuse lets through.
type crowd struct {
	ampacity.Crowd
	most  float64 // W/m
	tight harness.WireID
}

// warmest is how many times the heat is looked at.
const warmest = 4

// crowds looks at every run and cable. Where a table says what wires carry, the number of
// loaded wires counts instead; see counted.
func (r *reader) crowded() {
	r.in = make([][]int, len(r.H.Wires))
	if !r.Balanced() {
		return
	}
	for _, c := range r.Crowds() {
		one := crowd{Crowd: c, tight: harness.None}
		low, high := 1.0, float64(warmest)
		if w := r.fails(&c, high); w != harness.None {
			one.tight = w
			for high-low > 0.02 {
				mid := (low + high) / 2
				if w := r.fails(&c, mid); w != harness.None {
					high, one.tight = mid, w
				} else {
					low = mid
				}
			}
			high = low
		}
		one.most = high * c.Most
		if one.tight != harness.None {
			r.crowds = append(r.crowds, one)
			for _, w := range c.Wires {
				r.in[w] = append(r.in[w], len(r.crowds)-1)
			}
		}
	}
}

// fails gives the first wire of a crowd that no longer holds with so many times the heat,
// None where all do. One that does not hold as it is does not count: it is a finding.
func (r *reader) fails(c *ampacity.Crowd, times float64) harness.WireID {
	now, then := c.Times(1), c.Times(times)
	for i, w := range c.Wires {
		if !r.holds(then, i, w) && r.holds(now, i, w) {
			return w
		}
	}
	return harness.None
}

func (r *reader) holds(in ampacity.Heated, i int, w harness.WireID) bool {
	z := r.Size(w)
	if p := &r.Peaks[w]; !p.Short && !in.Carries(i, z, p.Amps*(1-1e-9), z.Class) {
		return false
	}
	g := r.Floors[w].Guard
	if g == harness.None {
		return true
	}
	for _, b := range r.Burdens(w, z, g) {
		if !in.Carries(i, z, b.Passes*(1-1e-9), b.Limit) {
			return false
		}
	}
	return true
}

// passing lists the crowds that the load's wires pass, in their order.
func (l *load) passing() (out []int) {
	for w, on := range l.wires {
		if on {
			out = append(out, l.in[w]...)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// beside: what the load's wires make warmer stays good for its own current and fuse.
func (l *load) beside() {
	for _, i := range l.passing() {
		c := &l.crowds[i]
		for _, t := range l.takes {
			if l.Solvings[t.solving].Cranking || l.heatOf(c, t, 0) > c.most {
				continue
			}
			k := l.largest(func(k float64) bool { return l.heatOf(c, t, k-1) <= c.most })
			l.allows(l.onWire(chosen.ByBeside, c.tight), k)
		}
	}
}

// warmed lists the wires that do not hold any more where the load's wires pass, at k times
// its current, each with its next size.
func (l *load) warmed(k float64) (out []chosen.Thicker) {
	seen := map[harness.WireID]bool{}
	for _, i := range l.passing() {
		c := &l.crowds[i]
		most := 0.0
		for _, t := range l.takes {
			if !l.Solvings[t.solving].Cranking {
				most = max(most, l.heatOf(c, t, k-1))
			}
		}
		if most <= c.most {
			continue
		}
		now, then := c.Times(1), c.Times(most/c.Most)
		for j, w := range c.Wires {
			if !seen[w] && !l.holds(then, j, w) && l.holds(now, j, w) {
				seen[w] = true
				out = append(out, l.next(w))
			}
		}
	}
	return out
}

// heatOf is what the wires of a crowd make in a state with more of the load, W/m as if at
// 20 C.
func (l *load) heatOf(c *crowd, t taken, more float64) (sum float64) {
	for _, w := range c.Wires {
		a := l.flow(t.solving, w)
		if t.passes(w) {
			a += more * t.amps
		}
		sum += a * a * l.Size(w).Ohms
	}
	return sum
}
