// Package power says how the first power is let into a finished wiring, step by step:
// everything off behind a lamp, then fuse by fuse what hangs on each, behind a lamp, a
// 3 A fuse and direct; cranking last.
//
// In: the model as it is meant, what was sized, what stops without each fuse. Out: the
// steps with their amps, their limits, how the lamp looks and when to stop. Method: each
// step is solved with a lamp or a meter in the battery's lead.
package power

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/testplan/dead"
	"example.com/loomfolio/sizing/testplan/meter"
	"example.com/loomfolio/sizing/testplan/tolerance"
	"example.com/loomfolio/sizing/unit"
)

// The ways in which the first power is let in, in their order.
const (
	byLamp = "lamp 21 W"
	byFuse = "fuse 3 A"
	direct = "direct"
)

const (
	lampLoad = 1.5 // A at 12 V: a consumer of more gets less than half of its volts behind the lamp
	fuseLoad = 2.2 // A: three quarters of a 3 A fuse
)

// first is the first power being let in.
type first struct {
	h   *harness.Harness
	r   *result.Result
	out []proof.Step

	supplyOf []int // by index into Result.Fuses: the supply that it hangs on
	depth    []int // by index into Result.Fuses: fuses before it
	led      map[ledKey]*led
}

// First lists the steps in their order: everything out, fuses in with everything off,
// then each fuse with what hangs on it, the smallest consumers first, behind a lamp, a
// 3 A fuse, and direct; cranking last. The error is the solver's.
func First(h *harness.Harness, r *result.Result) ([]proof.Step, error) {
	if len(r.States) == 0 {
		return nil, nil
	}
	m := &first{h: h, r: r, led: map[ledKey]*led{}}
	for _, s := range m.supplies() {
		from := len(m.out)
		if err := m.from(s); err != nil {
			return nil, err
		}
		for k := range m.out[from:] {
			m.out[from+k].Battery = s.batteries[0]
		}
	}
	return m.out, nil
}

func (m *first) from(s supply) error {
	if err := m.allOff(s); err != nil {
		return err
	}
	var steps []proof.Step
	for i := range m.r.Fuses {
		step, ok, err := m.consumer(s, i)
		if err != nil {
			return err
		}
		if ok {
			steps = append(steps, step)
		}
	}
	order := []string{byLamp, byFuse, direct}
	slices.SortStableFunc(steps, func(a, b proof.Step) int {
		return cmp.Or(cmp.Compare(slices.Index(order, a.Through), slices.Index(order, b.Through)), cmp.Compare(a.Amps, b.Amps))
	})
	m.out = append(m.out, steps...)
	return m.crank(s)
}

// allOff: no fuse, then the fuses group by group from the source on, everything at rest.
func (m *first) allOff(s supply) error {
	t := m.lead(s, harness.None, byLamp)
	var in []harness.ElementID
	groups := append([][]harness.ElementID{nil}, m.groups(s)...)
	for _, g := range groups {
		in = append(in, g...)
		l, err := t.solve(in)
		if err != nil {
			return err
		}
		step := l.step(byLamp)
		step.State, step.Fuses, step.Do = harness.None, g, m.fusesIn(g)+", everything off"
		step.Stop = stopOff(len(g) == 0, step.Lamp, dead.Unplug(m.h, l.draw()))
		if len(g) > 0 {
			step.Fuse = g[0]
		}
		m.out = append(m.out, step)
	}
	return nil
}

// stopOff says when to stop with everything off; on are what draws a current nevertheless.
func stopOff(empty bool, lamp, on string) string {
	switch {
	case lamp != dark && on != "":
		return "lit " + on + ", then the lamp must be dark"
	case lamp != dark:
		return "lit before anything is on: look why"
	case empty:
		return "lamp lights: a short before the fuses"
	}
	return "lamp lights: a short behind the last fuse"
}

func (m *first) fusesIn(g []harness.ElementID) string {
	if len(g) == 0 {
		return "all fuses out"
	}
	names := make([]string, len(g))
	for i, f := range g {
		names[i] = m.h.Elements[f].Name
	}
	if len(names) > 3 {
		return names[0] + " to " + names[len(names)-1] + " in, one by one"
	}
	return strings.Join(names, ", ") + " in"
}

// groups are the fuses behind a supply, from it on: those of one feed of a panel together.
func (m *first) groups(s supply) [][]harness.ElementID {
	type place struct {
		depth int
		part  harness.PartID
		feed  harness.TerminalID
	}
	by := map[place][]harness.ElementID{}
	var order []place
	for i := range m.r.Fuses {
		f := &m.r.Fuses[i]
		if f.Breaker || m.supplyOf[i] != s.index {
			continue
		}
		e := &m.h.Elements[f.Element]
		at := place{m.depth[i], f.Part, harness.None}
		if f.Position != "" {
			at.feed = e.A
		}
		if by[at] == nil {
			order = append(order, at)
		}
		by[at] = append(by[at], f.Element)
	}
	slices.SortStableFunc(order, func(a, b place) int { return cmp.Compare(a.depth, b.depth) })
	var out [][]harness.ElementID
	for _, at := range order {
		out = append(out, by[at])
	}
	return out
}

// consumer is the step for what hangs on one fuse, all other fuses out but those that it
// and its relays need. False where nothing of its own hangs on it.
func (m *first) consumer(s supply, fuse int) (proof.Step, bool, error) {
	f := &m.r.Fuses[fuse]
	state := m.fullest(m.own(fuse))
	if m.supplyOf[fuse] != s.index || state == harness.None || m.h.States[state].Engine == harness.EngineCranking {
		return proof.Step{}, false, nil
	}
	needs := m.needs(fuse)
	through := direct
	l, err := m.lead(s, state, direct).solve(needs)
	if err != nil || l.amps < meter.Nothing || math.Abs(l.state.Amps[f.Element]) < meter.Nothing {
		return proof.Step{}, false, err
	}
	switch {
	case l.amps <= lampLoad:
		through = byLamp
	case l.amps <= fuseLoad:
		through = byFuse
	}
	if through == byLamp {
		if l, err = m.lead(s, state, byLamp).solve(needs); err != nil {
			return proof.Step{}, false, err
		}
	}
	step := l.step(through)
	step.State, step.Fuse, step.Fuses = state, f.Element, needs
	step.Do = m.h.Elements[f.Element].Name + " in, as in " + m.h.States[state].Name
	step.Stop = stopOn(through)
	return step, true, nil
}

func stopOn(through string) string {
	switch through {
	case byLamp:
		return "brighter than told: more than the loads is on"
	case byFuse:
		return "the 3 A fuse opens: a short, or more than the loads is on"
	}
	return "more amps than told, warm wire, the fuse opens"
}

// own are the loads and coils behind a fuse that no further fuse is before.
func (m *first) own(fuse int) []string {
	var out []string
	for _, l := range m.r.Fuses[fuse].Feeds {
		further := false
		for i := range m.r.Fuses {
			further = further || m.depth[i] > m.depth[fuse] && m.supplyOf[i] == m.supplyOf[fuse] && slices.Contains(m.r.Fuses[i].Feeds, l)
		}
		if !further {
			out = append(out, l)
		}
	}
	return out
}

// needs are the fuses without which what hangs on one gets nothing, itself included.
func (m *first) needs(fuse int) []harness.ElementID {
	var out []harness.ElementID
	for i := range m.r.Fuses {
		if i == fuse || m.stops(i, m.r.Fuses[fuse].Feeds) {
			out = append(out, m.r.Fuses[i].Element)
		}
	}
	return out
}

// stops tells whether any of some loads and coils stops without a fuse, its relays' too.
func (m *first) stops(fuse int, loads []string) bool {
	o := m.r.Outages[fuse]
	if slices.ContainsFunc(o.Stops, func(l string) bool { return slices.Contains(loads, l) }) {
		return true
	}
	for _, d := range o.Drops {
		if slices.ContainsFunc(d.Loads, func(l string) bool { return slices.Contains(loads, l) }) {
			return true
		}
	}
	return false
}

// fullest is the state in which most of some loads and coils carry current, one with the
// engine off before one with it running, never cranking unless there is no other.
func (m *first) fullest(names []string) int {
	best, most := harness.None, 0
	for s := range m.r.States {
		n := 0
		for i := range m.h.Elements {
			e := &m.h.Elements[i]
			if slices.Contains(names, e.Name) && math.Abs(m.r.States[s].Amps[i]) > meter.Nothing {
				n += 4
			}
		}
		switch {
		case n == 0:
			continue
		case m.h.States[s].Engine == harness.EngineOff:
			n += 2
		case m.h.States[s].Engine == harness.EngineCranking:
			n = 1
		}
		if n > most {
			best, most = s, n
		}
	}
	return best
}

// cranks is a current, A, below which a battery takes no part in cranking.
const cranks = 20

// crank is the last step: never behind a lamp or a small fuse.
func (m *first) crank(s supply) error {
	for i, st := range m.h.States {
		if st.Engine != harness.EngineCranking || len(m.r.States[i].Amps) == 0 {
			continue
		}
		amps := -m.r.States[i].Amps[s.batteries[0]]
		if !(amps > cranks) {
			continue
		}
		low, high := tolerance.Drawn(m.h, &m.r.States[i])
		m.out = append(m.out, proof.Step{
			Through: direct, Fuse: harness.None, State: i, Do: "all fuses in, crank: " + st.Name,
			Amps: unit.Ampere(amps), Low: unit.Ampere(low), High: unit.Ampere(high),
			Stop: fmt.Sprintf("never behind a lamp or a small fuse; volts at the battery under %.1f", 0.8*float64(m.h.SystemOf(&m.h.Elements[s.batteries[0]]).Volts)),
		})
		return nil
	}
	return nil
}
