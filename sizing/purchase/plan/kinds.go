package plan

import (
	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/bought"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/joint"
	"example.com/loomfolio/sizing/unit"
)

// kindWeight is what one kind of crimp counts, in reels: a bag of ten where one is needed
// (judgement, not published).
const kindWeight = 0.5

// classes are the upper ends of the ranges that one kind of crimp is made for, mm2: red, blue
// and yellow sleeves and the barrels of contacts for about the same; above, each size has its
// own lug. Red sleeves go on further than the first contacts, and hold 1.5 mm2 too. Common
// practice, no source; what is bought in the end follows the tables of package rating.
var classes = [...]unit.SquareMillimetre{1.3, 2.6, 6.2}

const redSleeve unit.SquareMillimetre = 1.5

// kinds counts the kinds of crimp that sizes ask for.
type kinds struct {
	ends   [][2]int // by WireID: the kind of terminal at either end, without the size; -1 for none
	count  int      // of these
	rolled []bool   // by that number: contacts, for which red's range ends sooner
	gauges map[unit.Gauge]int
	areas  func(unit.Gauge) unit.SquareMillimetre
}

// terminal is a kind of terminal without the size of the wire.
type terminal struct{ fitting, size string }

func kindsOf(least *choose.Settled, core []bool, areas func(unit.Gauge) unit.SquareMillimetre) *kinds {
	k := &kinds{ends: make([][2]int, len(core)), gauges: map[unit.Gauge]int{}, areas: areas}
	number := map[terminal]int{}
	for w := range core {
		for i, t := range []harness.TerminalID{least.H.Wires[w].From, least.H.Wires[w].To} {
			j := joint.Of(least.H, t, least.BoltedOn(t))
			key := terminal{string(j.Fitting), j.Size}
			n, known := number[key]
			if !known {
				n = len(number)
				number[key] = n
				k.rolled = append(k.rolled, j.Fitting == joint.Contact)
			}
			if k.ends[w][i] = n; j.Fitting == joint.SpliceBarrel {
				k.ends[w][i] = -1
			}
		}
	}
	k.count = len(number)
	return k
}

// kind gives a kind of terminal with the range of a gauge.
func (k *kinds) kind(end int, g unit.Gauge) [2]int {
	if !k.rolled[end] && k.areas(g) <= redSleeve {
		return [2]int{end, 0}
	}
	return [2]int{end, k.class(g)}
}

// class gives the number of a gauge's range: that of its sleeve, or its own.
func (k *kinds) class(g unit.Gauge) int {
	n, known := k.gauges[g]
	if !known {
		n = len(classes) + len(k.gauges)
		for i := len(classes) - 1; i >= 0; i-- {
			if k.areas(g) <= classes[i] {
				n = i
			}
		}
		k.gauges[g] = n
	}
	return n
}

// uses counts by kind how many ends are crimped so.
func (k *kinds) uses(gauges []unit.Gauge) map[[2]int]int {
	out := map[[2]int]int{}
	for w, g := range gauges {
		for _, end := range k.ends[w] {
			if end >= 0 {
				out[k.kind(end, g)]++
			}
		}
	}
	return out
}

// freed counts the kinds that nobody but a group needs.
func (k *kinds) freed(g *bought.Group, gauges []unit.Gauge, uses map[[2]int]int) int {
	own := map[[2]int]int{}
	for _, w := range g.Wires {
		for _, end := range k.ends[w] {
			if end >= 0 {
				own[k.kind(end, gauges[w])]++
			}
		}
	}
	n := 0
	for key, count := range own {
		if uses[key] == count {
			n++
		}
	}
	return n
}
