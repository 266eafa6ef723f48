package finding

import (
	"fmt"
	"math"

	"example.com/loomfolio/sizing/choose/demand"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// weakFeeds reports loads of constant power that pull their feed down below the lowest
// voltage that they work at: the less voltage they have, the more current they ask for,
// until no more is to be had (voltage collapse). One finding a load, in its worst
// state; while the engine is cranked every load may drop out.
func (f *inspection) weakFeeds() {
	worst := map[harness.ElementID]*demand.Draw{}
	for i := range f.Draws {
		d := &f.Draws[i]
		e := &f.H.Elements[d.Load]
		weak := e.Behaves == harness.AsPower && d.Volts < float64(e.Floor)*(1-1e-9) && float64(e.Floor) < f.unloaded(e, d.State)
		if !weak || !f.Declared(d) || f.Cranking(d) || f.behindLoad(d) {
			continue
		}
		if w := worst[d.Load]; w == nil || d.Volts < w.Volts {
			worst[d.Load] = d
		}
	}
	for i := range f.H.Elements {
		if d := worst[harness.ElementID(i)]; d != nil {
			f.weakFeed(d)
		}
	}
}

// unloaded is what the sources give in a state as long as nothing draws from them, V:
// a load that needs more than that has no weak feed, but the wrong system.
func (f *inspection) unloaded(load *harness.Element, state int) float64 {
	volts, side := 0.0, f.H.SystemOf(load)
	for i := range f.H.Elements {
		switch e := &f.H.Elements[i]; {
		case f.H.SystemOf(e).Volts != side.Volts:
		case e.Kind == harness.EMF:
			volts = math.Max(volts, float64(e.Volts)/float64(e.Holds()))
		case e.Kind == harness.Converter:
			volts = math.Max(volts, float64(e.Volts))
		}
	}
	if f.H.States[state].Engine == harness.EngineRunning {
		volts = math.Max(volts, float64(side.Running))
	}
	return volts
}

func (f *inspection) weakFeed(d *demand.Draw) {
	e, p, state := &f.H.Elements[d.Load], f.PartOf(d.Load), f.H.States[d.State].Name
	watts := float64(e.Amps) * float64(e.AtVolts)
	f.add(source.Problem{
		Slug: "feed-too-weak", Level: source.Error, Span: p.Span,
		Summary: fmt.Sprintf("%s needs %.4g W and gets %.1f V in %s, under the %s that it works at: its feed does not give that power",
			e.Name, watts, d.Volts, state, e.Floor),
		Detail:   "a battery with more capacity (or less inner: resistance), a heavier or shorter feed where its gauge is given, or works-above: where it works at less",
		Subjects: []string{e.Name, state}, Numbers: []source.Number{number("volts", d.Volts), number("works_above_v", float64(e.Floor)), number("watts", watts)},
	})
}

// behindLoad tells whether a draw's way leads through another load or a coil, which
// is a fault of its own.
func (f *inspection) behindLoad(d *demand.Draw) bool {
	for id := range d.Elements() {
		if k := f.H.Elements[id].Kind; id != d.Load && (k == harness.Load || k == harness.RelayCoil) {
			return true
		}
	}
	return false
}
