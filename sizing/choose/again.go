package choose

import (
	"slices"

	"example.com/loomfolio/sizing/choose/shelf"
	"example.com/loomfolio/sizing/choose/trial"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/unit"
)

// Again settles once more on what a plan allows to be bought. In: the ways, of the same
// runs as those that s was settled with; s as Settle gave it; the plan. Out: every free wire
// has a size of the plan, no thinner than its least there, and all the floors of Settle hold
// as ever: heat, fuses, shorts, drops, what handling and neighbours in series ask for. What is
// given, kept or a core of a cable stays what it is, on the whole shelf; what s holds of the
// record is held. Only a wire that is thicker than all of the plan already, and a source's return
// whose lead is of another family, may have a size above those. A shelf without the next size may leave a rule unmet that s meets: whoever
// takes the result compares the findings. The error is the solver's.
//
// The rounds start from the sizes, temperatures, fuses and lifts that s came to, so that there
// are few of them.
func Again(ways []route.Way, s *Settled, plan Plan) (*Settled, error) {
	c := &chooser{held: s.holding(), plan: plan}
	c.base = s.On(ways, c.shelves(s))
	for w := range s.H.Wires {
		c.begin(s, harness.WireID(w))
	}
	end, err := c.settle(s.Round)
	if err != nil {
		return nil, err
	}
	return end.settled(), nil
}

// Kept tells a wire of a gauge that is given, or that the record has as it was settled: that
// choice is made.
func (s *Settled) Kept(w harness.WireID) bool {
	x := &s.H.Wires[w]
	return s.Fixed[w] || x.Existing || pinned(x) && s.Size(w).Conductor.Gauge == x.Kept.Gauge
}

// holding is what is not free any more when s is settled again: what is given or held, and what
// the record has besides where s came to the same.
func (s *Settled) holding() Held {
	out := Held{all(s.H), make([]bool, len(s.Fixed))}
	for i := range out.Fixed {
		w := harness.WireID(i)
		out.Fixed[i] = s.Kept(w)
		out.Pins.Wires[i] = out.Fixed[i] && !s.Given(w)
	}
	for e := range out.Pins.Fuses {
		k, f := s.H.Elements[e].Kept, &s.Fuses[e]
		same := f.Rating == k.Rating && f.Body == k.Body
		out.Pins.Fuses[e] = s.Pins.Fuses[e] || out.Pins.Fuses[e] && same
	}
	return out
}

// shelves gives by WireID the shelf of each wire, of a free one what the plan allows.
func (c *chooser) shelves(s *Settled) []shelf.Shelf {
	out, made := slices.Clone(s.Shelf), map[string]shelf.Shelf{}
	for w := range out {
		key, id := s.Keys[w], harness.WireID(w)
		gauges, named := c.plan.Sizes[key]
		if !named || c.held.Fixed[w] {
			continue
		}
		if made[key] == nil {
			made[key] = s.Shelf[w].Only(gauges)
		}
		out[w] = made[key]
		if top := out[w][len(out[w])-1].Conductor.Area; top < s.Size(id).Conductor.Area || s.follows(id) {
			out[w] = s.Shelf[w].AndAbove(gauges)
		}
	}
	return out
}

// follows tells an earth lead that holds no less copper than a lead of another family of wire,
// in which thicker sizes may be bought than in its own.
func (s *Settled) follows(w harness.WireID) bool {
	return slices.ContainsFunc(s.Leads, func(l trial.Leads) bool {
		return slices.Contains(l.Earth, w) && slices.ContainsFunc(l.Live, func(x harness.WireID) bool { return s.Keys[x] != s.Keys[w] })
	})
}

// begin sets the size that a wire begins with, the least one that the plan allows, and what
// shorts ask for: those of s, on the shelf that is bought.
func (c *chooser) begin(s *Settled, w harness.WireID) {
	at, least, lift := s.At[w], 0, s.Floors[w].Short
	if !c.held.Fixed[w] {
		row := c.base.Shelf[w]
		at = row.From(s.Size(w).Conductor.Area)
		if lift.Step > 0 {
			lift.Step = row.From(s.Shelf[w][lift.Step].Conductor.Area)
		}
		if c.plan.Least != nil && c.plan.Least[w].Given() {
			least = row.From(areaOn(s.Shelf[w], c.plan.Least[w]))
		}
	}
	c.at, c.least, c.lifts = append(c.at, max(at, least)), append(c.least, least), append(c.lifts, lift)
}

// areaOn gives the copper of a gauge, as a shelf has it.
func areaOn(sh shelf.Shelf, g unit.Gauge) unit.SquareMillimetre {
	if i := sh.Index(g); i >= 0 {
		return sh[i].Conductor.Area
	}
	return rating.AreaOf(g)
}

// Ceiling gives the heaviest size on its shelf that the terminals of a wire take.
func (s *Settled) Ceiling(w harness.WireID) int { return s.ceiling(w) }
