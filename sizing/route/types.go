// Package route finds the way of each wire over the runs of the loom and its
// cut length: the shortest way (or through the places of `via`), plus the tails
// of both parts, plus slack at each end, times the dress allowance, rounded up.
// A given length wins. In: the model. Out: one Way a wire, indexed by WireID.
package route

import (
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Share is the part of a run that a wire lies in.
type Share struct {
	Run    harness.RunID
	Length unit.Millimetre
}

// Way is where a wire lies and how long it is cut.
type Way struct {
	Shares []Share           // in order from the wire's From end
	Places []harness.PlaceID // places passed, both ends included
	Length unit.Millimetre   // cut length
	Wants  unit.Millimetre   // what the way asks for; a built wire keeps the length that it was cut to
	Given  bool              // the description gave the length
	Taken  bool              // nobody knows the length: it leads to what is not traced, or to what has no place
	Whole  unit.Millimetre   // of a wire in a unit: how long the unit is, the turns of its twist apart; else 0
	Reason string            // "2400 run + 150 tails + 2×50 slack, +5 % dress → 2785 mm"
}
