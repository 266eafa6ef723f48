package part

import (
	"math"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
	"example.com/loomfolio/sizing/unit"
)

// What the two sides of a source are called, the surest name first, in capitals:
// DIN 72552 (B+, 51, D+, 31, D-), D and E of a dynamo, A of its armature, and what
// is written on regulators and converters; common practice, no source. A body has
// no sign of its own: it is what the vehicle earths.
var (
	liveNames  = strings.Fields("B+ 51 OUT+ +OUT OUTPUT+ OUT OUTPUT BAT+ BATT+ + POS D+ D A B BAT")
	minusNames = strings.Fields("B- OUT- -OUT OUTPUT- BAT- BATT- - NEG D-")
	bodyNames  = strings.Fields("CASE E 31 GND EARTH GROUND BODY")
	lampNames  = strings.Fields("L 61 D+ WL IND")
)

// isSource tells the kinds that give current. What is written inside one is there
// beside its source, not in the place of it.
func isSource(k harness.Kind) bool {
	return k == harness.Battery || k == harness.DCConverter || kind.Charges(k)
}

// firstOf finds the terminal that has the first of these names, none of those taken.
func (b *builder) firstOf(names []string, taken ...harness.TerminalID) (harness.TerminalID, bool) {
	for _, name := range names {
		for _, t := range b.made.Terminals {
			free := len(taken) == 0 || t.ID != taken[0] && t.ID != taken[len(taken)-1]
			if free && strings.ToUpper(t.Name) == name {
				return t.ID, true
			}
		}
	}
	return 0, false
}

// sides finds the plus and the minus of a source: by their names, else the two
// that it has, plus first. Of what has neither it is a problem.
func (b *builder) sides() (plus, minus harness.TerminalID, ok bool) {
	live, named := b.firstOf(liveNames)
	if minus, ok = b.firstOf(minusNames); named && ok {
		return live, minus, true
	}
	if body, ok := b.firstOf(bodyNames); named && ok {
		if b.sys.PositiveEarth {
			return body, live, true
		}
		return live, body, true
	}
	if len(b.p.Terminals) == 2 {
		return b.p.Terminals[0], b.p.Terminals[1], true
	}
	b.Fail("terminals-unclear", b.w.Key.Span,
		"call its output "+b.usual(0)+" (D and E of a dynamo, OUT and GND of a converter are known too) and its other side "+b.usual(1)+"; what is written inside it is there beside its source",
		"nothing says between which two of its terminals %s gives its current", b.p.Ref)
	return 0, 0, false
}

// usual is what one of the two sides of a source is called.
func (b *builder) usual(side int) string {
	if b.p.Kind == harness.Battery {
		return [...]string{"+", "-"}[side]
	}
	return [...]string{"B+", "case"}[side]
}

func (b *builder) battery() {
	plus, minus, ok := b.sides()
	if !ok {
		return
	}
	sys := b.side(plus, minus)
	share := b.holds(sys)
	volts := float64(sys.Volts)
	if share > 0 {
		volts *= float64(share)
	}
	inner := innerAh * volts / float64(b.w.Capacity.Or(60))
	b.element(harness.Element{
		Kind: harness.EMF, Name: b.p.Ref, A: plus, B: minus, Share: share,
		Volts: b.w.EMF.Or(unit.Volt(volts * restPerVolt)), Ohms: b.w.Inner.Or(unit.Ohm(inner)),
	})
}

// holds is the part of the system's voltage that a battery holds by its EMF, where it
// gives one: a half, a third and so on, or several times it; 0 where it is the whole.
func (b *builder) holds(sys harness.System) unit.Fraction {
	whole := float64(sys.Volts) * restPerVolt
	if !b.w.EMF.Given() || b.w.EMF.V <= 0 || whole <= 0 {
		return 0
	}
	parts, times := math.Round(whole/float64(b.w.EMF.V)), math.Round(float64(b.w.EMF.V)/whole)
	switch {
	case parts > 1:
		return unit.Fraction(1 / parts)
	case times > 1:
		return unit.Fraction(times)
	}
	return 0
}

// alternator is any source that runs with the engine: a dynamo, a regulator, a charger.
func (b *builder) alternator() {
	plus, minus, ok := b.sides()
	if !ok {
		return
	}
	b.element(harness.Element{
		Kind: harness.Charger, Name: b.p.Ref, A: plus, B: minus, When: running,
		Volts: b.w.Regulated.Or(b.side(plus, minus).Running), Amps: b.w.Output.V, Ohms: alternatorR,
	})
	live, body := plus, minus
	if b.sys.PositiveEarth {
		live, body = minus, plus
	}
	if lamp, has := b.firstOf(lampNames, live, body); has {
		b.chargeLamp(lamp, live, body)
	}
}

// chargeLamp is the terminal of the charge lamp: on the body until the source runs.
func (b *builder) chargeLamp(lamp, live, body harness.TerminalID) {
	name := func(a, z harness.TerminalID) string { return b.unique(b.between(b.called(a), b.called(z))) }
	b.element(harness.Element{Kind: harness.Contact, Name: name(lamp, body), A: lamp, B: body, When: still, Ohms: 1, Innards: true})
	b.element(harness.Element{Kind: harness.Contact, Name: name(live, lamp), A: live, B: lamp, When: running, Ohms: 1, Innards: true})
}
