// Package bought says what may be bought in the place of the least sizes. In: a Settled of
// package choose. Out: the wires that take one size with the sizes that would do for them; by
// the number of sizes in all, over all families of wire, those that cost least copper, exactly;
// the gauge of every wire with such a set. Copper is length × area × 8.89 g/cm³, as the reels
// weigh, in g. Method: package ladder over the shelves one behind the other. Heat, drops, fuses
// and shorts are not asked again: choose.Again does that with the set.
package bought

import (
	"slices"

	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/shelf"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/joint"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// Group is the wires that take one size.
type Group struct {
	Wires       []harness.WireID
	Shelf       string      // as trial.Base.Keys names it
	Least, Most int         // steps on the whole shelf: what is settled, and what may be bought
	Copper      []unit.Gram // by step
}

// Groups gives what is to be bought off reels: the wires that settled on one size, each of a
// gauge that is given, or kept and not cut yet, by itself. What is built is not bought, nor
// are the cores of cables.
func Groups(s *choose.Settled) []Group {
	g := grouping{s, s.H.OffReels(), nil, map[harness.TerminalID][]harness.WireID{}}
	g.own = g.steps()
	for i := range s.H.Wires {
		w := &s.H.Wires[i]
		g.at[w.From], g.at[w.To] = append(g.at[w.From], w.ID), append(g.at[w.To], w.ID)
	}
	var out []Group
	for _, wires := range s.Groups.Wires {
		free, held := g.parted(g.toMake(wires))
		if free = g.reeled(free); len(free) > 0 {
			out = append(out, g.group(free, len(held) > 0))
		}
	}
	for i := range s.At {
		w := harness.WireID(i)
		if wires := g.reeled([]harness.WireID{w}); s.Kept(w) && len(wires) > 0 {
			out = append(out, g.group(wires, true))
		}
	}
	return out
}

// grouping puts wires into groups.
type grouping struct {
	*choose.Settled
	core []bool                                  // by WireID: of a cable
	own  map[string][]int                        // by shelf: the steps that the vehicle has, built or not, ascending
	at   map[harness.TerminalID][]harness.WireID // that end there
}

// toMake leaves out the vehicle's own wires.
func (g grouping) toMake(wires []harness.WireID) []harness.WireID {
	return slices.DeleteFunc(slices.Clone(wires), func(w harness.WireID) bool { return g.H.Wires[w].Existing })
}

// parted parts wires of one size into those that may be bought in another and those that are kept.
func (g grouping) parted(wires []harness.WireID) (free, held []harness.WireID) {
	for _, w := range wires {
		if g.Kept(w) {
			held = append(held, w)
		} else {
			free = append(free, w)
		}
	}
	return free, held
}

// steps gives by shelf those of the wires, cores of cables apart.
func (g grouping) steps() map[string][]int {
	out := map[string][]int{}
	for i, at := range g.At {
		if !g.core[i] {
			out[g.Keys[i]] = append(out[g.Keys[i]], at)
		}
	}
	for key := range out {
		slices.Sort(out[key])
		out[key] = slices.Compact(out[key])
	}
	return out
}

// reeled leaves those of some wires that are bought off reels.
func (g grouping) reeled(wires []harness.WireID) []harness.WireID {
	var out []harness.WireID
	for _, w := range wires {
		if !g.core[w] && !g.isBuilt(w) {
			out = append(out, w)
		}
	}
	return out
}

// isBuilt tells a wire that is in the vehicle and has the gauge that it is to have.
func (g grouping) isBuilt(w harness.WireID) bool {
	x := &g.H.Wires[w]
	return x.Kept.State == harness.Built && x.Kept.Gauge == g.Size(w).Conductor.Gauge && x.Kept.Length >= g.Ways[w].Length
}

// group sums wires up; held: their size stays as it is.
func (g grouping) group(wires []harness.WireID, held bool) Group {
	first, length := wires[0], unit.Millimetre(0)
	out := Group{Wires: wires, Shelf: g.Keys[first], Least: g.At[first]}
	for _, w := range wires {
		out.Least = max(out.Least, g.At[w])
		length += g.Ways[w].Length
	}
	if out.Most = out.Least; !held {
		out.Most = g.most(wires, out.Least)
	}
	for i := range g.Shelf[first] {
		out.Copper = append(out.Copper, rating.CopperMass(g.Shelf[first][i].Conductor.Area, length))
	}
	return out
}

// mostUp is how many of the vehicle's own sizes up a wire may be bought thicker where an end of
// it is a contact or a barrel: these are made for a range of sizes, and so is the lead at a
// barrel's other end. Rings are made for every size, receptacles in red, blue and yellow. Common
// practice, no source.
const mostUp = 2

// How much thicker a wire may be bought at all: no more than what hand tools crimp in red, blue
// and yellow, or twice its own least size; beyond, it grows stiff and wants lugs where the parts
// have none. Where an end is a butt or a bullet on a device's own lead, no more than leadTimes:
// the lead in the other half is about as thick as the least size. Common practice, no source.
const (
	byHand    unit.SquareMillimetre = 6
	mostTimes unit.SquareMillimetre = 2 // a factor
	leadTimes unit.SquareMillimetre = 2.5
)

// most gives the greatest step that the wires of a group may be bought at.
func (g grouping) most(wires []harness.WireID, least int) int {
	sh := g.Shelf[wires[0]]
	top := below(sh, max(byHand, mostTimes*sh[least].Conductor.Area))
	for _, w := range wires {
		top = min(top, g.Ceiling(w))
		for _, t := range []harness.TerminalID{g.H.Wires[w].From, g.H.Wires[w].To} {
			top = min(top, g.upTo(w, t, least))
		}
	}
	return max(top, least)
}

// upTo gives the greatest step of a wire that one of its ends is made for: no ring is made for
// more copper, no receptacle for that of all wires on its tab, no contact or barrel for so wide
// a range.
func (g grouping) upTo(w harness.WireID, t harness.TerminalID, least int) int {
	sh := g.Shelf[w]
	j := joint.Of(g.H, t, g.BoltedOn(t))
	if j.Fitting == joint.Ring {
		return below(sh, g.ringOn(t, j, sh[least].Conductor.Area))
	}
	switch {
	case j.Fitting == joint.Receptacle:
	case g.onLead(t, j):
		return min(g.up(w, least), below(sh, leadTimes*sh[least].Conductor.Area))
	default:
		return g.up(w, least)
	}
	top := len(sh) - 1
	for beside := g.beside(w, t); top > least && !sleeved(sh[top].Conductor, beside); {
		top--
	}
	return top
}

// onLead tells a butt or a bullet on a device's own lead. The holder of a fuse is bought with
// leads as thick as its wires.
func (g grouping) onLead(t harness.TerminalID, j joint.Joint) bool {
	p := g.H.PartOf(t)
	return p != nil && p.Kind != harness.Fuse && (j.Fitting == joint.ButtSplice || j.Fitting == joint.Bullet)
}

// below gives the last step with no more copper than an area, one part in fifty over it too.
func below(sh shelf.Shelf, most unit.SquareMillimetre) int {
	n := 0
	for n+1 < len(sh) && sh[n+1].Conductor.Area <= most*1.02 {
		n++
	}
	return n
}

// smallLug is the largest ring on studs below M5, of which no list names one: that of M5.
const smallLug unit.SquareMillimetre = 10

// ringOn gives the most copper that rings on a stud are made for: what is usual where the
// least size is, else what any list has. The stud of a ground that names none is chosen by the
// ring.
func (g grouping) ringOn(t harness.TerminalID, j joint.Joint, least unit.SquareMillimetre) unit.SquareMillimetre {
	p := g.H.PartOf(t)
	if p == nil || p.Kind == harness.Ground && p.Stud == "" {
		return unlimited
	}
	s, known := rating.StudOf(j.Size)
	switch {
	case !known:
		return unlimited
	case s.Lug <= 0:
		return smallLug
	case least <= s.Lug:
		return s.Lug
	}
	return s.Largest
}

const unlimited unit.SquareMillimetre = 1e9

// beside adds up the copper of the other wires that end where a wire does, mm2.
func (g grouping) beside(w harness.WireID, t harness.TerminalID) unit.SquareMillimetre {
	sum := unit.SquareMillimetre(0)
	for _, o := range g.at[t] {
		if o != w {
			sum += g.Size(o).Conductor.Area
		}
	}
	return sum
}

// sleeved tells that a receptacle is made for a wire and what is on the tab besides.
func sleeved(c rating.Conductor, beside unit.SquareMillimetre) bool {
	_, ok := rating.SleeveOf(rating.Conductor{Gauge: unit.Gauge{System: c.Gauge.System}, Area: c.Area + beside})
	return ok
}

// up gives the step that lies mostUp of the vehicle's own sizes above one.
func (g grouping) up(w harness.WireID, least int) int {
	steps := g.own[g.Keys[w]]
	i := slices.Index(steps, least)
	return steps[min(i+mostUp, len(steps)-1)]
}
