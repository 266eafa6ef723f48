package testplan

import (
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/testplan/dead"
)

// pulses marks the points at which a meter shows a mean: behind a flasher's contact, and
// where a module pulses a load that has a duty.
func (m *plan) pulses() {
	worked, still := dead.Metal(m.h, true), dead.Metal(m.h, false)
	beats, pulsed := map[int]string{}, map[int]string{}
	for i := range m.h.Elements {
		e := &m.h.Elements[i]
		if p := &m.h.Parts[e.Part]; p.Kind == harness.Flasher && e.Kind == harness.Contact {
			beats[worked.Root(int(m.behind(e)))] = "beats with " + p.Ref
		}
	}
	for i := range m.h.Elements {
		e := &m.h.Elements[i]
		if d := m.h.Parts[e.Part].Duty; e.Kind == harness.Load && d > 0 && d < 1 {
			for _, t := range []harness.TerminalID{e.A, e.B} {
				if ref := m.module(still.Root(int(t)), func(x int) int { return still.Root(x) }); ref != "" {
					pulsed[still.Root(int(t))] = "pulsed by " + ref
				}
			}
		}
	}
	for i := range m.p.Points {
		p := &m.p.Points[i]
		if p.Pulses = beats[worked.Root(int(p.At))]; p.Pulses == "" {
			p.Pulses = pulsed[still.Root(int(p.At))]
		}
	}
}

// behind is the side of a flasher's contact towards the lamps.
func (m *plan) behind(e *harness.Element) harness.TerminalID {
	if m.h.Terminals[e.A].Name == "49a" {
		return e.A
	}
	return e.B
}

// module is the module with a terminal on a piece of metal, "" for none.
func (m *plan) module(root int, of func(int) int) string {
	for i := range m.h.Parts {
		p := &m.h.Parts[i]
		if p.Kind != harness.Module {
			continue
		}
		for _, t := range p.Terminals {
			if of(int(t)) == root {
				return p.Ref
			}
		}
	}
	return ""
}
