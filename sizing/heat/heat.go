// Package heat computes how warm wires get: a heat balance of one wire in still
// air, and of wires that lie together in a bundle.
//
// In: a wire's diameters and its resistance at 20 C, a current, the temperature
// of the air; for a bundle its diameter (from packing the circles), a cover, and
// the current of every wire at one moment. Out: the conductors' temperatures, or
// the current that brings one of them to a limit. All is for currents that flow
// for ever; short times are not treated here.
//
// The method. Each metre of wire turns I²R into heat, R at the conductor's own
// temperature (0.00393 per K). The heat passes the wall, in a bundle also its
// inside and its cover, and leaves the surface by natural convection and by
// radiation: see air.go for the surface, bundle.go for the inside. Every layer
// is linear in the heat, so the whole bundle comes down to one equation in the
// surface's temperature, solved to 1e-12.
//
// What always holds: the heat made equals the heat given off; more current, a
// hotter neighbour or warmer air never cool a wire; a bundle of one wire is that
// wire alone. Where no balance exists (more current, more resistance, without
// end) or it lies above the melting point of copper, the answer is Melting.
// A wire whose diameters or resistance make no sense melts at any current and
// may carry none: the safe side.
//
// Not counted, all on the safe side but the last two: wind, heat that runs along
// the copper to the ends, contact with cold metal, radiation between the wires
// inside a bundle. Thin air at altitude cools less, and sun or an exhaust warm
// more: give the warmer air.
package heat

import (
	"math"

	"example.com/loomfolio/sizing/unit"
)

const (
	// Melting is the melting point of copper (from memory), the highest
	// temperature that this package gives.
	Melting unit.Celsius = 1085
	// coldest is the lowest air that is told apart; colder air counts as this.
	coldest = -100.0

	// resistanceRise is the temperature coefficient of annealed copper at 20 C,
	// per K (100 % IACS, Industrial Power Engineering and Applications Handbook, p. 970).
	resistanceRise = 0.00393
	// wallConductivity is that of the insulation in W/m.K, from memory. On the
	// safe side of IEC 60287-2-1 table 1 as a cable-calculation page quotes it:
	// PVC up to 3 kV 5.0 K.m/W (0.20), above 6.0 (0.17), cross-linked PE 3.5 (0.29).
	wallConductivity = 0.17
	// emissivity is that of plastics of any colour, from memory.
	emissivity = 0.9
)

// Wire is the cross-section of one wire.
type Wire struct {
	Conductor  unit.Millimetre  // diameter over the strands
	Outside    unit.Millimetre  // diameter over the insulation
	Resistance unit.OhmPerMetre // at 20 C
}

// sound tells whether the figures make a wire.
func (w Wire) sound() bool {
	d, o, r := float64(w.Conductor), float64(w.Outside), float64(w.Resistance)
	return d > 0 && o >= d && o <= 1e4 && r > 0 && r <= 1e6
}

// wall gives the thermal resistance of the insulation in K.m/W: Fourier's law
// through a cylinder's wall.
func (w Wire) wall() float64 {
	return math.Log(float64(w.Outside)/float64(w.Conductor)) / (2 * math.Pi * wallConductivity)
}

// Temperature gives the conductor's temperature in C of the wire alone in still
// air that carries a current for ever; at most Melting.
func (w Wire) Temperature(amps unit.Ampere, air unit.Celsius) unit.Celsius {
	return Alone(w, air).Balance([]unit.Ampere{amps}).Conductors[0]
}

// Current gives the current in A that brings the conductor of the wire, alone
// in still air, to a temperature; 0 where the air is as warm already.
func (w Wire) Current(conductor, air unit.Celsius) unit.Ampere {
	return Alone(w, air).Capacity(0, nil, conductor)
}

// ResistanceFactor gives the resistance of copper at a temperature over that at
// 20 C.
func ResistanceFactor(t unit.Celsius) float64 { return 1 + resistanceRise*float64(t-20) }

// ohms gives the resistance in ohm/m at a temperature.
func (w Wire) ohms(t float64) float64 {
	return float64(w.Resistance) * ResistanceFactor(unit.Celsius(t))
}
