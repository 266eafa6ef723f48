// Package shelf holds the sizes of wire that can be bought. In: the model, and the
// gauge that each wire is to have where one is given or kept. Out: by wire the sizes
// of its insulation in its system, thinnest first, each with its resistance in ohm
// per metre at 20 C, its diameter in mm and what its insulation stands in C; and the
// sections of all of them, each once, for the heat balance. Always holds: no shelf is
// empty; wires of one insulation and system share one. The figures are those of package
// rating with their sources, or a reel's own (practice.wire-types).
package shelf

import (
	"slices"
	"sort"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/heat"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// Size is one wire that can be bought: a conductor in an insulation.
type Size struct {
	Conductor rating.Conductor
	Ohms      float64         // ohm per metre at 20 C
	Over      unit.Millimetre // diameter over the insulation
	Class     unit.Celsius    // how hot its insulation may be for ever
	Overload  unit.Celsius    // how hot it may get for the minutes of an overload
	Shorted   unit.Celsius    // how hot it may get in a short
	Sources   []string        // keys of rating.Source
	Kind      int             // index into Shelves.Kinds
}

// Shelf is the sizes of one insulation in one system, thinnest first.
type Shelf []Size

// Shelves are the shelves of all wires.
type Shelves struct {
	Of    []Shelf     // by WireID
	Keys  []string    // by WireID: equal for wires of one shelf
	Kinds []heat.Wire // the sections of all sizes, each once
}

// New finds the shelf of each wire. Held gives by WireID the gauge that a wire has
// already, not given where it is free; one that its shelf has not is a shelf of its own.
func New(h *harness.Harness, held []unit.Gauge) Shelves {
	b := builder{h: h, made: map[string]Shelf{}}
	out := Shelves{Of: make([]Shelf, len(held)), Keys: make([]string, len(held))}
	for w, gauge := range held {
		out.Of[w], out.Keys[w] = b.of(h.Wires[w].Insulation, gauge)
	}
	out.Kinds = b.kinds
	return out
}

type builder struct {
	h     *harness.Harness
	made  map[string]Shelf
	kinds []heat.Wire
}

func (b *builder) of(insulation string, held unit.Gauge) (sh Shelf, key string) {
	system := b.h.Sheet.Gauge
	if held.Given() {
		system = held.System
	}
	key = insulation + "|" + system.String()
	if b.made[key] == nil {
		b.made[key] = b.numbered(b.build(insulation, system))
	}
	sh = b.made[key]
	if held.Given() && sh.Index(held) < 0 {
		if c, ok := rating.MadeUp(held); ok {
			return b.numbered(Shelf{inInsulation(insulation, b.copper(c))}), key + "|" + held.Size
		}
	}
	return sh, key
}

// numbered gives each size of a shelf the number of its section.
func (b *builder) numbered(sh Shelf) Shelf {
	for i := range sh {
		w := section(&sh[i])
		if sh[i].Kind = slices.Index(b.kinds, w); sh[i].Kind < 0 {
			sh[i].Kind = len(b.kinds)
			b.kinds = append(b.kinds, w)
		}
	}
	return sh
}

func section(z *Size) heat.Wire {
	return heat.Wire{Conductor: z.Conductor.Copper, Outside: z.Over, Resistance: unit.OhmPerMetre(z.Ohms)}
}

func (b *builder) build(insulation string, system unit.System) Shelf {
	for _, t := range b.h.Practice.WireTypes {
		if t.Name == insulation {
			if own := ownReel(t); len(own) > 0 {
				return own
			}
		}
	}
	var out Shelf
	for _, c := range rating.Sizes(system) {
		out = append(out, inInsulation(insulation, b.copper(c)))
	}
	return out
}

// copper gives a conductor with the resistance that the method in force counts.
func (b *builder) copper(c rating.Conductor) rating.Conductor {
	if b.h.Practice.Method == "ac43-13" {
		return c.ByAircraftTable()
	}
	return c
}

func inInsulation(insulation string, c rating.Conductor) Size {
	in, ok := rating.InsulationOf(insulation)
	if !ok {
		in, _ = rating.InsulationOf("thin-wall-125")
	}
	over, source := rating.Diameter(insulation, c)
	return Size{Conductor: c, Ohms: float64(c.Resistance), Over: over, Class: in.Class, Overload: in.Overload, Shorted: in.ShortCircuit, Sources: append(append([]string(nil), c.Sources...), source)}
}

// ownReel gives the sizes of a reel with data of its own; what it leaves open is
// taken from the tables.
func ownReel(t harness.WireType) Shelf {
	var out Shelf
	for _, z := range t.Sizes {
		if c, ok := rating.AnyConductor(z.Size); ok {
			out = append(out, onReel(t, z, c))
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Conductor.Area < out[j].Conductor.Area })
	return out
}

func onReel(t harness.WireType, z harness.WireTypeSize, c rating.Conductor) Size {
	if z.Area > 0 {
		c.Area = z.Area
	}
	if z.Resistance > 0 {
		c.Resistance = z.Resistance
	}
	made := inInsulation("thin-wall-125", c)
	if z.Diameter > 0 {
		made.Over = z.Diameter
	}
	if t.Class > 0 {
		made.Class = t.Class
		made.Overload = t.Class + overloadStep
		made.Shorted = max(t.Class+55, 160) // PVC takes 160 C; common practice
	}
	made.Sources = nil // the reel's own data
	return made
}

// overloadStep is how far above its class a reel with data of its own may get
// for the minutes of an overload: the step of ISO 6722-1 for 240 h, from memory.
const overloadStep unit.Celsius = 25

// Index gives the place of a gauge, -1 when it is not there.
func (sh Shelf) Index(g unit.Gauge) int {
	for i := range sh {
		if sh[i].Conductor.Gauge == g {
			return i
		}
	}
	return -1
}

// Least gives the first size that fits, or the last one and false.
func (sh Shelf) Least(fits func(*Size) bool) (int, bool) {
	for i := range sh {
		if fits(&sh[i]) {
			return i, true
		}
	}
	return len(sh) - 1, false
}

// Smallest gives the thinnest size that practice allows for handling: its own
// size where the systems agree, else the area within 5 %.
func (sh Shelf) Smallest(p *harness.Practice) int {
	least := p.Smallest
	if !least.Given() {
		least = unit.Gauge{System: unit.Metric, Size: "0.5"}
		if g := sh[0].Conductor.Gauge; g.System != unit.Metric {
			least = unit.Gauge{System: g.System, Size: "20"}
		}
	}
	if i := sh.Index(least); i >= 0 {
		return i
	}
	area := 0.95 * float64(rating.AreaOf(least))
	i, _ := sh.Least(func(z *Size) bool { return float64(z.Conductor.Area) >= area })
	return i
}

// Only gives the sizes of some gauges, thinnest first; all of them where the shelf has none
// of those.
func (sh Shelf) Only(gauges []unit.Gauge) Shelf {
	var out Shelf
	for i := range sh {
		if slices.Contains(gauges, sh[i].Conductor.Gauge) {
			out = append(out, sh[i])
		}
	}
	if len(out) == 0 {
		return sh
	}
	return out
}

// AndAbove gives the sizes of some gauges, and all that are thicker than these.
func (sh Shelf) AndAbove(gauges []unit.Gauge) Shelf {
	some := sh.Only(gauges)
	return slices.Concat(some, sh[sh.Index(some[len(some)-1].Conductor.Gauge)+1:])
}

// From gives the first size with no less copper than an area, or the last one.
func (sh Shelf) From(area unit.SquareMillimetre) int {
	i, _ := sh.Least(func(z *Size) bool { return z.Conductor.Area >= area*0.999 })
	return i
}
