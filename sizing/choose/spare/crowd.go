package spare

import (
	"math"
	"slices"
	"sort"

	"example.com/loomfolio/sizing/choose/ampacity"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
)

// crowd is wires that lie together, and how much heat they may make there, W/m, before
// each of them no longer carries its current, or what its fuse lets through.
type crowd struct {
	ampacity.Crowd
	each  []float64 // by index into Wires; +Inf where more than is looked at
	most  float64   // the least of these
	tight harness.WireID
}

// steps are the times of the heat that are looked at.
var steps = [...]float64{1, 1.02, 1.05, 1.1, 1.2, 1.35, 1.5, 1.75, 2, 2.5, 3, 4}

// crowded looks at every run and cable. Where a table says what wires carry, the number of
// loaded wires counts instead, and nothing is said here.
func (r *reader) crowded() {
	r.in = make([][]int, len(r.H.Wires))
	if !r.Balanced() {
		return
	}
	for _, c := range r.Crowds() {
		one := r.crowdOf(c)
		if one.tight == harness.None {
			continue
		}
		for _, w := range c.Wires {
			r.in[w] = append(r.in[w], len(r.crowds))
		}
		r.crowds = append(r.crowds, one)
	}
}

// crowdOf asks each wire of a crowd. One that does not hold as it is does not count: it is
// a finding.
func (r *reader) crowdOf(c ampacity.Crowd) crowd {
	out := crowd{Crowd: c, each: make([]float64, len(c.Wires)), most: math.Inf(1), tight: harness.None}
	var heated [len(steps)]ampacity.Heated
	for k := range steps {
		heated[k] = c.Times(steps[k])
	}
	for i, w := range c.Wires {
		first := sort.Search(len(steps), func(k int) bool { return !r.holds(heated[k], i, w) })
		out.each[i] = math.Inf(1)
		if first == 0 || first == len(steps) {
			continue
		}
		out.each[i] = steps[first-1] * c.Most
		if out.each[i] < out.most {
			out.most, out.tight = out.each[i], w
		}
	}
	return out
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
		for j, w := range c.Wires {
			if most > c.each[j] && !seen[w] {
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
