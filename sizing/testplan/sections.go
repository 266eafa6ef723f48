package testplan

import (
	"cmp"
	"math"
	"slices"

	"example.com/loomfolio/sizing/fault/way"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/testplan/meter"
	"example.com/loomfolio/sizing/unit"
)

const tenth = 0.1 // of a load's volts: the least joint that is looked for

// place is a section before it is measured: where on the way it lies.
type place struct {
	s    proof.Section
	at   int // from the source on
	amps float64
}

// sections lists what is judged under load: of each load and coil the whole feed and
// return, then part by part; what several share is told for the state and the load with
// most current. What lies on no such way is judged where it carries most.
func (m *plan) sections(ways *way.Ways) {
	all := pick{m: m, best: map[[2]harness.TerminalID]place{}}
	for i := range ways.List {
		x := &ways.List[i]
		w := &walk{m: m, way: x}
		w.along(ways.Feed(m.h, x), "feed of ")
		w.along(ways.Back(m.h, x), "return of ")
		all.take(w.out)
	}
	all.take(m.offWays(&all))
	for _, p := range all.sorted() {
		m.p.Sections = append(m.p.Sections, p.s)
	}
}

// pick keeps of sections between the same two terminals that with most current.
type pick struct {
	m     *plan
	best  map[[2]harness.TerminalID]place
	order [][2]harness.TerminalID
}

func (k *pick) take(places []place) {
	for _, p := range places {
		key := [2]harness.TerminalID{min(p.s.From, p.s.To), max(p.s.From, p.s.To)}
		had, is := k.best[key]
		if !is {
			k.order = append(k.order, key)
		}
		if !is || p.amps > had.amps+1e-9 {
			k.best[key] = p
		}
	}
}

// sorted are those that can be measured, by state, load and place on its way.
func (k *pick) sorted() []place {
	var out []place
	for _, key := range k.order {
		if p := k.best[key]; k.m.measure(&p) {
			out = append(out, p)
		}
	}
	slices.SortStableFunc(out, func(a, b place) int {
		return cmp.Or(cmp.Compare(a.s.State, b.s.State), cmp.Compare(a.s.Load, b.s.Load), cmp.Compare(a.at, b.at))
	})
	return out
}

// offWays are the wires, fuses and contacts without a section, each in the state in which
// it carries most.
func (m *plan) offWays(k *pick) []place {
	wires, elements := make([]bool, len(m.h.Wires)), make([]bool, len(m.h.Elements))
	for _, p := range k.best {
		if p.s.Wire != harness.None {
			wires[p.s.Wire] = true
		}
		if p.s.Element != harness.None {
			elements[p.s.Element] = true
		}
	}
	var out []place
	add := func(a, b harness.TerminalID, name string, wire harness.WireID, e harness.ElementID, amps func(s int) float64) {
		if s := m.mostOf(amps); s != harness.None {
			out = append(out, place{proof.Section{From: a, To: b, State: s, What: name, Wire: wire, Element: e, Load: harness.None}, len(out), math.Abs(amps(s))})
		}
	}
	for i, w := range m.h.Wires {
		if !wires[i] {
			add(w.From, w.To, w.Name, w.ID, harness.None, func(s int) float64 { return m.r.States[s].WireAmps[i] })
		}
	}
	for i := range m.h.Elements {
		if e := &m.h.Elements[i]; !elements[i] && (e.Kind == harness.Contact || e.Kind == harness.FuseLink) {
			add(e.A, e.B, e.Name, harness.None, e.ID, func(s int) float64 { return m.r.States[s].Amps[i] })
		}
	}
	return out
}

// walk is the way of a load's current.
type walk struct {
	m   *plan
	way *way.Way
	out []place
}

// along adds a feed or return: the whole, then each wire and what lies between two; from a
// ground over the bodywork all that leads to the way's end.
func (w *walk) along(stops []way.Stop, what string) {
	if len(stops) == 0 || w.m.limits[w.way.State] == nil {
		return
	}
	h, s := w.m.h, &w.m.r.States[w.way.State]
	end := stops[len(stops)-1].To
	if !slices.ContainsFunc(stops, func(x way.Stop) bool { return w.draws(x) }) && len(stops) > 1 {
		w.add(stops[0].From, end, what+h.Elements[w.way.Draw].Name, true, harness.None, harness.None, 0)
	}
	for _, x := range stops {
		switch {
		case x.Wire != harness.None:
			w.add(x.From, x.To, h.Wires[x.Wire].Name, false, x.Wire, harness.None, s.WireAmps[x.Wire])
		case w.draws(x):
		case x.To == harness.Chassis:
			w.add(x.From, end, "ground "+h.Elements[x.Element].Name, false, harness.None, x.Element, s.Amps[x.Element])
		default:
			w.add(x.From, x.To, h.Elements[x.Element].Name, false, harness.None, x.Element, s.Amps[x.Element])
		}
	}
}

// draws tells a load or coil on another one's way, such as a sender on its gauge's.
func (w *walk) draws(x way.Stop) bool {
	if x.Element == harness.None {
		return false
	}
	switch w.m.h.Elements[x.Element].Kind {
	case harness.Load, harness.RelayCoil:
		return true
	}
	return false
}

func (w *walk) add(from, to harness.TerminalID, what string, whole bool, wire harness.WireID, e harness.ElementID, amps float64) {
	w.out = append(w.out, place{proof.Section{
		From: from, To: to, State: w.way.State, What: what, Whole: whole, Wire: wire, Element: e, Load: w.way.Draw,
	}, len(w.out), math.Abs(amps)})
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
	s.Most = unit.Volt(math.Ceil(100*(v.High+meter.Volts2.Error(v.High))) / 100)
	if s.Load != harness.None && !s.Whole && float64(s.Most) > tenth*m.loadVolts(s.Load, s.State) {
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
