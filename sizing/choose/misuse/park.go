package misuse

import (
	"fmt"
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// throws is a terminal of a switch that changes over between a feed and ground.
type throws struct {
	part      *harness.Part
	common    harness.TerminalID
	fed       *harness.Element // the contact to the feed
	grounding *harness.Element
	contacts  int // that end on the common
}

// parks reports switches that change over between feed and ground, as a wiper's cam does, and
// whose common terminal has no wire, or feeds the motor where it should rest.
func (f *inspection) parks() {
	for i := range f.H.Parts {
		if p := &f.H.Parts[i]; p.Kind == harness.Switch || p.Kind == harness.Wiper {
			for _, t := range f.throwing(p) {
				switch stalk := f.stalk(&t); {
				case !f.wired(t.common) && t.contacts == 2:
					f.parksNothing(&t)
				case f.wired(t.common) && stalk != nil && slices.Contains(t.fed.When.Positions, 0) && !slices.Contains(t.grounding.When.Positions, 0):
					f.parksAway(&t, stalk)
				}
			}
		}
	}
}

// throwing lists the commons of a switch that it joins to a feed in one position and to
// ground in another.
func (f *inspection) throwing(p *harness.Part) []throws {
	none := func(*harness.Element) bool { return false }
	var out []throws
	for _, common := range p.Terminals {
		t := throws{part: p, common: common}
		for _, id := range p.Elements {
			e := &f.H.Elements[id]
			if e.Kind != harness.Contact || e.When.Kind != harness.InPosition || e.A != common && e.B != common {
				continue
			}
			t.contacts++
			switch other := e.A + e.B - common; {
			case f.Net.Grounded(other, none):
				t.grounding = e
			case f.Net.Fed(other, f.keyed):
				t.fed = e
			}
		}
		if t.fed != nil && t.grounding != nil && !slices.ContainsFunc(t.fed.When.Positions, func(n int) bool { return slices.Contains(t.grounding.When.Positions, n) }) {
			out = append(out, t)
		}
	}
	return out
}

// stalk gives the switch that joins such a common to a motor at rest and feeds the motor
// itself when it is worked; nil for none.
func (f *inspection) stalk(t *throws) *harness.Element {
	for i := range f.H.Elements {
		rest := &f.H.Elements[i]
		if !f.closedAtRest(rest) || rest.Part == t.part.ID {
			continue
		}
		for _, ends := range [2][2]harness.TerminalID{{rest.A, rest.B}, {rest.B, rest.A}} {
			if f.Net.Tied(ends[0], t.common) && f.feedsMotor(rest, ends[1]) {
				return rest
			}
		}
	}
	return nil
}

// feedsMotor tells that a switch feeds a motor at a terminal in a position in which its
// contact of rest is open.
func (f *inspection) feedsMotor(rest *harness.Element, at harness.TerminalID) bool {
	motor := slices.ContainsFunc(f.ElementsOf(harness.Load), func(id harness.ElementID) bool {
		e := &f.H.Elements[id]
		return e.Behaves == harness.AsMotor && f.Net.Tied(f.H.Live(e), at)
	})
	return motor && slices.ContainsFunc(f.H.Parts[rest.Part].Elements, func(id harness.ElementID) bool {
		e := &f.H.Elements[id]
		if e.Kind != harness.Contact || e.When.Kind != harness.InPosition || e.A != at && e.B != at || slices.Contains(e.When.Positions, 0) {
			return false
		}
		return f.Net.Fed(e.A+e.B-at, f.keyed)
	})
}

// runs names the motors whose feed lies on what feeds such a switch.
func (f *inspection) runs(t *throws) []string {
	fed := t.fed.A + t.fed.B - t.common
	var out []string
	for _, id := range f.ElementsOf(harness.Load) {
		e, own := &f.H.Elements[id], &f.Owns[id]
		if e.Behaves == harness.AsMotor && slices.ContainsFunc(own.All.Elements, func(x harness.ElementID) bool {
			y := &f.H.Elements[x]
			return y.When.Kind == harness.InPosition && (f.Net.Tied(y.A, fed) || f.Net.Tied(y.B, fed))
		}) {
			out = append(out, e.Name)
		}
	}
	return out
}

func (f *inspection) parksNothing(t *throws) {
	common := f.H.Terminals[t.common]
	f.add(source.Problem{
		Slug: "common-without-wire", Level: source.Warning, Span: t.part.Span, Subjects: append([]string{t.part.Ref}, f.runs(t)...),
		Summary: fmt.Sprintf("%s changes over between feed and ground, and no wire ends on %s, its common terminal: it neither runs a motor on nor brakes it", t.part.Ref, common.Full),
		Detail:  fmt.Sprintf("lead %s to the contact that joins it to the motor when that is switched off (53e of a wiper's stalk)", common.Full),
	})
}

func (f *inspection) parksAway(t *throws, rest *harness.Element) {
	p := f.H.Parts[rest.Part]
	at := t.part.Positions[0]
	f.add(source.Problem{
		Slug: "park-contact-swapped", Level: source.Warning, Span: t.part.Span, Subjects: append([]string{t.part.Ref, p.Ref}, f.runs(t)...),
		Summary: fmt.Sprintf("with %s at %s, %s at %s feeds the motor, and brakes it elsewhere: it stops under way and never rests", p.Ref, p.Positions[0], t.part.Ref, at),
		Detail:  fmt.Sprintf("swap the outer wires of %s: at rest it leads to ground, under way to the feed; or write its resting position first", t.part.Ref),
	})
}
