package systems

import (
	"slices"

	"example.com/loomfolio/sizing/harness"
)

// flood gives what a voltage reaches from some terminals, over contacts in any position.
func (f *finder) flood(from []harness.TerminalID) map[harness.TerminalID]bool {
	return f.walk(from, f.ground, func(e *harness.Element, at harness.TerminalID) bool {
		switch e.Kind {
		case harness.Join, harness.Contact, harness.FuseLink, harness.Resistance:
			return true
		case harness.Rectifier:
			return (at == e.A) != f.h.System.PositiveEarth
		}
		return false
	})
}

// metal is flood over what no switch parts.
func (f *finder) metal(from []harness.TerminalID) map[harness.TerminalID]bool {
	return f.walk(from, f.ground, func(e *harness.Element, _ harness.TerminalID) bool { return f.isMetal(e) })
}

// isMetal tells what joins its terminals whatever the switches do, isolators being as they rest.
func (f *finder) isMetal(e *harness.Element) bool {
	switch e.Kind {
	case harness.Join, harness.FuseLink:
		return e.When.Kind == harness.Always
	case harness.Contact:
		on := e.When.Kind == harness.InPosition && slices.Contains(e.When.Positions, 0)
		return e.When.Kind == harness.Always || on && f.h.Parts[e.Part].Kind == harness.Isolator
	case harness.Resistance:
		return e.Part != harness.None && (f.h.Parts[e.Part].Kind == harness.Strap || f.h.Parts[e.Part].Kind == harness.Ground || f.h.Parts[e.Part].Kind == harness.Battery)
	}
	return false
}

// grounds marks what metal joins to the bodywork, to the earthed poles of the batteries
// that stand on no other one, and to the minus of converters.
func (f *finder) grounds() {
	on := map[harness.TerminalID]bool{}
	for _, t := range f.strings.Taps {
		for reached := range f.bare([]harness.TerminalID{t.At}) {
			on[reached] = true
		}
	}
	seeds := []harness.TerminalID{harness.Chassis}
	for i := range f.h.Elements {
		e := &f.h.Elements[i]
		t := f.h.Earthed(e)
		if (e.Kind == harness.EMF || e.Kind == harness.Converter || f.h.ConverterOf(e.ID) != nil) && !on[t] {
			seeds = append(seeds, t)
		}
	}
	f.ground = make([]bool, len(f.h.Terminals))
	for t := range f.bare(seeds) {
		f.ground[t] = true
	}
}

// bare is metal where nothing is known of the grounds yet.
func (f *finder) bare(from []harness.TerminalID) map[harness.TerminalID]bool {
	return f.walk(from, nil, func(e *harness.Element, _ harness.TerminalID) bool { return f.isMetal(e) })
}

// walk goes over wires and the elements that it may pass, and not into what is barred.
func (f *finder) walk(from []harness.TerminalID, barred []bool, passes func(*harness.Element, harness.TerminalID) bool) map[harness.TerminalID]bool {
	seen := map[harness.TerminalID]bool{}
	var queue []harness.TerminalID
	visit := func(t harness.TerminalID) {
		if !seen[t] && (barred == nil || !barred[t]) {
			seen[t] = true
			queue = append(queue, t)
		}
	}
	for _, t := range from {
		visit(t)
	}
	for ; len(queue) > 0; queue = queue[1:] {
		at := queue[0]
		for _, id := range f.wires[at] {
			visit(f.h.Wires[id].From)
			visit(f.h.Wires[id].To)
		}
		for _, id := range f.inside[at] {
			if e := &f.h.Elements[id]; passes(e, at) {
				visit(e.A)
				visit(e.B)
			}
		}
	}
	return seen
}
