// Package samples holds worked descriptions to begin from: whole vehicles of
// one invented family, each for a reader of its own. They are text as a person
// writes it, comments and all; nothing here reads or checks them.
package samples

import "embed"

//go:embed *.yaml
var files embed.FS

//go:embed patterns/*.yaml
var patternFiles embed.FS

// Sample is one description.
type Sample struct {
	Name string // the file's name without .yaml
	For  string // who should begin with it, in a few words
	Text []byte // the file as it is, UTF-8
}

// List gives the samples in the order in which a newcomer should read them.
func List() []Sample {
	all := []Sample{
		{Name: "first", For: "a first evening: fan, fuel pump and driving lamps, every idea explained once"},
		{Name: "kestrel", For: "a whole kit car: 12 V, two fuse panels, connectors at the bulkhead"},
		{Name: "tender", For: "an old hand's utility: 6 V, positive ground, dynamo, letter paper, inches and SAE gauge"},
		{Name: "camper", For: "a camper: second battery, split charge, isolators, panels for base vehicle and living space"},
	}
	return read(all, files, "")
}

// Patterns gives short descriptions of one circuit each, a cookbook: what it does, why it is
// wired so, what goes wrong otherwise. Lines that begin with #! say what each state shows.
func Patterns() []Sample {
	return read([]Sample{
		{Name: "wiper-park", For: "a wiper with its park contact (53, 53a, 53b, 53e, 31)"},
		{Name: "fan-resistor", For: "a fan with two speeds by a resistor"},
		{Name: "fan-series-parallel", For: "two fans with two speeds, in series and in parallel"},
		{Name: "latching-relay", For: "a relay that holds itself, with start and stop"},
		{Name: "hazard", For: "indicators with a hazard switch that leaves the ignition alone"},
		{Name: "exciter-lamp", For: "the charge lamp that starts an alternator"},
		{Name: "reversing-motor", For: "a motor that runs both ways, by two relays"},
		{Name: "relay-jumper", For: "a relay with a jumper from 30 to 86, switched on its ground side"},
		{Name: "diode-common", For: "two doors with a lamp each and one buzzer, by diodes"},
		{Name: "dim-dip", For: "dipped beams dimmed by a resistor"},
		{Name: "starter-interlock", For: "a starter that needs clutch and neutral"},
		{Name: "dynamo-control-box", For: "a dynamo with its control box and charge lamp"},
		{Name: "alternator-sense", For: "an alternator that senses at the battery"},
		{Name: "bike-charging", For: "a motorcycle's stator with its rectifier-regulator"},
		{Name: "split-charge", For: "a second battery, charged through a voltage-sensing relay"},
		{Name: "solar-charge", For: "a solar panel with its regulator"},
		{Name: "shore-charge", For: "a charger that is plugged in, its low side"},
		{Name: "inverter", For: "an inverter, its low side"},
		{Name: "shunt-monitor", For: "a shunt and a battery monitor"},
		{Name: "two-filaments", For: "headlamp and stop and tail lamp with two filaments (56a 56b, 54 58)"},
		{Name: "thermostat-fan", For: "a radiator fan turned on by its thermostat"},
		{Name: "oil-warning", For: "the oil warning lamp and its pressure switch"},
		{Name: "points-ballast", For: "ignition with points, ballast, and its bypass while cranking (15 15a 1)"},
		{Name: "glow-plugs", For: "glow plugs with their timer"},
		{Name: "window-lift", For: "an electric window straight on its switch"},
		{Name: "central-locking", For: "lock motors turned either way by two relays"},
		{Name: "semaphore", For: "semaphore indicators"},
		{Name: "led-flasher", For: "LED indicators with an electronic flasher (49 49a C 31)"},
		{Name: "trailer-socket", For: "a trailer socket by its standard (12N, ISO 1724)"},
		{Name: "impulse-relay", For: "a latching relay, set and reset by pulses"},
		{Name: "run-on-timer", For: "a fan that a timer lets run on"},
		{Name: "gauge-stabiliser", For: "gauges behind a stabiliser"},
		{Name: "speed-sensor", For: "a Hall sensor and a reed contact on a module"},
		{Name: "converter-24-12", For: "12 V from 24 V by a converter"},
		{Name: "dc-charger", For: "a DC/DC charger between two batteries"},
	}, patternFiles, "patterns/")
}

// read adds the texts of files; what has none is left out.
func read(all []Sample, from embed.FS, folder string) []Sample {
	var found []Sample
	for _, s := range all {
		text, err := from.ReadFile(folder + s.Name + ".yaml")
		if err != nil {
			continue
		}
		s.Text = text
		found = append(found, s)
	}
	return found
}
