package symbol

import (
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/harness"
)

// The variants of what makes charge, or carries it.
const (
	controlBoxOne     Variant = "control box of a dynamo"
	statorOne         Variant = "stator, magneto"
	rectifierOne      Variant = "rectifier-regulator"
	solarPanelOne     Variant = "solar panel"
	solarRegulatorOne Variant = "solar regulator"
	shoreChargerOne   Variant = "shore charger"
	inverterOne       Variant = "inverter"
	shuntOne          Variant = "shunt"
	monitorOne        Variant = "battery monitor"
	splitChargeOne    Variant = "split-charge relay"
)

// chargingKinds are the kinds of which each has one pictogram, in the order of the reading
// guide: what arrives at one, and what leaves it.
var chargingKinds = []struct {
	kind    harness.Kind
	v       Variant
	in, out string
	draw    func(p *pen, cx, cy float64)
}{
	{harness.Dynamo, dynamoOne, "F", "D", (*pen).dynamo},
	{harness.ControlBox, controlBoxOne, "D", "A F E", (*pen).controlBox},
	{harness.Stator, statorOne, "", "AC1 AC2 AC3", (*pen).stator},
	{harness.RectifierRegulator, rectifierOne, "AC1 AC2", "+ -", (*pen).rectifier},
	{harness.SolarPanel, solarPanelOne, "", "+ -", (*pen).solarPanel},
	{harness.SolarRegulator, solarRegulatorOne, "PV+ PV-", "B+ B-", (*pen).solarRegulator},
	{harness.ShoreCharger, shoreChargerOne, "", "+ -", (*pen).shoreCharger},
	{harness.Inverter, inverterOne, "+", "-", (*pen).inverter},
	{harness.Shunt, shuntOne, "1", "2", (*pen).shunt},
	{harness.BatteryMonitor, monitorOne, "B1 S2", "S1", (*pen).monitor},
	{harness.SplitCharge, splitChargeOne, "30", "87 85", (*pen).splitCharge},
}

// chargingVariant gives the pictogram of what makes charge, "" for other kinds.
func chargingVariant(k harness.Kind) Variant {
	for _, c := range chargingKinds {
		if c.kind == k {
			return c.v
		}
	}
	return ""
}

func chargingSamples() []sample {
	var all []sample
	for _, c := range chargingKinds {
		if c.kind != harness.Dynamo { // it stands beside the alternator
			all = append(all, sample{v: c.v, kind: c.kind, in: c.in, out: c.out})
		}
	}
	return all
}

// controlBox is a cut-out's coil with the contact that it closes.
func (p *pen) controlBox(cx, cy float64) {
	p.box(cx-5.4, cy-0.6, 4, 5.2, 0.3)
	p.line(cx-5.4, cy+4.6, cx-1.4, cy-0.6)
	p.dot(cx-0.2, cy-3.4, 0.8)
	p.Line(cx-0.2, cy-3.4, cx+4.6, cy-5.2, sheet.Rounded(bold))
	p.ring(cx+5, cy-3.2, 0.8)
	p.dashed(cx-3.4, cy-0.6, cx+1.6, cy-4)
	p.zigzag(cx+2.6, cy+2, 2.6)
}

// stator is three windings that meet.
func (p *pen) stator(cx, cy float64) {
	p.ring(cx, cy, half)
	p.plumb(cx, cy-3.9, 3.4, 0.9, 3)
	p.wave(cx-4, cy+1.6, 3.4, 0.9, 3)
	p.wave(cx+0.6, cy+1.6, 3.4, 0.9, 3)
	p.line(cx, cy-0.5, cx-0.6, cy+1.6)
	p.line(cx, cy-0.5, cx+0.6, cy+1.6)
}

// rectifier makes waves go one way.
func (p *pen) rectifier(cx, cy float64) {
	p.box(cx-5.4, cy-4.6, 10.8, 9.2, 0.3)
	p.line(cx-5.4, cy+4.6, cx+5.4, cy-4.6)
	p.wave(cx-4.4, cy-1.8, 4, 1, 2)
	p.line(cx+1, cy+1.6, cx+4.4, cy+1.6)
	p.line(cx+1, cy+2.8, cx+4.4, cy+2.8)
}

// solarPanel is a field of cells under the sun's rays.
func (p *pen) solarPanel(cx, cy float64) {
	p.box(cx-5.4, cy-1.6, 10.8, 6.4, 0)
	for _, dx := range []float64{-1.8, 1.8} {
		p.line(cx+dx, cy-1.6, cx+dx, cy+4.8)
	}
	p.line(cx-5.4, cy+1.6, cx+5.4, cy+1.6)
	for _, dx := range []float64{-3, 0, 3} {
		p.line(cx+dx, cy-5.4, cx+dx+1, cy-3.6)
		p.solid(cx+dx+0.4, cy-3.6, cx+dx+1.5, cy-2.4, cx+dx+1.4, cy-4)
	}
}

// solarRegulator lets the sun's current go one way.
func (p *pen) solarRegulator(cx, cy float64) {
	p.box(cx-5.4, cy-4.6, 10.8, 9.2, 0.8)
	p.ring(cx-2.4, cy-1.4, 1.3)
	for _, d := range [][2]float64{{0, -1}, {0, 1}, {-1, 0}, {1, 0}} {
		p.line(cx-2.4+1.8*d[0], cy-1.4+1.8*d[1], cx-2.4+2.6*d[0], cy-1.4+2.6*d[1])
	}
	p.oneWay(cx+0.6, cy+2.8)
}

// shoreCharger is a plug whose current goes one way.
func (p *pen) shoreCharger(cx, cy float64) {
	p.box(cx-5.4, cy-4.6, 10.8, 9.2, 0.8)
	p.box(cx-2.4, cy-2.6, 3, 2.6, 0.6)
	p.Line(cx+0.6, cy-2, cx+2.4, cy-2, sheet.Rounded(bold))
	p.Line(cx+0.6, cy-0.6, cx+2.4, cy-0.6, sheet.Rounded(bold))
	p.line(cx-4.4, cy-1.3, cx-2.4, cy-1.3)
	p.oneWay(cx, cy+2.6)
}

// inverter makes waves of what goes one way.
func (p *pen) inverter(cx, cy float64) {
	p.box(cx-5.4, cy-4.6, 10.8, 9.2, 0.8)
	p.line(cx-5.4, cy+4.6, cx+5.4, cy-4.6)
	p.line(cx-4.4, cy-2.8, cx-1, cy-2.8)
	p.line(cx-4.4, cy-1.6, cx-1, cy-1.6)
	p.wave(cx+0.4, cy+2.2, 4, 1, 2)
}

// shunt is a bar whose loss is tapped at both ends.
func (p *pen) shunt(cx, cy float64) {
	p.line(cx-half, cy, cx-3.4, cy)
	p.line(cx+3.4, cy, cx+half, cy)
	p.Rect(cx-3.4, cy-1.1, 6.8, 2.2, sheet.Filled(sheet.Ink))
	for _, dx := range []float64{-2.6, 2.6} {
		p.line(cx+dx, cy, cx+dx, cy-3.4)
		p.ring(cx+dx, cy-3.8, 0.8)
	}
}

// monitor is a dial with a battery's sign in it.
func (p *pen) monitor(cx, cy float64) {
	p.ring(cx, cy, half)
	p.Arc(cx, cy+0.8, 3.2, 30, 150, sheet.Rounded(weight))
	p.Line(cx, cy+0.8, cx+1.8, cy-1.8, sheet.Rounded(bold))
	p.line(cx-0.6, cy+1.8, cx-0.6, cy+4)
	p.Line(cx+0.6, cy+2.2, cx+0.6, cy+3.6, sheet.Rounded(bold))
}

// splitCharge is a contact between two batteries.
func (p *pen) splitCharge(cx, cy float64) {
	for _, side := range []float64{-1, 1} {
		p.line(cx+side*4.6, cy+0.4, cx+side*4.6, cy+4.6)
		p.Line(cx+side*3.4, cy+1.4, cx+side*3.4, cy+3.6, sheet.Rounded(bold))
		p.line(cx+side*4.6, cy+2.4, cx+side*5.6, cy+2.4)
	}
	p.dot(cx-2.4, cy-2.4, 0.8)
	p.Line(cx-2.4, cy-2.4, cx+2, cy-4.8, sheet.Rounded(bold))
	p.ring(cx+2.6, cy-2.4, 0.8)
	p.path(cx-2.4, cy-2.4, cx-5.6, cy-2.4, cx-5.6, cy+2.4)
	p.path(cx+3.4, cy-2.4, cx+5.6, cy-2.4, cx+5.6, cy+2.4)
}
