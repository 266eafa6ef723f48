package colour

import (
	"fmt"

	"example.com/loomfolio/sizing/colour/spread"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Assign gives every wire its colour, by WireID. One net has one colour;
// colours in the description stay, locked ones too; grounds, battery feeds
// before any fuse, the shelf and thick wire are obeyed. Then, in this order: no
// two neighbours alike; the nearest two at one part as far apart as can be
// found, then in one run, then at one branching; few pairs as near as that; few
// reels; plain wire before tracers; the conventions asked for; and the runs that
// are not the bottleneck lifted too. Where colours that are given clash, or a
// rule leaves no choice, look-alikes are reported.
//
// ways and gauges are indexed by WireID; a missing way means no shared run, a
// missing gauge no limit. The result does not depend on the order in which
// parts, runs and circuits stand in the model, only on names.
func Assign(h *harness.Harness, ways []route.Way, gauges []unit.Gauge, locks Locks) ([]Choice, Report, source.Problems) {
	t := newTask(h, ways, gauges, locks)
	p := t.problem()
	ceilings := make(chan []most, 1) // the ceilings know nothing of the choice: meanwhile
	go func() { ceilings <- t.ceilings() }()
	option := spread.Solve(p).Option
	choices := t.choices(p, option)
	v := t.judge(choices, option)
	v.sleeved()
	v.bundle()
	return choices, v.report(<-ceilings), v.problems()
}

// choices writes the classes' colours and reasons out by wire.
func (t *task) choices(p *spread.Problem, option []int) []Choice {
	out := make([]Choice, len(t.h.Wires))
	standing := t.standing(p, option)
	for i, c := range t.classes {
		reason := c.rule
		if !c.fixed() {
			reason = joined(joined(c.rule, t.customReason(&c, p.Nodes[i].Wish, option[i])), standing[i])
		}
		for _, w := range c.wires {
			out[w] = t.choice(&c, w, option[i], reason)
		}
	}
	return out
}

// asItIs sets the colour of a wire of the vehicle's own: as it is said, else none.
func asItIs(w *harness.Wire, c *Choice) {
	switch {
	case w.NoColour():
		*c = Choice{Reason: "the vehicle's own: its colour as found"}
	case w.Existing:
		c.Reason = "the vehicle's own"
	}
}

// choice writes out what one wire of a class has.
func (t *task) choice(c *class, w harness.WireID, option int, reason string) Choice {
	found := Pair{t.h.Wires[w].Found.Base, t.h.Wires[w].Found.Tracer}
	out := Choice{Pair: t.combos[option], Reason: reason, Given: c.given(), Found: found}
	if found.Base != "" {
		out.Reason = joined(reason, fmt.Sprintf("%s in the car as found", found))
	}
	if custom := t.custom[w]; custom != nil && !c.given() && custom.hit(out.Pair) == 2 {
		out.By, out.Task = custom.title, custom.function
	}
	asItIs(&t.h.Wires[w], &out)
	return out
}

// customReason says that a class has the colour of a convention.
func (t *task) customReason(c *class, wish []int, option int) string {
	switch custom := t.custom[c.wires[0]]; {
	case wish == nil:
		return ""
	case wish[option] == 2:
		return custom.says()
	case custom.colour.Base == practicePair(t.h.Practice.GroundColour, "BK").Base:
		return custom.gives("on the ground's base")
	case wish[option] == 1:
		return "the base of " + custom.says()
	}
	return ""
}

func joined(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + "; " + b
}

// standing says how each class stands among its neighbours, those apart that
// have no more choice than it has.
func (t *task) standing(p *spread.Problem, option []int) []string {
	count, smallest := make([]int, len(t.classes)), make([]int, len(t.classes))
	for _, e := range p.Edges {
		if e.Rank == spread.Pass {
			continue
		}
		d := t.far[option[e.A]][option[e.B]]
		for _, c := range [2]int{e.A, e.B} {
			if count[c] == 0 || d < smallest[c] {
				smallest[c] = d
			}
			count[c]++
		}
	}
	out := make([]string, len(t.classes))
	for c := range out {
		out[c] = standing(count[c], smallest[c])
	}
	return out
}

func standing(neighbours, smallest int) string {
	far := fmt.Sprintf("%.1f (%s)", float64(smallest)/100, words(smallest))
	switch {
	case neighbours == 0:
		return "no neighbours; first free colour"
	case smallest == 0:
		return "nothing else was left among its " + unit.Counted(neighbours, "neighbour")
	case neighbours == 1:
		return "unlike its neighbour by " + far
	}
	return fmt.Sprintf("unlike its %d neighbours by at least %s", neighbours, far)
}
