package part

import (
	"strings"

	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// What the sides of a converter are called, in capitals; common practice, no source.
var (
	inNames       = strings.Fields("IN+ IN INPUT+ INPUT +IN")
	inMinusNames  = strings.Fields("IN- INPUT- -IN")
	outNames      = strings.Fields("OUT+ OUT OUTPUT+ OUTPUT +OUT")
	outMinusNames = strings.Fields("OUT- OUTPUT- -OUT")
	commonNames   = append(strings.Fields("- B- COM NEG"), bodyNames...)
	remoteNames   = strings.Fields("ON D+ REMOTE REM ENABLE")
)

// converter has a load at its input and a limited source at its output; the load takes
// what the source gives, over the efficiency, and the standing draw.
func (b *builder) converter() {
	in, minus, out, back, ok := b.converterSides()
	if !ok {
		return
	}
	if minus != back && !b.w.Isolated.V {
		b.element(harness.Element{Kind: harness.Join, Name: b.unique(b.between(b.called(minus), b.called(back))), A: minus, B: back})
	}
	when := harness.Condition{}
	if on, has := b.firstOf(remoteNames); has {
		volts := float64(b.side(on, in).Volts)
		coil := b.element(harness.Element{
			Kind: harness.RelayCoil, Name: b.p.Ref + ".remote", A: on, B: minus,
			Ohms: unit.Ohm(volts / remoteA), PullIn: unit.Volt(pullIn * volts), DropOut: unit.Volt(dropOut * volts),
		})
		when = harness.Condition{Kind: harness.Energised, Coil: coil}
	}
	b.twoPort(in, minus, out, back, when)
}

// converterSides finds the four terminals; a common minus serves both sides.
func (b *builder) converterSides() (in, minus, out, back harness.TerminalID, ok bool) {
	in, okIn := b.firstOf(inNames)
	out, okOut := b.firstOf(outNames)
	minus, okMinus := b.firstOf(inMinusNames)
	back, okBack := b.firstOf(outMinusNames)
	common, okCommon := b.firstOf(commonNames)
	switch {
	case okCommon && !okMinus && !okBack:
		minus, back, okMinus = common, common, true
	case okCommon && !okMinus:
		minus, okMinus = common, true
	case okMinus && !okBack:
		back = minus
	case okBack && !okMinus:
		minus, okMinus = back, true
	}
	if okIn && okOut && okMinus {
		return in, minus, out, back, true
	}
	b.Fail("terminals-unclear", b.w.Key.Span,
		"call its sides in+ in- out+ out-, or with one minus for both: terminals: [in, out, 31]",
		"nothing says which terminals of %s are its input and its output", b.p.Ref)
	return 0, 0, 0, 0, false
}

// twoPort makes the load and the source.
func (b *builder) twoPort(in, minus, out, back harness.TerminalID, when harness.Condition) {
	from := b.side(in, minus)
	volts, ok := b.outputVolts(from)
	if !ok {
		return
	}
	amps := b.w.Gives.V.Amps
	if amps == 0 {
		amps = unit.Ampere(float64(b.w.Gives.V.Watts) / float64(volts))
	}
	efficiency, standing := b.w.Efficiency.Or(converterShare), b.standing(from)
	watts := float64(volts)*float64(amps)/float64(efficiency) + float64(standing)
	input := b.element(harness.Element{
		Kind: harness.Load, Name: b.p.Ref + ".input", A: in, B: minus, When: when, Behaves: harness.AsPower,
		Amps: unit.Ampere(watts / float64(from.Running)), AtVolts: from.Running, Floor: b.lowestInput(from, when),
	})
	b.element(harness.Element{
		Kind: harness.Converter, Name: b.p.Ref, A: out, B: back, When: when, Volts: volts, Amps: amps, Ohms: converterR,
		Input: input, Efficiency: efficiency, Standing: standing,
	})
	b.p.Output, b.p.WorksAbove = amps, b.lowestInput(from, when)
}

// outputVolts is what a converter is set to: as given, a charger's absorption voltage of a
// 12 V battery, or the usual one of a 12 V supply from a higher voltage.
func (b *builder) outputVolts(from harness.System) (unit.Volt, bool) {
	switch {
	case b.w.OutputVolts.Given():
		return b.w.OutputVolts.V, true
	case b.w.Regulated.Given():
		return b.w.Regulated.V, true
	case b.charges():
		return chargerVolts, true
	case from.Volts > 12:
		return supplyVolts, true
	}
	b.Fail("converter-without-volts", b.w.Key.Span, "write what its output is set to, such as output-volts: 13.8 V; of a DC/DC charger write for: charger",
		"nothing says what voltage %s gives", b.p.Ref)
	return 0, false
}

func (b *builder) charges() bool { return b.w.For.Text == "charger" }

// standing is what it takes with nothing loaded, W.
func (b *builder) standing(from harness.System) unit.Watt {
	d := b.w.Standing.V
	switch {
	case d.Watts > 0:
		return d.Watts
	case b.w.Standing.Given():
		return unit.Watt(float64(d.Amps) * float64(from.Volts))
	}
	return unit.Watt(standingA * float64(from.Volts))
}

// Unswitched is the voltage under which a converter does not work that nothing switches on.
func Unswitched(w *describe.Part, from harness.System) unit.Volt {
	return (&builder{w: w}).lowestInput(from, harness.Condition{})
}

// lowestInput is the voltage under which it does not work. A charger that nothing switches
// on must not empty the battery that feeds it.
func (b *builder) lowestInput(from harness.System, when harness.Condition) unit.Volt {
	share := lowShare
	switch {
	case b.w.WorksAbove.Given():
		return b.w.WorksAbove.V
	case b.charges() && when.Kind == harness.Always:
		share = chargedShare
	case b.charges():
		share = switchedShare
	}
	return unit.Volt(share * float64(from.Volts))
}
