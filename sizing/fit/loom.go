package fit

import (
	"fmt"
	"sort"

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
func (f *fitter) folded(s *Splice) []unit.SquareMillimetre {
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

func (f *fitter) splice(p *harness.Part) Splice {
	s := Splice{Part: p.ID, Wires: f.at(p.ID), Where: f.where(p), Into: harness.None}
	var awg string
	s.AreaSum, awg = rating.SpliceSize(f.folded(&s))
	s.Size = barrelText(awg, s.AreaSum, f.h.Sheet.Gauge, f.h.Sheet.Imperial)
	f.used = append(f.used, "nasa-splice")
	if len(s.Wires) == 0 {
		return s
	}
	if own, _ := f.shopFor(joint.Joint{Fitting: joint.SpliceBarrel}, s.AreaSum, 0); own != nil {
		s.Number, s.Die = own.Part, own.Die
	}
	tube, beside, ok := f.tubeOf(s.Wires, barrelOver(s.AreaSum))
	if ok {
		covered, _ := rating.Strip("barrel", s.AreaSum)
		s.Beside = beside
		s.Shrink, s.ShrinkLen = tube.Name(f.h.Sheet.Imperial), shrinkLength(2*covered, f.thickest(s.Wires))
		f.used = append(f.used, tube.Source, "shrink-rule")
	}
	return s
}

// barrelText names the bare barrel by the least size that holds the sum, in the
// sheet's gauges and in brackets in the other's, which an imperial sheet leaves out. No colour: bare barrels have
// none, and the colours' metric and AWG ranges part company at 2.5 mm2.
func barrelText(awg string, sum unit.SquareMillimetre, system unit.System, imperial bool) string {
	if awg == "" {
		return fmt.Sprintf("bolted joint: %s are too much for a barrel", sum)
	}
	c, _ := rating.ConductorOf(unit.Gauge{System: unit.AWG, Size: awg})
	if imperial && system != unit.Metric {
		return "bare barrel " + c.Gauge.String()
	}
	if metric := holding(sum); system == unit.Metric && metric != "" {
		return fmt.Sprintf("bare barrel %s (%s)", metric, c.Gauge)
	}
	return fmt.Sprintf("bare barrel %s (%s)", c.Gauge, c.Area)
}

// holding is the smallest metric size that holds an area, "" when none does.
func holding(sum unit.SquareMillimetre) string {
	for _, c := range rating.Sizes(unit.Metric) {
		if float64(c.Area) >= float64(sum)*0.9999 {
			return c.Gauge.String()
		}
	}
	return ""
}

// tubeOf finds the tube that passes over a splice's barrel and both of its
// bundles, and grips the thinner bundle. The thickest wire is taken to leave on
// one side, all others on the other; where no tube grips it, the next thickest
// are laid beside it, one by one, until one does.
func (f *fitter) tubeOf(wires []harness.WireID, barrel unit.Millimetre) (tube rating.Shrink, beside []harness.WireID, ok bool) {
	order := append([]harness.WireID(nil), wires...)
	sort.SliceStable(order, func(i, j int) bool { return f.c.Wires[order[i]].Diameter > f.c.Wires[order[j]].Diameter })
	for n := 1; n <= max(1, len(order)/2); n++ {
		one, _ := rating.BundleDiameter(f.diameters(order[:n]))
		rest := one
		if n < len(order) {
			rest, _ = rating.BundleDiameter(f.diameters(order[n:]))
		}
		if tube, ok = tubeOver(max(one, rest, barrel), min(one, rest)); ok {
			if n > 1 {
				beside = order[:n]
			}
			return tube, beside, true
		}
	}
	return tube, nil, false
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
