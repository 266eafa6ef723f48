package misuse

import (
	"fmt"
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// oneWay reports motors that contacts can feed from either side, of which one side never
// reaches ground: with the other side fed nothing flows, and at rest nothing brakes them. Where a state is a fault, that is told first.
func (f *inspection) oneWay() {
	if slices.Contains(f.Faulty, true) {
		return
	}
	for i := range f.H.Elements {
		e := &f.H.Elements[i]
		if e.Kind != harness.Load || e.Behaves != harness.AsMotor {
			continue
		}
		for _, ends := range [2][2]harness.TerminalID{{e.A, e.B}, {e.B, e.A}} {
			one, other := f.feeding(ends[0], ends[1]), f.feeding(ends[1], ends[0])
			if one != nil && other != nil && !f.everGrounded(ends[0]) && f.everGrounded(ends[1]) {
				f.turnsOneWay(e, one, other)
				break
			}
		}
	}
}

// everGrounded tells that some contacts lead a terminal to ground, past no metal that the
// key feeds.
func (f *inspection) everGrounded(t harness.TerminalID) bool {
	return f.Net.Grounded(t, func(y *harness.Element) bool { return !f.Net.Fed(y.A, f.keyed) && !f.Net.Fed(y.B, f.keyed) })
}

// feeding gives the contact at a motor's side that feeds it, from elsewhere than from its
// other side; nil for none, or where it lies on ground or on what the key feeds.
func (f *inspection) feeding(side, other harness.TerminalID) *harness.Element {
	if f.Net.Grounded(side, func(*harness.Element) bool { return false }) || f.Net.Fed(side, f.keyed) {
		return nil
	}
	for i := range f.H.Elements {
		x := &f.H.Elements[i]
		p := f.PartOf(x.ID)
		if x.Kind != harness.Contact || x.When.Kind == harness.Always || p.Kind != harness.Relay && p.Kind != harness.Switch {
			continue
		}
		for _, ends := range [2][2]harness.TerminalID{{x.A, x.B}, {x.B, x.A}} {
			if f.Net.Always(ends[0], side) && !f.Net.Always(ends[1], other) && f.fedBefore(ends[1], p) {
				return x
			}
		}
	}
	return nil
}

// fedBefore tells a terminal that a source feeds over keys, isolators and switches beside a part.
func (f *inspection) fedBefore(t harness.TerminalID, but *harness.Part) bool {
	return f.Net.Fed(t, func(y *harness.Element) bool {
		return y.When.Kind == harness.InPosition && f.PartOf(y.ID).ID != but.ID
	})
}

func (f *inspection) turnsOneWay(motor, open, other *harness.Element) {
	p, by := f.PartOf(open.ID), f.PartOf(other.ID).Ref
	if by == p.Ref {
		by = "it"
	}
	f.add(source.Problem{
		Slug: "motor-turns-one-way", Level: source.Warning, Span: p.Span, Subjects: []string{p.Ref, motor.Name},
		Summary: fmt.Sprintf("%s is fed from either side, and %s never leads its side to ground: when %s feeds the other side nothing flows, and nothing brakes the motor at rest", motor.Name, p.Ref, by),
		Detail:  fmt.Sprintf("let %s join the motor to ground whenever it does not feed it: of a relay 87a, with the motor at 30 and the feed at 87", p.Ref),
	})
}
