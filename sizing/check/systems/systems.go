// Package systems finds which terminals belong to which voltage on board. In: the model
// with its wires, and the further voltages as they are described. Out: the model's
// Systems and Sides, and the problems found: two voltages that metal joins. A vehicle
// with one voltage stays as it is.
//
// Method: from where a voltage begins (a converter's output, the centre tap of two
// batteries in series) it spreads over wires, joints, fuses, resistors, diodes in their
// direction and contacts in any position, and stops at loads, coils, batteries and
// converters, and at all that metal joins to ground, which all voltages share. Then it
// goes on behind its loads and coils, to what switches them at the ground side. What is
// left is the main voltage. Of the main one it is only asked where others may not come:
// at the inputs of converters, at the top of batteries in series and at starters.
package systems

import (
	"cmp"
	"slices"

	"example.com/loomfolio/sizing/check/pack"
	"example.com/loomfolio/sizing/check/say"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Described is a further voltage as it is described.
type Described struct {
	System harness.System // Running 0: not given
	From   []harness.TerminalID
}

// A nominal voltage lies this far below and above what a converter may give for it.
const (
	leastPart = 0.95
	mostPart  = 1.25
)

// Of finds the voltages of a model, given its batteries in series.
func Of(h *harness.Harness, described []Described, strings pack.Strings) source.Problems {
	f := &finder{h: h, strings: strings}
	f.index()
	f.list(described)
	f.fed()
	if len(f.systems) < 2 {
		f.selfFed()
		return f.Problems
	}
	f.spread()
	f.main()
	f.selfFed()
	f.behind()
	h.Systems, h.Sides = f.systems, f.sides
	return f.Problems
}

// finder spreads the voltages.
type finder struct {
	say.Report
	h       *harness.Harness
	strings pack.Strings
	systems []harness.System
	from    [][]harness.TerminalID // by system
	sides   []int                  // by terminal: its system, 0 for the main one and for what is not reached
	reached []bool                 // by terminal: a further voltage is there
	ground  []bool
	wires   [][]harness.WireID
	inside  [][]harness.ElementID // by terminal
	joined  bool                  // two voltages that meet have been told
}

func (f *finder) index() {
	n := len(f.h.Terminals)
	f.sides, f.reached = make([]int, n), make([]bool, n)
	f.wires, f.inside = make([][]harness.WireID, n), make([][]harness.ElementID, n)
	for i := range f.h.Wires {
		w := &f.h.Wires[i]
		f.wires[w.From], f.wires[w.To] = append(f.wires[w.From], w.ID), append(f.wires[w.To], w.ID)
	}
	for i := range f.h.Elements {
		e := &f.h.Elements[i]
		f.inside[e.A], f.inside[e.B] = append(f.inside[e.A], e.ID), append(f.inside[e.B], e.ID)
	}
	f.grounds()
}

// list gathers the voltages: the main one, those described, and those of converters and
// taps of which nothing is described.
func (f *finder) list(described []Described) {
	f.systems, f.from = []harness.System{f.h.System}, [][]harness.TerminalID{nil}
	for _, d := range described {
		s := d.System
		s.PositiveEarth, s.WiredReturn = f.h.System.PositiveEarth, f.h.System.WiredReturn
		if s.Running == 0 {
			s.Running = f.running(s, d.From)
		}
		f.systems, f.from = append(f.systems, s), append(f.from, d.From)
	}
	for i := range f.h.Elements {
		if e := &f.h.Elements[i]; e.Kind == harness.Converter && !f.begins(f.h.Live(e)) {
			f.derived(e.Volts, nominal(e.Volts), f.h.Live(e))
		}
	}
	for _, t := range f.strings.Taps {
		if !f.begins(t.At) && f.tapped(t.At) {
			part := unit.Volt(t.Part)
			f.derived(f.h.System.Running*part, f.h.System.Volts*part, t.At)
		}
	}
}

// running is the voltage of a described side while it is fed: that of the converter from
// which it begins, else its part of the main one.
func (f *finder) running(s harness.System, from []harness.TerminalID) unit.Volt {
	for i := range f.h.Elements {
		if e := &f.h.Elements[i]; e.Kind == harness.Converter && slices.Contains(from, f.h.Live(e)) {
			return e.Volts
		}
	}
	return unit.Volt(float64(f.h.System.Running) * float64(s.Volts) / float64(f.h.System.Volts))
}

func (f *finder) begins(t harness.TerminalID) bool {
	return slices.ContainsFunc(f.from, func(from []harness.TerminalID) bool { return slices.Contains(from, t) })
}

// derived adds a voltage that nobody described; one of the main voltage is none.
func (f *finder) derived(running, volts unit.Volt, t harness.TerminalID) {
	if volts == f.h.System.Volts {
		return
	}
	for i := range f.systems {
		if s := &f.systems[i]; i > 0 && s.Key == "" && s.Volts == volts {
			s.Running, f.from[i] = max(s.Running, running), append(f.from[i], t)
			return
		}
	}
	s := f.h.System
	s.Volts, s.Running = volts, running
	f.systems, f.from = append(f.systems, s), append(f.from, []harness.TerminalID{t})
}

// nominal is the nominal voltage that a regulated one stands for, itself where it stands
// for none.
func nominal(v unit.Volt) unit.Volt {
	for _, n := range []unit.Volt{6, 12, 24, 48} {
		if v >= n*leastPart && v <= n*mostPart {
			return n
		}
	}
	return v
}

// tapped tells a tap from which a wire leads on to a load.
func (f *finder) tapped(t harness.TerminalID) bool {
	for reached := range f.flood([]harness.TerminalID{t}) {
		if slices.ContainsFunc(f.inside[reached], func(id harness.ElementID) bool {
			return f.h.Elements[id].Kind == harness.Load && f.h.Elements[id].Amps > 0
		}) {
			return true
		}
	}
	return false
}

// spread marks the terminals of each further voltage, in order; where one comes to what
// another one has, the two are joined.
func (f *finder) spread() {
	for side := 1; side < len(f.systems); side++ {
		f.grounded(side)
		for _, t := range f.sorted(f.flood(f.from[side])) {
			if other := f.sides[t]; f.reached[t] && other != side {
				f.meet(t, other, side)
				continue
			}
			f.sides[t], f.reached[t] = side, true
		}
	}
}

// grounded tells of a voltage that is to begin at a ground.
func (f *finder) grounded(side int) {
	for _, t := range f.from[side] {
		if f.ground[t] {
			s := f.systems[side]
			f.Fail("side-at-ground", cmp.Or(s.Span, f.place(t)), "name where it is live: the output of a converter, or the plus of the lower of two batteries in series",
				"the %s side is to begin at %s, which is ground", s.Volts, f.h.Terminals[t].Full)
		}
	}
}

// main looks whether a further voltage is joined to the main one.
func (f *finder) main() {
	var seeds []harness.TerminalID
	for _, t := range f.strings.Tops {
		switch {
		case !f.reached[t]:
			seeds = append(seeds, t)
		case f.fromTap(f.sides[t]):
			f.meet(t, 0, f.sides[t])
		}
	}
	for i := range f.h.Elements {
		e := &f.h.Elements[i]
		starter := f.h.Parts[max(e.Part, 0)].Kind == harness.Starter && e.Kind == harness.Load
		converter, t := f.h.ConverterOf(e.ID), f.h.Live(e)
		switch {
		case !starter && converter == nil || f.ground[t]:
		case !f.reached[t]:
			seeds = append(seeds, t)
		case converter != nil && f.sides[t] == f.sides[f.h.Live(converter)]:
			f.meet(t, 0, f.sides[t])
		}
	}
	for _, t := range f.sorted(f.flood(seeds)) {
		if f.reached[t] {
			f.meet(t, 0, f.sides[t])
			return
		}
	}
}

// fed marks what lies behind each converter: all that its output reaches over contacts,
// or over metal alone where contacts lead back to its input.
func (f *finder) fed() {
	for i := range f.h.Elements {
		e := &f.h.Elements[i]
		if e.Kind != harness.Converter {
			continue
		}
		if f.h.Behind == nil {
			f.h.Behind = slices.Repeat([]harness.ElementID{harness.None}, len(f.h.Terminals))
		}
		out, in := []harness.TerminalID{f.h.Live(e)}, f.h.Live(&f.h.Elements[e.Input])
		reached := f.flood(out)
		if reached[in] {
			reached = f.metal(out)
		}
		for t := range reached {
			if t != in && f.h.Behind[t] == harness.None {
				f.h.Behind[t] = e.ID
			}
		}
	}
}

// fromTap tells a voltage that begins at a centre tap.
func (f *finder) fromTap(side int) bool {
	return slices.ContainsFunc(f.strings.Taps, func(t pack.Tap) bool { return slices.Contains(f.from[side], t.At) })
}

// behind goes on behind loads and coils, to the contacts at their ground side.
func (f *finder) behind() {
	for side := 1; side < len(f.systems); side++ {
		var seeds []harness.TerminalID
		for i := range f.h.Elements {
			e := &f.h.Elements[i]
			if e.Kind != harness.Load && e.Kind != harness.RelayCoil {
				continue
			}
			for _, end := range [2][2]harness.TerminalID{{e.A, e.B}, {e.B, e.A}} {
				if f.sides[end[0]] == side && !f.reached[end[1]] && !f.ground[end[1]] && end[0] == f.h.Live(e) {
					seeds = append(seeds, end[1])
				}
			}
		}
		for t := range f.flood(seeds) {
			if !f.reached[t] {
				f.sides[t], f.reached[t] = side, true
			}
		}
	}
}

// sorted gives reached terminals in order, those at which current arrives at a part first.
func (f *finder) sorted(reached map[harness.TerminalID]bool) []harness.TerminalID {
	out := make([]harness.TerminalID, 0, len(reached))
	for t := range reached {
		out = append(out, t)
	}
	slices.SortFunc(out, func(a, b harness.TerminalID) int { return cmp.Compare(a, b) })
	return out
}

// meet tells that two voltages are joined; sides of one nominal voltage may be.
func (f *finder) meet(t harness.TerminalID, one, other int) {
	a, b := f.systems[one], f.systems[other]
	if a.Volts == b.Volts || f.joined {
		return
	}
	f.joined = true
	cure := "keep the two apart up to the converter: feed what hangs here from one of them alone, and give each a fuse and a contact of its own"
	if f.h.System.PositiveEarth {
		cure = "with plus on the bodywork a converter's two sides must not share their minus: use one that says isolated: true, with out+ on the bodywork"
	}
	f.Fail("voltages-joined", f.place(t), cure,
		"%s is on the %s side and on the %s side: metal or a contact joins the two", f.h.Terminals[t].Full, a.Volts, b.Volts)
}

// place is where a wire arrives at a terminal, else its part.
func (f *finder) place(t harness.TerminalID) source.Span {
	for _, id := range f.wires[t] {
		if w := &f.h.Wires[id]; w.To == t || w.From == t {
			return w.Span
		}
	}
	if p := f.h.PartOf(t); p != nil {
		return p.Span
	}
	return f.h.System.Span
}

// selfFed tells of a converter whose output comes back to its own input.
func (f *finder) selfFed() {
	for i := range f.h.Elements {
		e := &f.h.Elements[i]
		if e.Kind != harness.Converter || f.joined {
			continue
		}
		in := f.h.Live(&f.h.Elements[e.Input])
		if metal := f.metal([]harness.TerminalID{f.h.Live(e)}); !metal[in] {
			continue
		}
		f.joined = true
		ref := f.h.Parts[e.Part].Ref
		f.Fail("converter-on-itself", f.place(in), "its output goes to what it feeds alone; take the wire away that joins the two sides",
			"the output of %s is joined to its own input: it would feed itself, and whatever stands before it", ref)
	}
}
