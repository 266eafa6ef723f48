package testplan

import (
	"cmp"
	"math"
	"slices"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/testplan/point"
	"example.com/loomfolio/sizing/unit"
)

// The 2 V range of a cheap meter of 3 1/2 digits: 0.8 % and 5 digits of 1 mV, by two
// makers' manuals.
const (
	meterPart   = 0.008
	meterDigits = 0.005
)

const tenth = 0.1 // of a load's volts: the least joint that is looked for

// place is a section before it is measured: where on the way it lies.
type place struct {
	s    proof.Section
	at   int // from the source on
	amps float64
}

// sections lists what is judged under load: of each load the whole feed and return, then
// part by part; what several loads share is told for the state and load with most current.
func (m *plan) sections() {
	best := map[[2]harness.TerminalID]place{}
	var order [][2]harness.TerminalID
	for i := range m.r.Loads {
		for _, p := range m.ofLoad(i) {
			key := [2]harness.TerminalID{min(p.s.From, p.s.To), max(p.s.From, p.s.To)}
			had, is := best[key]
			if !is {
				order = append(order, key)
			}
			if !is || p.amps > had.amps+1e-9 {
				best[key] = p
			}
		}
	}
	var all []place
	for _, key := range order {
		if p := best[key]; m.measure(&p) {
			all = append(all, p)
		}
	}
	slices.SortStableFunc(all, func(a, b place) int {
		return cmp.Or(cmp.Compare(a.s.State, b.s.State), cmp.Compare(a.s.Load, b.s.Load), cmp.Compare(a.at, b.at))
	})
	for _, p := range all {
		m.p.Sections = append(m.p.Sections, p.s)
	}
}

// ofLoad are the sections of one load in the state in which it is measured.
func (m *plan) ofLoad(i int) []place {
	l := &m.r.Loads[i]
	state := point.StateOf(m.h, m.r.Loads, i)
	if state == harness.None || m.limits[state] == nil {
		return nil
	}
	w := &walk{m: m, load: l, state: state}
	w.along(l.Feed, "feed of ")
	w.along(l.Return, "return of ")
	return w.out
}

// walk is the way of a load's current.
type walk struct {
	m      *plan
	load   *chosen.Load
	state  int
	out    []place
	loaded bool // another load lies on the way
}

// along adds a load's feed or return: the whole, then each wire and what lies between two.
func (w *walk) along(wires []harness.WireID, what string) {
	if len(wires) == 0 {
		return
	}
	h := w.m.h
	first, last := w.ends(wires[0]), w.ends(wires[len(wires)-1])
	from := len(w.out)
	w.loaded = false
	for i, id := range wires {
		on := w.ends(id)
		if i > 0 {
			w.between(w.ends(wires[i-1])[1], on[0], last[1])
		}
		w.add(on[0], on[1], proof.Section{What: h.Wires[id].Name, Wire: id, Element: harness.None}, math.Abs(w.m.r.States[w.state].WireAmps[id]))
	}
	if len(wires) > 1 && !w.loaded {
		w.add(first[0], last[1], proof.Section{What: what + w.load.Name, Whole: true, Wire: harness.None, Element: harness.None}, 0)
		w.out = slices.Insert(w.out[:len(w.out)-1], from, w.out[len(w.out)-1])
	}
}

// ends are the two ends of a wire, as the current passes in this state.
func (w *walk) ends(id harness.WireID) [2]harness.TerminalID {
	x := &w.m.h.Wires[id]
	if w.m.r.States[w.state].WireAmps[id] < 0 {
		return [2]harness.TerminalID{x.To, x.From}
	}
	return [2]harness.TerminalID{x.From, x.To}
}

// between adds what lies between two wires of a way: the one contact, fuse or plug, or from
// one ground over the bodywork all that leads to the way's end.
func (w *walk) between(a, b, end harness.TerminalID) {
	h, s := w.m.h, &w.m.r.States[w.state]
	if a == b || s.Of[a] == s.Of[b] {
		return
	}
	if p := h.PartOf(a); p != nil && p.Kind == harness.Ground {
		w.add(a, end, proof.Section{What: "ground " + p.Ref, Wire: harness.None, Element: p.Elements[0]}, math.Abs(s.Amps[p.Elements[0]]))
		return
	}
	for i := range h.Elements {
		e := &h.Elements[i]
		if s.ElementAt[i] >= 0 && (e.A == a && e.B == b || e.A == b && e.B == a) {
			if e.Kind == harness.Load || e.Kind == harness.RelayCoil {
				w.loaded = true
				return
			}
			w.add(a, b, proof.Section{What: e.Name, Wire: harness.None, Element: e.ID}, math.Abs(s.Amps[i]))
			return
		}
	}
}

func (w *walk) add(from, to harness.TerminalID, s proof.Section, amps float64) {
	s.From, s.To, s.State, s.Load = from, to, w.state, w.load.Element
	w.out = append(w.out, place{s, len(w.out), amps})
}

// measure gives a section its volts and limit; false where no probe reaches an end, or
// where nothing flows.
func (m *plan) measure(p *place) bool {
	s := &p.s
	if m.at[s.From] == proof.None || m.at[s.To] == proof.None {
		return false
	}
	of := m.r.States[s.State].Of
	v := m.limits[s.State].Across(of[s.From], of[s.To])
	if math.IsNaN(v.Is) || of[s.From] == of[s.To] {
		return false
	}
	if v.Is < 0 {
		s.From, s.To = s.To, s.From
		v.Is, v.Low, v.High = -v.Is, -v.High, -v.Low
	}
	s.Volts = unit.Volt(v.Is)
	s.Most = unit.Volt(math.Ceil(100*(v.High*(1+meterPart)+meterDigits)) / 100)
	if volts := m.loadVolts(s.Load, s.State); float64(s.Most) > tenth*volts && !s.Whole {
		s.Blind = "aged or warm it may cost as much by itself"
	}
	return true
}

// loadVolts is what a load gets in a state.
func (m *plan) loadVolts(load harness.ElementID, state int) float64 {
	e := &m.h.Elements[load]
	s := &m.r.States[state]
	return math.Abs(s.Volts[e.A] - s.Volts[e.B])
}
