package part

import (
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Figures of what makes charge, or carries it. Voltages are for a system of one volt.
const (
	armatureR  unit.Ohm    = 0.3          // between D and earth of a dynamo at rest; from memory
	fieldWatts             = 24           // field of a dynamo: 6 ohm at 12 V, an auto electrician's page on dynamos of 20 to 22 A
	fieldR6    unit.Ohm    = 2.8          // field of a 6 V dynamo; from memory
	cutInShare             = 13.0 / 12.0  // cut-out closes: 6.3 to 6.7 V at 6 V in a maker's manual of a motorcycle's control box; 12.7 to 13.3 V at 12 V from memory
	dropShare              = 5.0 / 6.0    // cut-out opens: 4.8 to 5.3 V at 6 V in the same manual; 8.5 to 11 V at 12 V from memory
	shuntWatts             = 2.4          // shunt coils of a control box, 60 ohm at 12 V; from memory
	seriesR    unit.Ohm    = 0.01         // cut-out contact with its current coil; from memory
	turnsR     unit.Ohm    = 0.005        // series turns between A and A1; from memory
	pointsR    unit.Ohm    = 0.05         // closed points of the regulator; common practice, no source
	ownUse     unit.Ampere = 0.005        // solar regulator of the pulse type: below 5 mA, a seller's data page
	ownTracks  unit.Ampere = 0.03         // one that tracks, 10 to 50 mA; from memory
	trackShare             = 0.94         // of the panel's power reaches the battery: 92 to 95 % in a regulator maker's manual
	inverts                = 0.85         // efficiency of an inverter that says none: the lower of what is met; 90 % near its rating, an inverter maker's manual
	standShare             = 0.015        // of its rating an inverter draws with nothing on it: 1.3 to 2.4 % measured on three of 60 to 700 W
	shuntVolts unit.Volt   = 0.05         // of a shunt at its rating; common practice
	shuntAmps  unit.Ampere = 500          // rating of a shunt that says none; common practice, no source
	monitorA   unit.Ampere = 0.005        // battery monitor; common practice, no source
	senses     unit.Ampere = 0.01         // sense lead of an alternator; common practice, no source
	senseA     unit.Ampere = 0.001        // its lead to a second battery; common practice, no source
	splitIn                = 13.3 / 12.0  // a voltage-sensing relay closes; common practice, no source
	splitOut               = 12.8 / 12.0  // and opens; common practice, no source
	splitWatts             = 0.06         // it senses with 5 mA at 12 V; common practice, no source
	holdA      unit.Ampere = 0.2          // and holds itself closed with so much; common practice, no source
	line3                  = 0.8164965809 // RMS of each lead of a three-phase bridge over its direct current, square root of 2/3: computed, smooth current
	line1                  = 1.1107207345 // the same of two leads, pi over the square root of 8: computed, rectified sine
)

// Sun is the position of a solar regulator in which it works.
const Sun = 1

// builtIn is the word of a dynamo with its control box on it.
const builtIn = "built-in"

var (
	running = harness.Condition{Kind: harness.EngineIs, Engines: []harness.Engine{harness.EngineRunning}}
	still   = harness.Condition{Kind: harness.EngineIs, Engines: []harness.Engine{harness.EngineOff, harness.EngineCranking}}
)

// in is the condition that the part is in one of its positions.
func (b *builder) in(positions ...int) harness.Condition {
	return harness.Condition{Kind: harness.InPosition, Switch: b.p.ID, Positions: positions}
}

// volts gives so much of a figure for one volt.
func (b *builder) volts(share float64) unit.Volt { return unit.Volt(share * float64(b.own().Volts)) }

// poles gives two terminals by the roles of their live and earthed side, as plus and minus.
func (b *builder) poles(live, earth string) (plus, minus harness.TerminalID, ok bool) {
	l, okL := b.role(live)
	e, okE := b.role(earth)
	if !okL || !okE {
		b.Fail("terminals-unclear", b.w.Key.Span, "name its terminals "+live+" and "+earth+", or leave terminals: out",
			"%s has terminals of its own, and nothing says which of them are %s and %s", b.p.Ref, live, earth)
		return 0, 0, false
	}
	if b.sys.PositiveEarth {
		return e, l, true
	}
	return l, e, true
}

// charger adds a source of limited current.
func (b *builder) charger(plus, minus harness.TerminalID, amps unit.Ampere, when harness.Condition) {
	b.element(harness.Element{
		Kind: harness.Charger, Name: b.p.Ref, A: plus, B: minus, When: when,
		Volts: b.w.Regulated.Or(b.own().Running), Amps: amps, Ohms: alternatorR,
	})
}

// fieldOhms is the field of a dynamo, by its volts where it says nothing.
func (b *builder) fieldOhms() unit.Ohm {
	usual := unit.Ohm(float64(b.own().Volts) * float64(b.own().Volts) / fieldWatts)
	if b.own().Volts == 6 {
		usual = fieldR6
	}
	return b.w.Field.Or(usual)
}

// dynamo is a source while the engine runs, and its armature a way to earth while it does
// not: so the charge lamp lights, and no cut-out that stays open lets a battery run down.
// Its output is what leaves D beside its own field.
func (b *builder) dynamo() {
	if b.p.Charge.BuiltIn {
		b.builtIn()
		return
	}
	plus, minus, ok := b.poles("D", "case")
	if !ok {
		return
	}
	live, body := b.sided(plus, minus)
	volts := b.w.Regulated.Or(b.own().Running)
	ohms, amps := b.fieldOhms(), b.w.Output.V
	field, has := b.role("F")
	if has {
		amps += unit.Ampere(float64(volts) / float64(ohms))
	}
	b.charger(plus, minus, amps, running)
	b.element(harness.Element{Kind: harness.Contact, Name: b.p.Ref + ".armature", A: live, B: body, When: still, Ohms: armatureR, Innards: true})
	if has {
		b.between2(field, body, unit.Draw{Amps: unit.Ampere(float64(volts) / float64(ohms)), At: volts}, harness.AsResistance, "field")
	}
}

// sided gives the live and the earthed one of plus and minus.
func (b *builder) sided(plus, minus harness.TerminalID) (live, earth harness.TerminalID) {
	if b.sys.PositiveEarth {
		return minus, plus
	}
	return plus, minus
}

// between2 adds a load between a live terminal and an earthed one.
func (b *builder) between2(live, earth harness.TerminalID, draw unit.Draw, behaves harness.Behaviour, what string) {
	from, to := live, earth
	if b.sys.PositiveEarth { // the current comes from the body
		from, to = earth, live
	}
	b.load(b.p.Ref+"."+what, from, to, draw, behaves)
}

// builtIn is a dynamo with its control box on it: outside, a source with a charge lamp.
func (b *builder) builtIn() {
	plus, minus, ok := b.poles("B+", "case")
	if !ok {
		return
	}
	live, body := b.sided(plus, minus)
	b.charger(plus, minus, b.w.Output.V, running)
	lamp, ok := b.role("61")
	if !ok {
		return
	}
	b.element(harness.Element{Kind: harness.Contact, Name: b.p.Ref + ".armature", A: lamp, B: body, When: still, Ohms: armatureR, Innards: true})
	b.element(harness.Element{Kind: harness.Contact, Name: b.p.Ref + ".cut-out", A: live, B: lamp, When: running, Ohms: seriesR, Innards: true})
}

// controlBox has a cut-out with its shunt coil on D, its current coil between D and A (A1
// behind the series turns), and the regulator's points between D and F, closed as at low
// speed, where the field takes most.
func (b *builder) controlBox() {
	a, okA := b.role("A")
	d, okD := b.role("D")
	f, okF := b.role("F")
	e, okE := b.role("E")
	if !okA || !okD || !okF || !okE {
		b.Fail("terminals-unclear", b.w.Key.Span, "name its terminals A, D, F, E (B+ or 51, D+, DF, D- on German ones), or leave terminals: out",
			"%s is a control box without the usual terminals", b.p.Ref)
		return
	}
	coil := b.ownCoil("coil", d, e, shuntWatts, b.volts(cutInShare), b.volts(dropShare))
	b.last().When = running // at rest the reverse current in its series coil has opened it
	b.follow(d, a, harness.Condition{Kind: harness.Energised, Coil: coil})
	b.last().Ohms, b.last().Innards, b.last().CutOut = seriesR, true, true
	if a1, ok := b.role("A1"); ok {
		b.element(harness.Element{Kind: harness.Resistance, Name: b.between(b.called(a), b.called(a1)), A: a, B: a1, Ohms: turnsR})
	}
	b.element(harness.Element{Kind: harness.Contact, Name: b.between(b.called(d), b.called(f)), A: d, B: f, Ohms: pointsR, Innards: true})
}

// last is the element that was added last.
func (b *builder) last() *harness.Element { return &b.made.Elements[len(b.made.Elements)-1] }

// ownCoil adds a coil that closes and opens at voltages of its own.
func (b *builder) ownCoil(what string, plus, minus harness.TerminalID, watts float64, in, out unit.Volt) harness.ElementID {
	volts := float64(b.own().Volts)
	ohms := b.coilOhms(volts, unit.Ohm(volts*volts/watts))
	return b.element(harness.Element{Kind: harness.RelayCoil, Name: b.p.Ref + "." + what, A: plus, B: minus, Ohms: ohms, PullIn: in, DropOut: out, Senses: true})
}

// stator gives alternating current, of which the regulator's side says how much.
func (b *builder) stator() {}

// rectifierRegulator is a source while the engine runs; each lead of the stator carries its
// share of the alternating current.
func (b *builder) rectifierRegulator() {
	plus, okP := b.role("+")
	minus, okM := b.role("-")
	if !okP || !okM {
		b.poles("+", "-")
		return
	}
	b.charger(plus, minus, b.w.Output.V, running)
	var leads []harness.TerminalID
	for _, t := range b.made.Terminals {
		if t.ID != plus && t.ID != minus && b.roleOf(t.Name) == t.Name {
			leads = append(leads, t.ID)
		}
	}
	factor := line1
	if len(leads) > 2 {
		factor = line3
	}
	for _, t := range leads {
		b.element(harness.Element{Kind: harness.Open, Name: b.p.Ref + "." + b.called(t), A: t, B: minus, Amps: unit.Ampere(factor * float64(b.w.Output.V)), When: running})
	}
}

// solarPanel is a source with a voltage of its own, which no fuse parts from anything.
func (b *builder) solarPanel() {
	if plus, minus, ok := b.two("+", "-"); ok {
		volts := b.p.Charge.OpenVolts
		b.element(harness.Element{Kind: harness.Open, Name: b.p.Ref + "." + b.called(plus), A: plus, B: minus, Amps: b.p.Charge.Short, Volts: volts})
		b.element(harness.Element{Kind: harness.Open, Name: b.p.Ref + "." + b.called(minus), A: minus, B: plus, Amps: b.p.Charge.Short, Volts: -volts})
	}
}

// solarRegulator gives what it is limited to while the sun shines on its panel; the check
// takes a smaller panel into account.
func (b *builder) solarRegulator() {
	b.p.Positions = []string{"night", "sun"}
	plus, okP := b.role("B+")
	minus, okM := b.role("B-")
	if !okP || !okM {
		b.poles("B+", "B-")
		return
	}
	b.charger(plus, minus, b.w.Output.V, b.in(Sun))
	use := ownUse
	if b.p.Charge.Tracking {
		use = ownTracks
	}
	b.load(b.p.Ref+".own", plus, minus, unit.Draw{Amps: use}, harness.AsResistance)
	if out, ok := b.role("LOAD+"); ok {
		b.element(harness.Element{Kind: harness.Contact, Name: b.p.Ref + ".load", A: plus, B: out, Ohms: contactR})
	}
	if back, ok := b.role("LOAD-"); ok {
		b.element(harness.Element{Kind: harness.Join, Name: b.between(b.called(minus), b.called(back)), A: minus, B: back})
	}
}

func (b *builder) shoreCharger() {
	b.p.Positions = []string{"unplugged", "plugged"}
	plus, okP := b.role("+")
	minus, okM := b.role("-")
	if !okP || !okM {
		b.poles("+", "-")
		return
	}
	b.charger(plus, minus, b.w.Output.V, b.in(1))
}

// inverter draws constant power while it is on, and its standing draw while it idles.
func (b *builder) inverter() {
	b.p.Positions = []string{"off", "idle", "on"}
	plus, minus, ok := b.two("+", "-")
	if !ok {
		return
	}
	gives := float64(b.w.Power.V)
	b.load(b.p.Ref, plus, minus, unit.Draw{Watts: unit.Watt(gives / float64(b.w.Efficiency.Or(inverts)))}, harness.AsPower)
	b.last().When = b.in(2)
	standing := unit.Draw{Watts: unit.Watt(gives * standShare)}
	if b.w.Standing.Given() {
		standing = b.w.Standing.V
	}
	b.load(b.p.Ref+".standing", plus, minus, standing, harness.AsPower)
	b.last().When = b.in(1)
}

func (b *builder) shunt() {
	ohms := b.w.Ohms.V
	if ohms <= 0 {
		ohms = unit.Ohm(float64(b.w.Drop.Or(shuntVolts)) / float64(b.w.Rating.Or(shuntAmps)))
	}
	a, okA := b.role("1")
	z, okZ := b.role("2")
	if okA && okZ {
		b.element(harness.Element{Kind: harness.Resistance, Name: b.p.Ref, A: a, B: z, Ohms: ohms})
	}
}

// batteryMonitor is fed from B1 and has its minus by the shunt's S1.
func (b *builder) batteryMonitor() {
	feed, okF := b.role("B1")
	sense, okS := b.role("S1")
	if !okF || !okS {
		b.poles("B1", "S1")
		return
	}
	draw := unit.Draw{Amps: monitorA}
	if b.w.Draws.Given() {
		draw = b.w.Draws.V
	}
	b.between2(feed, sense, draw, harness.AsResistance, "own")
	if second, ok := b.role("B2"); ok {
		b.between2(second, sense, unit.Draw{Amps: senseA}, harness.AsResistance, "B2")
	}
}

// splitCharge closes by the voltage at 30, or by what drives its 86.
func (b *builder) splitCharge() {
	a, okA := b.role("30")
	z, okZ := b.role("87")
	earth, okE := b.role("85")
	if !okA || !okZ || !okE {
		b.Fail("terminals-unclear", b.w.Key.Span, "name its terminals 30, 87 and 85 (or 31), and 86 where something drives it", "%s is a split-charge relay without the usual terminals", b.p.Ref)
		return
	}
	if drive, ok := b.role("86"); ok {
		coil := b.ownCoil("coil", drive, earth, coilWatts, b.volts(pullIn), b.volts(dropOut))
		b.last().Senses = false
		b.follow(a, z, harness.Condition{Kind: harness.Energised, Coil: coil})
		return
	}
	in, out := b.w.CutIn.Or(b.volts(splitIn)), b.w.CutOff.Or(b.volts(splitOut))
	b.sensing(a, a, z, earth, in, out)
	if b.w.Senses.Text == "both" {
		b.sensing(z, a, z, earth, in, out)
	}
}

// sensing closes 30-87 by the voltage at one of them; while it is closed it holds itself
// with a current of its own.
func (b *builder) sensing(at, a, z, earth harness.TerminalID, in, out unit.Volt) {
	name := "coil"
	if at != a {
		name += "-" + b.called(at)
	}
	coil := b.ownCoil(name, at, earth, splitWatts, in, out)
	closed := harness.Condition{Kind: harness.Energised, Coil: coil}
	b.element(harness.Element{Kind: harness.Contact, Name: b.unique(b.between(b.called(a), b.called(z))), A: a, B: z, Ohms: contactR, When: closed})
	b.between2(at, earth, unit.Draw{Amps: holdA, At: b.own().Volts}, harness.AsResistance, "hold-"+b.called(at))
	b.last().When, b.last().Senses = closed, true
}
