package symbol

import (
	"math"
	"strings"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/harness"
)

// half is half the width of a pictogram: leads reach from it to the tabs.
const half = 5.0

// glyph draws the pictogram of a part that has one way through, centred on cx, cy.
func (p *pen) glyph(part *harness.Part, cx, cy float64) {
	switch part.Kind {
	case harness.Fuse, harness.FusePanel:
		p.link(cx, cy)
	case harness.Breaker:
		p.breaker(cx, cy)
	case harness.Isolator:
		p.isolator(cx, cy)
	case harness.Switch:
		p.lever(cx, cy, part.Momentary, false)
	case harness.Motor:
		p.motor(part.Name, cx, cy)
	case harness.Lamp:
		p.lamp(cx, cy)
	case harness.Heater:
		p.heater(cx, cy)
	case harness.Coil:
		p.coil(cx, cy)
	case harness.Solenoid:
		p.solenoid(cx, cy)
	case harness.Horn:
		p.horn(cx, cy)
	case harness.Outlet:
		p.outlet(cx, cy)
	case harness.Sender:
		p.sender(cx, cy)
	case harness.Gauge:
		p.gauge(cx, cy)
	default:
		p.blockGlyph(part, cx, cy)
	}
}

// blockGlyph draws the parts with more terminals and the plain components.
func (p *pen) blockGlyph(part *harness.Part, cx, cy float64) {
	switch part.Kind {
	case harness.Battery:
		p.plates(cx, cy)
	case harness.Alternator:
		p.alternator(cx, cy)
	case harness.Starter:
		p.starter(cx, cy)
	case harness.Flasher:
		p.flasher(cx, cy)
	case harness.Bus:
		p.bar(cx, cy)
	case harness.Diode:
		p.diode(cx, cy, 1)
	case harness.Resistor:
		p.resistor(cx, cy, half)
	case harness.Capacitor:
		p.capacitor(cx, cy)
	case harness.Strap:
		p.strap(cx, cy)
	default:
		p.module(cx, cy)
	}
}

// link is a fuse's melting strip between its two blades.
func (p *pen) link(cx, cy float64) {
	p.dot(cx-half, cy, 0.8)
	p.dot(cx+half, cy, 0.8)
	p.wave(cx-half, cy, 2*half, 2.2, 2)
}

// breaker is a bow that lifts off one of its contacts.
func (p *pen) breaker(cx, cy float64) {
	p.dot(cx-half, cy, 0.8)
	p.ring(cx+half-0.8, cy, 0.8)
	p.Arc(cx, cy+1, 4.6, 30, 168, sheet.Rounded(weight))
	p.solid(cx-1, cy-3.6, cx+1, cy-3.6, cx, cy-1.8)
}

// lever is a contact at rest, open or closed; a push button has a cap.
func (p *pen) lever(cx, cy float64, push, closed bool) {
	p.dot(cx-half, cy, 0.8)
	p.ring(cx+half-0.8, cy, 0.8)
	end := cy - 3.6
	if closed {
		end = cy - 0.6
	}
	p.Line(cx-half, cy, cx+half-1.4, end, sheet.Rounded(0.7))
	if push {
		mid := (cy + end) / 2
		p.dashed(cx, mid, cx, cy-4.6)
		p.Line(cx-2, cy-5, cx+2, cy-5, sheet.Rounded(0.7))
	}
}

// isolator is a turning key that bridges two studs, at rest across them.
func (p *pen) isolator(cx, cy float64) {
	p.ring(cx-half, cy, 1)
	p.ring(cx+half, cy, 1)
	p.ring(cx, cy, 2.8)
	p.Line(cx, cy-4.6, cx, cy+4.6, sheet.Rounded(0.7))
}

func (p *pen) motor(name string, cx, cy float64) {
	p.ring(cx, cy, half)
	switch low := strings.ToLower(name); {
	case has(low, "fan", "blower", "ventilator"):
		p.blades(cx, cy)
	case has(low, "pump"):
		p.pump(cx, cy)
	case has(low, "wiper"):
		p.wiper(cx, cy)
	default:
		p.path(cx-2, cy+2, cx-2, cy-2, cx, cy+0.4, cx+2, cy-2, cx+2, cy+2)
	}
}

func has(s string, words ...string) bool {
	for _, w := range words {
		if strings.Contains(s, w) {
			return true
		}
	}
	return false
}

// blades are four vanes about a hub.
func (p *pen) blades(cx, cy float64) {
	for i := range 4 {
		a := float64(i)*math.Pi/2 + 0.5
		at := func(r, turn float64) (float64, float64) {
			return cx + r*math.Cos(a+turn), cy + r*math.Sin(a+turn)
		}
		x1, y1 := at(0.8, 0)
		x2, y2 := at(4.1, -0.12)
		x3, y3 := at(4.1, 0.62)
		p.Polygon([]sheet.Point{{X: x1, Y: y1}, {X: x2, Y: y2}, {X: x3, Y: y3}}, sheet.Both(sheet.Rounded(weight), sheet.Pale))
	}
	p.dot(cx, cy, 0.9)
}

// pump is a drop pushed on by an arrow.
func (p *pen) pump(cx, cy float64) {
	p.solid(cx+0.4, cy-2.6, cx+4, cy, cx+0.4, cy+2.6)
	p.line(cx-4, cy-1.3, cx, cy-1.3)
	p.line(cx-4, cy+1.3, cx, cy+1.3)
}

// wiper is a blade over the arc that it sweeps.
func (p *pen) wiper(cx, cy float64) {
	p.dot(cx, cy+2.6, 0.7)
	p.Arc(cx, cy+2.6, 5.2, 45, 135, sheet.Dashed(weight, 0.9, 0.7))
	p.Line(cx, cy+2.6, cx+2.5, cy-1.7, sheet.Rounded(0.7))
}

func (p *pen) lamp(cx, cy float64) {
	p.ring(cx, cy, half)
	d := half / math.Sqrt2
	p.line(cx-d, cy-d, cx+d, cy+d)
	p.line(cx-d, cy+d, cx+d, cy-d)
}

// heater is a plate from which warmth rises.
func (p *pen) heater(cx, cy float64) {
	p.box(cx-half, cy+1.6, 2*half, 2.6, 0.6)
	for _, dx := range []float64{-2.8, 0, 2.8} {
		p.plumb(cx+dx, cy-4.4, 4.8, 0.9, 2)
	}
}

// coil is an ignition coil: a winding and its spark.
func (p *pen) coil(cx, cy float64) {
	for i := range 4 {
		p.Arc(cx-2, cy-3.6+float64(i)*2.4, 1.2, -90, 90, sheet.Rounded(weight))
	}
	p.line(cx-4.4, cy-4.8, cx-2, cy-4.8)
	p.line(cx-4.4, cy+4.8, cx-2, cy+4.8)
	p.solid(cx+2.8, cy-4, cx+0.8, cy+0.6, cx+2.2, cy+0.6, cx+1.4, cy+4.2, cx+4.4, cy-0.8, cx+2.9, cy-0.8, cx+4.2, cy-4)
}

// solenoid is a winding with a plunger.
func (p *pen) solenoid(cx, cy float64) {
	p.winding(cx-1, cy, 6, 6)
	p.Line(cx+2, cy, cx+5.2, cy, sheet.Rounded(0.7))
	p.solid(cx+4.6, cy-1.4, cx+6.2, cy, cx+4.6, cy+1.4)
}

// winding is a coil former with its turns.
func (p *pen) winding(cx, cy, w, h float64) {
	p.box(cx-w/2, cy-h/2, w, h, 0.8)
	for i := range 4 {
		x := cx - w/2 + w*(float64(i)+0.6)/4.6
		p.line(x, cy+h/2-0.9, x+w*0.12, cy-h/2+0.9)
	}
}

// horn is a trumpet with its sound.
func (p *pen) horn(cx, cy float64) {
	p.shape(cx-4.6, cy-1.2, cx-2.2, cy-1.2, cx+1, cy-3.8, cx+1, cy+3.8, cx-2.2, cy+1.2, cx-4.6, cy+1.2)
	p.Arc(cx, cy, 3, -35, 35, sheet.Rounded(weight))
	p.Arc(cx, cy, 4.8, -35, 35, sheet.Rounded(weight))
}

// outlet is a round socket with its centre contact.
func (p *pen) outlet(cx, cy float64) {
	p.ring(cx, cy, half)
	p.ring(cx, cy, 3.2)
	p.dot(cx, cy, 0.9)
	p.line(cx-half, cy, cx-3.2, cy)
	p.line(cx+3.2, cy, cx+half, cy)
}

// sender is a probe that dips below a surface.
func (p *pen) sender(cx, cy float64) {
	p.box(cx-2, cy-4.8, 4, 2.4, 0.4)
	p.line(cx, cy-2.4, cx, cy+2)
	p.dot(cx, cy+3, 1.1)
	p.wave(cx-5, cy+0.6, 3.8, 0.7, 2)
	p.wave(cx+1.2, cy+0.6, 3.8, 0.7, 2)
}

// gauge is a dial with its needle.
func (p *pen) gauge(cx, cy float64) {
	p.Arc(cx, cy+2.4, half, 0, 180, sheet.Rounded(weight))
	p.line(cx-half, cy+2.4, cx+half, cy+2.4)
	for _, deg := range []float64{30, 60, 90, 120, 150} {
		sin, cos := math.Sincos(deg * math.Pi / 180)
		p.line(cx+4*cos, cy+2.4-4*sin, cx+half*cos, cy+2.4-half*sin)
	}
	p.Line(cx, cy+2.4, cx+2.2, cy-0.9, sheet.Rounded(0.7))
	p.dot(cx, cy+2.4, 0.8)
}
