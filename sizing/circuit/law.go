package circuit

import "math"

// knee is how far, in volts, beyond the corner of a law an element still counts
// as being on the conducting side. The current itself has no such allowance.
const knee = 1e-9

// lampPower is the power of the voltage that a filament's current follows; from
// memory, the handbooks of lighting give 0.54 to 0.58 by type.
const lampPower = 0.55

// flow gives the current from A to B at v volts (A against B), and how fast it
// rises, in siemens. Every law is continuous and never falls.
func (e *Element) flow(v float64, closed bool) (amps, slope float64) {
	switch e.Kind {
	case Resistor, Coil:
		return v / e.Ohms, 1 / e.Ohms
	case Contact:
		if closed {
			return v / e.Ohms, 1 / e.Ohms
		}
		return 0, 0
	case Source:
		return e.sourceFlow(v)
	case Limited:
		return e.limitedFlow(v)
	case Current:
		if math.Abs(v) >= e.Floor { // a motor that is reversed takes what it takes forwards
			return math.Copysign(e.Amps, v), 0
		}
		return v * (e.Amps / e.Floor), e.Amps / e.Floor
	case Lamp:
		return e.lampFlow(v)
	case Power:
		return e.heldFlow(v, e.draw(v))
	case Intake: // what it takes is not told by its own voltage alone (converter.go)
		return 0, 0
	default: // Diode
		if v >= e.Volts-knee {
			return math.Max(0, (v-e.Volts)/e.Ohms), 1 / e.Ohms
		}
		return 0, 0
	}
}

// rests tells whether a source has a span of voltages in which it does nothing.
func (e *Element) rests() bool { return e.Idle != 0 && e.Idle > e.Volts }

// bends tells whether an element may stand, with no current, at a corner of its law.
func (e *Element) bends() bool {
	return e.Kind == Diode || e.Kind == Limited || e.Kind == Source && e.rests()
}

func (e *Element) sourceFlow(v float64) (amps, slope float64) {
	switch {
	case !e.rests():
		return (v - e.Volts) / e.Ohms, 1 / e.Ohms
	case v <= e.Volts+knee:
		return math.Min(0, (v-e.Volts)/e.Ohms), 1 / e.Ohms
	case v >= e.Idle-knee:
		return math.Max(0, (v-e.Idle)/e.Ohms), 1 / e.Ohms
	}
	return 0, 0
}

func (e *Element) limitedFlow(v float64) (amps, slope float64) {
	amps = (v - e.Volts) / e.Ohms
	switch {
	case v > e.Volts+knee:
		return 0, 0
	case amps < -e.Amps:
		return -e.Amps, 0
	}
	return math.Min(0, amps), 1 / e.Ohms
}

func (e *Element) lampFlow(v float64) (amps, slope float64) {
	if math.Abs(v) <= e.Floor {
		slope = e.Amps * math.Pow(e.Floor/e.AtVolts, lampPower) / e.Floor
		return slope * v, slope
	}
	amps = math.Copysign(e.Amps*math.Exp(lampPower*math.Log(math.Abs(v)/e.AtVolts)), v)
	return amps, lampPower * amps / v
}

// watts is what a load of constant power takes.
func (e *Element) watts() float64 { return e.Amps * e.AtVolts }

// draw is the current of a load of constant power at a voltage, taken as at its
// floor where that is less.
func (e *Element) draw(v float64) float64 { return e.watts() / math.Max(v, e.Floor) }

// heldFlow is the law of a load of constant power whose current above its floor
// is held at so many amperes: that of a constant current.
func (e *Element) heldFlow(v, amps float64) (float64, float64) {
	if v >= e.Floor {
		return amps, 0
	}
	return v * (amps / e.Floor), amps / e.Floor
}

// frozen gives the linear form that has this current at this voltage.
func (e *Element) frozen(v float64, closed bool) Frozen {
	amps, slope := e.flow(v, closed)
	switch {
	case slope == 0 && amps == 0:
		return Frozen{Form: IsOpen}
	case slope == 0:
		return Frozen{Form: IsCurrent, Amps: amps}
	}
	switch e.Kind {
	case Source:
		if e.rests() && v > e.Volts+knee {
			return Frozen{Form: IsVoltage, Volts: e.Idle, Ohms: e.Ohms}
		}
		return Frozen{Form: IsVoltage, Volts: e.Volts, Ohms: e.Ohms}
	case Limited, Diode:
		return Frozen{Form: IsVoltage, Volts: e.Volts, Ohms: e.Ohms}
	case Lamp:
		if math.Abs(v) > e.Floor {
			return Frozen{Form: IsResistance, Ohms: v / amps}
		}
	}
	return Frozen{Form: IsResistance, Ohms: 1 / slope}
}

// powerNear is (1+x) to the lamps' power for a small x, up to 1/128 either way:
// the binomial series, whose ninth term is below the last digit.
func powerNear(x float64) float64 {
	sum := 1.0
	for k := 8; k > 0; k-- {
		n := float64(k)
		sum = 1 + (lampPower-n+1)/n*x*sum
	}
	return sum
}

// frozenHeld is frozen for an input of a converter that is held at so many amperes.
func (e *Element) frozenHeld(v, held float64) Frozen {
	amps, slope := e.heldFlow(v, held)
	switch {
	case amps == 0:
		return Frozen{}
	case slope == 0:
		return Frozen{Form: IsCurrent, Amps: amps}
	}
	return Frozen{Form: IsResistance, Ohms: 1 / slope}
}
