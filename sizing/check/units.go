package check

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// units gathers the wires that are handled as one: the cores of each cable, what
// lies under each screen, and the twists that no screen is over.
func (c *checker) units() {
	for i := range c.d.Cables {
		c.cable(&c.d.Cables[i])
	}
	c.strayCores()
	groups := c.gathered(func(w *harness.Wire) string { return w.Screen })
	for _, g := range groups {
		c.h.Units = append(c.h.Units, c.unit(harness.Screened, g))
	}
	c.screens()
	for _, g := range c.gathered(func(w *harness.Wire) string { return w.Twist }) {
		if c.twist(g) {
			c.h.Units = append(c.h.Units, c.unit(harness.Twisted, g))
		}
	}
	for i := range c.h.Units {
		c.drained(&c.h.Units[i])
	}
}

// group is wires under one name.
type group struct {
	name  string
	wires []harness.WireID
}

// gathered groups the wires by a name, in the order of the description.
func (c *checker) gathered(of func(*harness.Wire) string) []group {
	var out []group
	at := map[string]int{}
	for i := range c.h.Wires {
		name := of(&c.h.Wires[i])
		if name == "" || c.stops[i].Cable.Given() {
			continue
		}
		n, known := at[name]
		if !known {
			n = len(out)
			at[name] = n
			out = append(out, group{name: name})
		}
		out[n].wires = append(out[n].wires, harness.WireID(i))
	}
	return out
}

func (c *checker) unit(kind harness.UnitKind, g group) harness.Unit {
	s := c.stops[g.wires[0]]
	at := map[harness.UnitKind]read.Word{harness.Twisted: s.Twist, harness.Screened: s.Screen, harness.Cabled: s.Cable}[kind]
	return harness.Unit{ID: harness.UnitID(len(c.h.Units)), Kind: kind, Name: g.name, Wires: g.wires, Span: at.Span}
}

// twist tells whether a twist is a unit of its own, and reports one of a single
// wire and one that is half under a screen.
func (c *checker) twist(g group) bool {
	first := c.stops[g.wires[0]]
	if len(g.wires) == 1 {
		c.Say(source.Warning, "twist-of-one", first.Twist.Span, "write the same name at the stop where the other wire arrives, or leave it out", "the twist %s has one wire alone", g.name)
		return false
	}
	for _, w := range g.wires {
		if c.h.Wires[w].Screen != c.h.Wires[g.wires[0]].Screen {
			p := c.Fail("twist-half-screened", c.stops[w].Twist.Span, "write the same screen: at all wires of the twist", "the wires of the twist %s are not under one screen", g.name)
			p.Others = []source.Note{{Span: first.Twist.Span, Text: "the first one"}}
			return false
		}
	}
	return first.Screen.Text == ""
}

// screens sets the entries under screens: beside the units.
func (c *checker) screens() {
	for i := range c.d.Screens {
		s := &c.d.Screens[i]
		u := c.unitNamed(harness.Screened, s.Name.Text)
		if u == nil {
			c.Say(source.Warning, "unit-without-wires", s.Name.Span, "write screen: "+s.Name.Text+" at the stops where its wires arrive, or take it out", "no wire lies under the screen %s", s.Name.Text)
			continue
		}
		u.Said, u.Drains = s.Name.Span, c.drains(s.Drain)
	}
}

func (c *checker) unitNamed(kind harness.UnitKind, name string) *harness.Unit {
	for i := range c.h.Units {
		if u := &c.h.Units[i]; u.Kind == kind && u.Name == name {
			return u
		}
	}
	return nil
}

// drains resolves the terminals at which a screen is earthed.
func (c *checker) drains(stops []describe.Stop) []harness.TerminalID {
	var out []harness.TerminalID
	for i := range stops {
		if s := &stops[i]; s.Part.Given() {
			if h, ok := c.halt(s); ok {
				out = append(out, h.arrive)
			}
		}
	}
	return out
}

// drained says where a screen is grounded nowhere, or at both ends: one end keeps
// the current of the bodywork off it (common practice for signals, no source).
func (c *checker) drained(u *harness.Unit) {
	if !u.HasScreen() || len(u.Drains) == 0 && c.drainWritten(u) {
		return // one that nothing has is reported where it is written
	}
	at, section := u.Span, "screens"
	if u.Said.Known() {
		at = u.Said
	}
	if u.Kind == harness.Cabled {
		section = "cables"
	}
	switch len(u.Drains) {
	case 0:
		c.Say(source.Advice, "screen-unearthed", at, fmt.Sprintf("say where its drain goes, at one end: %s: {%s: {drain: G1}}", section, u.Name), "the screen of %s is grounded nowhere", u.Name)
	case 1:
		c.drainAway(u, at)
	default:
		c.Say(source.Warning, "screen-both-ends", at, "ground it at one end and insulate it at the other; common practice for signals", "the screen of %s is grounded at %d places", u.Name, len(u.Drains))
	}
}

// drainWritten tells whether the description names a drain for a screen.
func (c *checker) drainWritten(u *harness.Unit) bool {
	if u.Kind == harness.Cabled {
		return slices.ContainsFunc(c.d.Cables, func(w describe.Cable) bool { return w.Name.Text == u.Name && len(w.Drain) > 0 })
	}
	return slices.ContainsFunc(c.d.Screens, func(w describe.Screen) bool { return w.Name.Text == u.Name && len(w.Drain) > 0 })
}

// drainAway reports a drain that goes to a place where the unit has no end.
func (c *checker) drainAway(u *harness.Unit, at source.Span) {
	part := c.h.PartOf(u.Drains[0])
	if part == nil || part.Place == harness.None {
		return
	}
	var names []string
	for _, w := range u.Wires {
		for _, t := range []harness.TerminalID{c.h.Wires[w].From, c.h.Wires[w].To} {
			p := c.h.PartOf(t)
			if p == nil || p.Place == part.Place {
				return
			}
			if p.Place != harness.None {
				names = append(names, c.h.Places[p.Place].Key)
			}
		}
	}
	c.Say(source.Warning, "drain-away", at, "use a ground at "+strings.Join(each(names), " or "), "the drain of %s goes to %s, which lies at %s, where it does not end", u.Name, part.Ref, c.h.Places[part.Place].Key)
}

// each keeps each name once.
func each(names []string) []string {
	var out []string
	seen := map[string]bool{}
	for _, n := range names {
		if !seen[n] {
			seen[n] = true
			out = append(out, n)
		}
	}
	return out
}

// strayCores reports stops that name a cable or a core that is not there.
func (c *checker) strayCores() {
	var names []string
	for _, x := range c.d.Cables {
		names = append(names, x.Name.Text)
	}
	known := map[string]bool{}
	for _, n := range names {
		known[n] = true
	}
	for _, s := range c.stops {
		switch {
		case s.Cable.Given() && !known[s.Cable.Text]:
			c.Unknown("unknown-cable", "cable", s.Cable, names)
		case s.Core.Given() && !s.Cable.Given():
			c.Fail("core-without-cable", s.Core.Span, "write cable: with the name of one under cables:", "a core is named, and no cable")
		}
	}
}

// cable gathers a cable's wires and gives each its core: the one that it names, then
// the others in order.
func (c *checker) cable(w *describe.Cable) {
	t := c.cableType(w)
	if t == nil {
		return
	}
	var wires []harness.WireID
	for i, s := range c.stops {
		if s.Cable.Text == w.Name.Text && s.Cable.Given() {
			wires = append(wires, harness.WireID(i))
		}
	}
	switch {
	case len(wires) == 0:
		c.Say(source.Warning, "unit-without-wires", w.Name.Span, "write cable: "+w.Name.Text+" at the stops where its wires arrive, or take it out", "no wire lies in the cable %s", w.Name.Text)
		return
	case len(wires) > len(t.Cores):
		c.Fail("too-few-cores", c.stops[wires[len(t.Cores)]].Cable.Span, "use a type with more cores, or a second cable", "%s (%s) has %s, too few for its wires, %d", w.Name.Text, t.Name, unit.Counted(len(t.Cores), "core"), len(wires))
		return
	}
	u := c.unit(harness.Cabled, group{w.Name.Text, wires})
	u.Type, u.Length, u.Said = t, w.Length.V, w.Name.Span
	if len(w.Drain) > 0 && !t.Screened {
		c.Fail("no-screen", w.Drain[0].To.Span, "use a type that is screened: true, or leave drain: out", "%s (%s) has no screen to be grounded", u.Name, t.Name)
	}
	u.Drains = c.drains(w.Drain)
	c.takeCores(&u)
	slices.SortStableFunc(u.Wires, func(a, b harness.WireID) int { return c.h.Wires[a].Core - c.h.Wires[b].Core })
	c.h.Units = append(c.h.Units, u)
}

func (c *checker) cableType(w *describe.Cable) *harness.CableType {
	var names []string
	for i := range c.h.Practice.CableTypes {
		t := &c.h.Practice.CableTypes[i]
		if t.Name == w.Type.Text {
			return t
		}
		names = append(names, t.Name)
	}
	described := slices.ContainsFunc(c.d.Practice.CableTypes, func(t describe.CableType) bool { return t.Name.Text == w.Type.Text })
	if w.Type.Given() && !described { // one that is described badly has been reported
		c.Unknown("unknown-cable-type", "type of cable", w.Type, names)
	}
	return nil
}

// takeCores gives the wires of a cable their cores.
func (c *checker) takeCores(u *harness.Unit) {
	by := make([]harness.WireID, len(u.Type.Cores))
	for i := range by {
		by[i] = harness.None
	}
	for _, id := range u.Wires {
		s := c.stops[id]
		if !s.Core.Given() {
			continue
		}
		n := coreOf(u.Type, s.Core.Text)
		switch {
		case n < 0:
			c.Unknown("unknown-core", "core of "+u.Type.Name, s.Core, marks(u.Type))
		case by[n] != harness.None:
			p := c.Fail("core-used-twice", s.Core.Span, "name another core", "two wires would share core %s of %s", u.Type.Cores[n].Mark, u.Name)
			p.Others = []source.Note{{Span: c.stops[by[n]].Core.Span, Text: "the wire that has it already"}}
		default:
			by[n] = id
			c.takeCore(u, id, n)
		}
	}
	for _, id := range u.Wires {
		if c.stops[id].Core.Given() {
			continue
		}
		for n := range by {
			if by[n] == harness.None {
				by[n] = id
				c.takeCore(u, id, n)
				break
			}
		}
	}
}

// takeCore gives a wire what its core is: gauge, colour and insulation, as if the
// description gave them.
func (c *checker) takeCore(u *harness.Unit, id harness.WireID, n int) {
	w, s, core := &c.h.Wires[id], c.stops[id], &u.Type.Cores[n]
	for _, said := range []struct {
		what string
		at   source.Span
	}{{"gauge", s.Gauge.Span}, {"colour", s.Colour.Span}, {"insulation", s.Insulation.Span}, {"length", s.Length.Span}, {"twist", s.Twist.Span}, {"screen", s.Screen.Span}} {
		if said.at.Known() {
			c.Fail("core-says-more", said.at, "leave it out: gauge, colour and insulation are those of the core, the length is given at the cable", "the wire is core %s of %s and has a %s of its own", core.Mark, u.Name, said.what)
		}
	}
	w.Core, w.Gauge, w.Base, w.Tracer, w.Insulation = n, core.Size, core.Base, core.Tracer, u.Type.Name
	w.Length = u.Length
	w.GaugeSpan, w.ColourSpan, w.InsulationSpan = s.Cable.Span, s.Cable.Span, s.Cable.Span
}

// coreOf finds a core by its number, its mark or its colour; -1 for none.
func coreOf(t *harness.CableType, name string) int {
	for i, core := range t.Cores {
		number, mark, _ := strings.Cut(core.Mark, " ")
		if name == number || strings.EqualFold("("+name+")", mark) {
			return i
		}
	}
	p, err := colour.Parse(name)
	for i, core := range t.Cores {
		if err == nil && core.Base == p.Base && core.Tracer == p.Tracer {
			return i
		}
	}
	return -1
}

func marks(t *harness.CableType) []string {
	var out []string
	for _, core := range t.Cores {
		out = append(out, core.Mark+" "+colour.Pair{Base: core.Base, Tracer: core.Tracer}.String())
	}
	return out
}
