package testplan

import (
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
)

// SoundPasses tells whether a state without a fault lies inside all its limits, as the
// judge of faults sees it.
func SoundPasses(h *harness.Harness, r *result.Result, state int) (bool, error) {
	j := newJudge(h, r)
	reading, err := j.try(state)
	if err != nil {
		return false, err
	}
	for i, p := range r.Proof.Points {
		j.volts[i] = reading.Volts(p.At)
	}
	return !j.outside(state) && !j.ampsOutside(state, reading), nil
}
