package drawing

import (
	"fmt"
	"math"
	"slices"

	"example.com/loomfolio/sizing/harness"
)

// statesFor are the states in which a job's volts are told: that in which most of its
// loads are on, and a second where that turns on loads which are off in the first. A job
// without loads takes the state in which most current passes its wires.
func (s *sheets) statesFor(j *job) []int {
	if len(s.r.States) == 0 {
		return nil
	}
	loads := s.loadsOfJob(j)
	first, on := s.mostOn(loads, nil)
	if len(on) == 0 || j.power {
		return []int{s.busiest(j.wires, !j.power)}
	}
	second, other := s.mostOn(loads, on)
	if len(other) == 0 {
		return []int{first}
	}
	return []int{first, second}
}

// loadsOfJob are the places in the results of the loads that a job's own wires feed.
func (s *sheets) loadsOfJob(j *job) []int {
	var out []int
	for _, e := range s.loadElements(j) {
		out = append(out, s.loadsOf[e]...)
	}
	return out
}

// loadElements are the loads to which a job's own wires bring the supply.
func (s *sheets) loadElements(j *job) []harness.ElementID {
	in := setOf(j.wires)
	drawn := func(w harness.WireID) bool { return in[w] }
	var out []harness.ElementID
	for _, id := range s.partsOf(j.wires) {
		if p := &s.h.Parts[id]; s.fed(p, drawn) {
			out = append(out, s.reached(p, drawn)...)
		}
	}
	return out
}

// mostOn is the state in which most of some loads are on, those in done apart.
func (s *sheets) mostOn(loads, done []int) (state int, on []int) {
	for i, st := range s.r.States {
		var here []int
		for _, l := range loads {
			if !slices.Contains(done, l) && slices.Contains(s.r.Loads[l].On, st.Name) {
				here = append(here, l)
			}
		}
		if len(here) > len(on) || len(on) > 0 && len(here) == len(on) && s.cranks(state) {
			state, on = i, here
		}
	}
	return state, on
}

// cranks tells whether the engine is cranked in a state, which gives the lowest volts and
// lasts for seconds: of two states another is taken.
func (s *sheets) cranks(state int) bool {
	return state < len(s.h.States) && s.h.States[state].Engine == harness.EngineCranking
}

// busiest is the state in which most current passes some wires; cranked: also while the
// engine is cranked.
func (s *sheets) busiest(wires []harness.WireID, cranked bool) int {
	best, most := 0, -1.0
	for i, st := range s.r.States {
		if s.cranks(i) && !cranked {
			continue
		}
		sum := 0.0
		for _, w := range wires {
			if int(w) < len(st.WireAmps) && !math.IsNaN(st.WireAmps[w]) {
				sum += math.Abs(st.WireAmps[w])
			}
		}
		if sum > most+1e-9 {
			best, most = i, sum
		}
	}
	return best
}

// voltsAt is what a meter reads at a terminal in the states of the job in hand, one line
// where they are alike.
func (s *sheets) voltsAt(t harness.TerminalID) []string {
	var out []string
	for _, st := range s.states {
		if v := s.volts(st, t); v != "" {
			out = append(out, v)
		}
	}
	return slices.Compact(out)
}

// volts is the reading at a terminal, "" where there is none.
func (s *sheets) volts(state int, t harness.TerminalID) string {
	volts := s.r.States[state].Volts
	if int(t) >= len(volts) || math.IsNaN(volts[t]) {
		return ""
	}
	v := math.Round(volts[t]*10) / 10
	return fmt.Sprintf("%.1f", v+0)
}

// fed tells whether one of the wires brings a part's loads their supply: it lands
// on a pole that is not the return alone.
func (s *sheets) fed(p *harness.Part, drawn func(harness.WireID) bool) bool {
	lands := func(t harness.TerminalID) bool {
		return t >= 0 && (slices.ContainsFunc(s.use[t].in, drawn) || slices.ContainsFunc(s.use[t].out, drawn))
	}
	return slices.ContainsFunc(s.reached(p, drawn), func(e harness.ElementID) bool {
		supply, back := s.h.Elements[e].A, s.h.Elements[e].B
		if s.returns(supply) {
			supply, back = back, supply
		}
		return lands(supply) || (lands(back) && !s.returns(back))
	})
}

// returns tells whether a terminal is a load's return by its name: its case, 31 of
// DIN 72552, or the pole that faces the bodywork.
func (s *sheets) returns(t harness.TerminalID) bool {
	if t < 0 {
		return true
	}
	name := s.h.Terminals[t].Name
	earthed := "-"
	if s.h.System.PositiveEarth {
		earthed = "+"
	}
	return name == "case" || name == "31" || name == earthed
}
