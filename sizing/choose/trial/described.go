package trial

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/unit"
)

// Metal is the resistance below which an element that is no load counts as a
// plain way, in ohm: straps, joints and contacts, not a ballast or a resistor in
// a blower. Common practice, no source.
const Metal = 0.2

// Real is the share of its described current from which a load counts as on where
// its way does not say that it should be; common practice, no source. Less is a
// trickle between grounds or through a filament.
const Real = 0.1

// lively is the share of its described current that a state must show for it to be
// what a load's wires are sized by; common practice, no source.
const lively = 0.5

// sensing is the current, in A, below which a load is a sense line that any wire
// carries; common practice, no source.
const sensing = 0.05

// DescribedAmps is what a load or coil is described to take, A.
func (b *Base) DescribedAmps(e *harness.Element) float64 {
	if e.Kind == harness.RelayCoil {
		if e.Ohms <= 0 {
			return 0
		}
		return float64(b.Nominal(e.ID)) / float64(e.Ohms)
	}
	return float64(e.Amps)
}

// FullAmps is what wires carry for a load or coil that no state shows: as described, of a
// load of constant power what it takes at its lowest voltage, A.
func (b *Base) FullAmps(e *harness.Element) float64 {
	if e.Kind == harness.Load {
		return float64(e.Most())
	}
	return b.DescribedAmps(e)
}

// judged is what is known of one declared state, as long as its contacts stand as they do.
type judged struct {
	energised []bool
	meant     []bool // by ElementID, of loads and coils: its own way is closed
}

// judge says of every declared state which loads are meant to be on in it, and finds
// the states that are faults: a current that comes back through no load, or a load
// with a real current whose own way is open. A fault sizes nothing: what its state
// means to be on counts by its own way instead, as described.
func (s *Solved) judge(before *Solved) {
	s.Meant, s.Stray, s.Faulty = make([]judged, len(s.States)), make([][]harness.ElementID, len(s.States)), make([]bool, len(s.States))
	for i := range s.States {
		st := &s.States[i]
		if before != nil && slices.Equal(before.Meant[i].energised, st.Energised) {
			s.Meant[i] = before.Meant[i]
		} else {
			s.Meant[i] = judged{st.Energised, s.meant(st)}
		}
		s.Stray[i] = s.strays(i)
		_, short := s.Currents[i].NoLoad(Metal)
		s.Faulty[i] = short != harness.None || len(s.Stray[i]) > 0
	}
	for i := range s.Solvings {
		if at := &s.Solvings[i]; s.Faulty[at.Index] {
			at.State = s.asMeant(at)
			if at.Index == i {
				s.Currents[i] = flow.In(s.H, &at.State)
			}
		}
	}
}

// meant tells, by ElementID, which loads and coils have their own way closed.
func (s *Solved) meant(st *network.State) []bool {
	out := make([]bool, len(s.H.Elements))
	for i := range s.H.Elements {
		e := &s.H.Elements[i]
		if flow.Draws(e) && !math.IsNaN(st.Amps[i]) && math.Abs(st.Amps[i]) > flow.Least {
			out[i] = s.Owner.Of(e.ID, st).Whole
		}
	}
	return out
}

// strays lists the loads that carry a real current in a state and are not meant to.
// A coil that is too weakly fed to hold its contacts disturbs nothing.
func (s *Solved) strays(state int) []harness.ElementID {
	st := &s.States[state]
	var out []harness.ElementID
	for i := range s.H.Elements {
		e := &s.H.Elements[i]
		if !flow.Draws(e) || s.Meant[state].meant[i] || math.Abs(st.Amps[i]) < Real*s.DescribedAmps(e) {
			continue
		}
		if e.Kind == harness.RelayCoil && !st.Energised[i] || s.onRegulator(&s.Owns[i]) {
			continue
		}
		out = append(out, e.ID)
	}
	return out
}

// onRegulator tells a load, as a charge lamp, that an alternator's regulator feeds from
// its other end while the engine runs.
func (s *Solved) onRegulator(own *flow.Own) bool {
	return s.H.OnRegulator(own.All.Elements)
}

// asMeant gives a state with the described currents of what it means to be on, each
// on its own way, in the place of those that were solved.
func (s *Solved) asMeant(at *Solving) network.State {
	st := at.State
	st.WireAmps, st.Amps = make([]float64, len(s.H.Wires)), make([]float64, len(s.H.Elements))
	for i, on := range s.Meant[at.Index].meant {
		if e := &s.H.Elements[i]; on {
			own := s.Owner.Of(e.ID, &s.States[at.Index])
			if st.Amps[i] += s.FullAmps(e); own.Turned {
				st.Amps[i] -= 2 * s.FullAmps(e)
			}
			s.Net.Lead(&st, own, s.FullAmps(e))
		}
	}
	return st
}

// describe adds what no state shows: every load that none turns on draws its described
// current over all of its way; and where a wire of a load's way carries nothing in any
// state, it counts there too. The starter's seconds are apart from the rest.
func (s *Solved) describe(before *Trial) {
	run, crank := s.unsolved(unswitched, false), s.unsolved(uncranked, true)
	most, through := s.mostAmps()
	for i := range s.H.Elements {
		e := &s.H.Elements[i]
		amps := 0.0
		if flow.Draws(e) {
			amps = s.FullAmps(e)
		}
		if amps < sensing {
			continue
		}
		into := &run
		if e.Kind == harness.Load && s.PartOf(e.ID).Kind == harness.Starter {
			into = &crank
		}
		own := &s.Owns[i]
		if s.missing(e) {
			s.Missing = append(s.Missing, e.ID)
			lay(into, own.All, amps, nil, nil)
			into.State.Amps[i] += amps
			beside(into, own.All, most)
			continue
		}
		lay(into, own.All, amps, most, through)
	}
	s.idle(&run)
	if full := s.fullest(); full >= 0 {
		for w, seen := range run.beside {
			if a := math.Abs(s.Solvings[full].State.WireAmps[w]); seen && !math.IsNaN(a) {
				run.State.WireAmps[w] += a
			}
		}
	}
	for k, one := range []Solving{run, crank} {
		if before != nil {
			one.Warm = before.Warm[len(s.plan)+k]
		}
		one.Ohms = s.whole(one.Warm)
		s.Solvings = append(s.Solvings, one)
	}
}

// idle lets every alternator or charger give its output to the batteries where no state
// without a fault has it give any.
func (s *Solved) idle(into *Solving) {
	for i := range s.H.Elements {
		e := &s.H.Elements[i]
		if !e.Regulates() || s.works(e) {
			continue
		}
		earth, _ := s.Net.EarthLeads(e.ID)
		way := s.Owner.Charging(e.ID)
		way.Wires = append(way.Wires, earth...)
		lay(into, way, float64(e.Amps), nil, nil)
	}
}

// works tells a source that gives current in a state without a fault; a converter where
// the engine runs in one.
func (s *Solved) works(e *harness.Element) bool {
	for i := range s.H.States {
		state := &s.H.States[i]
		there := state.There(e.When)
		if e.Kind == harness.Converter {
			there = state.Engine == harness.EngineRunning
		}
		if there && !s.Faulty[i] {
			return true
		}
	}
	return false
}

// fullest gives the declared state in which the loads take most, cranking aside; -1 for none.
func (s *Solved) fullest() int {
	best, most := -1, 0.0
	for i := range s.States {
		sum := 0.0
		for e := range s.H.Elements {
			if a := math.Abs(s.Solvings[i].State.Amps[e]); s.H.Elements[e].Kind == harness.Load && a > 0 {
				sum += a
			}
		}
		if sum > most && !s.Solvings[i].Cranking {
			best, most = i, sum
		}
	}
	return best
}

// beside marks the wires of a way on which all that the fullest state shows flows too: a
// load that nobody turned on runs beside the others when it is.
func beside(into *Solving, way flow.Path, most []float64) {
	if into.Cranking {
		return
	}
	if into.beside == nil {
		into.beside = make([]bool, len(most))
	}
	for _, w := range way.Wires {
		into.beside[w] = true
	}
}

// lay adds a current on all of a way; with the most that any state shows, only where
// that is next to nothing.
func lay(into *Solving, way flow.Path, amps float64, most, through []float64) {
	const nothing = 0.01
	for _, w := range way.Wires {
		if most == nil || most[w] < nothing*amps {
			into.State.WireAmps[w] += amps
		}
	}
	for _, e := range way.Elements {
		if through == nil || through[e] < nothing*amps {
			into.State.Amps[e] += amps
		}
	}
}

func (s *Solved) unsolved(name string, cranking bool) Solving {
	return Solving{Index: harness.None, Name: name, Cranking: cranking, Warm: s.unloaded(cranking), State: network.State{
		Name: name, Index: harness.None, WireAmps: make([]float64, len(s.H.Wires)), Amps: make([]float64, len(s.H.Elements)),
	}}
}

// missing tells a load that no state without a fault shows with a real current on its own way.
func (s *Solved) missing(e *harness.Element) bool {
	least := lively * s.DescribedAmps(e)
	if s.Owns[e.ID].Series { // a gauge and its sender share the voltage
		least = Real * s.DescribedAmps(e)
	}
	for i := range s.States {
		if a := math.Abs(s.Solvings[i].State.Amps[e.ID]); s.Meant[i].meant[e.ID] && a >= least { // false for NaN
			return false
		}
	}
	return true
}

// mostAmps gives the largest current of every wire and element in the declared states, A.
func (s *Solved) mostAmps() (wires, elements []float64) {
	wires, elements = make([]float64, len(s.H.Wires)), make([]float64, len(s.H.Elements))
	for i := range s.States {
		larger(wires, s.Solvings[i].State.WireAmps)
		larger(elements, s.Solvings[i].State.Amps)
	}
	return wires, elements
}

func larger(most, amps []float64) {
	for i, a := range amps {
		if a = math.Abs(a); a > most[i] { // false for NaN
			most[i] = a
		}
	}
}

// whole gives by WireID the resistance of the wires at some temperatures.
func (s *Solved) whole(warm []unit.Celsius) []float64 {
	out := make([]float64, len(s.H.Wires))
	for w := range out {
		out[w] = s.OhmsAt(harness.WireID(w), warm[w])
	}
	return out
}

// IsMeant tells whether a load's own way is closed in a declared state.
func (s *Solved) IsMeant(load harness.ElementID, state int) bool { return s.Meant[state].meant[load] }
