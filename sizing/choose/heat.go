package choose

import (
	"math"

	"example.com/loomfolio/sizing/choose/shelf"
	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/unit"
)

// ambient is the hottest place that a wire passes.
type Ambient struct {
	Celsius unit.Celsius
	Place   harness.PlaceID
}

// hottest looks at the places of the way and at those of both parts; a wire
// without any place lies in 30 C (33 CFR 183.425 table 5).
func hottest(h *harness.Harness, ways []route.Way, w *harness.Wire) Ambient {
	at := append([]harness.PlaceID(nil), ways[w.ID].Places...)
	for _, t := range []harness.TerminalID{w.From, w.To} {
		if p := h.PartOf(t); p != nil && p.Place != harness.None {
			at = append(at, p.Place)
		}
	}
	if len(at) == 0 {
		return Ambient{30, harness.None}
	}
	best := Ambient{h.Places[at[0]].Ambient, at[0]}
	for _, p := range at[1:] {
		if h.Places[p].Ambient > best.Celsius {
			best = Ambient{h.Places[p].Ambient, p}
		}
	}
	return best
}

// peak is a wire's worst continuous current and where it comes from.
type Peak struct {
	Amps  float64
	State string
	Ohms  float64 // of the whole wire in that state
	Short bool    // it flows only while cranking
}

// measure reads the currents, the draws, the bundles and the temperatures from
// the solved states; it gives the largest change of a temperature, in K.
func (s *sizer) measure() float64 {
	s.findDraws()
	s.Peaks = make([]Peak, len(s.H.Wires))
	starting := s.startingWires()
	for i := range s.Solvings {
		at := &s.Solvings[i]
		for w := range s.Peaks {
			a := math.Abs(at.State.WireAmps[w])
			if math.IsNaN(a) || at.Cranking && starting[w] {
				continue
			}
			if a > s.Peaks[w].Amps+1e-9 {
				s.Peaks[w] = Peak{Amps: a, State: at.Name, Ohms: at.Ohms[w]}
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
	out := make([]bool, len(s.H.Wires))
	for _, d := range s.Draws {
		if s.PartOf(d.Load).Kind != harness.Starter {
			continue
		}
		for _, w := range append(append([]harness.WireID(nil), d.Feed.Wires...), d.Back.Wires...) {
			out[w] = true
		}
	}
	return out
}

// shortPeaks gives wires that carry current only while cranking that current,
// marked as short.
func (s *sizer) shortPeaks(starting []bool) {
	for i := range s.States {
		if s.H.States[i].Engine != harness.EngineCranking {
			continue
		}
		for w := range s.Peaks {
			a := math.Abs(s.States[i].WireAmps[w])
			free := s.Peaks[w].Short || s.Peaks[w].Amps < 1e-3
			if starting[w] && free && a > s.Peaks[w].Amps {
				s.Peaks[w] = Peak{a, s.States[i].Name, s.Solvings[i].Ohms[w], true}
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
	s.Each(func(st *network.State, _ bool) {
		loaded := make([]bool, len(from))
		for w := range from {
			loaded[w] = math.Abs(st.WireAmps[w]) >= from[w]
		}
		for _, together := range [][][]harness.WireID{s.Runs, s.Cables} {
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
			s.Bundles[w] = max(s.Bundles[w], n+own)
		}
	}
}

// loadedFrom gives by WireID the current from which a wire counts as loaded.
func (s *sizer) loadedFrom() []float64 {
	out := make([]float64, len(s.H.Wires))
	for i := range out {
		z := s.Size(harness.WireID(i))
		base, _ := rating.Ampacity(z.Conductor, z.Class)
		out[i] = math.Max(countsFrom, countsShare*float64(base)*rating.AmbientFactor(z.Class, s.Places[i].Celsius))
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
func (s *sizer) Balanced() bool {
	return !s.ByRule() && s.H.Practice.Ampacity == "computed"
}

// carries gives what a size of a wire may carry for ever where the wire lies.
func (s *sizer) Carries(w harness.WireID, z *shelf.Size) float64 {
	if s.Balanced() {
		return s.warm.upTo(w, z, z.Class)
	}
	here := s.Places[w].Celsius
	if s.H.Practice.Method == "ac43-13" {
		// Table 11-9 stands for large bundles at 70 C.
		hot := math.Max(0, math.Min(1, float64(z.Class-here)/float64(z.Class-70)))
		return float64(rating.AircraftCurrent(z.Conductor, z.Class)) * math.Sqrt(hot)
	}
	base, _ := rating.Ampacity(z.Conductor, z.Class)
	factor, _ := rating.BundleFactor(s.Bundles[w])
	return float64(base) * rating.AmbientFactor(z.Class, here) * factor
}

// mayCarry tells that carries is no less than a current.
func (s *sizer) MayCarry(w harness.WireID, z *shelf.Size, amps float64) bool {
	if s.Balanced() {
		return s.warm.carries(w, z, amps, z.Class)
	}
	return s.Carries(w, z) >= amps
}

// withstands gives the current that brings the conductor of a size to a limit,
// where the wire lies and beside the currents of the others there; above its
// class for the time of an overload. Where a table is in force the rise is taken
// to go with the square of the current.
func (s *sizer) Withstands(w harness.WireID, z *shelf.Size, limit unit.Celsius) float64 {
	if s.Balanced() {
		return s.warm.upTo(w, z, limit)
	}
	here := s.Places[w].Celsius
	if limit <= here || z.Class <= here {
		return 0
	}
	return s.Carries(w, z) * math.Sqrt(float64(limit-here)/float64(z.Class-here))
}

// hottestState gives the warmest that a wire's conductor gets, and the state.
func (s *sizer) HottestState(w harness.WireID) (unit.Celsius, string) {
	best := &s.Solvings[0]
	for i := range s.Solvings {
		if at := &s.Solvings[i]; !at.Cranking && (best.Cranking || at.Warm[w] > best.Warm[w]) {
			best = at
		}
	}
	if best.Cranking {
		return s.Places[w].Celsius, best.Name
	}
	return best.Warm[w], best.Name
}

// floors is the least step that each rule alone asks for.
type Floors struct {
	Handling, Heat, Protection int
	Beside                     int  // the thickest of the kept wires in series with it
	Hot, Weak                  bool // no size is enough for heat, for the fuse
	Guard                      harness.ElementID
	Earth                      bool // handling comes from the battery's live lead
}

func (f Floors) Least() int { return max(f.Handling, f.Heat, f.Protection, f.Beside) }

// findFloors sets the floors of every wire.
func (s *sizer) findFloors() {
	s.Floors = make([]Floors, len(s.H.Wires))
	s.Stand = s.guardsOf()
	s.pass()
	earth := s.earthAreas()
	for i := range s.H.Wires {
		w := harness.WireID(i)
		f := Floors{Handling: s.Of[w].Smallest(&s.H.Practice), Guard: harness.None}
		if area := earth[w]; area > 0 {
			if j, _ := s.Of[w].Least(func(z *shelf.Size) bool { return float64(z.Conductor.Area) >= area*0.999 }); j > f.Handling {
				f.Handling, f.Earth = j, true
			}
		}
		if !s.Peaks[w].Short {
			f.Heat, f.Hot = s.leastFor(w, s.Peaks[w].Amps)
		}
		f.Guard = s.Strongest(w, s.Stand[w])
		if f.Guard != harness.None {
			f.Protection, f.Weak = s.leastBehind(w, f.Guard)
		}
		if s.ofWire[w] >= 0 {
			f.Beside = s.besideKept[s.ofWire[w]]
		}
		s.Floors[w] = f
	}
}

// leastFor gives the least size that carries a current for ever where the wire
// lies. Hot tells that none does for its neighbours' sake or its place's: more
// copper would not mend that, so it is the size that carries it alone.
func (s *sizer) leastFor(w harness.WireID, amps float64) (at int, hot bool) {
	at, ok := s.Of[w].Least(func(z *shelf.Size) bool { return s.MayCarry(w, z, amps*(1-1e-9)) })
	if ok || !s.Balanced() {
		return at, !ok
	}
	at, _ = s.Of[w].Least(func(z *shelf.Size) bool { return s.warm.alone(w, z, z.Class) >= amps*(1-1e-9) })
	return at, true
}

// strongest gives the fuse that lets most into a wire, the first of equals.
func (s *sizer) Strongest(w harness.WireID, fuses []harness.ElementID) harness.ElementID {
	best := harness.ElementID(harness.None)
	for _, f := range fuses {
		if best == harness.None || s.LetThrough(f, w) > s.LetThrough(best, w) {
			best = f
		}
	}
	return best
}

// leastEarth is 8 gauge by SAE minimum metal area (14 810 cmil): NEC (2008)
// 552.10 wants a battery's lead to the chassis to be at least 8 AWG.
const LeastEarth = 7.5 // mm2

// heaviest gives the largest area among a battery's live leads, 8 gauge at
// least. A lead in one group with the earth lead does not count: it has its
// gauge already, and the two would hold each other up.
func (s *sizer) heaviest(live []harness.WireID, earth harness.WireID) float64 {
	most := LeastEarth
	for _, w := range live {
		if s.ofWire[w] < 0 || s.ofWire[w] != s.ofWire[earth] {
			most = math.Max(most, float64(s.Size(w).Conductor.Area))
		}
	}
	return most
}

// earthAreas gives the least area of the leads on a battery's earth side: 8
// gauge, and that of the heaviest lead on its live side (NEC 552.10).
func (s *sizer) earthAreas() map[harness.WireID]float64 {
	out := map[harness.WireID]float64{}
	for _, l := range s.Leads {
		for _, w := range l.Earth {
			out[w] = math.Max(out[w], s.heaviest(l.Live, w))
		}
	}
	return out
}

// leads are the wires at a battery: on its earth side as far as the chassis, and
// those that end on its live side.
type Leads struct{ Earth, Live []harness.WireID }

func leadsOf(h *harness.Harness, net *flow.Net) []Leads {
	var out []Leads
	for i := range h.Elements {
		if h.Elements[i].Kind == harness.EMF {
			earth, live := net.EarthLeads(harness.ElementID(i))
			out = append(out, Leads{earth, live})
		}
	}
	return out
}
