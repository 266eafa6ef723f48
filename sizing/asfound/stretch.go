package asfound

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"example.com/loomfolio/sizing/fault/cause"
	"example.com/loomfolio/sizing/fault/odds"
	"example.com/loomfolio/sizing/fault/way"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/testplan/meter"
	"example.com/loomfolio/sizing/unit"
)

// met is a reading on one side of a load's way, at the terminal after so many stops.
type met struct {
	stop    int
	reading int
}

// ways follows the way of every load that is on in a state with readings, and holds the
// readings on its feed, and those on its return, to one another.
func (s *survey) ways() {
	ways := way.All(s.h, s.r.Loads, s.r.States)
	for n := range ways.List {
		x := &ways.List[n]
		if !x.Load {
			continue
		}
		for state := range s.r.States {
			if s.isOn(x.Draw, state) {
				s.side(ways, x.Draw, state, ways.Feed(s.h, x), true)
				s.side(ways, x.Draw, state, ways.Back(s.h, x), false)
			}
		}
	}
	slices.SortStableFunc(s.out.Stretches, func(a, b proof.Stretch) int { return cmp.Compare(b.More(), a.More()) })
}

func (s *survey) isOn(load harness.ElementID, state int) bool {
	for i := range s.r.Loads {
		if s.r.Loads[i].Element == load {
			return slices.Contains(s.r.Loads[i].On, s.h.States[state].Name)
		}
	}
	return false
}

// side holds the readings along one side of a way to one another: on the feed from the
// source on, on the return on to the source.
func (s *survey) side(ways *way.Ways, load harness.ElementID, state int, stops []way.Stop, feed bool) {
	if len(stops) == 0 {
		return
	}
	points := []harness.TerminalID{stops[0].From}
	for _, x := range stops {
		points = append(points, x.To)
	}
	var on []met
	for i := range s.h.Measured {
		if x := &s.h.Measured[i]; !x.Dead && x.State == state && x.Against == harness.None && s.out.Measured[i].Verdict != proof.Unsettled && s.out.Measured[i].Verdict != proof.Opposed {
			if at := s.at(ways, points, x.At); at >= 0 {
				on = append(on, met{at, i})
			}
		}
	}
	slices.SortStableFunc(on, func(a, b met) int { return cmp.Compare(a.stop, b.stop) })
	piece := func(a, b *met) {
		from, to := 0, len(stops)
		if a != nil {
			from = a.stop
		}
		if b != nil {
			to = b.stop
		}
		if from < to {
			s.piece(load, state, stops[from:to], a, b)
		}
	}
	for i := range on {
		switch {
		case i > 0:
			piece(&on[i-1], &on[i])
		case feed:
			piece(nil, &on[i])
		}
	}
	if !feed && len(on) > 0 {
		piece(&on[len(on)-1], nil)
	}
}

// at is how many stops of a way lie before a terminal, -1 where it is not on it.
func (s *survey) at(ways *way.Ways, points []harness.TerminalID, t harness.TerminalID) int {
	return slices.IndexFunc(points, func(p harness.TerminalID) bool { return ways.Joined[p] == ways.Joined[t] })
}

// piece holds what is lost on a stretch to what a sound loom loses there. Without a reading
// at one end the limits of the other are those against the battery.
func (s *survey) piece(load harness.ElementID, state int, stops []way.Stop, a, b *met) {
	from, to := stops[0].From, stops[len(stops)-1].To
	lost, most, least, ok := s.loss(state, from, to, a, b)
	if !ok {
		return
	}
	if lost < least {
		s.backwards(a, b, least-lost)
		return
	}
	if lost <= most {
		return
	}
	x := proof.Stretch{From: from, To: to, Load: load, State: state, Lost: unit.Volt(lost), Explains: unit.Volt(most), Before: proof.None}
	switch {
	case b == nil:
		x.Reading = a.reading
	case a == nil:
		x.Reading = b.reading
	default:
		x.Reading, x.Before = b.reading, a.reading
	}
	for i := range s.out.Stretches {
		if o := &s.out.Stretches[i]; o.Reading == x.Reading && o.Before == x.Before && o.State == state {
			return // another load's way has it
		}
	}
	x.Suspects = s.suspects(stops, state)
	s.draws(&x, stops)
	s.out.Stretches = append(s.out.Stretches, x)
	if m := &s.out.Measured[x.Reading]; m.Verdict == proof.Agrees {
		m.Verdict = proof.Low
		if b == nil {
			m.Verdict = proof.High
		}
		m.Says = fmt.Sprintf("%.2g V more is lost than the wires can explain", lost-most)
	}
}

// loss is what the readings say is lost on a stretch, and the most and the least that a sound
// loom and the meter explain, V, counted as the current flows: there its volts fall.
func (s *survey) loss(state int, from, to harness.TerminalID, a, b *met) (lost, most, least float64, ok bool) {
	l, err := s.limit(state)
	st := &s.r.States[state]
	x, y := st.Of[from], st.Of[to]
	if err != nil || x < 0 || y < 0 || math.IsNaN(st.Volts[from]) || math.IsNaN(st.Volts[to]) {
		return 0, 0, 0, false
	}
	if a != nil && b != nil {
		va, vb := s.shown(&s.h.Measured[a.reading], st.Volts[from]), s.shown(&s.h.Measured[b.reading], st.Volts[to])
		may := meter.Volts20.Difference(va, vb)
		if math.Max(math.Abs(va), math.Abs(vb)) < 1.9 {
			may = meter.Volts2.Difference(va, vb)
		}
		r, fall := l.Across(x, y), va-vb
		if s.h.System.PositiveEarth { // the feed is below the bodywork: followed from the source its volts rise
			r.Low, r.High, fall = -r.High, -r.Low, -fall
		}
		return fall, r.High + may, r.Low - may, true
	}
	one := a
	if b != nil {
		one = b
	}
	m := &s.out.Measured[one.reading]
	shown := s.shown(&s.h.Measured[one.reading], m.Is)
	v, bound := math.Abs(shown), math.Abs(nearest(shown, m))
	more := v - bound - m.Meter // on the return too much is left
	lost = v
	if b != nil { // on the feed too little
		more = bound - v - m.Meter
		lost = math.Abs(st.Volts[from]) - v
	}
	return lost, lost - more, math.Inf(-1), m.Verdict != proof.Agrees
}

// backwards tells of a reading that is higher than the one before it on the way.
func (s *survey) backwards(a, b *met, by float64) {
	if a == nil || b == nil {
		return
	}
	m, before := &s.out.Measured[b.reading], &s.h.Measured[a.reading]
	if m.Verdict == proof.Opposed {
		return
	}
	m.Verdict = proof.Opposed
	m.Says = fmt.Sprintf("%s was read at %s before it on the way: that one is too low, this one too high, or it is fed from elsewhere", readingText(before), s.pointText(before))
}

// suspects lists the joints of a stretch, the likeliest first.
func (s *survey) suspects(stops []way.Stop, state int) []proof.Spot {
	o := odds.New(s.h, s.r.Ways, s.r.States)
	var out []proof.Spot
	sum := 0.0
	for _, x := range stops {
		c := cause.Cause{Fault: proof.Fault{Kind: proof.Joint, Part: harness.None, Wire: x.Wire, Load: harness.None}, Contact: harness.None, Touch: harness.None}
		spot := proof.Spot{Wire: x.Wire, Element: x.Element}
		if x.Wire != harness.None {
			spot.Name, spot.What = s.h.Wires[x.Wire].Name, s.crimps(&s.h.Wires[x.Wire])
		} else {
			e := &s.h.Elements[x.Element]
			if e.Kind == harness.EMF || e.Kind == harness.Charger || e.Kind == harness.Load {
				continue
			}
			if c.Part = e.Part; e.Kind == harness.Contact || e.Kind == harness.FuseLink {
				c.Contact = e.ID
			}
			c.Cuts = []network.Fault{{Wire: harness.None, Element: e.ID}}
			spot.Name, spot.What = e.Name, what(&s.h.Parts[e.Part], e)
		}
		w, _ := o.Of(&c)
		if w <= 0 {
			continue
		}
		spot.Share, sum = w, sum+w
		out = append(out, spot)
	}
	for i := range out {
		out[i].Share /= sum
	}
	slices.SortStableFunc(out, func(a, b proof.Spot) int { return cmp.Compare(b.Share, a.Share) })
	return out
}

// crimps names the joints at the ends of a wire.
func (s *survey) crimps(w *harness.Wire) string {
	for _, t := range []harness.TerminalID{w.From, w.To} {
		if p := s.h.PartOf(t); p != nil && p.Kind == harness.Battery {
			return fmt.Sprintf("the clamp at %s and the crimps of %s", s.h.Terminals[t].Full, w.Name)
		}
	}
	return "the crimps of " + w.Name
}

// what names a joint in the trade's words.
func what(p *harness.Part, e *harness.Element) string {
	switch p.Kind {
	case harness.Ground:
		return "the ground " + p.Ref
	case harness.Connector:
		return "the plug at " + e.Name
	case harness.Fuse, harness.FusePanel, harness.Breaker:
		return "the fuse and its clips at " + e.Name
	case harness.Relay, harness.Flasher:
		return "the relay's contacts " + e.Name
	case harness.Strap:
		return "the strap " + p.Ref
	case harness.Switch, harness.IgnitionSwitch, harness.Isolator:
		return "the switch contact " + e.Name
	}
	return e.Name
}

// draws finds what nobody knows that may draw current through a stretch, and how much it
// must draw to explain what is lost beyond the rest.
func (s *survey) draws(x *proof.Stretch, stops []way.Stop) {
	ohms, st := 0.0, &s.r.States[x.State]
	for _, p := range stops {
		amps := 0.0
		if p.Wire != harness.None {
			amps = math.Abs(st.WireAmps[p.Wire])
		} else {
			amps = math.Abs(st.Amps[p.Element])
		}
		if amps > meter.Nothing {
			ohms += math.Abs(st.Volts[p.From]-st.Volts[p.To]) / amps
		}
	}
	if ohms <= 0 {
		return
	}
	for _, t := range s.states[x.State].Near(x.To) {
		if p := s.h.Terminals[t].Part; !slices.Contains(x.Draws, p) {
			x.Draws = append(x.Draws, p)
		}
	}
	x.Needs = unit.Ampere(float64(x.More()) / ohms)
	if most := s.guard(stops); most > 0 && float64(x.Needs) > opens*float64(most) {
		x.Draws = nil // its fuse would have blown
	}
	if len(x.Draws) == 0 {
		x.Needs = 0
	}
}

// opens is the current over its rating at which a fuse opens for sure (SAE J1284: 135 %).
const opens = 1.35

// guard is the least rating of the fuses before the wires of a stretch, A; 0 where none is known.
func (s *survey) guard(stops []way.Stop) unit.Ampere {
	var least unit.Ampere
	for _, p := range stops {
		if p.Wire == harness.None {
			continue
		}
		if r := s.rating(s.r.Wires[p.Wire].ProtectedBy); r > 0 && (least == 0 || r < least) {
			least = r
		}
	}
	return least
}
