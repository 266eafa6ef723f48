package check

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/check/say"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
	"example.com/loomfolio/sizing/source"
)

// measured takes over what a meter showed: points and states by their names.
func (c *checker) measured() {
	for i := range c.d.Measured {
		m := &c.d.Measured[i]
		at, against, ok := c.points(m.At)
		if !ok || m.Bad {
			continue
		}
		x := harness.Reading{At: at, Against: against, State: harness.None, Volts: m.Volts.V, Ohms: m.Ohms.V, Dead: m.Ohms.Given(), Said: m.State.Text, AtSpan: m.At.Span, Span: m.Volts.Span}
		if x.Dead {
			x.Span = m.Ohms.Span
		} else if x.State, ok = c.stateRead(m); !ok {
			continue
		}
		c.h.Measured = append(c.h.Measured, x)
	}
}

// stateRead finds the state in which volts were read; where none is named, the first in
// which everything is at rest with the engine off.
func (c *checker) stateRead(m *describe.Measured) (int, bool) {
	var names []string
	for i := range c.h.States {
		s := &c.h.States[i]
		if m.State.Given() && strings.EqualFold(s.Name, m.State.Text) || !m.State.Given() && s.Engine == harness.EngineOff && !slices.ContainsFunc(s.Position, func(n int) bool { return n != 0 }) {
			return i, true
		}
		names = append(names, s.Name)
	}
	if m.State.Given() {
		c.Unknown("unknown-state", "state", m.State, names)
		return 0, false
	}
	c.Fail("unknown-state", m.Volts.Span, "say in which state it was read, for example "+m.Volts.Written+" @ "+first(append(names, "driving"), 1)[0],
		"no state has everything at rest, and the reading at %s names none", m.At.Text)
	return 0, false
}

// points finds the point of a reading, or two with a dash between.
func (c *checker) points(w read.Word) (at, against harness.TerminalID, ok bool) {
	if t, why := c.point(w.Text); why == "" {
		return t, harness.None, true
	}
	for i, r := range w.Text {
		if r != '-' && r != '/' && r != '–' {
			continue
		}
		a, noA := c.point(strings.TrimSpace(w.Text[:i]))
		b, noB := c.point(strings.TrimSpace(w.Text[i+len(string(r)):]))
		if noA == "" && noB == "" && a != b {
			return a, b, true
		}
		if noA == "" && noB == "" {
			c.Fail("unknown-point", w.Span, "name two points", "both leads are on %s", c.h.Terminals[a].Full)
			return 0, 0, false
		}
	}
	c.noPoint(w)
	return 0, 0, false
}

// point finds a terminal by its name, or by its part's; why is what is wrong, "" for nothing.
func (c *checker) point(name string) (t harness.TerminalID, why string) {
	for _, full := range []string{name, name + ".in"} {
		if t, ok := c.termBy[full]; ok {
			return t, ""
		}
	}
	if id, ok := c.partBy[name]; ok {
		return c.ofPart(&c.h.Parts[id])
	}
	if said, open := strings.CutPrefix(name, "?"); open {
		return c.openPoint(strings.TrimSpace(said))
	}
	return 0, "no point"
}

// ofPart finds the one point of a part: its only terminal, the bar, or the far side of what
// a wire passes, as a later leg that begins there.
func (c *checker) ofPart(p *harness.Part) (harness.TerminalID, string) {
	row, _ := kind.Of(p.Kind)
	switch {
	case len(p.Terminals) == 1, p.Kind == harness.Bus && len(p.Terminals) > 0:
		return p.Terminals[0], ""
	case passes(p) && row.Role != kind.Works:
		for _, t := range p.Terminals {
			if slices.ContainsFunc(c.wiresAt[t], func(w harness.WireID) bool { return c.h.Wires[w].From == t }) {
				return t, ""
			}
		}
		return p.Terminals[1], ""
	}
	return 0, fmt.Sprintf("%s (%s) has more than one point: write %s", p.Ref, p.Kind, p.Ref+"."+strings.Join(first(c.terminalNames(p), 4), " or "+p.Ref+"."))
}

// openPoint finds an open end by the words behind its mark.
func (c *checker) openPoint(said string) (harness.TerminalID, string) {
	var found []harness.TerminalID
	for i := range c.h.Parts {
		if p := &c.h.Parts[i]; p.Kind == harness.OpenEnd && p.Perhaps == strings.ToLower(said) {
			found = append(found, p.Terminals[0])
		}
	}
	switch len(found) {
	case 0:
		return 0, "no point"
	case 1:
		return found[0], ""
	}
	var names []string
	for _, t := range found {
		names = append(names, c.h.Terminals[t].Full)
	}
	return 0, "several ends are called so: " + say.Listed(names)
}

// noPoint says of a name that no point has it, or why it is not enough.
func (c *checker) noPoint(w read.Word) {
	_, why := c.point(w.Text)
	if why != "no point" {
		c.Fail("unknown-point", w.Span, why, "%q is not one point", w.Text)
		return
	}
	if c.badPart[cutPart(w.Text)] {
		return
	}
	var names []string
	for i := range c.h.Terminals {
		if t := harness.TerminalID(i); t != harness.Chassis && len(c.wiresAt[t]) > 0 {
			names = append(names, c.h.Terminals[t].Full)
		}
	}
	detail := "points are terminals on which a wire ends, such as " + say.Listed(first(names, 3)) + "; two have a dash between: F3-FAN.+"
	if near := source.Nearest(w.Text, append(names, c.partNames()...)); near != "" {
		detail = "did you mean " + near + "? (" + detail + ")"
	}
	c.Fail("unknown-point", w.Span, detail, "there is no point %q", w.Text)
}

func cutPart(name string) string {
	part, _, _ := strings.Cut(name, ".")
	return part
}
