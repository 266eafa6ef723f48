package symbol

import (
	"math"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/harness"
)

// plainLoads are the kinds of loads that have two terminals and one pictogram, in the
// order of the reading guide.
var plainLoads = []struct {
	kind harness.Kind
	v    Variant
	draw func(p *pen, cx, cy float64)
}{
	{harness.Heater, "heater", (*pen).heater},
	{harness.Coil, "ignition coil", (*pen).coil},
	{harness.Solenoid, "solenoid, valve", (*pen).solenoid},
	{harness.Horn, "horn", (*pen).horn},
	{harness.Outlet, "outlet, socket", (*pen).outlet},
	{harness.Sender, "sender", (*pen).sender},
	{harness.Gauge, "gauge", (*pen).gauge},
}

// motor is the trade's circle with its letter.
func (p *pen) motor(cx, cy float64) {
	p.ring(cx, cy, half)
	p.path(cx-2.1, cy+2.2, cx-2.1, cy-2.2, cx, cy+0.5, cx+2.1, cy-2.2, cx+2.1, cy+2.2)
}

// fan is four vanes about a hub.
func (p *pen) fan(cx, cy float64) {
	p.ring(cx, cy, half)
	for i := range 4 {
		p.vane(cx, cy, float64(i)*90+20)
	}
	p.dot(cx, cy, 0.9)
}

// vane is one blade of a fan, hollow at one side and full at the other.
func (p *pen) vane(cx, cy, deg float64) {
	at := func(r, turn float64) sheet.Point {
		sin, cos := math.Sincos((deg + turn) * math.Pi / 180)
		return sheet.Point{X: cx + r*cos, Y: cy - r*sin}
	}
	edge := sheet.Rounded(weight)
	c1, c2, c3, c4 := at(2, 4), at(3.2, 2), at(3.9, 42), at(2.2, 48)
	tip := at(4.1, 14)
	p.Add(sheet.Path{Start: at(0.8, 0), Segs: []sheet.Seg{{P: tip, C1: &c1, C2: &c2}, {P: at(0.8, 0), C1: &c3, C2: &c4}}, Closed: true, Stroke: &edge, Fill: &sheet.Pale})
}

// pump is a drop that is pushed on.
func (p *pen) pump(cx, cy float64) {
	p.ring(cx, cy, half)
	p.drop(cx-1.9, cy)
	p.solid(cx+1, cy-2.4, cx+4.1, cy, cx+1, cy+2.4)
}

func (p *pen) drop(cx, cy float64) {
	edge := sheet.Rounded(weight)
	at := func(x, y float64) *sheet.Point { return &sheet.Point{X: cx + x, Y: cy + y} }
	p.Add(sheet.Path{Start: *at(0, -3), Closed: true, Stroke: &edge, Fill: &sheet.Pale, Segs: []sheet.Seg{
		{P: *at(1.6, 1), C1: at(0.5, -1.5), C2: at(1.6, 0)}, {P: *at(0, 2.6), C1: at(1.6, 1.9), C2: at(0.9, 2.6)},
		{P: *at(-1.6, 1), C1: at(-0.9, 2.6), C2: at(-1.6, 1.9)}, {P: *at(0, -3), C1: at(-1.6, 0), C2: at(-0.5, -1.5)}}})
}

// wiper is a blade over the arc that it sweeps.
func (p *pen) wiper(cx, cy float64) {
	p.ring(cx, cy, half)
	p.Arc(cx, cy+2.8, 5.4, 48, 132, sheet.Dashed(weight, 0.9, 0.7))
	p.Line(cx, cy+2.8, cx+2.5, cy-0.9, sheet.Rounded(bold))
	p.dot(cx, cy+2.8, 0.9)
}

// window is a pane that is moved up and down.
func (p *pen) window(cx, cy float64) {
	p.ring(cx, cy, half)
	p.shape(cx-3.2, cy+2.2, cx-3.2, cy-0.4, cx-1.4, cy-2.6, cx+0.7, cy-2.6, cx+0.7, cy+2.2)
	p.line(cx+2.4, cy-1.4, cx+2.4, cy+1.4)
	p.solid(cx+1.4, cy-1.2, cx+2.4, cy-2.9, cx+3.4, cy-1.2)
	p.solid(cx+1.4, cy+1.2, cx+2.4, cy+2.9, cx+3.4, cy+1.2)
}

// starter is a motor with its pinion.
func (p *pen) starter(cx, cy float64) {
	p.ring(cx-1.6, cy, 4)
	p.path(cx-3.3, cy+1.7, cx-3.3, cy-1.7, cx-1.6, cy+0.4, cx+0.1, cy-1.7, cx+0.1, cy+1.7)
	p.Line(cx+2.4, cy, cx+4, cy, sheet.Rounded(bold))
	p.box(cx+4, cy-2.6, 2.2, 5.2, 0.3)
	for _, dy := range []float64{-1.3, 0, 1.3} {
		p.line(cx+4, cy+dy, cx+6.2, cy+dy)
	}
}

// lamp is the trade's circle with its cross.
func (p *pen) lamp(cx, cy float64) {
	p.ring(cx, cy, half)
	d := half / math.Sqrt2
	p.line(cx-d, cy-d, cx+d, cy+d)
	p.line(cx-d, cy+d, cx+d, cy-d)
}

// filaments are two glowing wires in one bulb.
func (p *pen) filaments(cx, cy float64) {
	p.ring(cx, cy, half)
	for _, dy := range []float64{-1.9, 1.9} {
		p.wave(cx-2.6, cy+dy, 5.2, 0.9, 4)
		p.line(cx-4.5, cy+dy, cx-2.6, cy+dy)
		p.line(cx+2.6, cy+dy, cx+4.5, cy+dy)
	}
}

// diodeLamp is a diode that gives light.
func (p *pen) diodeLamp(cx, cy float64) {
	p.ring(cx, cy, half)
	p.line(cx-half, cy, cx+half, cy)
	p.solid(cx-1.9, cy-2.3, cx-1.9, cy+2.3, cx+1.9, cy)
	p.Line(cx+1.9, cy-2.4, cx+1.9, cy+2.4, sheet.Rounded(bold))
	p.ray(cx+3.3, cy-3.9)
	p.ray(cx+4.5, cy-2.5)
}

// ray is a short arrow up to the right.
func (p *pen) ray(x, y float64) {
	p.line(x, y, x+1.1, y-1.1)
	p.solid(x+1.8, y-1.8, x+1.5, y-0.3, x+0.3, y-1.5)
}

// heater is a plate from which warmth rises.
func (p *pen) heater(cx, cy float64) {
	p.box(cx-half, cy-0.4, 2*half, 2.8, 0.6)
	for _, dx := range []float64{-2.5, 0, 2.5} {
		p.line(cx+dx, cy-0.4, cx+dx, cy+2.4)
		p.plumb(cx+dx, cy-5.2, 3.8, 0.9, 2)
	}
}

// coil is an ignition coil: a winding and its spark.
func (p *pen) coil(cx, cy float64) {
	for i := range 4 {
		p.Arc(cx-3.75+float64(i)*2.5, cy, 1.25, -180, 0, sheet.Rounded(weight))
	}
	p.line(cx-half, cy+2.6, cx+half, cy+2.6)
	p.solid(cx+1.1, cy-5.3, cx-1.7, cy-2.4, cx-0.3, cy-2.4, cx-1, cy-0.2, cx+1.7, cy-3.5, cx+0.4, cy-3.5)
}

// solenoid is a winding that draws a plunger up.
func (p *pen) solenoid(cx, cy float64) {
	p.winding(cx, cy+0.6, 10, 4.8)
	p.Line(cx, cy-1.9, cx, cy-3.6, sheet.Rounded(1.2))
	p.solid(cx-1.7, cy-3.2, cx, cy-5.3, cx+1.7, cy-3.2)
}

// winding is a coil former with its turns.
func (p *pen) winding(cx, cy, w, h float64) {
	p.box(cx-w/2, cy-h/2, w, h, 0.8)
	for i := range 4 {
		x := cx - w/2 + w*(float64(i)+0.6)/4.6
		p.line(x, cy+h/2-0.9, x+w*0.12, cy-h/2+0.9)
	}
}

// horn is a trumpet that sounds upward.
func (p *pen) horn(cx, cy float64) {
	p.line(cx-half, cy, cx+half, cy)
	p.shape(cx-2.4, cy+3.4, cx-2.4, cy-0.6, cx-4, cy-2.6, cx+4, cy-2.6, cx+2.4, cy-0.6, cx+2.4, cy+3.4)
	p.line(cx-2.4, cy+1.4, cx+2.4, cy+1.4)
	p.Arc(cx, cy+0.6, 4.5, 55, 125, sheet.Rounded(weight))
	p.Arc(cx, cy+0.6, 5.8, 58, 122, sheet.Rounded(weight))
}

// outlet is a round socket with its centre contact.
func (p *pen) outlet(cx, cy float64) {
	p.ring(cx, cy, half)
	p.ring(cx, cy, 3.2)
	p.dot(cx, cy, 1)
	p.line(cx-half, cy, cx-3.2, cy)
	p.line(cx+3.2, cy, cx+half, cy)
}

// sender is a probe that hangs from its head into what it feels.
func (p *pen) sender(cx, cy float64) {
	p.line(cx-half, cy, cx+half, cy)
	p.box(cx-2.6, cy-1.8, 5.2, 3.2, 0.6)
	p.line(cx, cy+1.4, cx, cy+3.8)
	p.dot(cx, cy+4.6, 1.1)
	p.wave(cx-4.8, cy+3.2, 3.4, 0.6, 2)
	p.wave(cx+1.4, cy+3.2, 3.4, 0.6, 2)
}

// gauge is a dial with its needle.
func (p *pen) gauge(cx, cy float64) {
	p.ring(cx, cy, half)
	for _, deg := range []float64{0, 45, 90, 135, 180} {
		sin, cos := math.Sincos(deg * math.Pi / 180)
		p.line(cx+3.6*cos, cy+1-3.6*sin, cx+(3.6+0.9)*cos, cy+1-(3.6+0.9)*sin)
	}
	p.Line(cx, cy+1.6, cx+1.9, cy-1.6, sheet.Rounded(bold))
	p.dot(cx, cy+1.6, 0.9)
}

// module is a box of electronics: pulses in a case with feet.
func (p *pen) module(cx, cy float64) {
	p.box(cx-4.4, cy-3.6, 8.8, 7.2, 0.8)
	p.path(cx-3, cy+1.4, cx-1.6, cy+1.4, cx-1.6, cy-1.6, cx+0.4, cy-1.6, cx+0.4, cy+1.4, cx+1.8, cy+1.4, cx+1.8, cy-1.6, cx+3, cy-1.6)
	for _, dx := range []float64{-2.6, 0, 2.6} {
		p.line(cx+dx, cy-5, cx+dx, cy-3.6)
		p.line(cx+dx, cy+3.6, cx+dx, cy+5)
	}
}
