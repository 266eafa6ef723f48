package heat

import (
	"math"
	"sort"

	"example.com/loomfolio/sizing/unit"
)

// Prepared is a bundle made ready to be asked often. Its wires are given by kind,
// an index into a list of sections that all bundles of a loom share: what the heat
// of a wire meets on its way out follows from its section alone.
type Prepared struct {
	bundle  Bundle // without its wires
	kinds   []Wire
	parts   []areas // by kind
	of      []int   // by wire: its kind
	present []int   // the kinds in it, each once
	area    areas
	medium  medium
	sound   bool
	paths   []path // by kind; only those that are present
}

// Prepare makes a bundle of wires ready; b.Wires does not count. Kinds are the
// sections, of gives that of each wire.
func (b Bundle) Prepare(kinds []Wire, of []int) *Prepared {
	b.Wires = nil
	p := &Prepared{bundle: b, kinds: kinds, parts: make([]areas, len(kinds)), of: of, area: areas{sound: true}}
	for k, w := range kinds {
		p.parts[k] = w.areas()
	}
	seen := make([]bool, len(kinds))
	for _, k := range of {
		p.area.add(p.parts[k], 1)
		if !seen[k] {
			seen[k] = true
			p.present = append(p.present, k)
		}
	}
	p.medium, p.sound = b.mediumOf(p.area)
	p.paths = p.pathsIn(&p.medium)
	return p
}

func (p *Prepared) pathsIn(m *medium) []path {
	out := make([]path, len(p.kinds))
	for _, k := range p.present {
		out[k] = m.path(p.kinds[k])
	}
	return out
}

// Conductors gives the temperatures by wire, as Bundle.Balance does.
func (p *Prepared) Conductors(amps []unit.Ampere) []unit.Celsius {
	out := make([]unit.Celsius, len(p.of))
	rim, q, ok := p.balance(amps)
	for i, k := range p.of {
		out[i] = rim
		if ok {
			out[i] = capped(p.kinds[k].conductor(p.paths[k], square(amps, i), float64(rim), q))
		}
	}
	return out
}

// balance gives the temperature at the rim and the heat in W/m; false where all
// wires are as warm as the rim, melted or as cold as the air.
func (p *Prepared) balance(amps []unit.Ampere) (rim unit.Celsius, heat float64, ok bool) {
	if !p.sound {
		for i := range p.of {
			if square(amps, i) != 0 {
				return Melting, 0, false
			}
		}
		return capped(float64(p.bundle.Air)), 0, false
	}
	sum := shares{}
	for i, k := range p.of {
		own, ok := p.kinds[k].share(square(amps, i), p.paths[k])
		if !ok {
			return Melting, 0, false
		}
		sum.add(own, 1)
	}
	x, ok := p.medium.rise(sum)
	if !ok {
		return Melting, 0, false
	}
	q := p.medium.loss(x)
	return unit.Celsius(p.medium.air + x + p.medium.cover*q), q, true
}

// Loaded is a prepared bundle with the currents that flow in it together.
type Loaded struct {
	*Prepared
	squares []float64 // I² by wire
	live    []int     // the wires that carry current
	puts    [][]*put  // by the kind that a wire has, by the kind that is put in its place
	curve   curve
}

// Carrying puts currents on the wires, in A; their sign does not count.
func (p *Prepared) Carrying(amps []unit.Ampere) *Loaded {
	l := &Loaded{Prepared: p, squares: make([]float64, len(p.of)), puts: make([][]*put, len(p.kinds))}
	for i := range p.of {
		if l.squares[i] = square(amps, i); l.squares[i] > 0 {
			l.live = append(l.live, i)
		}
	}
	return l
}

// Capacity gives the current in A that brings a conductor to a limit while the
// others carry theirs, where a section of another kind lies in the wire's place:
// to the last digit what Bundle.Capacity gives.
func (l *Loaded) Capacity(wire, as int, limit unit.Celsius) unit.Ampere {
	area := areas{sound: true}
	for i, k := range l.of {
		if i == wire {
			k = as
		}
		area.add(l.parts[k], 1)
	}
	m, ok := l.bundle.mediumOf(area)
	if !ok || !(float64(limit) > m.air) {
		return 0
	}
	ways, sum := l.pathsIn(&m), shares{}
	for _, i := range l.live {
		if i == wire {
			continue
		}
		k := l.of[i]
		own, ok := l.kinds[k].share(l.squares[i], ways[k])
		if !ok {
			return 0
		}
		sum.add(own, 1)
	}
	return m.capacity(l.kinds[as], m.path(l.kinds[as]), sum, limit)
}

// put is the bundle with another wire in the place of one of a kind.
type put struct {
	medium  medium
	sound   bool
	paths   []path // by kind, of those present
	as      path   // of the wire that is put in
	sum     shares // of all wires as they are
	runaway int    // wires whose resistance would run away by itself; not in the sum
}

func (l *Loaded) put(kind, as int) *put {
	if l.puts[kind] == nil {
		l.puts[kind] = make([]*put, len(l.kinds))
	}
	if l.puts[kind][as] == nil {
		l.puts[kind][as] = l.newPut(kind, as)
	}
	return l.puts[kind][as]
}

func (l *Loaded) newPut(kind, as int) *put {
	area := l.area
	if as != kind {
		area.add(l.parts[kind], -1)
		area.add(l.parts[as], 1)
	}
	c := &put{}
	if c.medium, c.sound = l.bundle.mediumOf(area); !c.sound {
		return c
	}
	c.paths = l.pathsIn(&c.medium)
	c.as = c.medium.path(l.kinds[as])
	for _, i := range l.live {
		k := l.of[i]
		if own, ok := l.kinds[k].share(l.squares[i], c.paths[k]); ok {
			c.sum.add(own, 1)
		} else {
			c.runaway++
		}
	}
	return c
}

// others gives the sum of all wires but one; false where one of them runs away.
func (l *Loaded) others(c *put, wire int) (shares, bool) {
	k, out := l.of[wire], c.sum
	own, ok := l.kinds[k].share(l.squares[wire], c.paths[k])
	if !ok {
		return out, c.runaway == 1
	}
	out.add(own, -1)
	return out, c.runaway == 0
}

// Carries tells whether a wire's Capacity is no less than a current, and whether
// that was seen without finding it: where it is not known, ask Capacity.
//
// Where the wire makes the heat of that current at the limit, what it may make
// (see shares.left) equals that at one rise of the surface: since the loss grows at
// least with the rise, what is left grows with it from where it is above nothing.
// That rise lies between two of the curve. If the conductor is within the limit at
// the upper one it carries the current, and if it is beyond it at the lower one it
// does not.
func (l *Loaded) Carries(wire, as int, amps float64, limit unit.Celsius) (yes, known bool) {
	c := l.put(l.of[wire], as)
	if !c.sound || c.medium.surface != l.medium.surface {
		return false, false
	}
	others, ok := l.others(c, wire)
	if !ok {
		return false, false
	}
	m, top := &c.medium, math.Min(float64(limit), float64(Melting))
	makes := amps * amps * l.kinds[as].ohms(top)
	at := l.losses()
	inside := func(i int) float64 { return at[i].rise + (m.cover+c.as.all)*at[i].heat + c.as.own*makes }
	i := sort.Search(len(at), func(i int) bool {
		return others.left(at[i].heat, m.air+at[i].rise+m.cover*at[i].heat) >= makes
	})
	if i > 0 && inside(i-1) > top-m.air {
		return false, true
	}
	yes = i < len(at) && inside(i) <= top-m.air
	return yes, yes
}

// curve is what a surface gives off at rises over the air.
type curve []struct{ rise, heat float64 }

// The rises of a curve in K: from a hundredth to Melting, each a twentieth more.
const (
	curveFrom = 0.01
	curveStep = 1.05
)

func (l *Loaded) losses() curve {
	if l.curve != nil {
		return l.curve
	}
	for x := curveFrom; x < float64(Melting); x *= curveStep {
		l.curve = append(l.curve, struct{ rise, heat float64 }{x, l.medium.loss(x)})
	}
	return l.curve
}
