package power

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/testplan/dead"
	"example.com/loomfolio/sizing/testplan/meter"
	"example.com/loomfolio/sizing/testplan/tolerance"
	"example.com/loomfolio/sizing/unit"
)

// What a lamp in the lead looks like; light follows the volts to the power of 3.4, from
// memory: half a hundredth of it is seen as dark, two fifths as bright (judgement, not
// published).
const (
	dark   = "dark"
	glows  = "glows"
	bright = "bright"

	darkBelow   = 0.21 // of its rated volts
	brightAbove = 0.76
	leadWatts   = 21
	leadOhms    = 0.01 // of a meter or a fuse in the lead
	full        = 1.07 // of the nominal volts: a battery fresh from the charger; common practice, no source
)

// supply is a battery, or a string of them, in whose lead the lamp is put.
type supply struct {
	index     int
	batteries []harness.ElementID // the lead is at the first
}

// supplies lists them: batteries that hold the whole voltage each alone, those of a string
// together.
func (m *first) supplies() []supply {
	var out []supply
	var chain []harness.ElementID
	for i := range m.h.Elements {
		e := &m.h.Elements[i]
		switch {
		case e.Kind != harness.EMF:
		case e.Holds() < 1:
			chain = append(chain, e.ID)
		default:
			out = append(out, supply{len(out), []harness.ElementID{e.ID}})
		}
	}
	if len(chain) > 0 {
		out = append(out, supply{len(out), chain})
	}
	m.reach(out)
	return out
}

// reach finds for each fuse the supply that it is nearest to, and how many fuses lie
// before it.
func (m *first) reach(supplies []supply) {
	m.supplyOf, m.depth = slices.Repeat([]int{harness.None}, len(m.r.Fuses)), make([]int, len(m.r.Fuses))
	for _, s := range supplies {
		depths := m.depths(s)
		for i := range m.r.Fuses {
			e := &m.h.Elements[m.r.Fuses[i].Element]
			d := min(depths[e.A], depths[e.B])
			if d < math.MaxInt && (m.supplyOf[i] == harness.None || d < m.depth[i]) {
				m.supplyOf[i], m.depth[i] = s.index, d
			}
		}
	}
}

// depths counts by terminal the fuses between it and the batteries, by the shortest way of
// metal and contacts; math.MaxInt where there is none.
func (m *first) depths(s supply) []int {
	out := slices.Repeat([]int{math.MaxInt}, len(m.h.Terminals))
	var now []harness.TerminalID
	for _, b := range s.batteries {
		t := m.h.Live(&m.h.Elements[b])
		out[t] = 0
		now = append(now, t)
	}
	next := m.ways()
	for depth := 0; len(now) > 0; depth++ {
		var later []harness.TerminalID
		for ; len(now) > 0; now = now[1:] {
			for _, way := range next[now[0]] {
				d := depth + way.fuses
				if d >= out[way.to] {
					continue
				}
				out[way.to] = d
				if way.fuses > 0 {
					later = append(later, way.to)
				} else {
					now = append(now, way.to)
				}
			}
		}
		now = later
	}
	return out
}

type passage struct {
	to    harness.TerminalID
	fuses int
}

// ways are by terminal the wires, contacts and fuses on from it; ground is none.
func (m *first) ways() [][]passage {
	out := make([][]passage, len(m.h.Terminals))
	join := func(a, b harness.TerminalID, fuses int) {
		out[a], out[b] = append(out[a], passage{b, fuses}), append(out[b], passage{a, fuses})
	}
	for _, w := range m.h.Wires {
		join(w.From, w.To, 0)
	}
	for i := range m.h.Elements {
		switch e := &m.h.Elements[i]; e.Kind {
		case harness.Join, harness.Contact:
			join(e.A, e.B, 0)
		case harness.FuseLink:
			join(e.A, e.B, 1)
		}
	}
	return out
}

// led is a state with something in the lead of a supply; every other battery is off.
type led struct {
	m        *first
	s        supply
	prepared *network.Prepared
	through  string
	lead     harness.ElementID
	cold     []float64
	err      error
}

type ledKey struct {
	supply, state int
	lamp          bool
}

// lead prepares it, the engine off; state None is everything at rest.
func (m *first) lead(s supply, state int, through string) *led {
	key := ledKey{s.index, state, through == byLamp}
	if l := m.led[key]; l != nil {
		return l
	}
	h := *m.h
	st := harness.State{Name: "rest", Position: make([]int, len(h.Parts))}
	if state != harness.None {
		st = h.States[state]
	}
	st.Engine = harness.EngineOff
	h.States = []harness.State{st}
	h.Elements, h.Terminals = slices.Clone(h.Elements), slices.Clone(h.Terminals)
	l := &led{m: m, s: s, through: through, lead: m.cutLead(&h, s, through), cold: m.r.Cold()}
	l.prepared, l.err = network.Prepare(&h, 0, l.ohms(h.Elements, nil), network.Options{})
	m.led[key] = l
	return l
}

// cutLead parts the lead of a supply and puts a lamp or a meter in.
func (m *first) cutLead(h *harness.Harness, s supply, through string) harness.ElementID {
	end := harness.Terminal{ID: harness.TerminalID(len(h.Terminals)), Part: h.Elements[s.batteries[0]].Part, Full: "lead"}
	h.Terminals = append(h.Terminals, end)
	battery := &h.Elements[s.batteries[0]]
	lead := harness.Element{ID: harness.ElementID(len(h.Elements)), Part: battery.Part, Name: "lead", Kind: harness.Resistance, A: end.ID, B: m.h.Live(battery), Ohms: leadOhms}
	if through == byLamp {
		lead.Kind, lead.Behaves, lead.AtVolts = harness.Load, harness.AsLamp, h.SystemOf(battery).Volts
		lead.Amps = unit.Ampere(leadWatts / float64(lead.AtVolts))
	}
	if h.System.PositiveEarth {
		battery.B = end.ID
	} else {
		battery.A = end.ID
	}
	h.Elements = append(h.Elements, lead)
	return lead.ID
}

// ohms: the fuses in, those out, other batteries and charging off.
func (l *led) ohms(elements []harness.Element, in []harness.ElementID) network.Resistances {
	r := network.Resistances{Wires: l.cold, Links: make([]float64, len(elements))}
	for i := range elements {
		e := &elements[i]
		switch {
		case e.Kind == harness.EMF && !slices.Contains(l.s.batteries, e.ID), e.Regulates():
			r.Links[i] = math.Inf(1)
		case e.Kind == harness.FuseLink && !slices.Contains(in, e.ID) && l.m.h.Parts[e.Part].Kind != harness.Breaker:
			r.Links[i] = math.Inf(1)
		}
	}
	return r
}

// lit is it with some fuses in.
type lit struct {
	*led
	state network.State
	amps  float64 // from the battery
	volts float64 // across what is in the lead
}

func (l *led) solve(in []harness.ElementID) (*lit, error) {
	if l.err != nil {
		return nil, l.err
	}
	elements := append(l.m.h.Elements[:len(l.m.h.Elements):len(l.m.h.Elements)], harness.Element{Kind: harness.Load})
	p, err := l.prepared.With(l.ohms(elements, in))
	if err != nil {
		return nil, err
	}
	s, err := p.Solve()
	if err != nil {
		return nil, err
	}
	out := &lit{led: l, state: s, amps: math.Abs(s.Amps[l.lead])}
	e := &s.Network.Elements[s.ElementAt[l.lead]]
	out.volts = math.Abs(s.Solution.Volts[e.A] - s.Solution.Volts[e.B])
	return out, nil
}

// step gives the amps with their limits, and how the lamp looks.
func (l *lit) step(through string) proof.Step {
	s := proof.Step{Through: through, Fuse: harness.None, Amps: unit.Ampere(l.amps)}
	low, high := tolerance.Drawn(l.m.h, &l.state)
	if through == byLamp {
		volts := float64(l.m.h.SystemOf(&l.m.h.Elements[l.s.batteries[0]]).Volts)
		s.Lamp = looks(l.volts / volts)
		high = min(high, meter.Lamp{Watts: leadWatts, Volts: volts}.Amps(full*volts))
	}
	s.Low, s.High = unit.Ampere(low), unit.Ampere(high)
	return s
}

// draw are the parts that draw a current, in their order.
func (l *lit) draw() []harness.PartID {
	var out []harness.PartID
	for i := range l.m.h.Elements {
		e := &l.m.h.Elements[i]
		if dead.Unplugs(l.m.h, e) && math.Abs(l.state.Amps[i]) > 10*meter.Nothing && !slices.Contains(out, e.Part) {
			out = append(out, e.Part)
		}
	}
	return out
}

func looks(volts float64) string {
	switch {
	case volts < darkBelow:
		return dark
	case volts < brightAbove:
		return glows
	}
	return bright
}
