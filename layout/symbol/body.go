package symbol

import (
	"math"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/harness"
)

// sign is the pictogram of a kind of the body or the engine, with the terminals of its
// example in the reading guide.
type sign struct {
	kind    harness.Kind
	v       Variant
	in, out string
	draw    func(p *pen, cx, cy float64)
}

// signs are in the order of the reading guide.
var signs = []sign{
	{harness.Thermostat, "thermostat", "1", "2", (*pen).thermostat},
	{harness.PressureSwitch, "pressure switch", "1", "2", (*pen).pressure},
	{harness.Reed, "reed contact", "1", "2", (*pen).reed},
	{harness.Hall, "Hall sensor", "+ out", "-", (*pen).hall},
	{harness.Points, "points with condenser", "1", "31", (*pen).points},
	{harness.ElectronicFlasher, "electronic flasher", "49", "49a C 31", (*pen).electronicFlasher},
	{harness.GlowTimer, "glow plug timer", "30 15", "G1 L 31", (*pen).glowTimer},
	{harness.LatchingRelay, "latching relay", "30 S R", "87 31", (*pen).latch},
	{harness.Timer, "timer, delay relay", "30 15", "87 31", (*pen).timer},
	{harness.Stabiliser, "stabiliser of gauges", "B", "I E", (*pen).stabiliser},
	{harness.TrailerSocket, "trailer socket", "1 2", "3", (*pen).trailer},
	{harness.Wiper, "wiper with park contact", "53 53b 53a", "53e 31", (*pen).parkingWiper},
	{harness.Headlamp, "headlamp, main and dip", "56a 56b", "31", (*pen).headlamp},
	{harness.StopTail, "stop and tail lamp", "54 58", "31", (*pen).stopTail},
	{harness.Trafficator, "semaphore indicator", "+", "-", (*pen).semaphore},
	{harness.WindowMotor, "window motor, either way", "1", "2", (*pen).eitherWindow},
	{harness.LockMotor, "lock motor, either way", "1", "2", (*pen).lock},
	{harness.IgnitionCoil, "ignition coil with points", "15", "1", (*pen).sparkCoil},
	{harness.CDI, "capacitor-discharge ignition", "+", "-", (*pen).cdi},
	{harness.GlowPlugs, "glow plugs", "+", "-", (*pen).glowPlugs},
}

// signOf gives the sign of a kind; nil where it has none of these.
func signOf(k harness.Kind) *sign {
	for i := range signs {
		if signs[i].kind == k {
			return &signs[i]
		}
	}
	return nil
}

// signSamples are the examples of some roles' signs.
func signSamples() []sample {
	var out []sample
	for _, s := range signs {
		out = append(out, sample{v: s.v, kind: s.kind, in: s.in, out: s.out})
	}
	return out
}

// low is an open lever in the lower half, so that what moves it stands above.
func (p *pen) low(cx, cy float64) {
	p.dot(cx-half+0.8, cy+3, 0.8)
	p.line(cx-half, cy+3, cx-half+0.8, cy+3)
	p.ring(cx+half-0.8, cy+3, 0.8)
	p.Line(cx-half+0.8, cy+3, cx+3.6, cy+0.4, sheet.Rounded(bold))
}

// thermostat is a contact under a thermometer.
func (p *pen) thermostat(cx, cy float64) {
	p.low(cx, cy)
	p.dashed(cx, cy+1.4, cx, cy-0.6)
	p.ring(cx, cy-1.6, 1.1)
	p.box(cx-0.6, cy-5.6, 1.2, 3.1, 0.5)
	p.dot(cx, cy-1.6, 0.9)
}

// pressure is a contact under a bellows that is pressed on.
func (p *pen) pressure(cx, cy float64) {
	p.low(cx, cy)
	p.dashed(cx, cy+1.4, cx, cy-0.6)
	p.path(cx-3, cy-0.8, cx+3, cy-0.8)
	p.path(cx-3, cy-0.8, cx-3.8, cy-1.8, cx-3, cy-2.8)
	p.path(cx+3, cy-0.8, cx+3.8, cy-1.8, cx+3, cy-2.8)
	p.path(cx-3, cy-2.8, cx+3, cy-2.8)
	p.line(cx, cy-5.6, cx, cy-4.4)
	p.solid(cx-1.1, cy-4.4, cx+1.1, cy-4.4, cx, cy-2.9)
}

// reed is two tongues in a tube under a magnet.
func (p *pen) reed(cx, cy float64) {
	p.box(cx-4.6, cy-0.2, 9.2, 4, 1.9)
	p.line(cx-half, cy+1.8, cx-1, cy+1.8)
	p.Line(cx-4.2, cy+1.8, cx+1, cy+1, sheet.Rounded(bold))
	p.Line(cx-0.4, cy+2.5, cx+4.2, cy+1.8, sheet.Rounded(bold))
	p.line(cx+4.2, cy+1.8, cx+half, cy+1.8)
	p.box(cx-3, cy-4.8, 6, 2.4, 0.3)
	p.Rect(cx-3, cy-4.8, 3, 2.4, sheet.Filled(sheet.Ink))
}

// hall is a chip beside a toothed wheel.
func (p *pen) hall(cx, cy float64) {
	p.box(cx-5.4, cy-2.4, 4.2, 4.8, 0.4)
	p.line(cx-4.6, cy-1.2, cx-2, cy-1.2)
	p.line(cx-4.6, cy, cx-2, cy)
	p.line(cx-4.6, cy+1.2, cx-2, cy+1.2)
	p.ring(cx+2.9, cy, 2.2)
	for i := range 8 {
		sin, cos := math.Sincos(float64(i) * math.Pi / 4)
		p.Line(cx+2.9+2.2*cos, cy+2.2*sin, cx+2.9+3.1*cos, cy+3.1*sin, sheet.Rounded(bold))
	}
	p.dot(cx+2.9, cy, 0.7)
}

// points are a contact on a cam with four lobes, a condenser across it.
func (p *pen) points(cx, cy float64) {
	p.dot(cx-half+0.8, cy-1.2, 0.8)
	p.line(cx-half, cy-1.2, cx+2.4, cy-1.2)
	p.line(cx+2.6, cy-2.4, cx+2.6, cy)
	p.Line(cx+3.4, cy-2.4, cx+3.4, cy, sheet.Rounded(bold))
	p.line(cx+3.4, cy-1.2, cx+half, cy-1.2)
	p.shape(cx-1.6, cy+1.2, cx+1.6, cy+1.2, cx+1.6, cy+4.4, cx-1.6, cy+4.4)
	p.dot(cx, cy+2.8, 0.7)
	p.line(cx-0.4, cy-1.2, cx-0.4, cy+1.2)
	p.path(cx-4, cy-1.2, cx-4, cy-4.2, cx-0.6, cy-4.2)
	p.path(cx+4.4, cy-1.2, cx+4.4, cy-4.2, cx+0.6, cy-4.2)
	p.line(cx-0.6, cy-5.5, cx-0.6, cy-2.9)
	p.line(cx+0.6, cy-5.5, cx+0.6, cy-2.9)
}

// electronicFlasher is the beat in a box of electronics.
func (p *pen) electronicFlasher(cx, cy float64) {
	p.box(cx-5, cy-4.4, 10, 8.8, 0.8)
	p.path(cx-4, cy+1.6, cx-2.6, cy+1.6, cx-2.6, cy-1.6, cx-0.6, cy-1.6, cx-0.6, cy+1.6, cx+1.4, cy+1.6, cx+1.4, cy-1.6, cx+3.4, cy-1.6, cx+3.4, cy+1.6)
	p.line(cx, cy+4.4, cx, cy+5.6)
}

// clock is a dial with its hands.
func (p *pen) clock(cx, cy, r float64) {
	p.ring(cx, cy, r)
	p.line(cx, cy, cx, cy-0.7*r)
	p.line(cx, cy, cx+0.55*r, cy+0.3*r)
}

// timer is a contact that a clock moves.
func (p *pen) timer(cx, cy float64) {
	p.low(cx, cy)
	p.dashed(cx, cy+1.4, cx, cy)
	p.clock(cx, cy-2.7, 2.7)
}

// glowTimer is a contact that a clock moves, beside the plug that it heats.
func (p *pen) glowTimer(cx, cy float64) {
	p.low(cx, cy)
	p.dashed(cx-2, cy+2, cx-2, cy-0.4)
	p.clock(cx-2, cy-2.9, 2.4)
	p.plug(cx+3.2, cy-2.6, 0.8)
}

// plug is a glow plug with its hot tip down, so many times its size.
func (p *pen) plug(cx, cy, k float64) {
	p.line(cx, cy-3.6*k, cx, cy-2.4*k)
	p.box(cx-1.3*k, cy-2.4*k, 2.6*k, 2.2*k, 0.2)
	p.box(cx-0.8*k, cy-0.2*k, 1.6*k, 2.6*k, 0.6*k)
	p.dot(cx, cy+1.6*k, 0.6*k)
}

// glowPlugs stand in a row.
func (p *pen) glowPlugs(cx, cy float64) {
	p.line(cx-half, cy-4.5, cx+4, cy-4.5)
	for _, dx := range []float64{-4, 0, 4} {
		p.plug(cx+dx, cy, 1.25)
	}
}

// latch is a contact held by a notch until the other coil frees it.
func (p *pen) latch(cx, cy float64) {
	p.low(cx, cy)
	p.dashed(cx, cy+1.4, cx, cy-1)
	p.path(cx-2, cy-1, cx-0.9, cy-1, cx, cy-2, cx+0.9, cy-1, cx+2, cy-1)
	p.winding(cx-3.4, cy-3.8, 4, 2.8)
	p.winding(cx+3.4, cy-3.8, 4, 2.8)
}

// parkingWiper is a blade over its arc, with the cam that parks it.
func (p *pen) parkingWiper(cx, cy float64) {
	p.ring(cx, cy, half)
	p.Arc(cx, cy+0.6, 4, 40, 140, sheet.Dashed(weight, 0.9, 0.7))
	p.Line(cx, cy+0.6, cx+1.9, cy-2.3, sheet.Rounded(bold))
	p.dot(cx, cy+0.6, 0.9)
	p.ring(cx-1.4, cy+3, 1.4)
	p.line(cx-1.4, cy+1.6, cx-1.4, cy+3)
	p.Line(cx+0.2, cy+3, cx+3, cy+2.2, sheet.Rounded(bold))
}

// headlamp is two filaments before a mirror.
func (p *pen) headlamp(cx, cy float64) {
	cx -= 1.2
	p.Arc(cx+1, cy, 5.4, 100, 260, sheet.Rounded(bold))
	p.line(cx+0.1, cy-5.3, cx+4.2, cy-5.3)
	p.line(cx+0.1, cy+5.3, cx+4.2, cy+5.3)
	p.Arc(cx+1, cy, 6.2, -59, 59, sheet.Rounded(weight))
	p.wave(cx-2.6, cy-1.6, 5.2, 1, 4)
	p.wave(cx-1, cy+1.8, 5.2, 1, 4)
}

// stopTail is a strong filament over a weak one.
func (p *pen) stopTail(cx, cy float64) {
	p.ring(cx, cy, half)
	p.Line(cx-4.4, cy-1.7, cx-3, cy-1.7, sheet.Rounded(bold))
	p.Line(cx+3, cy-1.7, cx+4.4, cy-1.7, sheet.Rounded(bold))
	p.wave(cx-3, cy-1.7, 6, 1.4, 3)
	p.wave(cx-1.8, cy+2.2, 3.6, 0.5, 5)
	p.line(cx-4.4, cy+2.2, cx-1.8, cy+2.2)
	p.line(cx+1.8, cy+2.2, cx+4.4, cy+2.2)
}

// semaphore is an arm that is drawn up out of its pillar.
func (p *pen) semaphore(cx, cy float64) {
	p.box(cx-4.6, cy-4.8, 2.6, 9.6, 0.6)
	p.shape(cx-2.8, cy-0.9, cx+4.4, cy-3.4, cx+5.2, cy-1.4, cx-2.2, cy+0.9)
	p.dot(cx-3.1, cy+0.2, 0.8)
	p.Arc(cx-3.1, cy+0.2, 5.4, -60, -8, sheet.Dashed(weight, 0.9, 0.7))
}

// eitherWindow is a pane with an arrow each way, and both turns of its motor.
func (p *pen) eitherWindow(cx, cy float64) {
	p.ring(cx, cy, half)
	p.shape(cx-3, cy+1.6, cx-3, cy-1, cx-1.4, cy-2.9, cx+0.6, cy-2.9, cx+0.6, cy+1.6)
	p.line(cx+2.2, cy-2, cx+2.2, cy+1)
	p.solid(cx+1.2, cy-1.8, cx+2.2, cy-3.5, cx+3.2, cy-1.8)
	p.solid(cx+1.2, cy+0.8, cx+2.2, cy+2.5, cx+3.2, cy+0.8)
	p.line(cx-2.2, cy+3.6, cx+2.2, cy+3.6)
	p.solid(cx-2, cy+2.7, cx-3.2, cy+3.6, cx-2, cy+4.5)
	p.solid(cx+2, cy+2.7, cx+3.2, cy+3.6, cx+2, cy+4.5)
}

// lock is a padlock with an arrow to both sides.
func (p *pen) lock(cx, cy float64) {
	p.ring(cx, cy, half)
	p.box(cx-2.6, cy-0.8, 5.2, 3, 0.4)
	p.Arc(cx, cy-0.8, 1.8, 0, 180, sheet.Rounded(bold))
	p.dot(cx, cy+0.6, 0.6)
	p.line(cx-2, cy+3.6, cx+2, cy+3.6)
	p.solid(cx-1.8, cy+2.8, cx-3, cy+3.6, cx-1.8, cy+4.4)
	p.solid(cx+1.8, cy+2.8, cx+3, cy+3.6, cx+1.8, cy+4.4)
}

// sparkCoil is two windings on one core, and their spark.
func (p *pen) sparkCoil(cx, cy float64) {
	for i := range 4 {
		p.Arc(cx-3.75+float64(i)*2.5, cy+4, 1.25, 0, 180, sheet.Rounded(weight))
	}
	p.line(cx-half, cy+1.7, cx+half, cy+1.7)
	p.line(cx-half, cy+0.9, cx+half, cy+0.9)
	for i := range 6 {
		p.Arc(cx-4.2+float64(i)*1.68, cy+0.1, 0.84, 0, 180, sheet.Rounded(weight))
	}
	p.solid(cx+1.1, cy-5.6, cx-1.7, cy-3.2, cx-0.3, cy-3.2, cx-1, cy-1.4, cx+1.7, cy-4.1, cx+0.4, cy-4.1)
}

// cdi is a box of electronics with a spark in it.
func (p *pen) cdi(cx, cy float64) {
	p.box(cx-5, cy-4, 10, 8, 0.8)
	p.solid(cx+1.1, cy-2.6, cx-1.7, cy+0.3, cx-0.3, cy+0.3, cx-1, cy+2.6, cx+1.7, cy-0.8, cx+0.4, cy-0.8)
	p.line(cx-3.6, cy-2.4, cx-3.6, cy+2.4)
	p.line(cx-2.8, cy-2.4, cx-2.8, cy+2.4)
}

// stabiliser is a bimetal that opens and closes, and the level that it keeps.
func (p *pen) stabiliser(cx, cy float64) {
	p.box(cx-5, cy-5, 10, 10, 0.8)
	p.dot(cx-3.6, cy-1.8, 0.7)
	p.Arc(cx, cy+2, 5.2, 52, 133, sheet.Rounded(bold))
	p.ring(cx+3.8, cy-1.8, 0.7)
	p.wave(cx-3.2, cy-0.4, 5.6, 0.7, 6)
	p.line(cx-3.6, cy+2.6, cx+3.6, cy+2.6)
	p.path(cx-3.6, cy+4, cx-1.8, cy+4, cx-1.8, cy+1.4, cx, cy+1.4, cx, cy+4, cx+1.8, cy+4, cx+1.8, cy+1.4, cx+3.6, cy+1.4)
}

// trailer is a round socket with seven holes.
func (p *pen) trailer(cx, cy float64) {
	p.ring(cx, cy, half)
	p.box(cx-1.2, cy-5.2, 2.4, 1.2, 0.2)
	for i := range 6 {
		sin, cos := math.Sincos(float64(i)*math.Pi/3 + math.Pi/6)
		p.ring(cx+2.9*cos, cy-2.9*sin, 0.8)
	}
	p.ring(cx, cy, 0.8)
}
