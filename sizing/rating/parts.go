package rating

import (
	"slices"
	"sync"

	"example.com/loomfolio/sizing/unit"
)

// nominal is the system's voltage that figures of parts.csv are of where none is listed for another.
const nominal = 12

// PartFigure is what a part takes, or is made for, where its description says nothing.
type PartFigure struct {
	Draws  unit.Draw
	Starts unit.Start
	Ohms   unit.Ohm
	Rating unit.Ampere   // of a contact
	Duty   unit.Fraction // the share of the time in which it carries current
	Source string
}

type partKey struct {
	kind, what string
	volts      unit.Volt
}

var partFigures = sync.OnceValue(func() map[partKey]PartFigure {
	out := map[partKey]PartFigure{}
	for _, r := range rows("parts.csv") {
		f := PartFigure{Ohms: unit.Ohm(r.number("ohms")), Rating: unit.Ampere(r.number("rating_a")), Source: r["source"]}
		f.Draws, _ = unit.ParseDraw(r["draws"]) // a cell that cannot be read fails the table's test
		f.Starts, _ = unit.ParseStart(r["starts"])
		f.Duty, _ = unit.ParseFraction(r["duty"])
		out[partKey{r["kind"], r["what"], unit.Volt(r.number("volts"))}] = f
	}
	return out
})

// PartFigureOf gives the figures of a kind's load, coil or contact in a system of so many
// volts; where none are listed for them, those of 12 V for the same watts.
func PartFigureOf(kind, what string, volts unit.Volt) (PartFigure, bool) {
	all := partFigures()
	if f, ok := all[partKey{kind, what, volts}]; ok {
		return f, true
	}
	f, ok := all[partKey{kind, what, nominal}]
	if !ok || volts <= 0 {
		return f, ok
	}
	k := float64(volts) / nominal
	f.Draws.Amps /= unit.Ampere(k)
	f.Draws.At *= unit.Volt(k)
	f.Starts.Amps /= unit.Ampere(k)
	f.Ohms *= unit.Ohm(k * k)
	return f, true
}

// Bulb is a lamp with two filaments: what is printed on it, and what it takes at the
// voltage at which it is tested.
type Bulb struct {
	Test   unit.Volt
	Watts  [2]unit.Watt
	Source string
}

// BulbOf gives the lamp that is printed "60/55" in a system of so many volts.
func BulbOf(volts unit.Volt, printed string) (Bulb, bool) {
	for _, r := range rows("bulbs.csv") {
		if unit.Volt(r.number("volts")) == volts && r["printed_w"] == printed {
			return Bulb{unit.Volt(r.number("test_v")), [2]unit.Watt{unit.Watt(r.number("first_w")), unit.Watt(r.number("second_w"))}, r["source"]}, true
		}
	}
	return Bulb{}, false
}

// Contact is one contact of a trailer socket: what it serves, the core that ends on it, and
// what usually hangs between it and the contact of its return.
type Contact struct {
	Pin, Function, Colour string
	Size                  unit.SquareMillimetre
	Return                string // "" for a return itself
	Draws                 unit.Draw
	Source                string
}

// SocketTypes names the trailer sockets that are known.
func SocketTypes() []string {
	var out []string
	for _, r := range rows("sockets.csv") {
		if !slices.Contains(out, r["type"]) {
			out = append(out, r["type"])
		}
	}
	return out
}

// Socket gives the contacts of a trailer socket in their order; none for an unknown type.
func Socket(name string) []Contact {
	var out []Contact
	for _, r := range rows("sockets.csv") {
		if r["type"] != name {
			continue
		}
		c := Contact{Pin: r["pin"], Function: r["function"], Colour: r["colour"], Size: unit.SquareMillimetre(r.number("size_mm2")), Return: r["return"], Source: r["source"]}
		c.Draws, _ = unit.ParseDraw(r["draws"]) // a cell that cannot be read fails the table's test
		out = append(out, c)
	}
	return out
}
