package heat

import (
	"math"

	"example.com/loomfolio/sizing/unit"
)

// medium is a bundle made ready for solving: its surface, and what lies between
// the surface and the wires.
type medium struct {
	surface
	radius float64 // mm, of the bundle under the cover
	spread float64 // 1/(4 pi k) in K.m/W of the wires and the air between them
	cover  float64 // K.m/W
}

// areas are the sums over a bundle's wires that its medium follows from, in mm2
// without pi/4.
type areas struct {
	squares, mix float64 // of the outside, and of that times the contrast
	sound        bool    // all figures make wires
}

// areas gives those of one wire.
func (w Wire) areas() areas {
	d, o := float64(w.Conductor), float64(w.Outside)
	return areas{o * o, o * o * contrast(d*d/(o*o)), w.sound()}
}

// add counts a part so many times; -1 takes one out.
func (a *areas) add(part areas, times float64) {
	a.squares += times * part.squares
	a.mix += times * part.mix
	a.sound = a.sound && part.sound
}

// medium makes a bundle ready; false where a figure makes no sense.
func (b Bundle) medium() (medium, bool) {
	sum := areas{sound: true}
	for _, w := range b.Wires {
		sum.add(w.areas(), 1)
	}
	return b.mediumOf(sum)
}

func (b Bundle) mediumOf(sum areas) (medium, bool) {
	over := math.Max(float64(b.Diameter), math.Sqrt(sum.squares))
	air := math.Max(float64(b.Air), coldest)
	if !sum.sound || !(over > 0 && over <= 1e5 && air < float64(Melting)) || !b.Cover.sound() {
		return medium{}, false
	}
	s := sum.mix / (over * over)
	m := medium{radius: over / 2, spread: (1 - s) / (1 + s) / (4 * math.Pi * stillAir)}
	outside := 0.0
	m.cover, outside = b.Cover.resistance(over, air)
	m.surface = surface{diameter: outside / 1000, air: air, emissivity: otherwise(b.Cover.Emissivity, emissivity)}
	return m, true
}

// contrast is (kw-ka)/(kw+ka) of a wire whose core takes a share of its section;
// a bare conductor gives 1.
func contrast(core float64) float64 {
	wire, air := wallConductivity*(1+core), stillAir*(1-core)
	return (wire - air) / (wire + air)
}

func otherwise(given, usual float64) float64 {
	if given == 0 {
		return usual
	}
	return given
}

// sound tells whether the figures make a cover.
func (c Cover) sound() bool {
	between := func(v, high float64) bool { return v >= 0 && v <= high }
	return between(float64(c.Wall), 1e4) && between(float64(c.Gap), 1e4) &&
		between(c.Conductivity, 1e6) && between(c.Emissivity, 1)
}

// resistance gives the thermal resistance of a cover in K.m/W and its outside
// diameter in mm. Heat crosses the gap by conduction and by radiation between
// surfaces as cool as the air: the safe side, and linear.
func (c Cover) resistance(over, air float64) (r, outside float64) {
	inside := over + 2*float64(c.Gap)
	outside = inside + 2*float64(c.Wall)
	r = math.Log(outside/inside) / (2 * math.Pi * otherwise(c.Conductivity, wallConductivity))
	if c.Gap > 0 {
		shine := emissivity / (2 - emissivity) // 1/(1/e + 1/e - 1)
		t := air + kelvin
		across := 2*math.Pi*stillAir/math.Log(inside/over) + math.Pi*over/1000*4*shine*stefan*t*t*t
		r += 1 / across
	}
	return r, outside
}

// path is two thermal resistances in K.m/W: of all heat to a wire's place in the
// middle, and of its own heat beyond that.
type path struct{ all, own float64 }

// path gives those of a wire. With e = R²/a² - 1, a the
// wire's radius, and v = ln(1+e): a source round the wire gives spread(1 - v/e),
// a line in the middle spread v; the second is their difference and the wire's wall.
func (m *medium) path(w Wire) path {
	ratio := 2 * m.radius / float64(w.Outside)
	e := ratio*ratio - 1
	if e < 1e-12 {
		return path{0, w.wall()}
	}
	v := math.Log1p(e)
	return path{m.spread * (1 - v/e), m.spread*(v*(1+1/e)-1) + w.wall()}
}

// shares are the sums over the wires that make the heat of the bundle a linear
// function: heat = cold + perRim*rim + perHeat*heat, with the rim in C.
type shares struct{ cold, perRim, perHeat float64 }

// sum adds the wires up, one left out (-1: none); false where one runs away.
func (m *medium) sum(wires []Wire, amps []unit.Ampere, skip int) (shares, bool) {
	var s shares
	for i, w := range wires {
		if i == skip || square(amps, i) == 0 {
			continue
		}
		own, ok := w.share(square(amps, i), m.path(w))
		if !ok {
			return s, false
		}
		s.add(own, 1)
	}
	return s, true
}

// share is what a wire adds to the sums. One of P = I²R at 20 C and resistances A
// to all heat, B to its own makes q = P(1 + alpha(rim + A heat + B q - 20)), solved
// here for q. False where alpha P B reaches 1: its resistance then runs away by itself.
func (w Wire) share(square float64, way path) (shares, bool) {
	p := square * float64(w.Resistance)
	away := 1 - resistanceRise*p*way.own
	if !(away > 0) {
		return shares{}, false
	}
	p /= away
	return shares{cold: p * (1 - 20*resistanceRise), perRim: p * resistanceRise, perHeat: p * resistanceRise * way.all}, true
}

// add adds another part so many times.
func (s *shares) add(part shares, times float64) {
	s.cold += times * part.cold
	s.perRim += times * part.perRim
	s.perHeat += times * part.perHeat
}

// left gives the part of all heat, in W/m, that wires outside the sum make.
func (s shares) left(heat, rim float64) float64 {
	return heat*(1-s.perHeat) - s.cold - s.perRim*rim
}

// rise finds the surface's rise over the air at which it gives off the heat of
// the sum; false where there is none below Melting.
func (m *medium) rise(s shares) (float64, bool) {
	down := 1 - s.perHeat - s.perRim*m.cover
	if !(down > 0) {
		return 0, false
	}
	cold, per := (s.cold+s.perRim*m.air)/down, s.perRim/down
	if cold < leastHeat {
		return 0, true
	}
	balance := func(x float64) float64 { return math.Log(m.loss(x) / (cold + per*x)) }
	return risen(balance, leastRise, usualRise, float64(Melting)-m.air)
}

// capacity gives the current in A that brings a wire outside the sum to a limit, 0
// where the others alone make it as hot.
func (m *medium) capacity(w Wire, way path, others shares, limit unit.Celsius) unit.Ampere {
	top := math.Min(float64(limit), float64(Melting))
	x, q, ok := m.raise(way, others, top)
	if !ok {
		return 0
	}
	own := others.left(q, m.air+x+m.cover*q)
	if !(own > 0) {
		return 0
	}
	return unit.Ampere(math.Sqrt(own / w.ohms(top)))
}

// raise finds the surface's rise at which a wire outside the sum is as hot as a
// limit, and the heat of the bundle then. Where the others alone heat it so there
// is no such rise (false), or one that leaves the wire less than no heat to make.
// As the loss grows at least with the rise, no second one fits.
func (m *medium) raise(way path, others shares, limit float64) (x, heat float64, ok bool) {
	span := limit - m.air
	over := func(x float64) float64 {
		q := m.loss(x)
		inner := x + m.cover*q
		return inner + way.all*q + way.own*others.left(q, m.air+inner)
	}
	balance := func(x float64) float64 { return math.Log(over(x) / span) }
	x, ok = risen(balance, leastRise, 0.7*span, span)
	return x, m.loss(x), ok
}

// conductor gives the temperature in C of a wire in the middle, from I² and the
// rim's temperature and heat.
func (w Wire) conductor(way path, square, rim, heat float64) float64 {
	place := rim + way.all*heat
	p := square * float64(w.Resistance)
	made := p * (1 + resistanceRise*(place-20)) / (1 - resistanceRise*p*way.own)
	return place + way.own*made
}
