package symbol

import (
	"slices"
	"strings"

	"example.com/loomfolio/sizing/harness"
)

// Variant is one pictogram of the set; its text is what the reading guide calls it.
type Variant string

// The variants of the kinds that have more than one pictogram. Every other kind has
// one, named after it.
const (
	alternatorOne Variant = "alternator"
	converterOne  Variant = "converter, DC to DC"
	dynamoOne     Variant = "dynamo"
	fuseOne       Variant = "fuse"
	positionOne   Variant = "fuse in its place in a panel"
	panelOne      Variant = "fuse panel feed"
	breakerOne    Variant = "circuit breaker"
	breakerCycles Variant = "breaker, automatic reset (type 1)"
	breakerStays  Variant = "breaker, modified reset (type 2)"
	breakerReset  Variant = "breaker, manual reset (type 3)"

	isolatorClosed Variant = "isolator, normally closed"
	isolatorOpen   Variant = "isolator, normally open"
	switchOpen     Variant = "switch, open at rest"
	switchClosed   Variant = "switch, closed at rest"
	buttonOpen     Variant = "push button, normally open"
	buttonClosed   Variant = "push button, normally closed"
	positionsOne   Variant = "switch with positions, ▲ at rest"
	springsOne     Variant = "the same, momentary"
	ignitionOne    Variant = "ignition switch"
	flasherOne     Variant = "flasher"

	motorOne     Variant = "motor"
	fanOne       Variant = "fan, blower"
	pumpOne      Variant = "pump"
	wiperOne     Variant = "wiper"
	windowOne    Variant = "window, lift"
	starterOne   Variant = "starter"
	lampOne      Variant = "lamp"
	filamentsOne Variant = "lamp with several filaments"
	diodeLampOne Variant = "LED lamp"
	moduleOne    Variant = "module, electronics"
	batteryOne   Variant = "battery"
	busOne       Variant = "bus bar"
	diodeOne     Variant = "diode"
	resistorOne  Variant = "resistor"
	capacitorOne Variant = "capacitor"
	strapOne     Variant = "braided strap"
	connectorOne Variant = "connector, one cavity"
	spliceOne    Variant = "splice (permanent)"
	groundOne    Variant = "ground point on the bodywork"
	unknownOne   Variant = "unknown: nobody knows what it does"
	openEndOne   Variant = "end not traced"
	relayMakes   Variant = "relay, make contact (NO)"
	relayChanges Variant = "changeover relay"
	withDiode            = "; diode on its coil"
	withResistor         = "; resistor on its coil"
)

// VariantOf tells which pictogram a part gets: by its kind, how its contacts rest,
// what it says of itself, and for motors, lamps and generators by its name.
func VariantOf(h *harness.Harness, p *harness.Part) Variant {
	switch p.Kind {
	case harness.Alternator:
		return either(has(p.Name, "dynamo"), dynamoOne, alternatorOne)
	case harness.Breaker:
		return map[string]Variant{"1": breakerCycles, "2": breakerStays, "3": breakerReset, "": breakerOne}[p.BreakerType]
	case harness.Isolator:
		return either(restClosed(h, p), isolatorClosed, isolatorOpen)
	case harness.Switch:
		return switchVariant(h, p)
	case harness.Relay:
		return relayVariant(p)
	case harness.Motor:
		return motorVariant(p.Name)
	case harness.Lamp:
		return lampVariant(h, p)
	}
	if v := chargingVariant(p.Kind); v != "" {
		return v
	}
	return single(p.Kind)
}

// single names the pictogram of a kind that has one.
func single(k harness.Kind) Variant {
	for _, l := range plainLoads {
		if l.kind == k {
			return l.v
		}
	}
	if s := signOf(k); s != nil {
		return s.v
	}
	return map[harness.Kind]Variant{
		harness.Battery: batteryOne, harness.DCConverter: converterOne, harness.Bus: busOne, harness.Starter: starterOne, harness.Fuse: fuseOne, harness.FusePanel: positionOne,
		harness.Flasher: flasherOne, harness.IgnitionSwitch: ignitionOne,
		harness.Module: moduleOne, harness.Diode: diodeOne, harness.Resistor: resistorOne, harness.Capacitor: capacitorOne,
		harness.Strap: strapOne, harness.Connector: connectorOne, harness.Splice: spliceOne, harness.Ground: groundOne,
		harness.Unknown: unknownOne, harness.OpenEnd: openEndOne,
	}[k]
}

func either(first bool, a, b Variant) Variant {
	if first {
		return a
	}
	return b
}

// has tells whether a name holds one of the words, in small letters.
func has(name string, words ...string) bool {
	low := strings.ToLower(name)
	return slices.ContainsFunc(words, func(w string) bool { return strings.Contains(low, w) })
}

func switchVariant(h *harness.Harness, p *harness.Part) Variant {
	switch {
	case !plainContact(h, p):
		return either(p.Momentary, springsOne, positionsOne)
	case p.Momentary:
		return either(restClosed(h, p), buttonClosed, buttonOpen)
	}
	return either(restClosed(h, p), switchClosed, switchOpen)
}

func relayVariant(p *harness.Part) Variant {
	v := either(p.Changeover, relayChanges, relayMakes)
	switch p.Suppression {
	case "diode":
		return v + withDiode
	case "resistor":
		return v + withResistor
	}
	return v
}

func motorVariant(name string) Variant {
	switch {
	case has(name, "fan", "blower", "ventilator"):
		return fanOne
	case has(name, "pump"):
		return pumpOne
	case has(name, "wiper"):
		return wiperOne
	case has(name, "window", "lift"):
		return windowOne
	}
	return motorOne
}

// lampVariant tells lamps of several loads and LEDs apart: these say so in their
// name, or hold their current or their power whatever the voltage.
func lampVariant(h *harness.Harness, p *harness.Part) Variant {
	loads := partElements(h, p, harness.Load)
	switch {
	case slices.Contains(strings.Fields(p.Name), "LED") || len(loads) > 0 && (loads[0].Behaves == harness.AsCurrent || loads[0].Behaves == harness.AsPower):
		return diodeLampOne
	case len(loads) > 1:
		return filamentsOne
	}
	return lampOne
}

// partElements are a part's elements of some kinds.
func partElements(h *harness.Harness, p *harness.Part, kinds ...harness.ElementKind) []harness.Element {
	var out []harness.Element
	for _, id := range p.Elements {
		if e := h.Elements[id]; slices.Contains(kinds, e.Kind) {
			out = append(out, e)
		}
	}
	return out
}
