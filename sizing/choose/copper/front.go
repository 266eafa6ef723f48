package copper

import "math"

// spot is a drop and the least cost at which it is had.
type spot struct{ drop, cost float64 }

// front is a list of spots, each with more drop and less cost than the one
// before: what a few posts can do together in one demand.
type front []spot

// origin is the front of no posts.
var origin = front{{0, 0}}

// merge unites a front with another shifted by a drop and a cost, into out.
func merge(out, a, b front, shift spot, limit float64) front {
	out = out[:0]
	last := math.Inf(1)
	i, j := 0, 0
	for i < len(a) || j < len(b) {
		var s spot
		if j == len(b) || i < len(a) && a[i].drop <= b[j].drop+shift.drop {
			s = a[i]
			i++
		} else {
			s = spot{b[j].drop + shift.drop, b[j].cost + shift.cost}
			j++
			if s.drop > limit {
				j = len(b)
				continue
			}
		}
		if s.cost >= last {
			continue
		}
		last = s.cost
		if n := len(out); n > 0 && out[n-1].drop == s.drop {
			out[n-1] = s
			continue
		}
		out = append(out, s)
	}
	return out
}

// push adds a spot of no less drop than the last.
func (f front) push(s spot, limit float64) front {
	n := len(f)
	if s.drop > limit || n > 0 && s.cost >= f[n-1].cost {
		return f
	}
	if n > 0 && f[n-1].drop == s.drop {
		f[n-1] = s
		return f
	}
	return append(f, s)
}

// coarse halves a front until it has at most a number of spots. Each pair
// becomes its lower drop with its lower cost: nothing gets dearer, so a bound
// from it still holds.
func (f front) coarse(most int) front {
	for len(f) > most {
		n := 0
		for i := 0; i < len(f); i += 2 {
			s := f[i]
			if i+1 < len(f) {
				s.cost = f[i+1].cost
			}
			f[n] = s
			n++
		}
		f = f[:n]
	}
	return f
}

// cheapest is the least cost of a spot of a and one of b whose drops are within
// a limit together; infinite when there is none.
func cheapest(a, b front, limit float64) float64 {
	best := math.Inf(1)
	j := len(b) - 1
	for i := range a {
		for j >= 0 && a[i].drop+b[j].drop > limit {
			j--
		}
		if j < 0 {
			break
		}
		if c := a[i].cost + b[j].cost; c < best {
			best = c
		}
	}
	return best
}
