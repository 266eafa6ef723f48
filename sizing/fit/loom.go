package fit

import (
	"fmt"
	"slices"
	"sort"

	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/joint"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// splices sizes every splice: the areas added up, the barrel that holds the sum
// (NASA-STD-8739.4 19.11), and a tube over it.
func (f *fitter) splices() {
	for i := range f.h.Parts {
		if p := &f.h.Parts[i]; p.Kind == harness.Splice {
			f.out.Splices = append(f.out.Splices, f.splice(p))
		}
	}
}

// thinBeside is how many times the copper of a wire the thickest in its barrel may have;
// beyond it the thin one slips out, so it is folded back and counts twice (common practice, no source).
const thinBeside = 4

// folded gives the areas that a splice's barrel holds. A wire that is thin beside the
// thickest is stripped to twice the length and folded back.
func (f *fitter) folded(s *fitted.Splice) []unit.SquareMillimetre {
	most := unit.SquareMillimetre(0)
	for _, w := range s.Wires {
		most = max(most, f.c.Wires[w].Area)
	}
	var areas []unit.SquareMillimetre
	for _, w := range s.Wires {
		area := f.c.Wires[w].Area
		if area*thinBeside < most {
			area *= 2
			f.foldAt(w, s.Part)
		}
		areas = append(areas, area)
	}
	for range f.drainsAt(s.Part) {
		areas = append(areas, f.drainArea())
	}
	return areas
}

// foldAt doubles the strip of a wire's end in a splice.
func (f *fitter) foldAt(w harness.WireID, splice harness.PartID) {
	for n := range f.out.Ends[w] {
		e := &f.out.Ends[w][n]
		if f.h.Terminals[e.Terminal].Part == splice && !e.Folded {
			e.Strip, e.Folded = 2*e.Strip, true
			e.Reason += "; thin beside the thickest wire in the barrel: strip twice the length and fold the strands back"
		}
	}
}

func (f *fitter) splice(p *harness.Part) fitted.Splice {
	s := fitted.Splice{Part: p.ID, Wires: f.at(p.ID), Where: f.where(p), Into: harness.None}
	var awg string
	s.AreaSum, awg = rating.SpliceSize(f.folded(&s))
	s.Size = barrelText(awg, s.AreaSum, f.h.Sheet.Gauge, f.h.Sheet.Imperial)
	barrel := barrelArea(awg, s.AreaSum, f.h.Sheet.Gauge, f.h.Sheet.Imperial)
	f.used = append(f.used, "nasa-splice", "ny-720-6")
	if len(s.Wires) == 0 {
		return s
	}
	if own, _ := f.shopFor(joint.Joint{Fitting: joint.SpliceBarrel}, s.AreaSum, 0); own != nil {
		s.Number, s.Die = own.Part, own.Die
	}
	f.spliceTube(&s, barrel)
	return s
}

// spliceTube finds the tube over a splice whose barrel holds so much copper.
func (f *fitter) spliceTube(s *fitted.Splice, barrel unit.SquareMillimetre) {
	tube, need, ok := f.tubeOf(&f.h.Parts[s.Part], s.Wires, barrelOver(barrel))
	if !ok {
		return
	}
	s.Beside = need.beside
	s.Shrink, s.ShrinkLen = tube.Name(f.h.Sheet.Imperial), shrinkLength(2*barrelStrip(s.AreaSum), f.thickest(s.Wires))
	f.used = append(f.used, tube.Source, "shrink-rule")
	f.spliceNeeds[s.Part] = need
}

// barrelText names the uninsulated barrel by the least size that holds the sum, in the
// sheet's gauges and in brackets in the other's, which an imperial sheet leaves out. No colour: uninsulated barrels have
// none, and the colours' metric and AWG ranges part company at 2.5 mm2.
func barrelText(awg string, sum unit.SquareMillimetre, system unit.System, imperial bool) string {
	if awg == "" {
		return fmt.Sprintf("bolted joint: %s are too much for a barrel", unit.AreaText(sum, imperial))
	}
	c, _ := rating.ConductorOf(unit.Gauge{System: unit.AWG, Size: awg})
	if imperial && system != unit.Metric {
		return "uninsulated barrel " + c.Gauge.String()
	}
	if metric, ok := holding(sum); system == unit.Metric && ok {
		return fmt.Sprintf("uninsulated barrel %s (%s)", metric.Gauge, c.Gauge)
	}
	return fmt.Sprintf("uninsulated barrel %s (%s)", c.Gauge, unit.AreaText(c.Area, imperial))
}

// barrelArea is the most that the barrel of that text holds: where it names a metric
// and an AWG size, the larger of the two, since either may be bought.
func barrelArea(awg string, sum unit.SquareMillimetre, system unit.System, imperial bool) unit.SquareMillimetre {
	area := sum
	if c, ok := rating.ConductorOf(unit.Gauge{System: unit.AWG, Size: awg}); ok {
		area = max(area, c.Area)
	}
	if metric, ok := holding(sum); ok && system == unit.Metric && !imperial {
		area = max(area, metric.Area)
	}
	return area
}

// barrelStrip is how much of a wire lies in an uninsulated barrel for an area; the larger ones are as long as those of lugs.
func barrelStrip(area unit.SquareMillimetre) unit.Millimetre {
	fitting := "barrel"
	if area > mostShortBarrel {
		fitting = "lug"
	}
	strip, _ := rating.Strip(fitting, area)
	return strip
}

// mostShortBarrel is the largest size in the table of short barrels, mm².
const mostShortBarrel unit.SquareMillimetre = 6

// holding is the smallest metric size that holds an area.
func holding(sum unit.SquareMillimetre) (rating.Conductor, bool) {
	for _, c := range rating.Sizes(unit.Metric) {
		if float64(c.Area) >= float64(sum)*0.9999 {
			return c, true
		}
	}
	return rating.Conductor{}, false
}

// tubeOf finds the tube that passes over a splice's barrel and both of its
// bundles, and grips the thinner bundle. The thickest wire is taken to leave on
// one side, all others on the other; where no tube grips it, those that lead the same way
// are laid together, and where that does not help either, the next thickest are laid beside
// the thickest, one by one, until a tube grips.
func (f *fitter) tubeOf(p *harness.Part, wires []harness.WireID, barrel unit.Millimetre) (tube rating.Shrink, need spliceNeed, ok bool) {
	order := append([]harness.WireID(nil), wires...)
	sort.SliceStable(order, func(i, j int) bool { return f.c.Wires[order[i]].Diameter > f.c.Wires[order[j]].Diameter })
	sides := [][]harness.WireID{order[:1]}
	sides = append(sides, f.sameWay(p, wires)...)
	for n := 2; n <= len(order)/2; n++ {
		sides = append(sides, order[:n])
	}
	for i, side := range sides {
		one, _ := rating.BundleDiameter(f.diameters(side))
		rest := one
		if len(side) < len(order) {
			rest, _ = rating.BundleDiameter(f.diameters(without(order, side)))
		}
		need = spliceNeed{over: max(one, rest, barrel), grips: min(one, rest)}
		if tube, ok = tubeOver(need.over, need.grips); ok {
			if i > 0 {
				need.beside = side
			}
			return tube, need, true
		}
	}
	return tube, spliceNeed{}, false
}

// spliceNeed is what the tube over a splice must pass over and grip, with the wires that
// leave on one side together for it; nil where any may.
type spliceNeed struct {
	over, grips unit.Millimetre
	beside      []harness.WireID
}

// sameWay gives the wires of a splice that lead towards one place, two or more and at most half of them.
func (f *fitter) sameWay(p *harness.Part, wires []harness.WireID) [][]harness.WireID {
	var out [][]harness.WireID
	at := map[harness.PlaceID]int{}
	for _, w := range wires {
		to := f.heads(p, w)
		if _, ok := at[to]; !ok {
			at[to] = len(out)
			out = append(out, nil)
		}
		out[at[to]] = append(out[at[to]], w)
	}
	return slices.DeleteFunc(out, func(side []harness.WireID) bool { return len(side) < 2 || 2*len(side) > len(wires) })
}

// heads is the place towards which a wire leaves a splice, None where it stays at the splice's own.
func (f *fitter) heads(p *harness.Part, w harness.WireID) harness.PlaceID {
	places := slices.Clone(f.ways[w].Places)
	if f.h.Terminals[f.h.Wires[w].From].Part != p.ID {
		slices.Reverse(places)
	}
	for _, place := range places {
		if place != p.Place {
			return place
		}
	}
	return harness.None
}

func without(wires, some []harness.WireID) []harness.WireID {
	return slices.DeleteFunc(slices.Clone(wires), func(w harness.WireID) bool { return slices.Contains(some, w) })
}

func (f *fitter) thickest(wires []harness.WireID) unit.Millimetre {
	most := unit.Millimetre(0)
	for _, d := range f.diameters(wires) {
		most = max(most, d)
	}
	return most
}

func (f *fitter) where(p *harness.Part) string {
	if p.Along != nil {
		r := &f.h.Runs[p.Along.Run]
		return fmt.Sprintf("%s from %s towards %s", unit.LengthText(p.Along.Distance, f.h.Sheet.Imperial), f.h.Places[r.From].Name, f.h.Places[r.To].Name)
	}
	if p.Place != harness.None {
		return "at " + f.h.Places[p.Place].Name
	}
	return ""
}
