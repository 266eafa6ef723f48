package rating

import (
	"math"

	"example.com/loomfolio/sizing/unit"
)

// Designation gives what a terminal's number stands for by DIN 72552 and relay
// practice, and the source; "" for a name that is none of them. A number says what
// it is meant for, never which side is live.
func Designation(terminal string) (meaning, source string) {
	for _, r := range rows("din72552.csv") {
		if r["terminal"] == terminal {
			return r["meaning"], r["source"]
		}
	}
	return "", ""
}

// Rest is what a lead-acid battery of a nominal voltage shows at rest.
type Rest struct {
	Charge unit.Fraction
	Volts  unit.Volt
}

// RestVoltages gives the voltage of a lead-acid battery at rest against its
// charge, full first, in proportion to the 12 V that the published table is for.
func RestVoltages(nominal unit.Volt) []Rest {
	var out []Rest
	for _, r := range rows("battery-rest.csv") {
		volts := r.number("volts_12v") * float64(nominal) / 12
		out = append(out, Rest{unit.Fraction(r.number("charge_percent") / 100), unit.Volt(math.Round(volts*100) / 100)})
	}
	return out
}
