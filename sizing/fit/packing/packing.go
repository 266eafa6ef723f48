// Package packing presses circles of any sizes into the smallest circle round
// them: the diameter of a bundle of wires. In: diameters. Out: the diameter round
// all of them and where each lies. Pure numbers; any unit of length will do.
//
// What holds: no two circles overlap and none crosses the rim, by more than
// rounding (1e-9 of the diameter); the same circles in any order give the same
// diameter, and the same input the same places.
//
// The method: circles are laid out in rings, the largest inside, or by a fixed
// series of numbers; a rim is set, and all are pushed off each other and off the
// rim until they rest (the overlaps' energy is brought down by FIRE, Bitzek and
// others, Physical Review Letters 97, 2006). Where overlaps are left, the places
// are spread until none is, which gives the rim that was reached; then the next
// rim is tried, a little tighter. The best of several starts is kept. Work is
// counted, never timed.
package packing

import (
	"math"
	"sort"
)

// Circle is one circle with the place of its centre, from the rim's centre.
type Circle struct{ X, Y, Diameter float64 }

// Packing is circles inside a rim.
type Packing struct {
	Diameter float64  // of the rim
	Circles  []Circle // in the order of the input
}

// Pack finds a small rim round circles. Diameters that are not above 0 take no
// room. No circles have a rim of 0.
func Pack(diameters []float64) Packing {
	p := newPress(diameters)
	switch len(p.radii) {
	case 0:
		return p.packing(diameters, nil)
	case 1:
		return p.packing(diameters, []point{{}})
	case 2:
		return p.packing(diameters, []point{{-p.radii[1], 0}, {p.radii[0], 0}})
	}
	return p.packing(diameters, p.best())
}

type point struct{ x, y float64 }

// press holds circles from the largest to the smallest, in units of the largest
// radius.
type press struct {
	radii []float64
	from  []int // by place here: index in the input
	unit  float64
	seed  uint64
	room  room
}

func newPress(diameters []float64) *press {
	p := &press{seed: 1}
	for i, d := range diameters {
		if d > 0 && !math.IsInf(d, 1) {
			p.from = append(p.from, i)
			p.unit = math.Max(p.unit, d/2)
		}
	}
	sort.SliceStable(p.from, func(a, b int) bool { return diameters[p.from[a]] > diameters[p.from[b]] })
	for _, i := range p.from {
		p.radii = append(p.radii, diameters[i]/2/p.unit)
	}
	return p
}

func (p *press) packing(diameters []float64, at []point) Packing {
	out := Packing{Circles: make([]Circle, len(diameters))}
	for i, q := range at {
		out.Circles[p.from[i]] = Circle{q.x * p.unit, q.y * p.unit, diameters[p.from[i]]}
		out.Diameter = math.Max(out.Diameter, 2*p.unit*(math.Hypot(q.x, q.y)+p.radii[i]))
	}
	return out
}

// many circles are squeezed less often: the last rims bring less than a hundredth.
const many = 240

// Starts and steps, by how many circles there are: a few circles have few ways
// to lie, and many cost more each; of more than 120 the steps get fewer, down to
// what still leaves a rim well within the trade's 1.2 times the root of the squares.
func (p *press) effort() (starts, steps int) {
	switch n := len(p.radii); {
	case n <= 24:
		return 8, 200
	case n <= 60:
		return 2, 200
	default:
		return 1, max(40, min(200, 200*120/n))
	}
}

// best gives the places with the smallest rim of all starts.
func (p *press) best() []point {
	starts, steps := p.effort()
	var best []point
	least := math.Inf(1)
	for k := range starts {
		at := p.rings()
		if k > 0 {
			at = p.scattered()
		}
		at = p.squeeze(at, steps)
		if r := p.rim(at); r < least*(1-1e-12) {
			best, least = at, r
		}
	}
	return best
}

// rings lays the circles out round each other, the largest inside.
func (p *press) rings() []point {
	at := make([]point, len(p.radii))
	area := 0.0
	for i, r := range p.radii {
		area += r * r
		turn := float64(i) * math.Pi * (3 - math.Sqrt(5)) // the golden angle
		reach := math.Sqrt(math.Max(0, area-r*r)) * 1.05
		at[i] = point{reach * math.Cos(turn), reach * math.Sin(turn)}
	}
	return at
}

// scattered lays them out by a fixed series of numbers.
func (p *press) scattered() []point {
	at := make([]point, len(p.radii))
	reach := p.tightest() * 1.1
	for i := range at {
		turn, share := 2*math.Pi*p.random(), math.Sqrt(p.random())
		at[i] = point{reach * share * math.Cos(turn), reach * share * math.Sin(turn)}
	}
	return at
}

// random gives the next of a fixed series in [0, 1) (Knuth's MMIX generator).
func (p *press) random() float64 {
	p.seed = p.seed*6364136223846793005 + 1442695040888963407
	return float64(p.seed>>11) / (1 << 53)
}

// tightest is the rim that holds the circles' areas.
func (p *press) tightest() float64 {
	area := 0.0
	for _, r := range p.radii {
		area += r * r
	}
	return math.Sqrt(area)
}

// squeeze rests the circles in tighter and tighter rims, and gives the places
// with the smallest rim that holds them without overlap.
func (p *press) squeeze(at []point, steps int) []point {
	rim := p.tightest() * 1.15
	best, least := []point(nil), math.Inf(1)
	tighter := []float64{1, 0.985, 0.995, 0.998, 0.9995}
	if len(at) > many {
		tighter = tighter[:3]
	}
	for _, tight := range tighter {
		if !math.IsInf(least, 1) {
			rim = least * tight
		}
		p.rest(at, rim, steps)
		spread := p.spread(at)
		if r := p.rim(spread); r < least {
			best, least = spread, r
		}
	}
	return best
}

// rim is the radius round all circles.
func (p *press) rim(at []point) float64 {
	most := 0.0
	for i, q := range at {
		most = math.Max(most, math.Hypot(q.x, q.y)+p.radii[i])
	}
	return most
}

// spread moves the places apart until no two circles overlap, and the middle to
// where the rim is smallest.
func (p *press) spread(at []point) []point {
	scale := 1.0
	for _, pair := range p.near(at) { // no others overlap
		i, j := pair[0], pair[1]
		d := math.Hypot(at[i].x-at[j].x, at[i].y-at[j].y)
		scale = math.Max(scale, (p.radii[i]+p.radii[j])/math.Max(d, 1e-9))
	}
	scale *= 1 + 1e-12
	out := make([]point, len(at))
	for i, q := range at {
		out[i] = point{q.x * scale, q.y * scale}
	}
	p.centre(out)
	return out
}

// centre moves all so that the rim is about as small as it can be: the middle
// steps towards the circle that reaches farthest, ever less (Bădoiu and Clarkson, 2003).
func (p *press) centre(at []point) {
	var c point
	best, least := c, math.Inf(1)
	for k := range 60 {
		far, most := 0, 0.0
		for i, q := range at {
			if d := math.Hypot(q.x-c.x, q.y-c.y) + p.radii[i]; d > most {
				far, most = i, d
			}
		}
		if most < least {
			best, least = c, most
		}
		step := 1 / float64(k+2)
		c = point{c.x + (at[far].x-c.x)*step, c.y + (at[far].y-c.y)*step}
	}
	for i := range at {
		at[i].x -= best.x
		at[i].y -= best.y
	}
}
