// Package misuse reports what is wired otherwise than it is meant, and parts beyond what
// they are made for. In: a Settled of package choose and the results that were written
// down of it, both for reading only. Out: problems with slug, level, span, what is wrong
// in numbers, the way of the current stop by stop where there is one, and the cure.
// Always holds: a cause is told once, with its places; what the program chose itself is
// not blamed. Sources stand at the rules.
package misuse

import (
	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// inspection gathers the findings on what was chosen.
type inspection struct {
	*choose.Settled
	least *choose.Settled // with the least sizes; what is asked of those must not read what is bought
	c     *chosen.Chosen
	out   source.Problems
}

// All gathers the findings on what was settled, in a fixed order. Least is what was settled before
// it was said what is bought: the same where every wire has its least size.
func All(least, s *choose.Settled, c *chosen.Chosen) source.Problems {
	f := &inspection{Settled: s, least: least, c: c}
	f.inSeries()
	f.behindModules()
	f.bypasses()
	f.switches()
	f.engaged()
	f.idle()
	f.latches()
	f.stops()
	f.oneWay()
	f.between()
	f.parks()
	f.body()
	f.deadWires()
	f.slowSpeeds()
	f.returns()
	f.volts()
	f.working()
	f.unlit()
	f.flashers()
	f.unrated()
	f.fuses()
	f.starved()
	return f.out.Sorted()
}

func (f *inspection) add(p source.Problem) { f.out = append(f.out, p) }

func number(name string, v float64) source.Number { return source.Number{Name: name, Value: v} }

func (f *inspection) elements(list []harness.ElementID) []string {
	var out []string
	for _, id := range list {
		out = append(out, f.H.Elements[id].Name)
	}
	return out
}
