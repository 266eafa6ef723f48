package colour

import (
	"fmt"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Report sums up an assignment. Neighbours are wires of different nets that
// end at one part or lie in one run; two ground wires are no neighbours, and
// neither are wires whose copper differs 2.5 fold.
type Report struct {
	LookAlikes int     // neighbouring wires of one colour
	Smallest   float64 // distance of the nearest two neighbours that differ; 0 when there are none
	Bound      float64 // no assignment under the same rules keeps all neighbours farther apart
}

// Assign gives every wire its colour, by WireID. One net has one colour;
// colours given in the description stay; grounds, battery feeds before any
// fuse, the shelf and thick wire are obeyed. Then, in this order: no two
// neighbours alike, the nearest two as far apart as can be found, few reels,
// plain wire before tracers. Where the description's own colours clash, or a
// rule leaves no choice, look-alikes are reported.
//
// ways and gauges are indexed by WireID; a missing way means no shared run, a
// missing gauge no limit. The result does not depend on the order in which
// parts, runs and circuits stand in the model, only on names.
func Assign(h *harness.Harness, ways []route.Way, gauges []unit.Gauge) ([]Choice, Report, source.Problems) {
	t := newTask(h, runsOf(ways), gauges)
	ceiling := t.ceiling()
	s := t.save(t.solve(ceiling))
	choices := t.choices(s)
	found := t.judge(choices)
	report := Report{LookAlikes: found.alike, Smallest: float64(max(0, found.smallest)) / 100}
	report.Bound = max(float64(ceiling)/100, report.Smallest)
	return choices, report, found.problems()
}

func runsOf(ways []route.Way) [][]harness.RunID {
	out := make([][]harness.RunID, len(ways))
	for i, w := range ways {
		for _, s := range w.Shares {
			out[i] = append(out[i], s.Run)
		}
	}
	return out
}

// choices writes the classes' colours and reasons out by wire.
func (t *task) choices(s solution) []Choice {
	out := make([]Choice, len(t.h.Wires))
	for i, c := range t.classes {
		reason := c.rule
		if !c.fixed() {
			reason = joined(c.rule, t.standing(s, i))
		}
		for _, w := range c.wires {
			out[w] = Choice{Pair: t.combos[s.colour[i]], Reason: reason, Given: c.given}
		}
	}
	return out
}

func joined(a, b string) string {
	if a == "" {
		return b
	}
	return a + "; " + b
}

// standing says how a class stands among its neighbours.
func (t *task) standing(s solution, c int) string {
	smallest := -1
	for _, o := range t.near[c] {
		if d := apart(t.combos[s.colour[c]], t.combos[s.colour[o]]); smallest < 0 || d < smallest {
			smallest = d
		}
	}
	switch n := len(t.near[c]); {
	case n == 0:
		return "no neighbours; first free colour"
	case smallest == 0:
		return fmt.Sprintf("nothing else was left among its %d neighbours", n)
	case n == 1:
		return fmt.Sprintf("unlike its neighbour by %.1f", float64(smallest)/100)
	default:
		return fmt.Sprintf("unlike its %d neighbours by at least %.1f", n, float64(smallest)/100)
	}
}
