package drawing

import (
	"fmt"
	"math"
	"slices"

	"example.com/loomfolio/sizing/harness"
	testpoint "example.com/loomfolio/sizing/testplan/point"
)

// statesFor are the states in which a job's volts are told, the same in which they are
// measured.
func (s *sheets) statesFor(j *job) []int {
	return testpoint.Told(s.h, s.r.Loads, s.r.States, j.wires, s.loadsOfJob(j), j.power)
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
	if s.r.Proof.Found.At(state, t) {
		return "?" // nobody knows what feeds it
	}
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
