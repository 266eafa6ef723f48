package colour

import (
	"fmt"

	"example.com/loomfolio/sizing/colour/fewest"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Alike is two nets whose wires only their number sleeves tell apart where they meet.
type Alike struct {
	A, B     harness.WireID // one wire of each, in the order of their names
	Part     harness.PartID // None where they only share a run
	Run      harness.RunID  // None where they meet at a part
	Distance float64        // CIEDE2000
	ByRule   bool           // neither has a choice
}

// SizeBound tells how many reels of one size are bought, and that no fewer tell all apart.
type SizeBound struct {
	Gauge unit.Gauge
	Reels int
	Least int
	Exact bool
}

// Settle writes the colours out with their reasons, and judges them.
func (s *Shop) Settle(bought []Bought, pairs []Pair, a Ask) ([]Choice, Report, []Alike, []SizeBound, source.Problems) {
	t, sizes := s.lay(bought)
	p := s.question(t, sizes, a)
	option := p.Begin(t.begun(pairs))
	out := make([]Choice, len(t.h.Wires))
	for i := range t.classes {
		c := &t.classes[i]
		for _, w := range c.wires {
			out[w] = Choice{Pair: t.combos[option[i]], Reason: c.rule, Given: c.given(), Found: Pair{t.h.Wires[w].Found.Base, t.h.Wires[w].Found.Tracer}}
		}
	}
	v := t.judge(out, option)
	kept := v.alike[:0]
	for _, x := range v.alike {
		if v.classes[v.class[x.a]].fixed() && v.classes[v.class[x.b]].fixed() {
			kept = append(kept, x)
		}
	}
	v.alike = kept
	_ = fewest.Part
	return out, v.report(make([]most, v.meetings())), nil, nil, v.problems()
}

// Taught says in words which wires must look different.
func Taught(h *harness.Harness) string {
	a := h.Practice.Apart
	out := "all wires at a part"
	if a.Near > 0 {
		out = fmt.Sprintf("in panels, plugs and modules wires within %s of each other, at every other part all", unit.Counted(a.Near, "position"))
	}
	if a.Runs == "colour" {
		out += "; all in one run"
	} else {
		out += "; in one run where that costs no reel"
	}
	if a.Branchings {
		out += "; all that pass one branching"
	}
	return out
}
