package part

import (
	"slices"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
	"example.com/loomfolio/sizing/unit"
)

// body joins to the chassis the terminal that the part's own body grounds.
func (b *builder) body() {
	b.p.BodyAt, b.p.BodyJoint = harness.Chassis, harness.None
	w := b.w.Grounds
	if !w.Given() || b.Problems.HasErrors() {
		return
	}
	at, ok := b.bodyTerminal()
	if !ok {
		return
	}
	b.p.BodyGround, b.p.BodyAt = true, at
	if isEngine(b.p.Kind) {
		return // it is screwed to the engine: the check sees how that comes to the chassis
	}
	b.p.BodyJoint = b.element(BodyJoint(b.p, at, w.Joint.Or(bodyOhms(b.p.Kind))))
}

// isEngine tells what is bolted to the engine, whose body is that of the engine.
func isEngine(k harness.Kind) bool { return k == harness.Starter || k == harness.Alternator }

// BodyJoint is the joint between a part's body and the metal that it is screwed to.
func BodyJoint(p *harness.Part, at harness.TerminalID, ohms unit.Ohm) harness.Element {
	return harness.Element{Kind: harness.Resistance, Name: p.Ref + ".body", A: at, B: harness.Chassis, Ohms: ohms}
}

// bodyOhms is the joint of a body that says nothing of it.
func bodyOhms(k harness.Kind) unit.Ohm {
	row, _ := kind.Of(k)
	switch {
	case row.Class == kind.Lamps:
		return holderBodyR
	case k == harness.Sender || row.Role == kind.Switches:
		return threadBodyR
	}
	return GoodGround
}

// bodyTerminal is the terminal that the body grounds: the one that is named, else the one
// that is called so, else the earth side of the only load or coil. Of what has none of
// these it is a problem.
func (b *builder) bodyTerminal() (harness.TerminalID, bool) {
	if w := b.w.Grounds.Terminal; w.Given() {
		return b.known(w)
	}
	if t, ok := b.firstOf(bodyNames); ok {
		return t, true
	}
	if b.p.Kind == harness.Relay {
		return b.coilBody()
	}
	if t, ok := b.earthSide(); ok {
		return t, true
	}
	if t, ok := b.firstOf(b.signNames()); ok {
		return t, true
	}
	if b.p.Kind == harness.Capacitor && len(b.p.Terminals) == 2 {
		return b.p.Terminals[1], true
	}
	names := Names(b.made.Terminals)
	example := "31"
	if len(names) > 0 {
		example = names[len(names)-1]
	}
	b.Fail("body-terminal-unclear", b.w.Grounds.Span, "say which: grounds: {body: "+example+"}; its terminals: "+strings.Join(names, ", "),
		"nothing says which terminal of %s its body grounds", b.p.Ref)
	return 0, false
}

// signNames are the names of the side that the vehicle earths.
func (b *builder) signNames() []string {
	if b.sys.PositiveEarth {
		return []string{"+", "B+", "OUT+"}
	}
	return minusNames
}

// coilBody is the side of a relay's coil that is grounded: 85, or with plus on the earth
// and a diode across the coil its plus.
func (b *builder) coilBody() (harness.TerminalID, bool) {
	if b.sys.PositiveEarth && b.p.Suppression == "diode" {
		return b.has("86")
	}
	return b.has("85")
}

// earthSide is the one terminal on which the earth sides of all loads lie; false where they
// differ or there is no load.
func (b *builder) earthSide() (harness.TerminalID, bool) {
	var found []harness.TerminalID
	for _, e := range b.made.Elements {
		if e.Kind != harness.Load {
			continue
		}
		t := e.B
		if b.sys.PositiveEarth {
			t = e.A
		}
		if !slices.Contains(found, t) {
			found = append(found, t)
		}
	}
	if len(found) != 1 {
		return 0, false
	}
	return found[0], true
}
