package testplan

import (
	"math"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/testplan/dead"
	"example.com/loomfolio/sizing/testplan/meter"
	"example.com/loomfolio/sizing/testplan/point"
)

// Untold lists the opens, joints, burnt contacts and lost grounds of the dictionary that
// would pass the plan, each with the reason: with them every asked reading, every
// section and the current through every fuse lie inside their limits. A load or coil that is open itself shows by not working,
// its volts being right, and by its ohms. The plan and the dictionary of r must be there.
// The error is the solver's.
func Untold(h *harness.Harness, r *result.Result) ([]proof.Untold, error) {
	j := newJudge(h, r)
	var out []proof.Untold
	for i := range r.Proof.Faults {
		f := &r.Proof.Faults[i]
		if !j.judged(f) || j.shows(f) {
			continue
		}
		seen, err := j.elsewhere(f)
		if err != nil {
			return nil, err
		}
		if !seen {
			out = append(out, proof.Untold{Fault: i, Why: j.why(f)})
		}
	}
	return out, nil
}

// judge tells whether a fault shows.
type judge struct {
	h        *harness.Harness
	r        *result.Result
	element  map[string]harness.ElementID
	readings [][]*proof.Reading // by state: the asked ones
	sections [][]*proof.Section // by state
	at       []int              // by terminal: its point
	volts    []float64          // room, by point
	tries    []*network.Faults  // by state, made when needed
}

func newJudge(h *harness.Harness, r *result.Result) *judge {
	n := len(r.States)
	j := &judge{
		h: h, r: r, element: map[string]harness.ElementID{}, at: point.At(h, r.Proof.Points), volts: make([]float64, len(r.Proof.Points)),
		readings: make([][]*proof.Reading, n), sections: make([][]*proof.Section, n), tries: make([]*network.Faults, n),
	}
	for i := range h.Elements {
		j.element[h.Elements[i].Name] = h.Elements[i].ID
	}
	for i := range r.Proof.Readings {
		if x := &r.Proof.Readings[i]; x.Asked && !x.Floats {
			j.readings[x.State] = append(j.readings[x.State], x)
		}
	}
	for i := range r.Proof.Sections {
		x := &r.Proof.Sections[i]
		j.sections[x.State] = append(j.sections[x.State], x)
	}
	return j
}

// judged tells the faults that the plan must show or own up to.
func (j *judge) judged(f *proof.Fault) bool {
	switch f.Kind {
	case proof.Joint, proof.Burnt, proof.Unearthed:
		return true
	case proof.Open:
		return f.Wire != harness.None || dead.Passes(j.h, j.element[f.Element])
	}
	return false
}

// shows tells whether the readings of the dictionary lie outside a limit.
func (j *judge) shows(f *proof.Fault) bool {
	for i, p := range j.r.Proof.Points {
		j.volts[i] = j.r.States[f.State].Volts[p.At]
	}
	for _, s := range f.Volts {
		if j.volts[s.Point] = float64(s.Volts); s.Float {
			j.volts[s.Point] = math.NaN()
		}
	}
	return j.outside(f.State)
}

// outside tells whether one of the volts lies outside a limit by more than the meter's
// error; what floats where it should not does.
func (j *judge) outside(state int) bool {
	for _, x := range j.readings[state] {
		v := j.volts[x.Point]
		if off := meter.Volts20.Error(v); !(v >= float64(x.Low)-off && v <= float64(x.High)+off) {
			return true
		}
	}
	for _, x := range j.sections[state] {
		v := math.Abs(j.volts[j.at[x.From]] - j.volts[j.at[x.To]])
		if !(v-meter.Volts2.Error(v) <= float64(x.Most)) {
			return true
		}
	}
	return false
}

// elsewhere tries a fault in every state in which its element carries a current, the amps
// through the fuses heeded as well.
func (j *judge) elsewhere(f *proof.Fault) (bool, error) {
	for s := range j.r.States {
		at, carries := j.fault(f, s)
		if !carries {
			continue
		}
		reading, err := j.try(s, at)
		if err != nil {
			return false, err
		}
		for i, p := range j.r.Proof.Points {
			j.volts[i] = reading.Volts(p.At)
		}
		if j.outside(s) || j.ampsOutside(s, reading) {
			return true, nil
		}
	}
	return false, nil
}

// ampsOutside tells whether the current through a fuse lies outside its limits by more
// than the meter's error.
func (j *judge) ampsOutside(state int, reading network.Reading) bool {
	for _, x := range j.r.Proof.Through {
		if x.State != state {
			continue
		}
		a := math.Abs(reading.Amps(x.Fuse))
		if off := meter.Amps10.Error(a); a < float64(x.Low)-off || a > float64(x.High)+off {
			return true
		}
	}
	return false
}

// fault is a fault as the network has it in a state; false where it carries nothing there.
func (j *judge) fault(f *proof.Fault, state int) (network.Fault, bool) {
	s := &j.r.States[state]
	at, amps, k := network.Fault{Wire: f.Wire, Element: harness.None, Ohms: math.Inf(1)}, 0.0, -1
	if f.Wire != harness.None {
		k, amps = s.WireAt[f.Wire], s.WireAmps[f.Wire]
	} else {
		at.Element = j.element[f.Element]
		k, amps = s.ElementAt[at.Element], s.Amps[at.Element]
	}
	if k < 0 {
		return at, false
	}
	if f.Ohms > 0 {
		at.Ohms = s.Network.Elements[k].Ohms + float64(f.Ohms)
	}
	return at, math.Abs(amps) > meter.Nothing
}

func (j *judge) try(state int, at ...network.Fault) (network.Reading, error) {
	if j.tries[state] == nil {
		p, err := network.Prepare(j.h, state, j.r.States[state].Resistances(), network.Options{})
		if err != nil {
			return network.Reading{}, err
		}
		if j.tries[state], err = p.Faults(); err != nil {
			return network.Reading{}, err
		}
	}
	return j.tries[state].Try(at...)
}

// why says why a fault passes.
func (j *judge) why(f *proof.Fault) string {
	for s := range j.sections {
		for _, x := range j.sections[s] {
			same := x.Wire == f.Wire && f.Wire != harness.None || f.Wire == harness.None && x.Element == j.element[f.Element] && !x.Whole
			switch {
			case same && x.Blind != "":
				return x.Blind
			case same && (f.Kind == proof.Open || f.Kind == proof.Unearthed):
				return "another way carries its current"
			}
		}
	}
	if f.Kind == proof.Open || f.Kind == proof.Unearthed {
		return "nothing passes it in any state but a trickle, or another way carries its current"
	}
	return "so little passes it that a meter shows no more than a sound joint's drop"
}
