// Package sizing is the front door of everything that is computed: Size takes
// the model and gives every figure that the packet prints, beside the model and
// indexed by its IDs. The stages run in the order of the calls in Size.
package sizing

import (
	"errors"
	"fmt"
	"slices"

	"example.com/loomfolio/sizing/change"
	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/choose/finding"
	"example.com/loomfolio/sizing/choose/misuse"
	"example.com/loomfolio/sizing/choose/reason"
	"example.com/loomfolio/sizing/choose/spare"
	"example.com/loomfolio/sizing/fault"
	"example.com/loomfolio/sizing/fault/sneak"
	"example.com/loomfolio/sizing/fit"
	"example.com/loomfolio/sizing/fit/buying"
	"example.com/loomfolio/sizing/fit/cost"
	"example.com/loomfolio/sizing/fit/marker"
	"example.com/loomfolio/sizing/fit/reel"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/polarity"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/route"
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
	ways, chosen, problems, err := laid(h)
	if err != nil {
		return nil, err
	}
	found = slices.Concat(found, wrong, problems)
	if chosen.Wires == nil && problems.HasErrors() {
		return &result.Result{Findings: found.Sorted(), Unusable: true}, nil
	}
	if high := outOfScope(h, chosen.States); high != nil {
		return &result.Result{Findings: append(already[:len(already):len(already)], high...).Sorted(), Unusable: true}, nil
	}
	colours, tracing, problems := coloured(h, ways, gauges(chosen.Wires))
	found = append(found, problems...)
	fitted, problems := fit.All(h, ways, chosen)
	found = append(found, problems...)
	r := &result.Result{
		Ways: ways, Wires: chosen.Wires, Colours: colours, Ends: fitted.Ends, Loads: chosen.Loads, Fuses: chosen.Fuses,
		Relays: chosen.Relays, Contacts: chosen.Contacts, Spares: chosen.Spares, Grounds: fitted.Grounds, Stacks: fitted.Stacks, Lots: fitted.Lots, Splices: fitted.Splices, Runs: fitted.Runs, Units: fitted.Units,
		Outages: fault.Outages(h, chosen), Budgets: chosen.Budgets, States: chosen.States, Tracing: tracing,
		Copper:  result.Copper{Mass: chosen.CopperMass, Bound: chosen.CopperBound},
		Sources: sources(chosen.SourceKeys, fitted.SourceKeys),
	}
	change.Mark(h, r)
	r.Reels = reel.All(h, ways, chosen.Wires, colours, r.Kept)
	r.Cables = buying.Cables(h, fitted.Units, r.Kept)
	r.Labels = marker.Labels(h, chosen, r.Reels, r.Kept)
	r.Shopping = buying.List(h, chosen, fitted, r.Reels, r.Kept, r.KeptFuses)
	r.Purchase.Cost, r.Purchase.Left = cost.Of(h, r), cost.Left(h, r)
	found = append(found, buying.Unused(h, r.Shopping)...)
	odd, err := sneak.Search(h, chosen.States, found)
	if err != nil {
		return nil, fmt.Errorf("the network has no solution: %w", err)
	}
	r.Proof.Sneaks, r.Proof.Looked = odd.Sneaks, odd.Looked
	found = append(found, odd.Problems...)
	r.Findings = append(found, change.Held(h, r)...).Sorted()
	return r, nil
}

// Gauges gives only the gauge of every wire, by WireID: what another practice
// would choose. The error is that of Size, or says that a wire has no length.
func Gauges(h *harness.Harness) ([]unit.Gauge, error) {
	h, _ = polarity.Mend(h)
	_, chosen, problems, err := laid(h)
	if err != nil {
		return nil, err
	}
	if chosen.Wires == nil && problems.HasErrors() {
		return nil, errors.New("a wire has no length")
	}
	return gauges(chosen.Wires), nil
}

// laid finds the ways and chooses the gauges. Wires that are twisted are longer the
// thicker they are, and may want to be thicker the longer they are: where a choice
// makes them longer, all is chosen once more. Sections never shrink again after the
// first choice, so this ends. Nothing is chosen where a wire has no length.
func laid(h *harness.Harness) ([]route.Way, chosen.Chosen, source.Problems, error) {
	ways, lengths := route.Find(h)
	if lengths.HasErrors() {
		return ways, chosen.Chosen{}, lengths, nil
	}
	var sections []route.Section
	for {
		settled, err := choose.Settle(h, ways)
		if err != nil {
			return nil, chosen.Chosen{}, nil, fmt.Errorf("the network has no solution: %w", err)
		}
		sections = wider(sections, settled)
		next, lengths := route.FindFor(h, sections)
		if sameLengths(ways, next) {
			all := reason.Of(settled)
			all.Spares = spare.Of(settled, &all)
			return next, all, slices.Concat(lengths, finding.All(settled, &all), misuse.All(settled, &all)), nil
		}
		ways = next
	}
}

// wider gives the sections of the wires that were settled on, none below what it was.
func wider(before []route.Section, settled *choose.Settled) []route.Section {
	out := make([]route.Section, len(settled.At))
	for w := range out {
		z := settled.Size(harness.WireID(w))
		out[w] = route.Section{Over: z.Over, Area: z.Conductor.Area}
		if before != nil {
			out[w].Over, out[w].Area = max(out[w].Over, before[w].Over), max(out[w].Area, before[w].Area)
		}
	}
	return out
}

func sameLengths(a, b []route.Way) bool {
	for i := range a {
		if a[i].Length != b[i].Length {
			return false
		}
	}
	return true
}

func gauges(wires []chosen.Wire) []unit.Gauge {
	out := make([]unit.Gauge, len(wires))
	for i, w := range wires {
		out[i] = w.Gauge
	}
	return out
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
