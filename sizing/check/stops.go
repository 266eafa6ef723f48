package check

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/check/part"
	"example.com/loomfolio/sizing/check/say"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
	"example.com/loomfolio/sizing/source"
)

// halt is a resolved stop: where the current arrives and where it goes on.
type halt struct {
	part   harness.PartID
	arrive harness.TerminalID
	leave  harness.TerminalID
	bare   bool
	stop   *describe.Stop
}

// halt resolves one stop; ok is false when a problem was reported.
func (c *checker) halt(s *describe.Stop) (halt, bool) {
	if s.Open {
		return c.openEnd(s), true
	}
	id, ok := c.partBy[s.Part.Text]
	if !ok {
		if !c.badPart[s.Part.Text] {
			c.Unknown("unknown-part", "part", s.Part, c.partNames())
		}
		return halt{}, false
	}
	p := &c.h.Parts[id]
	if !s.Terminal.Given() {
		return c.bare(p, s)
	}
	return c.named(p, s)
}

// named resolves PART.terminal.
func (c *checker) named(p *harness.Part, s *describe.Stop) (halt, bool) {
	full := p.Ref + "." + s.Terminal.Text
	if p.Kind == harness.Connector {
		in, ok := c.termBy[full+".in"]
		if !ok {
			return c.noTerminal(p, s)
		}
		return halt{part: p.ID, arrive: in, leave: c.termBy[full+".out"], stop: s}, true
	}
	if p.Kind == harness.Splice || p.Kind == harness.Ground || p.Kind == harness.OpenEnd {
		t := c.termBy[p.Ref]
		return halt{part: p.ID, arrive: t, leave: t, stop: s}, true
	}
	t, ok := c.termBy[full]
	if !ok && c.openBuses[p.ID] {
		t, ok = c.busTerminal(p, s.Terminal.Text), true
	}
	if !ok {
		return c.noTerminal(p, s)
	}
	return halt{part: p.ID, arrive: t, leave: t, stop: s}, true
}

func (c *checker) noTerminal(p *harness.Part, s *describe.Stop) (halt, bool) {
	if c.badPart[p.Ref] {
		return halt{}, false
	}
	names := c.terminalNames(p)
	if c.hidesBreak(p, s, names) {
		c.sayBreak(p, s)
		return halt{}, false
	}
	detail := "its terminals: " + say.Listed(names)
	if twin, why := source.Twin(s.Terminal.Text, names); twin != "" {
		detail = "did you mean " + p.Ref + "." + twin + "? They look alike: " + why + " (" + detail + ")"
	} else if near := source.Nearest(s.Terminal.Text, names); near != "" {
		detail = "did you mean " + p.Ref + "." + near + "? (" + detail + ")"
	}
	c.Fail("unknown-terminal", s.Terminal.Span, detail, "%s (%s) has no terminal %q", p.Ref, p.Kind, s.Terminal.Text)
	return halt{}, false
}

// hidesBreak tells of a stop that it names the break terminal of a relay that was written without one.
func (c *checker) hidesBreak(p *harness.Part, s *describe.Stop, names []string) bool {
	return p.Kind == harness.Relay && !p.Changeover && strings.EqualFold(source.Latin(s.Terminal.Text), "87a") && slices.Equal(names, []string{"30", "85", "86", "87"})
}

// sayBreak says once a relay how its break terminal comes to be there, with every stop that names it.
func (c *checker) sayBreak(p *harness.Part, s *describe.Stop) {
	if at, said := c.breaks[p.ID]; said {
		first := &c.Problems[at]
		first.Others = append(first.Others, source.Note{Span: s.Terminal.Span, Text: "here as well"})
		return
	}
	c.breaks[p.ID] = len(c.Problems)
	found := c.Fail("break-terminal-hidden", s.Terminal.Span,
		fmt.Sprintf("a relay has 87a, which is joined to 30 while the coil is off, only where its part says so: %s: {kind: relay, changeover: true}. A relay with 87 twice has no 87a: look at the diagram on its case", p.Ref),
		"87a: say changeover: true at %s", p.Ref)
	found.Others = []source.Note{{Span: p.Span, Text: "the relay, described with a make contact alone"}}
}

// busTerminal makes a terminal that a stop names, on a bus joined to the others.
func (c *checker) busTerminal(p *harness.Part, name string) harness.TerminalID {
	full := p.Ref + "." + name
	t := harness.TerminalID(len(c.h.Terminals))
	c.h.Terminals = append(c.h.Terminals, harness.Terminal{ID: t, Part: p.ID, Name: name, Full: full})
	p.Terminals = append(p.Terminals, t)
	c.termBy[full] = t
	if first := p.Terminals[0]; first != t && p.Kind == harness.Bus {
		c.element(p, harness.Element{Kind: harness.Join, Name: part.Between(p.Ref, c.h.Terminals[first].Name, name), A: first, B: t})
	}
	return t
}

// bare resolves PART: what has one way through, or one terminal.
func (c *checker) bare(p *harness.Part, s *describe.Stop) (halt, bool) {
	switch {
	case p.Kind == harness.Bus:
		return c.barePost(p, s), true
	case p.BodyGround && len(p.Terminals) == 2:
		t := p.Terminals[0] + p.Terminals[1] - p.BodyAt
		return halt{part: p.ID, arrive: t, leave: t, stop: s}, true
	case p.Kind == harness.Unknown && c.openBuses[p.ID]:
		return c.bareUnknown(p, s), true
	case len(p.Terminals) == 1:
		t := p.Terminals[0]
		return halt{part: p.ID, arrive: t, leave: t, stop: s}, true
	case passes(p):
		return halt{part: p.ID, arrive: p.Terminals[0], leave: p.Terminals[1], bare: true, stop: s}, true
	}
	if !c.badPart[p.Ref] {
		names := c.terminalNames(p)
		c.Fail("terminal-needed", s.To.Span, "write "+p.Ref+"."+strings.Join(first(names, 4), " or "+p.Ref+"."),
			"%s (%s) has more than one way through: say which terminal", p.Ref, p.Kind)
	}
	return halt{}, false
}

// barePost is a bus that is named without a terminal: any stud, here the first.
func (c *checker) barePost(p *harness.Part, s *describe.Stop) halt {
	t := harness.TerminalID(0)
	if len(p.Terminals) > 0 {
		t = p.Terminals[0]
	} else {
		t = c.busTerminal(p, "1")
	}
	return halt{part: p.ID, arrive: t, leave: t, stop: s}
}

// passes tells whether a bare name has one way through.
func passes(p *harness.Part) bool {
	row, _ := kind.Of(p.Kind)
	return row.Through && (len(p.Terminals) == 2 || row.Also != "" && len(p.Terminals) > 2)
}

func first(names []string, n int) []string {
	if len(names) > n {
		return names[:n]
	}
	return names
}

// joined tells whether current can pass within a part from a to z, through any
// of its elements whatever their condition.
func (c *checker) joined(p *harness.Part, a, z harness.TerminalID) bool {
	reached := map[harness.TerminalID]bool{a: true}
	for grown := true; grown; {
		grown = false
		for _, id := range p.Elements {
			e := c.h.Elements[id]
			if reached[e.A] != reached[e.B] {
				reached[e.A], reached[e.B], grown = true, true, true
			}
		}
	}
	return reached[z]
}
