// Package fit finds what is fitted to the chosen wires: terminal, crimp and
// shrink at each end, the rings on each ground stud, splices and the bundle in each
// run. In: the model, the ways and the results of package choose. Out: one result an
// end, ground, splice and run, with the reason of each choice and its source. The reels
// to cut from, the labels and what is to be bought follow from it, each in a package below.
package fit

import (
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// All fits the chosen wires. The ways are indexed by WireID, as are the wires
// of the choice.
func All(h *harness.Harness, ways []route.Way, c chosen.Chosen) (fitted.Fitted, source.Problems) {
	f := &fitter{h: h, ways: ways, c: &c, bodies: map[harness.PartID]string{}, outside: map[string]bool{}, unitOf: h.UnitOf(), spliceNeeds: map[harness.PartID]spliceNeed{}, barrels: map[harness.PartID]rating.Range{}}
	for i := range c.Fuses {
		f.bodies[c.Fuses[i].Part] = c.Fuses[i].Body
	}
	f.grounded = f.groundStuds()
	f.fewStuds(f.grounded)
	for i := range h.Wires {
		w := &h.Wires[i]
		f.out.Ends = append(f.out.Ends, [2]fitted.End{f.end(w, "a", w.From), f.end(w, "b", w.To)})
	}
	f.misfits()
	f.grounds()
	f.onBodies()
	f.splices()
	f.fewBarrels()
	f.units()
	f.runs()
	f.fewCovers()
	f.stacks()
	f.tabs()
	f.bars()
	f.drained()
	f.studs()
	f.straps()
	f.fewCrimps()
	f.fewTubes()
	f.lots()
	f.tools()
	f.stagger()
	f.out.SourceKeys = f.keys()
	return f.out, f.problems.Sorted()
}

type fitter struct {
	h           *harness.Harness
	ways        []route.Way
	c           *chosen.Chosen
	bodies      map[harness.PartID]string // chosen fuse body
	grounded    map[harness.PartID]groundStud
	unitOf      []harness.UnitID                             // by WireID
	outside     map[string]bool                              // fittings of which the shop has none, told already
	thick       map[harness.TerminalID]unit.SquareMillimetre // the thickest wire that ends there; nil until it is asked for
	spliceNeeds map[harness.PartID]spliceNeed                // what the tube over a splice must pass and grip; none where no tube does
	barrels     map[harness.PartID]rating.Range              // of splices, where few kinds are bought
	inner       []unit.Millimetre                            // by UnitID: round its wires, without screen and sheath
	assumed     map[harness.PartID]bool                      // parts of which a stud is assumed, told already
	out         fitted.Fitted
	unfit       []misfit
	problems    source.Problems
	used        []string
}

// keys lists the sources in the order of the whole list.
func (f *fitter) keys() []string {
	all := append([]string(nil), f.used...)
	for _, two := range f.out.Ends {
		all = append(append(all, two[0].Sources...), two[1].Sources...)
	}
	var out []string
	for _, s := range rating.SourcesOf(all) {
		out = append(out, s.Key)
	}
	return out
}

// conductorOf gives the conductor of a chosen wire, with the area that was
// chosen (a reel of the user's own may differ from the tables).
func conductorOf(w *chosen.Wire) rating.Conductor {
	c, _ := rating.AnyConductor(w.Gauge)
	c.Area = w.Area
	return c
}

// at lists the wires that end on a part, in their order.
func (f *fitter) at(p harness.PartID) []harness.WireID {
	var out []harness.WireID
	for i := range f.h.Wires {
		w := &f.h.Wires[i]
		if f.h.Terminals[w.From].Part == p || f.h.Terminals[w.To].Part == p {
			out = append(out, w.ID)
		}
	}
	return out
}

func (f *fitter) diameters(wires []harness.WireID) []unit.Millimetre {
	var out []unit.Millimetre
	for _, w := range wires {
		out = append(out, f.c.Wires[w].Diameter)
	}
	return out
}
