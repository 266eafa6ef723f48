package colour

import (
	"fmt"

	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// force is what holds a wire's colour; the stronger one wins.
type force int

// The forces, the weakest first.
const (
	open    force = iota // nothing: to be chosen
	planned              // chosen by an earlier run
	built                // in the loom already
	written              // in the description
)

func (f force) String() string {
	return [...]string{"", "as before", "as before", "given"}[f]
}

// held is what holds one wire's colour.
type held struct {
	pair  Pair
	force force
}

// broken is a lock that is not kept, or is kept against a rule.
type broken struct {
	wire harness.WireID
	lock Lock
	why  string
	kept bool
}

// hold finds for every wire what holds its colour. A colour in the description
// comes before any lock, a built one before all rules; a planned one gives way
// where a hard rule has come against it.
func (t *task) hold(f forest.Forest, roles []role, gauges []unit.Gauge, locks Locks) {
	t.held = make([]held, len(t.h.Wires))
	for _, w := range t.order {
		wire := t.h.Wires[w]
		lock, locked := locks[w]
		switch {
		case wire.Base != "":
			t.held[w] = held{Pair{wire.Base, wire.Tracer}, written}
			if locked && lock.Built && lock.Pair != t.held[w].pair {
				t.broken = append(t.broken, broken{w, lock, fmt.Sprintf("the description now says %s", t.held[w].pair), false})
			}
		case locked && lock.Built:
			t.held[w] = held{lock.Pair, built}
			if why := t.against(roles[f.Root(int(wire.From))], gaugeOf(gauges, w), lock.Pair, w); why != "" {
				t.broken = append(t.broken, broken{w, lock, why, true})
			}
		}
	}
	t.holdPlanned(f, roles, gauges, locks)
}

// holdPlanned holds the planned colours that no hard rule stands against.
func (t *task) holdPlanned(f forest.Forest, roles []role, gauges []unit.Gauge, locks Locks) {
	for _, w := range t.order {
		lock, locked := locks[w]
		if !locked || t.held[w].force != open {
			continue
		}
		why := t.against(roles[f.Root(int(t.h.Wires[w].From))], gaugeOf(gauges, w), lock.Pair, w)
		if why == "" {
			why = t.crossed(f, roles, w, lock.Pair)
		}
		if why != "" {
			t.broken = append(t.broken, broken{w, lock, why, false})
			continue
		}
		t.held[w] = held{lock.Pair, planned}
	}
}

// against names the hard rule that a locked colour breaks, or "".
func (t *task) against(r role, g unit.Gauge, p Pair, w harness.WireID) string {
	c := t.choiceFor(r, nil, g, w)
	if earthPair(p) {
		return "green with yellow belongs to the protective earth of the mains"
	}
	if base := practicePair(t.h.Practice.GroundColour, "BK").Base; r != ground && p.Base == base {
		return fmt.Sprintf("%s is the ground's colour, and this wire is none", base)
	}
	if r == free && c.rule == "" {
		return ""
	}
	if len(both([]int{t.index(p)}, c.domain)) == 0 {
		return c.rule
	}
	return ""
}

// crossed tells what stronger colour a planned one cannot stand with: another
// one on its own net, or a look-alike at one of its parts.
func (t *task) crossed(f forest.Forest, roles []role, w harness.WireID, p Pair) string {
	net := f.Root(int(t.h.Wires[w].From))
	same, other := false, ""
	for _, o := range t.order {
		x := t.held[o]
		if x.force <= planned || t.core[o] {
			continue
		}
		theirs := f.Root(int(t.h.Wires[o].From))
		alike := x.pair == p || swapped(x.pair, p)
		if theirs == net {
			same = same || x.pair == p
			if x.pair != p {
				other = fmt.Sprintf("wire %s of its net is %s", t.h.Wires[o].Name, x.pair)
			}
		} else if alike && t.touch(w, o) && !(roles[net] == ground && roles[theirs] == ground) && !t.toldBySize(w, o) {
			return fmt.Sprintf("wire %s (%s) ends at the same part", t.h.Wires[o].Name, x.pair)
		}
	}
	if same {
		return ""
	}
	return other
}

// problems tells what became of locks that could not be kept as they were.
func (b *broken) problem(t *task, now Pair) source.Problem {
	w := t.h.Wires[b.wire]
	p := source.Problem{
		Slug: "lock-broken", Level: source.Warning, Span: w.Span, Subjects: []string{w.Name},
		Summary: fmt.Sprintf("wire %s was planned as %s and becomes %s: %s", w.Name, b.lock.Pair, now, b.why),
		Detail:  "lock the new colour, or change the rule that requires it",
	}
	switch {
	case b.kept:
		p.Slug = "built-against-rule"
		p.Summary = fmt.Sprintf("wire %s is built as %s, against a rule: %s", w.Name, b.lock.Pair, b.why)
		p.Detail = "it keeps its colour; put a sleeve with its number, or one of the colour that the rule requires, at both ends"
	case b.lock.Built:
		p.Summary = fmt.Sprintf("wire %s is built as %s, but %s", w.Name, b.lock.Pair, b.why)
		p.Detail = "pull a new wire, or take the colour out of the description to keep the one that is there"
	}
	return p
}
