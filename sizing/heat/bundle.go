package heat

import (
	"math"

	"example.com/loomfolio/sizing/unit"
)

// Bundle is what lies together in one run of the loom, in still air.
//
// The inside is a model of an effective medium. A wire is a core that conducts
// without loss in a wall: together a cylinder of conductivity
// k(1+p)/(1-p), p the core's share of the section (Hashin's coated cylinder,
// from memory). Such cylinders in still air conduct as Maxwell and Rayleigh
// found for cylinders across the heat (1892; the lower bound of Hashin and
// Shtrikman, from memory): ka(1+S)/(1-S), S the sum of each wire's share of the
// section times (kw-ka)/(kw+ka). Contacts and radiation between the wires would
// only add, so this is the safe side.
//
// Each wire in turn counts as lying in the middle, with its own heat going
// straight out through the medium and the heat of all others made evenly round
// it (Fourier's law in a hollow cylinder with a source). So every conductor
// gets the temperature of the worst place that it could have: along a run,
// wires change places. Two or three wires all touch the outside in truth; for
// these the model is the most careful.
//
// Idle wires lend their surface: a loaded wire among a few idle ones may carry
// up to about a tenth more than alone, as thin wires do under a thicker wall.
type Bundle struct {
	Wires    []Wire
	Diameter unit.Millimetre // round all wires, under the cover; never counted less than the circle that holds their areas
	Cover    Cover           // the zero Cover is none
	Air      unit.Celsius    // below -100 counts as -100
}

// Cover is what is drawn over a bundle, a tube of one material.
type Cover struct {
	Wall         unit.Millimetre // thickness
	Gap          unit.Millimetre // of still air all round under it, 0 where it is tight
	Conductivity float64         // W/m.K; 0: 0.17
	Emissivity   float64         // of its outside; 0: 0.9
}

// Balance is the state in which a bundle makes and gives off the same heat.
type Balance struct {
	Conductors []unit.Celsius // by wire, each as if in the middle; at most Melting
	Rim        unit.Celsius   // at the outermost wires, under the cover
	Surface    unit.Celsius   // outside
	Heat       float64        // W/m of all wires
	Found      bool           // false: no balance below Melting; all figures are Melting, Heat is 0
}

// Alone is the bundle of one wire without a cover.
func Alone(w Wire, air unit.Celsius) Bundle {
	return Bundle{Wires: []Wire{w}, Diameter: w.Outside, Air: air}
}

// Balance gives the temperatures at the currents, in A by wire, that flow
// together for ever; their sign does not count, wires beyond the list carry none.
func (b Bundle) Balance(amps []unit.Ampere) Balance {
	m, ok := b.medium()
	if !ok {
		return b.given(amps)
	}
	sum, ok := m.sum(b.Wires, amps, -1)
	if !ok {
		return melted(len(b.Wires))
	}
	x, ok := m.rise(sum)
	if !ok {
		return melted(len(b.Wires))
	}
	q := m.loss(x)
	rim := m.air + x + m.cover*q
	out := Balance{Rim: capped(rim), Surface: capped(m.air + x), Heat: q, Found: true, Conductors: make([]unit.Celsius, len(b.Wires))}
	for i, w := range b.Wires {
		out.Conductors[i] = capped(w.conductor(m.path(w), square(amps, i), rim, q))
	}
	return out
}

// Capacity gives the current in A that brings the conductor of one wire to a
// limit while the others carry theirs; amps[wire] is passed over. It is 0 where
// the others alone make it as hot, and where the wire is not in the bundle.
// The limits of the others are not looked at.
func (b Bundle) Capacity(wire int, amps []unit.Ampere, limit unit.Celsius) unit.Ampere {
	m, ok := b.medium()
	if !ok || wire < 0 || wire >= len(b.Wires) || !(float64(limit) > m.air) {
		return 0
	}
	others, ok := m.sum(b.Wires, amps, wire)
	if !ok {
		return 0
	}
	w := b.Wires[wire]
	return m.capacity(w, m.path(w), others, limit)
}

// given is the balance where the bundle makes no sense: without any current all
// is as warm as the air, else it melts.
func (b Bundle) given(amps []unit.Ampere) Balance {
	for i := range b.Wires {
		if square(amps, i) != 0 {
			return melted(len(b.Wires))
		}
	}
	air := capped(float64(b.Air))
	out := Balance{Rim: air, Surface: air, Found: true, Conductors: make([]unit.Celsius, len(b.Wires))}
	for i := range out.Conductors {
		out.Conductors[i] = air
	}
	return out
}

func melted(wires int) Balance {
	out := Balance{Rim: Melting, Surface: Melting, Conductors: make([]unit.Celsius, wires)}
	for i := range out.Conductors {
		out.Conductors[i] = Melting
	}
	return out
}

// capped keeps a temperature within Melting; one that is no number melts.
func capped(t float64) unit.Celsius {
	if !(t < float64(Melting)) {
		return Melting
	}
	return unit.Celsius(math.Max(t, coldest))
}

// square gives I² of a wire.
func square(amps []unit.Ampere, i int) float64 {
	if i >= len(amps) {
		return 0
	}
	return float64(amps[i]) * float64(amps[i])
}
