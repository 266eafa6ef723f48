package fit

import (
	"fmt"
	"math"

	"example.com/loomfolio/sizing/harness"
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

func (f *fitter) splice(p *harness.Part) Splice {
	s := Splice{Part: p.ID, Wires: f.at(p.ID), Where: f.where(p)}
	var areas []unit.SquareMillimetre
	for _, w := range s.Wires {
		areas = append(areas, f.c.Wires[w].Area)
	}
	var awg string
	s.AreaSum, awg = rating.SpliceSize(areas)
	s.Size = barrelText(awg, s.AreaSum, f.h.Sheet.Gauge)
	f.used = append(f.used, "nasa-splice")
	if len(s.Wires) == 0 {
		return s
	}
	largest, smallest := f.throats(s.Wires)
	if tube, ok := tubeOver(max(largest, barrelOver(s.AreaSum)), smallest); ok {
		covered, _ := rating.Strip("barrel", s.AreaSum)
		s.Shrink, s.ShrinkLen = shrinkName(tube), shrinkLength(2*covered, largest)
		f.used = append(f.used, tube.Source, "shrink-rule")
	}
	return s
}

// barrelText names the barrel by its size in the sheet's gauges with the other
// in brackets (barrels are sold by AWG), and by the colour of the die where a
// colour has that size.
func barrelText(awg string, sum unit.SquareMillimetre, system unit.System) string {
	if awg == "" {
		return fmt.Sprintf("bolted joint: %s are too much for a barrel", sum)
	}
	c, _ := rating.ConductorOf(unit.Gauge{System: unit.AWG, Size: awg})
	text := fmt.Sprintf("barrel %s (%s)", c.Gauge, c.Area)
	if metric := holding(sum); system == unit.Metric && metric != "" {
		text = fmt.Sprintf("barrel %s (%s)", metric, c.Gauge)
	}
	if sleeve, ok := rating.SleeveOf(c); ok {
		text += ", " + sleeve.Colour + " die"
	}
	return text
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

// throats gives the thickest thing that a splice's tube passes over and the
// thinnest that it grips: the thickest wire is taken to leave on one side, all
// others on the other.
func (f *fitter) throats(wires []harness.WireID) (largest, smallest unit.Millimetre) {
	thick := 0
	for i, w := range wires {
		if f.c.Wires[w].Diameter > f.c.Wires[wires[thick]].Diameter {
			thick = i
		}
	}
	var others []harness.WireID
	for i, w := range wires {
		if i != thick {
			others = append(others, w)
		}
	}
	alone := f.c.Wires[wires[thick]].Diameter
	if len(others) == 0 {
		return alone, alone
	}
	together, _ := rating.BundleDiameter(f.diameters(others))
	return max(alone, together), min(alone, together)
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

// runs packs the wires of every run into a round bundle, and finds the bore of
// its cover.
func (f *fitter) runs() {
	in := make([][]harness.WireID, len(f.h.Runs))
	for w := range f.h.Wires {
		for _, share := range f.ways[w].Shares {
			if list := in[share.Run]; len(list) == 0 || list[len(list)-1] != harness.WireID(w) {
				in[share.Run] = append(list, harness.WireID(w))
			}
		}
	}
	for i := range f.h.Runs {
		r := Run{Run: harness.RunID(i), Wires: in[i]}
		over, key := rating.BundleDiameter(f.diameters(in[i]))
		r.Diameter = unit.Millimetre(math.Round(float64(over)*10) / 10)
		if c := f.h.Runs[i].Cover; c != "" && c != "none" && len(in[i]) > 0 {
			r.CoverName = c
			r.Cover = unit.Millimetre(math.Ceil(float64(rating.CoverBore(over)) - 1e-9))
			f.used = append(f.used, "ac43-11-249")
		}
		f.used = append(f.used, key)
		f.out.Runs = append(f.out.Runs, r)
	}
}
