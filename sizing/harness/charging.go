package harness

import (
	"slices"

	"example.com/loomfolio/sizing/unit"
)

// The kinds that make charge, or carry it.
const (
	Dynamo             Kind = "dynamo"
	ControlBox         Kind = "control-box"
	Stator             Kind = "stator"
	RectifierRegulator Kind = "rectifier-regulator"
	SolarPanel         Kind = "solar-panel"
	SolarRegulator     Kind = "solar-regulator"
	ShoreCharger       Kind = "shore-charger"
	Inverter           Kind = "inverter"
	Shunt              Kind = "shunt"
	BatteryMonitor     Kind = "battery-monitor"
	SplitCharge        Kind = "split-charge"
)

// Charging is what a part that makes or carries charge says beside its output.
type Charging struct {
	Regulated unit.Volt // of a source: what it holds, as given; 0: the vehicle's running voltage
	Setting   unit.Volt // of a control box: its setting on open circuit, as given
	Power     unit.Watt // of an inverter what it gives, of a panel its peak
	Short     unit.Ampere
	Best      unit.Ampere // of a panel: its short-circuit current, and that at its best power
	OpenVolts unit.Volt   // of a panel with nothing on it
	BestVolts unit.Volt   // of a panel at its best power
	Tracking  bool        // a solar regulator that turns the panel's voltage into current
	Shunts    bool        // a motorcycle's regulator that shorts what is not needed
	BuiltIn   bool        // a dynamo with its control box in it
}

// EngineMachine tells a kind that is bolted to the engine, by whose metal its case is
// earthed.
func EngineMachine(k Kind) bool { return k == Starter || k == Alternator || k == Dynamo }

// There tells whether a condition holds in a state, its coils aside: those move.
func (s *State) There(c Condition) bool {
	switch c.Kind {
	case InPosition:
		return slices.Contains(c.Positions, s.Position[c.Switch])
	case EngineIs:
		return slices.Contains(c.Engines, s.Engine)
	}
	return true
}

// Charges tells whether any source but a battery gives current in a state.
func (h *Harness) Charges(s *State) bool {
	return slices.ContainsFunc(h.Elements, func(e Element) bool { return e.Kind == Charger && s.There(e.When) })
}

// ByEngine tells a source that the engine drives.
func (e *Element) ByEngine() bool { return e.Kind == Charger && e.When.Kind == EngineIs }
