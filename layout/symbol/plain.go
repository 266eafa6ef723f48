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
			w = 0.9
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
	p.oneWay(cx, cy+2)
}

// dynamo gives one way at once, through the brushes on its commutator.
func (p *pen) dynamo(cx, cy float64) {
	p.ring(cx, cy, 4)
	p.Rect(cx-1.2, cy-5.8, 2.4, 1.8, sheet.Filled(sheet.Ink))
	p.Rect(cx-1.2, cy+4, 2.4, 1.8, sheet.Filled(sheet.Ink))
	p.oneWay(cx, cy)
}

// converter is a box parted from corner to corner, direct current on either side.
func (p *pen) converter(cx, cy float64) {
	p.box(cx-half, cy-half, 2*half, 2*half, 0)
	p.line(cx-half, cy+half, cx+half, cy-half)
	for _, at := range [][2]float64{{cx - 2.2, cy - 2.4}, {cx + 2.2, cy + 2.4}} {
		p.line(at[0]-1.5, at[1]-0.6, at[0]+1.5, at[1]-0.6)
		p.line(at[0]-1.5, at[1]+0.6, at[0]-0.5, at[1]+0.6)
		p.line(at[0]+0.5, at[1]+0.6, at[0]+1.5, at[1]+0.6)
	}
}

// oneWay is an arrow to the right.
func (p *pen) oneWay(cx, cy float64) {
	p.line(cx-3, cy, cx+2, cy)
	p.solid(cx+1.2, cy-1.2, cx+3.4, cy, cx+1.2, cy+1.2)
}

// bar is a bus with its studs.
func (p *pen) bar(cx, cy float64) {
	p.Rect(cx-1.6, cy-4.6, 3.2, 9.2, sheet.Filled(sheet.Ink))
	for _, dy := range []float64{-3, 0, 3} {
		p.Circle(cx, cy+dy, 0.8, sheet.Filled(sheet.White))
	}
}

// diode lets current pass the way its arrow points.
func (p *pen) diode(cx, cy float64) {
	p.line(cx-half, cy, cx+half, cy)
	p.solid(cx-2.2, cy-2.7, cx-2.2, cy+2.7, cx+2.2, cy)
	p.Line(cx+2.2, cy-2.9, cx+2.2, cy+2.9, sheet.Rounded(bold))
}

// resistor is a long way folded up.
func (p *pen) resistor(cx, cy float64) { p.zigzag(cx, cy, half) }

// zigzag folds a line between two ends so far from its middle.
func (p *pen) zigzag(cx, cy, half float64) {
	k := half / 5
	p.path(cx-5*k, cy, cx-4*k, cy-2*k, cx-2.4*k, cy+2*k, cx-0.8*k, cy-2*k, cx+0.8*k, cy+2*k, cx+2.4*k, cy-2*k, cx+4*k, cy+2*k, cx+5*k, cy)
}

// capacitor is two plates that do not touch.
func (p *pen) capacitor(cx, cy float64) {
	p.line(cx-half, cy, cx-1.1, cy)
	p.line(cx+1.1, cy, cx+half, cy)
	p.Line(cx-1.1, cy-4, cx-1.1, cy+4, sheet.Rounded(bold))
	p.Line(cx+1.1, cy-4, cx+1.1, cy+4, sheet.Rounded(bold))
}

// strap is a braid between two eyes.
func (p *pen) strap(cx, cy float64) {
	p.box(cx-3.4, cy-1.5, 6.8, 3, 0)
	for i := range 3 {
		x := cx - 3.4 + float64(i)*6.8/3
		p.line(x, cy+1.5, x+6.8/3, cy-1.5)
		p.line(x, cy-1.5, x+6.8/3, cy+1.5)
	}
	p.ring(cx-half+0.3, cy, 1.5)
	p.ring(cx+half-0.3, cy, 1.5)
}
