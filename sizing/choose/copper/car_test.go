package copper

import "math/rand"

// iso is the areas of ISO 6722-1 cables in mm2.
var iso = []float64{0.35, 0.5, 0.75, 1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 16, 25, 35, 50, 70, 95, 120}

// wires makes the ladder of wires of one length in metres: 8.89 g/cm3, and
// 0.0186 ohm mm2/m (from memory; any figure of that size will do here).
func wires(metres float64) []Size {
	out := make([]Size, len(iso))
	for i, a := range iso {
		out[i] = Size{Mass: 8.89 * a * metres, Ohms: 0.0186 * metres / a}
	}
	return out
}

// car makes a problem with the build of a car's loom: mains from the battery, a
// panel for every dozen loads fed from them, a fused and a switched wire a load,
// grounds shared by a few loads, five states with about a third of the loads on,
// currents a little different in each, floors as heat would set them.
type car struct {
	p     Problem
	r     *rand.Rand
	worst []float64 // by group: amps
	state []float64 // by group: amps in the state in hand
}

func (c *car) group(low, high float64) int {
	c.p.Groups = append(c.p.Groups, wires(low+(high-low)*c.r.Float64()))
	c.worst = append(c.worst, 0)
	return len(c.p.Groups) - 1
}

type carLoad struct {
	amps, limit float64
	way         []int
}

func randomCar(seed int64, groups int) Problem {
	c := &car{r: rand.New(rand.NewSource(seed))}
	mains := []int{c.group(0.3, 1), c.group(0.3, 0.8)}
	var loads []carLoad
	var panel, ground []int
	for len(c.p.Groups) < groups {
		if len(loads)%12 == 0 {
			panel = []int{c.group(0.5, 3)}
		}
		if len(loads)%4 == 0 {
			ground = []int{c.group(0.2, 1.5)}
		}
		l := carLoad{amps: 0.3 + 6*c.r.Float64()*c.r.Float64(), limit: []float64{0.36, 0.36, 0.6, 1.2}[c.r.Intn(4)]}
		if c.r.Intn(10) == 0 {
			l.amps *= 3
		}
		l.way = append(append(append(l.way, mains...), panel...), c.group(0.3, 2), c.group(0.5, 4))
		if c.r.Intn(2) == 0 {
			l.way = append(l.way, c.group(0.2, 1))
		}
		l.way = append(l.way, ground...)
		loads = append(loads, l)
	}
	for range 5 {
		c.add(loads)
	}
	c.floors()
	return c.p
}

// add makes the demands of one state.
func (c *car) add(loads []carLoad) {
	c.state = make([]float64, len(c.p.Groups))
	amps := make([]float64, len(loads))
	for i, l := range loads {
		if c.r.Intn(3) > 0 {
			continue
		}
		amps[i] = l.amps * (0.95 + 0.1*c.r.Float64())
		for k, g := range l.way {
			share := amps[i]
			if k < 2 {
				share *= min(1, 40/float64(len(loads))) // a large car has more than one battery main
			}
			c.state[g] += share
		}
	}
	for i, l := range loads {
		if amps[i] == 0 {
			continue
		}
		d := Demand{Limit: l.limit}
		for _, g := range l.way {
			d.Terms = append(d.Terms, Term{g, c.state[g]})
			c.worst[g] = max(c.worst[g], c.state[g])
		}
		c.p.Demands = append(c.p.Demands, d)
	}
}

// floors are the areas that carry the worst current at 9 A a mm2, 0.5 mm2 at least.
func (c *car) floors() {
	c.p.Floor = make([]int, len(c.p.Groups))
	for g := range c.p.Floor {
		i := 1
		for i < len(iso)-1 && iso[i]*9 < c.worst[g] {
			i++
		}
		c.p.Floor[g] = i
	}
}

// warm makes a problem as terminals and warm copper leave it: each ladder ends a
// few steps above what a light set takes, and each size's ohms are raised by the
// warmth of its current, less in larger sizes: 0.393 % a kelvin (IEC 60028), at
// most 60 K. Limits rise by part of that, so that most of what could be met still can.
func warm(p Problem, r *rand.Rand, steps int) Problem {
	light := Least(p)
	for g, sizes := range p.Groups {
		last := min(len(sizes), light.Step[g]+1+r.Intn(steps))
		kelvin := 60 * r.Float64()
		ladder := make([]Size, last)
		for i, z := range sizes[:last] {
			share := min(1, sizes[p.Floor[g]].Mass/z.Mass)
			ladder[i] = Size{z.Mass, z.Ohms * (1 + 0.00393*kelvin*share)}
		}
		p.Groups[g] = ladder
	}
	for d := range p.Demands {
		p.Demands[d].Limit *= 1 + 0.00393*60*0.3*r.Float64()
	}
	return p
}
