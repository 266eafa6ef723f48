package choose

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/choose/copper"
	"example.com/loomfolio/sizing/choose/shelf"
	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/heat"
	"example.com/loomfolio/sizing/joint"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// draw is one load (or coil) that draws current in one state, with its way.
type Draw struct {
	Load   harness.ElementID
	State  int
	Amps   float64
	Volts  float64
	Feed   flow.Path
	Back   flow.Path
	Counts bool // its drop is held to the limit in this state
}

// Least current at which a load counts as on, in amperes and as a share of what
// it takes at its own voltage: the millivolts between two grounds drive a trickle
// through every filament between them. Common practice, no source.
const (
	OnFrom  = 1e-3
	onShare = 0.01
)

// awake tells whether a load or coil is on at a current.
func (s *sizer) Awake(e *harness.Element, amps float64) bool {
	rated := float64(e.Amps)
	if e.Kind == harness.RelayCoil && e.Ohms > 0 {
		rated = float64(s.Nominal()) / float64(e.Ohms)
	}
	return amps >= OnFrom && amps >= onShare*rated
}

// findDraws follows every load and coil that draws current in every state.
func (s *sizer) findDraws() {
	s.Draws, s.Coils = nil, nil
	for i := range s.States {
		st := &s.States[i]
		c := flow.In(s.H, st)
		for _, e := range s.H.Elements {
			coil := e.Kind == harness.RelayCoil
			a := math.Abs(c.Through(e.ID))
			if e.Kind != harness.Load && !coil || !s.Awake(&e, a) {
				continue
			}
			d := Draw{Load: e.ID, State: i, Amps: a, Volts: math.Abs(st.Volts[e.A] - st.Volts[e.B]), Feed: c.Feed(e.ID), Back: c.Return(e.ID)}
			if coil {
				s.Coils = append(s.Coils, d)
			} else {
				s.Draws = append(s.Draws, d)
			}
		}
	}
	s.markCounting()
}

// markCounting: while the engine is cranked, the starter pulls every other load
// down; only loads that run in no other state are held to their limit then.
func (s *sizer) markCounting() {
	elsewhere := map[harness.ElementID]bool{}
	for _, d := range s.Draws {
		if s.H.States[d.State].Engine != harness.EngineCranking {
			elsewhere[d.Load] = true
		}
	}
	for i := range s.Draws {
		d := &s.Draws[i]
		d.Counts = s.H.States[d.State].Engine != harness.EngineCranking || !elsewhere[d.Load]
	}
}

// classOf gives the drop class of the circuit in which the load's feed arrives.
func (s *sizer) ClassOf(d *Draw) string {
	wire := harness.WireID(harness.None)
	if n := len(d.Feed.Wires); n > 0 {
		wire = d.Feed.Wires[n-1]
	} else if len(d.Back.Wires) > 0 {
		wire = d.Back.Wires[0]
	} else {
		return "default"
	}
	class := s.H.Circuits[s.H.Wires[wire].Circuit].Class
	if _, ok := s.H.Practice.Drop[class]; !ok {
		return "default"
	}
	return class
}

// limitOf gives a load's allowed drop and how it is written.
func (s *sizer) LimitOf(d *Draw) (unit.Volt, string) {
	limit := s.H.Practice.Drop[s.ClassOf(d)]
	if limit.Volts > 0 {
		return limit.Volts, limit.Volts.String()
	}
	return limit.Of(s.Nominal()), limit.Fraction.String() + " of " + s.Nominal().String()
}

// dropIn gives the drop in some wires in a declared state (see ohmsIn).
func (s *sizer) DropIn(state int, wires []harness.WireID) float64 {
	sum := 0.0
	for _, w := range wires {
		sum += math.Abs(s.States[state].WireAmps[w]) * s.OhmsIn(state, w)
	}
	return sum
}

// coldDrop gives the drop in a draw's conductors, feed and return, at 20 C.
func (s *sizer) ColdDrop(d *Draw) float64 {
	sum := 0.0
	for _, w := range d.Wires() {
		sum += math.Abs(s.States[d.State].WireAmps[w]) * s.Ohms(w)
	}
	return sum
}

// drop gives the drop in a draw's conductors, feed and return.
func (s *sizer) Drop(d *Draw) float64 {
	return s.DropIn(d.State, d.Feed.Wires) + s.DropIn(d.State, d.Back.Wires)
}

// exceeds tells a draw that counts and loses more than its limit; a millionth over
// it is the rounding of the temperatures.
func (s *sizer) Exceeds(d *Draw) bool {
	limit, _ := s.LimitOf(d)
	probe := copper.Demand{Limit: float64(limit) * (1 + 1e-6)}
	return d.Counts && !probe.Meets(s.Drop(d))
}

// wires gives the wires of a draw, feed first.
func (d *Draw) Wires() []harness.WireID {
	return append(append([]harness.WireID(nil), d.Feed.Wires...), d.Back.Wires...)
}

// guardsOf gives the fuses whose rating each wire must stand: those that feed
// it, those that hang on it unfused, and, on a return, the fuse that feeds the
// load: a dead short in the load sends that fuse's current through the return.
func (s *sizer) guardsOf() [][]harness.ElementID {
	out := make([][]harness.ElementID, len(s.H.Wires))
	add := func(w harness.WireID, f harness.ElementID) {
		if !slices.Contains(out[w], f) {
			out[w] = append(out[w], f)
		}
	}
	for w, fuses := range s.Guards.Of {
		if tap := s.tap(harness.WireID(w)); tap != harness.None {
			fuses = []harness.ElementID{tap}
		}
		for _, f := range fuses {
			add(harness.WireID(w), f)
		}
	}
	for f, wires := range s.Guards.Legs {
		for _, w := range wires {
			add(w, harness.ElementID(f))
		}
	}
	for _, d := range append(append([]Draw(nil), s.Draws...), s.Coils...) {
		fuses := d.Feed.Fuses(s.H)
		if len(fuses) == 0 {
			continue
		}
		for _, w := range d.Back.Wires {
			add(w, fuses[len(fuses)-1])
		}
	}
	return out
}

// tap gives the fuse that a short wire leads to from a heavier one: within the
// lengths of 33 CFR 183.455(b) it need not stand what protects the heavier one,
// only its own fuse. None for any other wire.
func (s *sizer) tap(w harness.WireID) harness.ElementID {
	mm := float64(s.Ways[w].Length)
	if mm > SheathedFeed || mm > OpenFeed && !s.Sheathed(w) {
		return harness.None
	}
	own := harness.ElementID(harness.None)
	for _, f := range s.Net.Taps(w) {
		if slices.Contains(s.Guards.Of[w], f) || len(s.Guards.Wires[f]) == 0 {
			continue
		}
		if own != harness.None {
			return harness.None // several fuses: nothing holds their sum
		}
		own = f
	}
	return own
}

// letThrough is what a fuse lets into a wire for ever: see flow.Passing.
func (s *sizer) LetThrough(f harness.ElementID, w harness.WireID) float64 {
	return s.letThroughOf(s.passing, f, w)
}

func (s *sizer) letThroughOf(p *flow.Passing, f harness.ElementID, w harness.WireID) float64 {
	if slices.Contains(s.Guards.Of[w], f) {
		return p.Into(f, w)
	}
	return p.Most(f)
}

// findGroups puts wires in series into one group, unless practice says mixed or
// their shelves differ; a given gauge stands apart. The cables that crank the
// engine are one group, though thinner wires branch off between them (common
// practice, no source).
func (s *sizer) findGroups() {
	series := s.Net.Series(s.States)
	for w, cranks := range s.startingWires() {
		if cranks {
			series[w] = harness.None
		}
	}
	s.series = series
	s.groups, s.besideKept, s.ofWire = nil, nil, make([]int, len(s.H.Wires))
	type key struct {
		series int
		shelf  string
	}
	number, kept := map[key]int{}, map[key]int{}
	for i, pinned := range s.Pins.Wires {
		if k := (key{series[i], s.Keys[i]}); pinned && !s.H.Practice.Mixed {
			kept[k] = max(kept[k], s.At[i])
		}
	}
	for i := range s.H.Wires {
		s.ofWire[i] = -1
		if s.Fixed[i] {
			continue
		}
		k := key{series[i], s.Keys[i]}
		g, ok := number[k]
		if !ok || s.H.Practice.Mixed {
			g = len(s.groups)
			number[k] = g
			s.groups = append(s.groups, nil)
			s.besideKept = append(s.besideKept, kept[k])
		}
		s.groups[g] = append(s.groups[g], harness.WireID(i))
		s.ofWire[i] = g
	}
}

// problem puts what is to be sized as groups and demands: ohms per metre against
// grams, amperes times metres. A group that is capped grows no further than its
// terminals take.
func (s *sizer) problem(floor func(harness.WireID) int, capped []bool) copper.Problem {
	p := copper.Problem{Groups: make([][]copper.Size, len(s.groups)), Floor: make([]int, len(s.groups))}
	for g, wires := range s.groups {
		length := unit.Millimetre(0)
		for _, w := range wires {
			p.Floor[g] = max(p.Floor[g], floor(w))
			length += s.weighed(w)
		}
		warmest := s.Warmest(wires)
		sizes := s.Of[wires[0]]
		if capped[g] {
			sizes = sizes[:max(s.ceilingOf(wires), p.Floor[g])+1]
		}
		for i := range sizes {
			z := &sizes[i]
			p.Groups[g] = append(p.Groups[g], copper.Size{Mass: float64(rating.CopperMass(z.Conductor.Area, length)), Ohms: z.Ohms * s.Warmer(warmest, z)})
		}
	}
	for i := range s.Draws {
		if s.Draws[i].Counts {
			p.Demands = append(p.Demands, s.demandOf(&s.Draws[i]))
		}
	}
	return p
}

// ceilingOf gives the heaviest size that the terminals of every wire of a group
// take: the drop is mended elsewhere on the way first. Heat and fuses may ask for
// more all the same; a finding says then that the terminal does not fit.
func (s *sizer) ceilingOf(wires []harness.WireID) int {
	top := len(s.Of[wires[0]]) - 1
	for _, w := range wires {
		for _, t := range []harness.TerminalID{s.H.Wires[w].From, s.H.Wires[w].To} {
			j := joint.Of(s.H, t, s.boltedOn(t))
			for top > 0 && !j.Takes(s.Of[w][top].Conductor.Area) {
				top--
			}
		}
	}
	return top
}

// boltedOn tells that a terminal belongs to a fuse whose body is bolted on.
func (s *sizer) boltedOn(t harness.TerminalID) bool {
	p := s.H.PartOf(t)
	if p == nil || p.Kind != harness.Fuse {
		return false
	}
	for _, e := range p.Elements {
		if s.Fuses[e].Body == "bolt" {
			return true
		}
	}
	return false
}

// warmestOf gives the wire of a group that its current warms most.
func (s *sizer) Warmest(wires []harness.WireID) harness.WireID {
	best, most := wires[0], unit.Celsius(-1)
	for _, w := range wires {
		if rise := s.Hottest[w] - s.Places[w].Celsius; rise > most {
			best, most = w, rise
		}
	}
	return best
}

// warmer estimates the resistance of another size of a wire, warmed by the same
// current, over what the size in hand would have if it were as warm: the rise
// goes with the resistance and against the surface. The next round sees its true
// temperature.
func (s *sizer) Warmer(w harness.WireID, z *shelf.Size) float64 {
	if s.ByRule() {
		return 1
	}
	now, here := s.Size(w), s.Places[w].Celsius
	t := s.Hottest[w]
	rise := (t - here) * unit.Celsius(z.Ohms/now.Ohms*float64(now.Over/z.Over))
	return heat.ResistanceFactor(min(here+rise, z.Overload)) / heat.ResistanceFactor(t)
}

// demandOf makes a demand of a draw; the drop in wires whose gauge is given is
// taken off its limit. Where they take more than their share of it (by amperes
// times metres), the others are held to theirs: copper there would not mend it,
// and the given gauge is a finding of its own.
func (s *sizer) demandOf(d *Draw) copper.Demand {
	limit, _ := s.LimitOf(d)
	out := copper.Demand{}
	st := &s.States[d.State]
	place := map[int]int{}
	lost, given, free := 0.0, 0.0, 0.0
	for _, w := range d.Wires() {
		// Ohms are those at 20 C, so the copper's warmth goes into the current.
		load := math.Abs(st.WireAmps[w]) * s.OhmsIn(d.State, w) / s.Size(w).Ohms
		g := s.ofWire[w]
		if g < 0 {
			lost += load * s.Size(w).Ohms
			given += load
			continue
		}
		free += load
		if j, ok := place[g]; ok {
			out.Terms[j].Amps += load
			continue
		}
		place[g] = len(out.Terms)
		out.Terms = append(out.Terms, copper.Term{Group: g, Amps: load})
	}
	out.Limit = float64(limit) - lost
	if free > 0 {
		out.Limit = math.Max(out.Limit, float64(limit)*free/(free+given))
	}
	return out
}

func (s *sizer) PartOf(e harness.ElementID) *harness.Part { return &s.H.Parts[s.H.Elements[e].Part] }
