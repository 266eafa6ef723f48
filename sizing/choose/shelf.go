package choose

import (
	"slices"
	"sort"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/heat"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// size is one wire that can be bought: a conductor in an insulation.
type size struct {
	conductor rating.Conductor
	ohms      float64 // ohm per metre at 20 C
	over      unit.Millimetre
	class     unit.Celsius
	overload  unit.Celsius // how hot it may get for the minutes of an overload
	shorted   unit.Celsius // how hot it may get in a short
	sources   []string
	kind      int // index into shelves.kinds
}

// shelf is the sizes of one insulation in one system, thinnest first.
type shelf []size

// shelves finds the shelf of each wire; wires of one insulation and system
// share one. A given gauge that is not on the shelf gets a shelf of its own.
type shelves struct {
	h     *harness.Harness
	made  map[string]shelf
	kinds []heat.Wire // the sections of all sizes, each once
}

func (s *shelves) of(w *harness.Wire) (sh shelf, key string) {
	system := s.h.Sheet.Gauge
	if w.Gauge.Given() {
		system = w.Gauge.System
	}
	key = w.Insulation + "|" + system.String()
	if s.made[key] == nil {
		s.made[key] = s.numbered(s.build(w.Insulation, system))
	}
	sh = s.made[key]
	if w.Gauge.Given() && sh.index(w.Gauge) < 0 {
		if c, ok := rating.MadeUp(w.Gauge); ok {
			return s.numbered(shelf{inInsulation(w.Insulation, c)}), key + "|" + w.Gauge.Size
		}
	}
	return sh, key
}

// numbered gives each size of a shelf the number of its section.
func (s *shelves) numbered(sh shelf) shelf {
	for i := range sh {
		w := section(&sh[i])
		if sh[i].kind = slices.Index(s.kinds, w); sh[i].kind < 0 {
			sh[i].kind = len(s.kinds)
			s.kinds = append(s.kinds, w)
		}
	}
	return sh
}

func (s *shelves) build(insulation string, system unit.System) shelf {
	for _, t := range s.h.Practice.WireTypes {
		if t.Name == insulation {
			if own := ownReel(t); len(own) > 0 {
				return own
			}
		}
	}
	var out shelf
	for _, c := range rating.Sizes(system) {
		out = append(out, inInsulation(insulation, c))
	}
	return out
}

func inInsulation(insulation string, c rating.Conductor) size {
	in, ok := rating.InsulationOf(insulation)
	if !ok {
		in, _ = rating.InsulationOf("thin-wall-125")
	}
	over, source := rating.Diameter(insulation, c)
	return size{conductor: c, ohms: float64(c.Resistance), over: over, class: in.Class, overload: in.Overload, shorted: in.ShortCircuit, sources: append(append([]string(nil), c.Sources...), source)}
}

// ownReel gives the sizes of a reel with data of its own; what it leaves open is
// taken from the tables.
func ownReel(t harness.WireType) shelf {
	var out shelf
	for _, z := range t.Sizes {
		c, ok := rating.AnyConductor(z.Size)
		if !ok {
			continue
		}
		if z.Area > 0 {
			c.Area = z.Area
		}
		if z.Resistance > 0 {
			c.Resistance = z.Resistance
		}
		made := inInsulation("thin-wall-125", c)
		if z.Diameter > 0 {
			made.over = z.Diameter
		}
		if t.Class > 0 {
			made.class = t.Class
			made.overload = t.Class + overloadStep
			made.shorted = max(t.Class+55, 160) // PVC takes 160 C; common practice
		}
		made.sources = nil // the reel's own data
		out = append(out, made)
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].conductor.Area < out[j].conductor.Area })
	return out
}

// overloadStep is how far above its class a reel with data of its own may get
// for the minutes of an overload: the step of ISO 6722-1 for 240 h, from memory.
const overloadStep unit.Celsius = 25

// index gives the place of a gauge, -1 when it is not there.
func (sh shelf) index(g unit.Gauge) int {
	for i := range sh {
		if sh[i].conductor.Gauge == g {
			return i
		}
	}
	return -1
}

// least gives the first size that fits, or the last one and false.
func (sh shelf) least(fits func(*size) bool) (int, bool) {
	for i := range sh {
		if fits(&sh[i]) {
			return i, true
		}
	}
	return len(sh) - 1, false
}

// smallest gives the thinnest size that practice allows for handling: its own
// size where the systems agree, else the area within 5 %.
func (sh shelf) smallest(p *harness.Practice) int {
	least := p.Smallest
	if !least.Given() {
		least = unit.Gauge{System: unit.Metric, Size: "0.5"}
		if g := sh[0].conductor.Gauge; g.System != unit.Metric {
			least = unit.Gauge{System: g.System, Size: "20"}
		}
	}
	if i := sh.index(least); i >= 0 {
		return i
	}
	area := 0.95 * float64(rating.AreaOf(least))
	i, _ := sh.least(func(z *size) bool { return float64(z.conductor.Area) >= area })
	return i
}
