package proof

import (
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Alters is what is changed later on.
type Alters string

// What may be changed.
const (
	Larger        Alters = "larger"         // a larger fan, pump, heater, horn, or what is plugged in
	MoreLamps     Alters = "more-lamps"     // brighter lamps, or more of them: a trailer
	LEDFlashers   Alters = "led-flashers"   // LED lamps behind a flasher that needs a load
	LEDCharge     Alters = "led-charge"     // an LED for the charge lamp
	BatteryMoved  Alters = "battery-moved"  // longer starter cables
	SecondBattery Alters = "second-battery" // one more battery
	Charging      Alters = "charging"       // a larger alternator or charger
)

// Change is what follows if something is changed later: computed, for the circuit's sheet.
type Change struct {
	Circuit harness.CircuitID
	Part    harness.PartID // that is changed; None for none
	Alters  Alters
	If      string // "Radiator fan larger than 20 A"
	Then    string // "the wiring is good for 20.6 A; beyond it MF1 needs 40 A and 3A, 3C 6 mm²"
	First   string // what gives out first: a rule of chosen.Limit; "" where nothing does
	At      string // the fuse, wire, contact, load or state that it is about
	Names   []string
	Numbers []Number
}

// Number is a figure of a note; its name ends in the unit.
type Number struct {
	Name  string
	Value float64
}

// Number gives a figure by its name, 0 where there is none.
func (c *Change) Number(name string) float64 {
	for _, n := range c.Numbers {
		if n.Name == name {
			return n.Value
		}
	}
	return 0
}

// Amps gives a figure in A; see Number.
func (c *Change) Amps(name string) unit.Ampere { return unit.Ampere(c.Number(name)) }
