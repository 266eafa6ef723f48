package harness

// The kinds of the body and the engine that package kind describes by a recipe.
const (
	Wiper             Kind = "wiper"
	Headlamp          Kind = "headlamp"
	StopTail          Kind = "stop-tail"
	Trafficator       Kind = "trafficator"
	WindowMotor       Kind = "window-motor"
	LockMotor         Kind = "lock-motor"
	Thermostat        Kind = "thermostat"
	PressureSwitch    Kind = "pressure-switch"
	Reed              Kind = "reed"
	Hall              Kind = "hall-sensor"
	IgnitionCoil      Kind = "ignition-coil"
	Points            Kind = "points"
	CDI               Kind = "cdi"
	GlowPlugs         Kind = "glow-plugs"
	GlowTimer         Kind = "glow-timer"
	ElectronicFlasher Kind = "electronic-flasher"
	LatchingRelay     Kind = "latching-relay"
	Timer             Kind = "timer"
	Stabiliser        Kind = "stabiliser"
	TrailerSocket     Kind = "trailer-socket"
)

// Is tells a part of a kind, or of one that is held to the same rules as it: a wiper is a motor.
func (p *Part) Is(k Kind) bool { return p.Kind == k || p.Like == k }

// Resists tells a resistor, a part of its own or the ballast in an ignition coil: to a short it
// is a load and no metal.
func (h *Harness) Resists(e *Element) bool {
	return e.Kind == Resistance && (h.Parts[e.Part].Kind == Resistor || h.Parts[e.Part].Kind == IgnitionCoil)
}
