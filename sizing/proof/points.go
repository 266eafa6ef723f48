package proof

import (
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Point is a terminal, or one side of a plug's cavity, that a probe can reach.
type Point struct {
	At    harness.TerminalID
	Place harness.PlaceID // None where the description does not say
	Side  string          // where the probe goes: "stud", "wire side of the plug, cavity 4", "in the tape"
	Reach float64         // minutes to get a probe there, 0.5 for an open stud
	Lamp  bool            // a test lamp serves here
	NoBut string          // why it does not, "" where it does: "module: meter only"

	Pulses   string // "" or why a meter shows a mean here: "beats with FLS", "pulsed by ECU"
	Misleads string // "" or what a lit test lamp hides here: "lights behind 2 Ω, where FAN gets 4 V"
}

// Before is what is proved with the battery off and every fuse out.
type Before struct {
	Beeps  []Beep
	Bodies []harness.TerminalID // of parts that their own bodies ground: each must beep to the battery's lead to the bodywork
	Apart  []Apart
	Pulled []Pulled
}

// Beep is a chain of wires through closed metal that must beep from end to end; together
// they cover every wire.
type Beep struct {
	Wire  harness.WireID // the first of them; None where a ground is told by its joint alone
	Wires []harness.WireID
	From  harness.TerminalID
	To    harness.TerminalID
	Note  string // "" or what to undo, so that the beep proves this way
}

// Apart are points that must not beep to one another: neighbours in one plug, panel or
// part, or a point and ground.
type Apart struct {
	A, B   harness.TerminalID // B is harness.Chassis for ground; of a wired return the battery's post
	Ground bool               // B is ground
	Switch []harness.PartID   // those to be worked one after the other meanwhile
	Ohms   unit.Ohm           // between them with everything plugged in; +Inf where nothing joins them
	Off    []harness.PartID   // parts that must be unplugged, or whose bulb is out, for this to hold
	Note   string             // "" or what would beep anyway: "through L1: take its bulb out"
}

// Pulled is a fuse that is pulled: between its two sides nothing may be left.
type Pulled struct {
	Fuse harness.ElementID
	Ohms unit.Ohm         // between its sides with everything plugged in and all other fuses out
	Off  []harness.PartID // as in Apart
	Note string           // "" or what bridges it, and through what
}

// Step is one step of the first power-up.
type Step struct {
	Battery harness.ElementID   // in whose lead; all others are off
	Through string              // what stands in the plus lead: "lamp 21 W", "fuse 3 A", "direct"
	Fuse    harness.ElementID   // that goes in, None for none; of several the first
	Fuses   []harness.ElementID // all that go in; with everything on, those that must be in while all others are out
	State   int                 // what is switched on, None for everything off
	Do      string              // in words: "FP.3 in, key off"
	Amps    unit.Ampere         // expected from the battery
	Low     unit.Ampere
	High    unit.Ampere
	Lamp    string // dark, glows, bright; "" where no lamp stands in the lead
	Stop    string // when to stop, and what it means
}

// Reading is what a meter shows at a point in a state, with its limits.
type Reading struct {
	Point  int // into Points
	State  int
	Volts  unit.Volt
	Low    unit.Volt // worst case of source, loads, lengths and contacts
	High   unit.Volt
	Asked  bool // on the sheet: this state matters for this point
	Floats bool // nothing defines a voltage here
}

// Section is what is judged under load by a meter across it on its 2 V range: a wire, a
// joint, a contact, the way from a ground to the battery, or the whole feed or return of a
// load, to be asked first.
type Section struct {
	From, To harness.TerminalID // red on From, black on To: From is the more positive
	State    int
	Volts    unit.Volt
	Most     unit.Volt // more is a fault: the worst case of a sound one, with the meter's error
	What     string    // what lies between: "12A", "K1.30-87", "FP.3", "ground G3", "feed of FAN", "return of FAN"
	Whole    bool      // the whole feed or return
	Wire     harness.WireID
	Element  harness.ElementID // of a contact, fuse or plug; None
	Load     harness.ElementID // for which it is told, the one with most current here
	Blind    string            // "" or why a joint that costs the load a tenth of its volts may lie inside
}

// Through is the current through one fuse with everything behind it on.
type Through struct {
	Fuse            harness.ElementID
	State           int
	Amps, Low, High unit.Ampere
	Across          unit.Volt // over the fuse at Amps, which tells small currents without a break
}

// CoilAmps is the current of one relay's coil, to be measured in its feed.
type CoilAmps struct {
	Coil              harness.ElementID
	State             int
	Amps, Low, High   unit.Ampere
	Ohms              unit.Ohm // across 85 and 86 with the relay out, at 20 °C, a resistor in it counted in
	OhmsLow, OhmsHigh unit.Ohm
	Diode             string // "" or which way the diode in it lies: "86 is positive"
}

// KeyOff is the current with everything at rest.
type KeyOff struct {
	State int // None where no state has everything at rest
	Sum   unit.Ampere
	High  unit.Ampere // more is not of what is described
	Limit unit.Ampere // more empties the battery in weeks, whatever draws it
	Fuses []Through   // those that carry any, the most first
}

// Untold is a fault that nothing in the plan shows, and why.
type Untold struct {
	Fault int // into Faults
	Why   string
}
