package asfound

import (
	"fmt"
	"math"
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/testplan/meter"
	"example.com/loomfolio/sizing/testplan/tolerance"
	"example.com/loomfolio/sizing/unit"
)

// readings holds every reading to what a sound loom reads, then those of one way to one another.
func (s *survey) readings() error {
	s.limits = make([]*tolerance.Limits, len(s.r.States))
	s.out.Measured = make([]proof.Measured, len(s.h.Measured))
	for i := range s.h.Measured {
		x, m := &s.h.Measured[i], &s.out.Measured[i]
		var err error
		if x.Dead {
			err = s.ohms(x, m)
		} else {
			err = s.volts(x, m)
		}
		if err != nil {
			return err
		}
	}
	s.twice()
	if len(s.h.Measured) > 0 {
		s.ways()
		s.drawn()
	}
	return nil
}

// drawn takes back that a reading is too low where it is on no load's way, and what nobody
// knows hangs there: that may draw it down.
func (s *survey) drawn() {
	for i := range s.h.Measured {
		x, m := &s.h.Measured[i], &s.out.Measured[i]
		if x.Dead || m.Verdict != proof.Low || x.Against != harness.None || s.onStretch(i) {
			continue
		}
		for k := range s.out.Open {
			o := &s.out.Open[k]
			if slices.ContainsFunc(s.states[x.State].Near(x.At), func(t harness.TerminalID) bool { return s.h.Terminals[t].Part == o.Part }) {
				o.Reads++
				m.Verdict = proof.Unsettled
			}
		}
		if m.Verdict == proof.Unsettled {
			m.Says += ": what nobody knows may draw it down"
		}
	}
}

func (s *survey) onStretch(reading int) bool {
	return slices.ContainsFunc(s.out.Stretches, func(x proof.Stretch) bool { return x.Reading == reading })
}

// limit gives the limits of a state, made when they are first asked for.
func (s *survey) limit(state int) (*tolerance.Limits, error) {
	if s.limits[state] == nil {
		l, err := tolerance.New(s.h, &s.r.States[state], s.r.Cold())
		if err != nil {
			return nil, err
		}
		s.limits[state] = l
	}
	return s.limits[state], nil
}

// off is the most by which a cheap meter is off at so many volts: below 2 V on its 2 V range.
func off(volts float64) float64 {
	if math.Abs(volts) < 1.9 {
		return meter.Volts2.Error(volts)
	}
	return meter.Volts20.Error(volts)
}

// shown is the volts of a reading as the program counts them: where plus is grounded, a
// reading above nothing at what lies below it was taken with the leads the other way round.
func (s *survey) shown(x *harness.Reading, is float64) float64 {
	v := float64(x.Volts)
	if s.h.System.PositiveEarth && v*is < 0 {
		return -v
	}
	return v
}

// volts holds a reading of volts to its limits.
func (s *survey) volts(x *harness.Reading, m *proof.Measured) error {
	l, err := s.limit(x.State)
	if err != nil {
		return err
	}
	st := &s.r.States[x.State]
	m.Is, m.Low, m.High = math.NaN(), math.NaN(), math.NaN()
	m.Meter = off(float64(x.Volts))
	if s.out.At(x.State, x.At) || x.Against != harness.None && s.out.At(x.State, x.Against) {
		s.unsettled(x, m)
		return nil
	}
	a, b := st.Of[x.At], -1
	if x.Against != harness.None {
		b = st.Of[x.Against]
	}
	switch {
	case a < 0 || x.Against != harness.None && b < 0 || math.IsNaN(st.Volts[x.At]):
		m.Verdict, m.Says = proof.Unsettled, "nothing that is described holds a voltage there"
		return nil
	case b < 0:
		r := l.Node(a)
		m.Is, m.Low, m.High = r.Is, r.Low, r.High
	default:
		if math.IsNaN(st.Volts[x.Against]) || st.Solution.Zero[a] != st.Solution.Zero[b] {
			m.Verdict, m.Says = proof.Unsettled, "no wire leads from one point to the other"
			return nil
		}
		r := l.Across(a, b)
		m.Is, m.Low, m.High = r.Is, r.Low, r.High
	}
	s.judge(x, m)
	return nil
}

// judge gives a reading its verdict beside its limits.
func (s *survey) judge(x *harness.Reading, m *proof.Measured) {
	v := s.shown(x, m.Is)
	switch {
	case v >= m.Low-m.Meter && v <= m.High+m.Meter:
		m.Verdict = proof.Agrees
	case s.dead(x, m.Is) != s.dead(x, v):
		m.Verdict = proof.OffState
		m.Says = s.offState(x, m, v)
	case math.Abs(v) < math.Abs(m.Is):
		m.Verdict = proof.Low
		m.Says = fmt.Sprintf("%.2g V less than the least of a sound loom, %.1f V", math.Abs(nearest(v, m)-v), nearest(v, m))
	default:
		m.Verdict = proof.High
		m.Says = fmt.Sprintf("%.2g V more than the most of a sound loom, %s", math.Abs(v-nearest(v, m)), volt(nearest(v, m)))
	}
}

// nearest is the limit that is nearest to a reading.
func nearest(v float64, m *proof.Measured) float64 {
	if v < m.Low {
		return m.Low
	}
	return m.High
}

// volt prints volts as a meter does: hundredths below 2 V, tenths above.
func volt(v float64) string {
	if math.Abs(v) < 2 {
		return fmt.Sprintf("%.2f V", v+0)
	}
	return fmt.Sprintf("%.1f V", v)
}

// dead tells volts that are as good as none: under a quarter of the nominal; judgement, not published.
func (s *survey) dead(x *harness.Reading, v float64) bool {
	return math.Abs(v) < float64(s.h.SystemAt(x.At).Volts)/4
}

// offState words a reading that does not go with its state: what is live should be dead, or
// the other way round; with the states in which it would be right.
func (s *survey) offState(x *harness.Reading, m *proof.Measured, v float64) string {
	says := fmt.Sprintf("it should be dead there (%s)", volt(m.Is))
	if s.dead(x, v) {
		says = fmt.Sprintf("it should be live there (%s)", volt(m.Is))
	}
	for i := range s.r.States {
		if is := s.r.States[i].Volts[x.At]; i != x.State && x.Against == harness.None && !s.out.At(i, x.At) && !math.IsNaN(is) && math.Abs(is-v) < 1 {
			return says + "; it is what " + s.h.States[i].Name + " shows"
		}
	}
	return says
}

// unsettled is a reading at what hangs on nobody knows what: it tells something of that.
func (s *survey) unsettled(x *harness.Reading, m *proof.Measured) {
	m.Verdict = proof.Unsettled
	at := x.At
	if !s.out.At(x.State, at) {
		at = x.Against
	}
	var names []string
	for k := range s.out.Open {
		o := &s.out.Open[k]
		for _, t := range s.states[x.State].Near(at) {
			if s.h.Terminals[t].Part == o.Part {
				o.Reads++
				names = append(names, s.h.Terminals[t].Full)
				break
			}
		}
	}
	through := "what is not traced"
	if len(names) > 0 {
		through = names[0]
	}
	m.Says = "nobody can say what it should be: it hangs on " + through
	if x.Against == harness.None && !s.dead(x, float64(x.Volts)) {
		m.Says = "it is fed through " + through + " in this state"
	}
}

// twice tells of two readings at one point in one state that differ by more than the meter does.
func (s *survey) twice() {
	for i := range s.h.Measured {
		for k := range i {
			a, b := &s.h.Measured[k], &s.h.Measured[i]
			if a.Dead != b.Dead || a.State != b.State || a.At != b.At || a.Against != b.Against {
				continue
			}
			gap, may, text := math.Abs(float64(a.Volts-b.Volts)), meter.Volts20.Difference(float64(a.Volts), float64(b.Volts)), readingText(a)
			if a.Dead {
				gap, may = math.Abs(float64(a.Ohms-b.Ohms)), ohmError(float64(a.Ohms))+ohmError(float64(b.Ohms))
			}
			if gap > may && !(math.IsInf(float64(a.Ohms), 1) && math.IsInf(float64(b.Ohms), 1)) {
				s.out.Measured[i].Verdict = proof.Opposed
				s.out.Measured[i].Says = text + " was read there as well in the same state"
			}
		}
	}
}

// readingText is a reading in short.
func readingText(x *harness.Reading) string {
	switch {
	case x.Dead && math.IsInf(float64(x.Ohms), 1):
		return "open"
	case x.Dead:
		return x.Ohms.String()
	}
	return unit.Volt(unit.Round(float64(x.Volts), 3)).String()
}

// pointText names where a reading was taken.
func (s *survey) pointText(x *harness.Reading) string {
	if x.Against == harness.None {
		return s.h.Terminals[x.At].Full
	}
	return s.h.Terminals[x.At].Full + " to " + s.h.Terminals[x.Against].Full
}
