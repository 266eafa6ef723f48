// Package asfound takes stock of an old loom: what nobody knows of it and what of that is
// best traced next, and what the readings of a meter say about the wiring as described.
//
// In: the model as it is meant, and what was sized. Out: a proof.Found, and findings.
//
// Method: what hangs on an unknown end is found over metal (package loose). Each open
// question has points, by what tracing it settles; the list stands in their order. A reading
// is held to what a sound loom reads, worst case by interval (package tolerance), and the
// error of a cheap meter (package meter); readings along one load's way are held to one
// another, which leaves out what the battery does. Where more is lost between two of them
// than can be explained, the joints between are named, the likeliest first (package odds).
package asfound

import (
	"fmt"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/loose"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/testplan/tolerance"
)

// survey is the stock being taken.
type survey struct {
	h      *harness.Harness
	r      *result.Result
	worked *loose.Metal
	states []*loose.Metal // by state
	limits []*tolerance.Limits
	out    proof.Found
	said   source.Problems
	told   source.Problems // what was found before
}

// Of takes stock. Told is what was found before, which is not said again. The error is one
// of the solver.
func Of(h *harness.Harness, r *result.Result, told source.Problems) (proof.Found, source.Problems, error) {
	s := &survey{h: h, r: r, told: told}
	ends := loose.Ends(h)
	if len(ends) == 0 && len(h.Measured) == 0 && !s.boxes() {
		return proof.Found{}, nil, nil
	}
	s.worked = loose.Worked(h)
	for i := range r.States {
		s.states = append(s.states, loose.In(h, &h.States[i], r.States[i].Energised))
	}
	s.unsure()
	s.questions()
	s.blind()
	if err := s.readings(); err != nil {
		return proof.Found{}, nil, fmt.Errorf("the readings: %w", err)
	}
	s.order()
	s.say()
	s.asRead()
	return s.out, s.said, nil
}

// asRead gives what a reading should be the sign with which it was read, where the leads were
// the other way round.
func (s *survey) asRead() {
	for i := range s.out.Measured {
		x, m := &s.h.Measured[i], &s.out.Measured[i]
		if !x.Dead && s.shown(x, m.Is) != float64(x.Volts) {
			m.Is, m.Low, m.High = -m.Is, -m.High, -m.Low
		}
	}
}

// boxes tells whether there is a box of which nobody knows all.
func (s *survey) boxes() bool {
	for i := range s.h.Parts {
		if s.h.Parts[i].Kind == harness.Unknown {
			return true
		}
	}
	return false
}

// unsure marks the terminals of which nobody can say what they read.
func (s *survey) unsure() {
	s.out.Unsure = make([][]bool, len(s.states))
	for i, m := range s.states {
		s.out.Unsure[i] = make([]bool, len(s.h.Terminals))
		for t := range s.h.Terminals {
			s.out.Unsure[i][t] = m.Unsure(harness.TerminalID(t))
		}
	}
}

func (s *survey) add(p source.Problem) { s.said = append(s.said, p) }

// ref is the name of a part.
func (s *survey) ref(id harness.PartID) string { return s.h.Parts[id].Ref }

func (s *survey) refs(list []harness.PartID) []string {
	var out []string
	for _, id := range list {
		out = append(out, s.ref(id))
	}
	return out
}
