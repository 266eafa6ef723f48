package symbol

import (
	"example.com/loomfolio/layout/sheet"
)

// plates are a battery's long and short plates with their signs.
func (p *pen) plates(cx, cy float64) {
	for i, h := range []float64{4.2, 2.2, 4.2, 2.2} {
		x := cx - 3 + float64(i)*2
		w := weight
		if i%2 == 1 {
			w = 0.8
		}
		p.Line(x, cy-h, x, cy+h, sheet.Solid(w))
	}
	p.line(cx-6, cy-3.4, cx-4, cy-3.4)
	p.line(cx-5, cy-4.4, cx-5, cy-2.4)
	p.line(cx+4.2, cy-3.4, cx+6, cy-3.4)
}

// alternator is a turning field whose waves are made to go one way.
func (p *pen) alternator(cx, cy float64) {
	p.ring(cx, cy, half)
	p.wave(cx-3.4, cy-1.4, 6.8, 1.3, 2)
	p.line(cx-3.4, cy+2, cx+2.4, cy+2)
	p.solid(cx+1.6, cy+0.8, cx+3.8, cy+2, cx+1.6, cy+3.2)
}

// starter is a motor with its pinion.
func (p *pen) starter(cx, cy float64) {
	p.ring(cx-1.6, cy, 4)
	p.path(cx-3.2, cy+1.6, cx-3.2, cy-1.6, cx-1.6, cy+0.4, cx, cy-1.6, cx, cy+1.6)
	p.Line(cx+2.4, cy, cx+4, cy, sheet.Rounded(0.7))
	p.box(cx+4, cy-2.6, 2.2, 5.2, 0.3)
	for _, dy := range []float64{-1.3, 0, 1.3} {
		p.line(cx+4, cy+dy, cx+6.2, cy+dy)
	}
}

// flasher is a contact with the beat that it makes.
func (p *pen) flasher(cx, cy float64) {
	p.dot(cx-4.4, cy-1.6, 0.7)
	p.Line(cx-4.4, cy-1.6, cx+3, cy-4.4, sheet.Rounded(0.7))
	p.ring(cx+4.2, cy-1.6, 0.7)
	p.path(cx-5, cy+4, cx-3.4, cy+4, cx-3.4, cy+1.4, cx-1.4, cy+1.4, cx-1.4, cy+4, cx+0.6, cy+4, cx+0.6, cy+1.4, cx+2.6, cy+1.4, cx+2.6, cy+4, cx+5, cy+4)
}

// bar is a bus with its studs.
func (p *pen) bar(cx, cy float64) {
	p.Rect(cx-1.6, cy-4.6, 3.2, 9.2, sheet.Filled(sheet.Ink))
	for _, dy := range []float64{-3, 0, 3} {
		p.Circle(cx, cy+dy, 0.8, sheet.Filled(sheet.White))
	}
}

func (p *pen) diode(cx, cy, k float64) {
	p.line(cx-half, cy, cx+half, cy)
	p.solid(cx-2.2*k, cy-2.6*k, cx-2.2*k, cy+2.6*k, cx+2.2*k, cy)
	p.Line(cx+2.2*k, cy-2.8*k, cx+2.2*k, cy+2.8*k, sheet.Rounded(0.7*k))
}

// resistor is a zigzag between two ends.
func (p *pen) resistor(cx, cy, half float64) {
	k := half / 5
	p.path(cx-5*k, cy, cx-4*k, cy-2*k, cx-2.4*k, cy+2*k, cx-0.8*k, cy-2*k, cx+0.8*k, cy+2*k, cx+2.4*k, cy-2*k, cx+4*k, cy+2*k, cx+5*k, cy)
}

func (p *pen) capacitor(cx, cy float64) {
	p.line(cx-half, cy, cx-1, cy)
	p.line(cx+1, cy, cx+half, cy)
	p.Line(cx-1, cy-4, cx-1, cy+4, sheet.Rounded(0.7))
	p.Line(cx+1, cy-4, cx+1, cy+4, sheet.Rounded(0.7))
}

// strap is a braid between two eyes.
func (p *pen) strap(cx, cy float64) {
	p.ring(cx-half, cy, 1.3)
	p.ring(cx+half, cy, 1.3)
	p.box(cx-3.4, cy-1.3, 6.8, 2.6, 0)
	for i := range 5 {
		x := cx - 3 + float64(i)*1.3
		p.line(x, cy+1.3, x+0.9, cy-1.3)
		p.line(x, cy-1.3, x+0.9, cy+1.3)
	}
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
