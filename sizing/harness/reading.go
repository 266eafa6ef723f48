package harness

import (
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Reading is what a meter showed on the vehicle as it is: volts in a state, or ohms with
// the battery off.
type Reading struct {
	At      TerminalID // the red lead
	Against TerminalID // the black lead; None: on the battery's minus, where plus is grounded on its plus
	State   int        // into States; None for ohms
	Volts   unit.Volt
	Ohms    unit.Ohm // +Inf where the meter shows no end of it
	Dead    bool     // ohms, the battery off
	Said    string   // the state as it is written; "" where everything at rest is meant
	Span    source.Span
	AtSpan  source.Span // of the point
}
