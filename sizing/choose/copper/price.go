package copper

import "math"

// price is grams per volt of each line: what its limit costs. For any prices
// >= 0 the sum over the posts of their least mass and price of drop together,
// less the price of all limits, is a lower bound (Lagrange).
type price struct {
	*part
	volt   []float64 // by line
	at     []int     // by post: the rung that is least at these prices
	excess []float64 // by line: drop over the limit at those rungs
	scale  []float64 // by line: its drop on the lowest rungs, > 0
}

// Subgradient steps: the length follows Polyak (1969), halved when the bound has
// not grown for a while.
const (
	patience  = 30
	shortest  = 1e-3
	mostSteps = 2000
)

// prices looks for those with the highest bound; above is a mass in hand.
func (p *part) prices(above float64) []float64 {
	x := &price{part: p, volt: make([]float64, len(p.lines)), at: make([]int, len(p.posts)), excess: make([]float64, len(p.lines)), scale: make([]float64, len(p.lines))}
	for i := range p.lines {
		x.scale[i] = p.lines[i].drop(p.posts, false)
	}
	best, most := make([]float64, len(p.lines)), math.Inf(-1)
	length, idle := 1.0, 0
	for range mostSteps {
		bound := x.bound()
		if bound > most {
			if bound > most+1e-4*(above-most) {
				idle = 0
			}
			copy(best, x.volt)
			most = bound
		}
		if idle++; idle > patience {
			length, idle = length/2, 0
			copy(x.volt, best)
			x.bound()
		}
		if length < shortest || !x.step(length*(above-bound)) {
			break
		}
	}
	return best
}

func (x *price) bound() float64 {
	sum := 0.0
	for i, l := range x.lines {
		sum -= x.volt[i] * l.limit
		x.excess[i] = -l.limit
	}
	for v := range x.posts {
		p := &x.posts[v]
		ohm := 0.0
		for _, u := range p.uses {
			ohm += u.amps * x.volt[u.demand]
		}
		least := math.Inf(1)
		for i, r := range p.rungs {
			if c := r.mass + ohm*r.ohms; c < least {
				least, x.at[v] = c, i
			}
		}
		sum += least
		for _, u := range p.uses {
			x.excess[u.demand] += u.amps * p.rungs[x.at[v]].ohms
		}
	}
	return sum
}

// step moves the prices along the excess. In shares of each line's largest
// drop, so that lines of few and of many volts move alike.
func (x *price) step(rise float64) bool {
	norm := 0.0
	for i, e := range x.excess {
		if e > 0 || x.volt[i] > 0 {
			e /= x.scale[i]
			norm += e * e
		}
	}
	if !(norm > 0) || !(rise > 0) {
		return false
	}
	for i, e := range x.excess {
		x.volt[i] = max(0, x.volt[i]+rise/norm*e/x.scale[i]/x.scale[i])
	}
	return true
}

// priced gives the division that holds in each line the price of its drops.
func (s *split) priced(volt []float64) {
	for d, l := range s.lines {
		for k, x := range l.terms {
			for i, r := range s.posts[x.Group].rungs {
				c := volt[d] * x.Amps * r.ohms
				s.held[s.termAt[d][k]+i] -= c
				s.own[s.rungAt[x.Group]+i] += c
			}
		}
		s.floor[d] -= volt[d] * l.limit
	}
	s.sum()
}
