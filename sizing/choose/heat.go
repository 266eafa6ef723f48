package choose

import (
	"math"

	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/unit"
)

// ambient is the hottest place that a wire passes.
type ambient struct {
	celsius unit.Celsius
	place   harness.PlaceID
}

// hottest looks at the places of the way and at those of both parts; a wire
// without any place lies in 30 C (33 CFR 183.425 table 5).
func hottest(h *harness.Harness, ways []route.Way, w *harness.Wire) ambient {
	at := append([]harness.PlaceID(nil), ways[w.ID].Places...)
	for _, t := range []harness.TerminalID{w.From, w.To} {
		if p := h.PartOf(t); p != nil && p.Place != harness.None {
			at = append(at, p.Place)
		}
	}
	if len(at) == 0 {
		return ambient{30, harness.None}
	}
	best := ambient{h.Places[at[0]].Ambient, at[0]}
	for _, p := range at[1:] {
		if h.Places[p].Ambient > best.celsius {
			best = ambient{h.Places[p].Ambient, p}
		}
	}
	return best
}

// peak is a wire's worst continuous current and where it comes from.
type peak struct {
	amps  float64
	state string
	ohms  float64 // of the whole wire in that state
	short bool    // it flows only while cranking
}

// measure reads the currents, the draws, the bundles and the temperatures from
// the solved states; it gives the largest change of a temperature, in K.
func (s *sizer) measure() float64 {
	s.findDraws()
	s.peak = make([]peak, len(s.h.Wires))
	starting := s.startingWires()
	for i := range s.solvings {
		at := &s.solvings[i]
		for w := range s.peak {
			a := math.Abs(at.state.WireAmps[w])
			if math.IsNaN(a) || at.cranking && starting[w] {
				continue
			}
			if a > s.peak[w].amps+1e-9 {
				s.peak[w] = peak{amps: a, state: at.name, ohms: at.ohms[w]}
			}
		}
	}
	s.shortPeaks(starting)
	s.countBundles()
	s.warm = s.newWarmth()
	return s.warmUp()
}

// startingWires marks the way of a starter's motor current. Its seconds do not
// count for heat (33 CFR 183.425(g) sets cranking conductors apart).
func (s *sizer) startingWires() []bool {
	out := make([]bool, len(s.h.Wires))
	for _, d := range s.draws {
		if s.partOf(d.load).Kind != harness.Starter {
			continue
		}
		for _, w := range append(append([]harness.WireID(nil), d.feed.Wires...), d.back.Wires...) {
			out[w] = true
		}
	}
	return out
}

// shortPeaks gives wires that carry current only while cranking that current,
// marked as short.
func (s *sizer) shortPeaks(starting []bool) {
	for i := range s.states {
		if s.h.States[i].Engine != harness.EngineCranking {
			continue
		}
		for w := range s.peak {
			a := math.Abs(s.states[i].WireAmps[w])
			free := s.peak[w].short || s.peak[w].amps < 1e-3
			if starting[w] && free && a > s.peak[w].amps {
				s.peak[w] = peak{a, s.states[i].Name, s.solvings[i].ohms[w], true}
			}
		}
	}
}

// A wire counts in a bundle when it carries at least an ampere and a tenth of
// what it could carry alone; common practice, no source.
const (
	countsFrom  = 1.0
	countsShare = 0.1
)

// countBundles finds for each wire the most loaded wires that lie with it in
// one run, itself counted, in a state in which it carries current. A count
// never goes back, so that the choice settles.
func (s *sizer) countBundles() {
	from := s.loadedFrom()
	s.each(func(st *network.State, _ bool) {
		loaded := make([]bool, len(from))
		for w := range from {
			loaded[w] = math.Abs(st.WireAmps[w]) >= from[w]
		}
		for _, together := range [][][]harness.WireID{s.runs, s.cables} {
			for _, wires := range together {
				s.countIn(wires, st, loaded)
			}
		}
	})
}

func (s *sizer) countIn(wires []harness.WireID, st *network.State, loaded []bool) {
	n := 0
	for _, w := range wires {
		if loaded[w] {
			n++
		}
	}
	for _, w := range wires {
		own := 1
		if loaded[w] {
			own = 0
		}
		if math.Abs(st.WireAmps[w]) > 0.01 {
			s.bundle[w] = max(s.bundle[w], n+own)
		}
	}
}

// loadedFrom gives by WireID the current from which a wire counts as loaded.
func (s *sizer) loadedFrom() []float64 {
	out := make([]float64, len(s.h.Wires))
	for i := range out {
		z := s.size(harness.WireID(i))
		base, _ := rating.Ampacity(z.conductor, z.class)
		out[i] = math.Max(countsFrom, countsShare*float64(base)*rating.AmbientFactor(z.class, s.places[i].celsius))
	}
	return out
}

// inRuns lists the wires of each run.
func inRuns(h *harness.Harness, ways []route.Way) [][]harness.WireID {
	out := make([][]harness.WireID, len(h.Runs))
	for w := range h.Wires {
		for _, share := range ways[w].Shares {
			out[share.Run] = append(out[share.Run], harness.WireID(w))
		}
	}
	return out
}

// inCables lists the wires of each cable: they lie together whatever runs it passes.
func inCables(h *harness.Harness) [][]harness.WireID {
	var out [][]harness.WireID
	for i := range h.Units {
		if u := &h.Units[i]; u.Kind == harness.Cabled {
			out = append(out, u.Wires)
		}
	}
	return out
}

// balanced tells that the heat balance says what wires may carry, not a table.
func (s *sizer) balanced() bool {
	return !s.byRule() && s.h.Practice.Ampacity == "computed"
}

// carries gives what a size of a wire may carry for ever where the wire lies.
func (s *sizer) carries(w harness.WireID, z *size) float64 {
	if s.balanced() {
		return s.warm.upTo(w, z, z.class)
	}
	here := s.places[w].celsius
	if s.h.Practice.Method == "ac43-13" {
		// Table 11-9 stands for large bundles at 70 C.
		hot := math.Max(0, math.Min(1, float64(z.class-here)/float64(z.class-70)))
		return float64(rating.AircraftCurrent(z.conductor, z.class)) * math.Sqrt(hot)
	}
	base, _ := rating.Ampacity(z.conductor, z.class)
	factor, _ := rating.BundleFactor(s.bundle[w])
	return float64(base) * rating.AmbientFactor(z.class, here) * factor
}

// mayCarry tells that carries is no less than a current.
func (s *sizer) mayCarry(w harness.WireID, z *size, amps float64) bool {
	if s.balanced() {
		return s.warm.carries(w, z, amps, z.class)
	}
	return s.carries(w, z) >= amps
}

// withstands gives the current that brings the conductor of a size to a limit,
// where the wire lies and beside the currents of the others there; above its
// class for the time of an overload. Where a table is in force the rise is taken
// to go with the square of the current.
func (s *sizer) withstands(w harness.WireID, z *size, limit unit.Celsius) float64 {
	if s.balanced() {
		return s.warm.upTo(w, z, limit)
	}
	here := s.places[w].celsius
	if limit <= here || z.class <= here {
		return 0
	}
	return s.carries(w, z) * math.Sqrt(float64(limit-here)/float64(z.class-here))
}

// hottestState gives the warmest that a wire's conductor gets, and the state.
func (s *sizer) hottestState(w harness.WireID) (unit.Celsius, string) {
	best := &s.solvings[0]
	for i := range s.solvings {
		if at := &s.solvings[i]; !at.cranking && (best.cranking || at.warm[w] > best.warm[w]) {
			best = at
		}
	}
	if best.cranking {
		return s.places[w].celsius, best.name
	}
	return best.warm[w], best.name
}

// floors is the least step that each rule alone asks for.
type floors struct {
	handling, heat, protection int
	beside                     int  // the thickest of the kept wires in series with it
	hot, weak                  bool // no size is enough for heat, for the fuse
	guard                      harness.ElementID
	earth                      bool // handling comes from the battery's live lead
}

func (f floors) least() int { return max(f.handling, f.heat, f.protection, f.beside) }

// findFloors sets the floors of every wire.
func (s *sizer) findFloors() {
	s.floors = make([]floors, len(s.h.Wires))
	s.stand = s.guardsOf()
	s.pass()
	earth := s.earthAreas()
	for i := range s.h.Wires {
		w := harness.WireID(i)
		f := floors{handling: s.shelf[w].smallest(&s.h.Practice), guard: harness.None}
		if area := earth[w]; area > 0 {
			if j, _ := s.shelf[w].least(func(z *size) bool { return float64(z.conductor.Area) >= area*0.999 }); j > f.handling {
				f.handling, f.earth = j, true
			}
		}
		if !s.peak[w].short {
			f.heat, f.hot = s.leastFor(w, s.peak[w].amps)
		}
		f.guard = s.strongest(w, s.stand[w])
		if f.guard != harness.None {
			f.protection, f.weak = s.leastBehind(w, f.guard)
		}
		if s.ofWire[w] >= 0 {
			f.beside = s.besideKept[s.ofWire[w]]
		}
		s.floors[w] = f
	}
}

// leastFor gives the least size that carries a current for ever where the wire
// lies. Hot tells that none does for its neighbours' sake or its place's: more
// copper would not mend that, so it is the size that carries it alone.
func (s *sizer) leastFor(w harness.WireID, amps float64) (at int, hot bool) {
	at, ok := s.shelf[w].least(func(z *size) bool { return s.mayCarry(w, z, amps*(1-1e-9)) })
	if ok || !s.balanced() {
		return at, !ok
	}
	at, _ = s.shelf[w].least(func(z *size) bool { return s.warm.alone(w, z, z.class) >= amps*(1-1e-9) })
	return at, true
}

// strongest gives the fuse that lets most into a wire, the first of equals.
func (s *sizer) strongest(w harness.WireID, fuses []harness.ElementID) harness.ElementID {
	best := harness.ElementID(harness.None)
	for _, f := range fuses {
		if best == harness.None || s.letThrough(f, w) > s.letThrough(best, w) {
			best = f
		}
	}
	return best
}

// leastEarth is 8 gauge by SAE minimum metal area (14 810 cmil): NEC (2008)
// 552.10 wants a battery's lead to the chassis to be at least 8 AWG.
const leastEarth = 7.5 // mm2

// heaviest gives the largest area among a battery's live leads, 8 gauge at
// least. A lead in one group with the earth lead does not count: it has its
// gauge already, and the two would hold each other up.
func (s *sizer) heaviest(live []harness.WireID, earth harness.WireID) float64 {
	most := leastEarth
	for _, w := range live {
		if s.ofWire[w] < 0 || s.ofWire[w] != s.ofWire[earth] {
			most = math.Max(most, float64(s.size(w).conductor.Area))
		}
	}
	return most
}

// earthAreas gives the least area of the leads on a battery's earth side: 8
// gauge, and that of the heaviest lead on its live side (NEC 552.10).
func (s *sizer) earthAreas() map[harness.WireID]float64 {
	out := map[harness.WireID]float64{}
	for _, l := range s.leads {
		for _, w := range l.earth {
			out[w] = math.Max(out[w], s.heaviest(l.live, w))
		}
	}
	return out
}

// leads are the wires at a battery: on its earth side as far as the chassis, and
// those that end on its live side.
type leads struct{ earth, live []harness.WireID }

func leadsOf(h *harness.Harness, net *flow.Net) []leads {
	var out []leads
	for i := range h.Elements {
		if h.Elements[i].Kind == harness.EMF {
			earth, live := net.EarthLeads(harness.ElementID(i))
			out = append(out, leads{earth, live})
		}
	}
	return out
}
