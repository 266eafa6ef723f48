// Package result holds everything that was computed of a harness, beside the model
// and indexed by its IDs: what sheets, figures and changes need of the engine.
package result

import (
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/fault/outage"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/purchase"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Result is everything that was computed.
type Result struct {
	Ways      []route.Way     // by WireID
	Wires     []chosen.Wire   // by WireID
	Colours   []colour.Choice // by WireID
	Ends      [][2]fitted.End // by WireID: From end, To end
	Loads     []chosen.Load   // in the order of the elements
	Fuses     []chosen.Fuse   // in the order of the elements
	Outages   []outage.Outage // by index into Fuses: what stops without it
	Relays    []chosen.Relay
	Contacts  []chosen.Contact // in the order of the elements
	Spares    []chosen.Spare   // in the order of the elements; only of what it is known
	Grounds   []fitted.Ground
	Bodies    []fitted.Body
	Stacks    []fitted.Stack // studs other than grounds that hold several rings
	Tools     []fitted.Tool  // crimping tools that the build needs
	Lots      []fitted.Lot   // crimps by what one pull test stands for
	Splices   []fitted.Splice
	Runs      []fitted.Run  // by RunID
	Units     []fitted.Unit // by UnitID
	Reels     []fitted.Reel // in cutting order; see fit.Order
	Cables    []fitted.Cable
	Labels    []fitted.Label
	Shopping  []fitted.Item
	Purchase  purchase.Purchase   // how few sizes and reels are bought, what that costs, what is left
	Budgets   []chosen.Budget     // by index into States
	States    []network.State     // by index into Harness.States
	Tracing   colour.Report       // how well the colours can be told apart
	Kept      []harness.KeptState // by WireID: see KeptWire
	KeptFuses []harness.KeptState // by index into Fuses: see KeptFuse
	Copper    Copper              // how much copper, and how near the least
	Findings  source.Problems     // sorted; those of the check included
	Accepted  []source.Accepted   // advice that the description takes off the list
	Unusable  bool                // a wire has no length, or the voltage is too high: only the findings are there
	Sources   []rating.Source     // the sources that decided something
	Proof     proof.Proof         // how it is proved and how faults are found; what sizing.Prove adds is empty before
}

// KeptWire tells whether a wire is as the record has it: built, planned, or ""
// where it is new or changed.
func (r *Result) KeptWire(w harness.WireID) harness.KeptState { return at(r.Kept, int(w)) }

// KeptFuse tells the same of Fuses[i].
func (r *Result) KeptFuse(i int) harness.KeptState { return at(r.KeptFuses, i) }

// Cold gives the ohms of the wires at 20 °C, by WireID.
func (r *Result) Cold() []float64 {
	out := make([]float64, len(r.Wires))
	for w := range out {
		out[w] = float64(r.Wires[w].Resistance)
	}
	return out
}

func at(list []harness.KeptState, i int) harness.KeptState {
	if i < len(list) {
		return list[i]
	}
	return ""
}

// Copper is the mass of all conductors, and a bound on it: see
// chosen.Chosen.CopperBound.
type Copper struct{ Mass, Bound unit.Gram }
