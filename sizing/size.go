// Package sizing is the front door of everything that is computed: Size takes
// the model and gives every figure that the packet prints, beside the model and
// indexed by its IDs. The stages run in the order of the calls in Size.
package sizing

import (
	"errors"
	"fmt"
	"slices"

	"example.com/loomfolio/sizing/asfound"
	"example.com/loomfolio/sizing/change"
	"example.com/loomfolio/sizing/fault"
	"example.com/loomfolio/sizing/fault/sneak"
	"example.com/loomfolio/sizing/fit/buying"
	"example.com/loomfolio/sizing/fit/cost"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/fit/marker"
	"example.com/loomfolio/sizing/fit/reel"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/polarity"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Size computes everything that the packet prints. Found are the problems that
// the check has already found; they come first in the findings. A harness in
// which a wire has no length cannot be sized, and one in which 60 V lie between two
// points, or batteries of unlike voltage in parallel, is refused: the result is then Unusable and holds the findings alone. What
// stands the wrong way round counts as if it stood the right way (see package polarity).
// The error is one of the solver.
func Size(h *harness.Harness, found source.Problems) (*result.Result, error) {
	h, wrong := polarity.Mend(h)
	already := found
	if unlike := unlikeSources(h); unlike != nil {
		return &result.Result{Findings: slices.Concat(already, wrong, unlike).Sorted(), Unusable: true}, nil
	}
	m, high, err := build(h)
	if err != nil {
		return nil, err
	}
	if high != nil {
		return &result.Result{Findings: append(already[:len(already):len(already)], high...).Sorted(), Unusable: true}, nil
	}
	found = slices.Concat(found, wrong, m.problems)
	if m.chosen.Wires == nil {
		return &result.Result{Findings: found.Sorted(), Unusable: true}, nil
	}
	ways, chosen, fitted := m.ways, m.chosen, m.fitted
	r := &result.Result{
		Ways: ways, Wires: chosen.Wires, Colours: m.colours, Ends: fitted.Ends, Loads: chosen.Loads, Fuses: chosen.Fuses,
		Relays: chosen.Relays, Contacts: chosen.Contacts, Spares: chosen.Spares, Grounds: fitted.Grounds, Bodies: fitted.Bodies, Stacks: fitted.Stacks, Lots: fitted.Lots, Tools: fitted.Tools, Splices: fitted.Splices, Runs: fitted.Runs, Units: fitted.Units,
		Outages: fault.Outages(h, chosen), Budgets: chosen.Budgets, States: chosen.States, Tracing: m.tracing, Purchase: m.purchase,
		Copper:  result.Copper{Mass: chosen.CopperMass, Bound: chosen.CopperBound},
		Sources: sources(chosen.SourceKeys, fitted.SourceKeys),
	}
	change.Mark(h, r)
	r.Reels = reel.WithDrains(h, ways, chosen.Wires, m.colours, drained(h, fitted.Units), r.Kept)
	r.Cables = buying.Cables(h, fitted.Units, r.Kept)
	r.Labels = marker.Labels(h, chosen, r.Reels, r.Kept)
	r.Shopping = buying.List(h, chosen, fitted, r.Reels, r.Kept, r.KeptFuses)
	r.Purchase.Cost, r.Purchase.Left = cost.Of(h, r), cost.Left(h, r)
	r.Sources = sources(keys(r.Sources), cost.Sources(h, &r.Purchase.Cost))
	found = append(found, buying.Unused(h, r.Shopping)...)
	found = append(found, buying.Limits(h, &r.Purchase)...)
	odd, err := sneak.Search(h, chosen.States, found)
	if err != nil {
		return nil, fmt.Errorf("the network has no solution: %w", err)
	}
	r.Proof.Sneaks, r.Proof.Looked = odd.Sneaks, odd.Looked
	found = append(found, odd.Problems...)
	stock, missing, err := asfound.Of(h, r, found)
	if err != nil {
		return nil, err
	}
	r.Proof.Found = stock
	found = append(found, missing...)
	r.Findings = append(found, change.Held(h, r)...).Sorted()
	return r, nil
}

// drained gives the units whose drains are cut from the reels: all where few kinds are bought.
func drained(h *harness.Harness, units []fitted.Unit) []fitted.Unit {
	if h.Practice.Buy.Fewest() {
		return units
	}
	return nil
}

// Gauges gives only the gauge of every wire, by WireID: what another practice
// would choose. The error is that of Size, or says that a wire has no length.
func Gauges(h *harness.Harness) ([]unit.Gauge, error) {
	h, _ = polarity.Mend(h)
	l, err := least(h)
	if err != nil {
		return nil, err
	}
	if l.settled == nil {
		return nil, errors.New("a wire has no length")
	}
	out := make([]unit.Gauge, len(h.Wires))
	for w := range out {
		out[w] = l.settled.Size(harness.WireID(w)).Conductor.Gauge
	}
	return out, nil
}

// sources gives the documents behind the keys, each once, in the order of the tables.
func sources(lists ...[]string) []rating.Source {
	used := map[string]bool{}
	for _, keys := range lists {
		for _, k := range keys {
			used[k] = true
		}
	}
	var out []rating.Source
	for _, s := range rating.Sources() {
		if used[s.Key] {
			out = append(out, s)
		}
	}
	return out
}
