package check

import "example.com/loomfolio/sizing/unit"

// Figures that hold unless the description gives its own.
const (
	engineSpace unit.Celsius = 50          // 33 CFR 183.425 table 5: engine space
	otherSpace  unit.Celsius = 30          // 33 CFR 183.425 table 5: outside engine space
	runPerVolt               = 14.2 / 12.0 // charging voltage, from memory (13.8-14.8 V)
)
