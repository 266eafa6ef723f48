package choose

import (
	"slices"

	"example.com/loomfolio/sizing/choose/copper"
	"example.com/loomfolio/sizing/choose/demand"
	"example.com/loomfolio/sizing/choose/protect"
	"example.com/loomfolio/sizing/choose/shelf"
	"example.com/loomfolio/sizing/choose/trial"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/joint"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// sizes chooses the sizes of wires in groups, from floors up.
type sizes struct {
	*protect.Protection
	groups  Groups
	allowed map[harness.ElementID]unit.Volt // limits of loads in place of their own; nil: none
	straps  bool                            // the cables that crank have their size in hand, and cap what returns by them
}

// withinTerminals finds the lightest set in sizes that the terminals take. A
// demand that these cannot meet lets the wires of its way grow beyond: a finding
// says then that a terminal does not fit, which is sooner mended than a drop.
func (s sizes) withinTerminals(floor func(harness.WireID) int) (copper.Problem, copper.Result) {
	capped := make([]bool, len(s.groups.Wires))
	for g := range capped {
		capped[g] = true
	}
	p := s.problem(floor, capped)
	r := copper.Least(p)
	lifted := false
	for d, met := range r.Met {
		if met {
			continue
		}
		for _, t := range p.Demands[d].Terms {
			lifted = lifted || len(p.Groups[t.Group]) < len(s.Shelf[s.groups.Wires[t.Group][0]])
			capped[t.Group] = false
		}
	}
	if lifted {
		p = s.problem(floor, capped)
		r = copper.Least(p)
	}
	return p, r
}

// inHand tells that the sizes in hand meet all that the found ones meet with no
// more copper than a share above theirs: then they stay, and two sets of nearly one mass do
// not take turns.
func (s sizes) inHand(p *copper.Problem, r *copper.Result, above float64) bool {
	mass, step := 0.0, make([]int, len(s.groups.Wires))
	for g, wires := range s.groups.Wires {
		step[g] = s.At[wires[0]]
		if step[g] < p.Floor[g] || step[g] >= len(p.Groups[g]) || !s.alike(wires) {
			return false
		}
		mass += p.Groups[g][step[g]].Mass
	}
	for d := range p.Demands {
		if r.Met[d] && !p.Demands[d].Meets(p.Drop(d, step)) {
			return false
		}
	}
	return mass <= r.Mass*(1+above)
}

// alike tells that wires have one size in hand.
func (s sizes) alike(wires []harness.WireID) bool {
	return !slices.ContainsFunc(wires, func(w harness.WireID) bool { return s.At[w] != s.At[wires[0]] })
}

// computed meets all drops from the given floors up, whatever the terminals take.
func (s sizes) computed(floor func(harness.WireID) int) []int {
	return s.inWires(copper.Least(s.problem(floor, make([]bool, len(s.groups.Wires)))).Step)
}

// inWires gives each wire the step of its group.
func (s sizes) inWires(step []int) []int {
	next := append([]int(nil), s.At...)
	for g, wires := range s.groups.Wires {
		for _, w := range wires {
			next[w] = step[g]
		}
	}
	return next
}

// terminalLength is the length of a conductor that weighs what the terminal on
// its end does: a tubular lug of 35 mm2 some 25 g, a receptacle for 1.5 mm2 about
// 1 g; common practice, no source. Without it short thick stubs would look cheap.
const terminalLength unit.Millimetre = 80

// weighed gives the length by which a wire weighs, its two terminals in it.
func weighed(b *trial.Base, w harness.WireID) unit.Millimetre {
	return b.Ways[w].Length + 2*terminalLength
}

// problem puts what is to be sized as groups and demands: ohms per metre against
// grams, amperes times metres. A group that is capped grows no further than its
// terminals take.
func (s sizes) problem(floor func(harness.WireID) int, capped []bool) copper.Problem {
	n := len(s.groups.Wires)
	p := copper.Problem{Groups: make([][]copper.Size, n), Floor: make([]int, n)}
	for g, wires := range s.groups.Wires {
		for _, w := range wires {
			p.Floor[g] = max(p.Floor[g], floor(w))
		}
		row := s.Shelf[wires[0]]
		if capped[g] {
			row = row[:max(s.underStrap(wires, s.ceilingOf(wires)), p.Floor[g])+1]
		}
		p.Groups[g] = s.priced(wires, row)
	}
	for _, list := range [][]demand.Draw{s.Draws, s.Charge} {
		for i := range list {
			if d := &list[i]; d.Counts {
				p.Demands = append(p.Demands, s.OnGroupsTo(d, s.groups.Of, s.limitOf(d)))
			}
		}
	}
	return p
}

func (s sizes) limitOf(d *demand.Draw) unit.Volt {
	limit, _ := s.LimitOf(d)
	return max(limit, s.allowed[d.Load])
}

// priced gives what each size of a group's shelf weighs and resists.
func (s sizes) priced(wires []harness.WireID, row shelf.Shelf) []copper.Size {
	length := unit.Millimetre(0)
	for _, w := range wires {
		length += weighed(s.Base, w)
	}
	warmest := s.Warmest(wires)
	out := make([]copper.Size, len(row))
	for i := range row {
		z := &row[i]
		out[i] = copper.Size{Mass: float64(rating.CopperMass(z.Conductor.Area, length)), Ohms: z.Ohms * s.Warmer(warmest, z)}
	}
	return out
}

// ceilingOf gives the heaviest size that the terminals of every wire of a group
// take: the drop is mended elsewhere on the way first. Heat and fuses may ask for
// more all the same; a finding says then that the terminal does not fit.
func (s sizes) ceilingOf(wires []harness.WireID) int {
	top := len(s.Shelf[wires[0]]) - 1
	for _, w := range wires {
		for _, t := range []harness.TerminalID{s.H.Wires[w].From, s.H.Wires[w].To} {
			j := joint.Of(s.H, t, s.BoltedOn(t))
			for top > 0 && !j.Takes(s.Shelf[w][top].Conductor.Area) {
				top--
			}
		}
	}
	return top
}

// underStrap gives the heaviest size up to a top that is no heavier than the straps by which
// the current of the wires returns.
func (s sizes) underStrap(wires []harness.WireID, top int) int {
	if !s.straps {
		return top
	}
	for _, w := range wires {
		for strap := s.strapOf(w); strap > 0 && top > 0 && s.Shelf[w][top].Conductor.Area > strap; {
			top--
		}
	}
	return top
}

// strapOf gives the area of the cranking cable by which the current of an alternator's
// lead comes back, 0 for any other wire: a lead that were heavier for the loads' sake would
// ask for heavier cranking cables, so that drop is mended elsewhere.
func (s sizes) strapOf(w harness.WireID) unit.SquareMillimetre {
	for _, l := range s.Leads {
		if l.Battery || len(l.Earth) == 0 || !slices.Contains(l.Live, w) || s.Cranks[w] {
			continue
		}
		least := s.Size(l.Earth[0]).Conductor.Area
		for _, x := range l.Earth {
			if !s.Cranks[x] {
				return 0
			}
			least = min(least, s.Size(x).Conductor.Area)
		}
		return least
	}
	return 0
}

// published sizes wire by wire, by a rule that is printed somewhere: no wire
// knows of its neighbours, and each takes the whole drop of its loop as its own.
//   - abyc-e11: circular mils = 10.75 x amperes x feet of the loop / volts allowed;
//   - ac43-13: FAA AC 43.13-1B table 11-6, 0.5 V from the bus to the load and
//     back at 14 V, resistances and currents of table 11-9.
//
// Heat, fuses, handling and the one gauge of a series stay in force.
func (s sizes) published(floor func(harness.WireID) int) []int {
	least := make([]int, len(s.H.Wires))
	for w := range least {
		least[w] = floor(harness.WireID(w))
	}
	for _, list := range [][]demand.Draw{s.Draws, s.Charge} {
		for i := range list {
			if d := &list[i]; d.Counts {
				s.byRule(d, least)
			}
		}
	}
	step := make([]int, len(s.groups.Wires))
	for g, wires := range s.groups.Wires {
		for _, w := range wires {
			step[g] = max(step[g], least[w])
		}
	}
	return s.inWires(step)
}

// byRule raises the floors of the wires on a draw's way to what the rule asks.
func (s sizes) byRule(d *demand.Draw, least []int) {
	for _, w := range d.Wires() {
		j, _ := s.Shelf[w].Least(s.RuleOf(s.H.Practice.Method, d, w))
		least[w] = max(least[w], j)
	}
}
