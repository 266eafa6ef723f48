//lint:file-ignore ST1005 These errors are printed as whole sentences behind a place in the file.

package describe

import (
	"fmt"

	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// The quantities, each with the words that messages use for it.
func amps[T any](name string, at func(*T) *read.Value[unit.Ampere]) read.Key[T] {
	return read.Quantity(name, "a current, such as 20 A", at, unit.ParseAmpere)
}

func volts[T any](name string, at func(*T) *read.Value[unit.Volt]) read.Key[T] {
	return read.Quantity(name, "a voltage, such as 13.5 V", at, parseVolts)
}

func ohms[T any](name string, at func(*T) *read.Value[unit.Ohm]) read.Key[T] {
	return read.Quantity(name, "a resistance, such as 5 mohm", at, unit.ParseOhm)
}

func length[T any](name string, at func(*T) *read.Value[unit.Millimetre]) read.Key[T] {
	return read.Quantity(name, "a length, such as 1.2 m or 4 ft", at, unit.ParseLength)
}

// stretchOf is a length that cannot be nothing.
func stretchOf[T any](name string, at func(*T) *read.Value[unit.Millimetre]) read.Key[T] {
	return read.Quantity(name, "a length, such as 1.2 m or 4 ft", at, parseStretch)
}

func counted[T any](name, holds string, at func(*T) *read.Value[int]) read.Key[T] {
	return read.Quantity(name, holds, at, parseCount)
}

func share[T any](name string, at func(*T) *read.Value[unit.Fraction]) read.Key[T] {
	return read.Quantity(name, "a share, such as 10 %", at, unit.ParseFraction)
}

func degrees[T any](name string, at func(*T) *read.Value[unit.Celsius]) read.Key[T] {
	return read.Quantity(name, "a temperature, such as 95 C", at, unit.ParseCelsius)
}

func draw[T any](name string, at func(*T) *read.Value[unit.Draw]) read.Key[T] {
	return read.Quantity(name, "what a load takes, such as 20 A or 35 W", at, parseDraw)
}

func gauge[T any](name string, at func(*T) *read.Value[unit.Gauge]) read.Key[T] {
	return read.Custom(name, holdsGauge, func(r *read.Reader, e read.Entry, into *T) { *at(into) = gaugeOf(r, e) })
}

const holdsGauge = "a wire size, such as 2.5 mm2, 14 ga or 12 AWG"

// gaugeOf reads a wire size; for one given by its strands it says what it was taken for.
func gaugeOf(r *read.Reader, e read.Entry) read.Value[unit.Gauge] {
	v := read.Parsed(r, e, holdsGauge, func(text string) (unit.Gauge, error) { return unit.ParseGauge(text, r.System) })
	if area, is := unit.StrandArea(v.Written); is && v.V.Given() {
		r.Mention(source.Advice, v.Span, "size-from-strands", fmt.Sprintf("%s holds %s of metal and is taken as %s", v.Written, area, v.V),
			"Write the size itself if the wire is sold as another.")
	}
	return v
}

// parseVolts refuses voltages that this is not made for.
func parseVolts(text string) (unit.Volt, error) {
	v, err := unit.ParseVolt(text)
	if err == nil {
		err = inScope(v)
	}
	return v, err
}

// inScope refuses 60 V and above, where direct current begins to kill
// (IEC 61140 and UN Regulation 100 draw the line for DC at 60 V).
func inScope(v unit.Volt) error {
	if v < 60 {
		return nil
	}
	return read.Refuse("voltage-out-of-scope", fmt.Sprintf("%s is outside the scope, which ends below 60 V DC", v),
		"Nothing here covers 60 V and above: traction batteries, mains and inverter outputs belong to a qualified, licensed person and to other rules. Leave that circuit out.")
}

func parseDraw(text string) (unit.Draw, error) {
	d, err := unit.ParseDraw(text)
	if err == nil {
		err = inScope(d.At)
	}
	return d, err
}

// parseEfficiency reads the share that a converter, an inverter or a regulator passes on.
func parseEfficiency(text string) (unit.Fraction, error) {
	v, err := unit.ParseFraction(text)
	if err == nil && v < leastEfficiency {
		err = fmt.Errorf("%q is no efficiency; converters, inverters and regulators pass on 80 to 98 %%", text)
	}
	return v, err
}

// leastEfficiency is below that of any converter; common practice, no source.
const leastEfficiency = 0.3

func parseStretch(text string) (unit.Millimetre, error) {
	v, err := unit.ParseLength(text)
	if err == nil && v == 0 {
		err = fmt.Errorf("%q is no length; leave the key out to have it computed.", text)
	}
	return v, err
}

// habits are words that people use for a key, with the key that is meant.
var habits = map[string]string{
	"amps": "draws", "current": "draws", "load": "draws", "watts": "draws", "power": "draws", "place": "at", "location": "at", "where": "at",
	"size": "gauge", "awg": "gauge", "mm2": "gauge", "wire": "gauge", "fuse": "rating", "amperage": "rating", "color": "colour", "colors": "colour",
	"inrush": "starts", "surge": "starts", "type": "kind", "label": "name", "note": "notes", "comment": "notes", "pins": "cavities", "ways": "cavities",
	"ground": "return", "voltage": "volts", "author": "builder", "client": "customer", "components": "parts", "devices": "parts", "wires": "circuits",
	"nets": "circuits", "locations": "places", "looms": "runs", "branches": "runs", "modes": "states", "scenarios": "states", "drawn": "date",
}
