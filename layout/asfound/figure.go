package asfound

import (
	"fmt"
	"math"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/unit"
)

// read is what the meter showed.
func read(x *harness.Reading) string {
	switch {
	case !x.Dead:
		return page.Firm(volts(float64(x.Volts)) + " V")
	case math.IsInf(float64(x.Ohms), 1):
		return "open"
	}
	return page.Firm(ohms(float64(x.Ohms)))
}

// should is between what limits a sound loom reads, as written on the sheet.
func should(x *harness.Reading, m *proof.Measured) string {
	switch {
	case math.IsNaN(m.Is):
		return "?"
	case !x.Dead && volts(m.Low) == volts(m.High):
		return page.Firm(volts(m.Is) + " V")
	case !x.Dead:
		return page.Firm(volts(m.Low) + " to " + volts(m.High) + " V")
	case math.IsInf(m.Is, 1):
		return "open"
	case math.IsInf(m.High, 1):
		return page.Firm(ohms(m.Low) + " or more")
	}
	return page.Firm("up to " + ohms(m.High))
}

// volts prints hundredths below 2 V and tenths above, as a cheap meter is read.
func volts(v float64) string {
	if math.Abs(v) < 2 {
		return fmt.Sprintf("%.2f", unit.Round(v, 2)+0)
	}
	return fmt.Sprintf("%.1f", v)
}

func ohms(v float64) string { return unit.Ohm(unit.Round(v, 3)).String() }
