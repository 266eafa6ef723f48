package symbol

import (
	"example.com/loomfolio/layout/sheet"
)

// half is half the width of a pictogram: leads reach from it to the tabs.
const half = 5.0

// bold is the weight of what moves: levers, bars, blades.
const bold = 0.7

// drawings are the pictograms, each drawn about a centre; leads arrive at half to
// its left and right. Relays, switches with positions, connectors, splices and
// grounds are drawn as tiles of their own.
var drawings = map[Variant]func(p *pen, cx, cy float64){
	batteryOne: (*pen).plates, alternatorOne: (*pen).alternator, converterOne: (*pen).converter, dynamoOne: (*pen).dynamo, busOne: (*pen).bar,
	fuseOne: (*pen).link, positionOne: (*pen).position, panelOne: (*pen).panel,
	breakerOne: (*pen).breaker, breakerCycles: (*pen).cycles, breakerStays: (*pen).stays, breakerReset: (*pen).reset,
	isolatorClosed: (*pen).isolatorClosed, isolatorOpen: (*pen).isolatorOpen,
	switchOpen: (*pen).open, switchClosed: (*pen).closed, buttonOpen: (*pen).pressToClose, buttonClosed: (*pen).pressToOpen,
	flasherOne: (*pen).flasher,
	motorOne:   (*pen).motor, fanOne: (*pen).fan, pumpOne: (*pen).pump, wiperOne: (*pen).wiper, windowOne: (*pen).window, starterOne: (*pen).starter,
	lampOne: (*pen).lamp, filamentsOne: (*pen).filaments, diodeLampOne: (*pen).diodeLamp,
	moduleOne: (*pen).module, unknownOne: (*pen).question, openEndOne: (*pen).question,
	diodeOne: (*pen).diode, resistorOne: (*pen).resistor, capacitorOne: (*pen).capacitor, strapOne: (*pen).strap,
}

// glyph draws a variant's pictogram centred on cx, cy; a box of electronics where
// it has none.
func (p *pen) glyph(v Variant, cx, cy float64) { drawingOf(v)(p, cx, cy) }

func drawingOf(v Variant) func(p *pen, cx, cy float64) {
	for _, l := range plainLoads {
		if l.v == v {
			return l.draw
		}
	}
	for i := range signs {
		if signs[i].v == v {
			return signs[i].draw
		}
	}
	for _, c := range chargingKinds {
		if c.v == v {
			return c.draw
		}
	}
	if draw, ok := drawings[v]; ok {
		return draw
	}
	return (*pen).module
}

// link is a fuse's melting strip between its two blades.
func (p *pen) link(cx, cy float64) {
	p.dot(cx-half, cy, 0.8)
	p.dot(cx+half, cy, 0.8)
	p.wave(cx-half, cy, 2*half, 2.2, 2)
}

// position is a link held by the two clips of its place in a panel.
func (p *pen) position(cx, cy float64) {
	for _, side := range []float64{-1, 1} {
		x := cx + side*half
		p.Polyline(pairs([]float64{x - side*2, cy - 3.4, x, cy - 3.4, x, cy + 3.4, x - side*2, cy + 3.4}), sheet.Rounded(bold))
	}
	p.wave(cx-half, cy, 2*half, 2, 2)
}

// panel is the bar that feeds a row of links.
func (p *pen) panel(cx, cy float64) {
	p.Rect(cx-5, cy-4.8, 1.6, 9.6, sheet.Filled(sheet.Ink))
	for _, dy := range []float64{-3.4, 0, 3.4} {
		p.wave(cx-3.4, cy+dy, 7, 1, 2)
		p.dot(cx+4.2, cy+dy, 0.7)
	}
}

// breaker is a bow of two metals, at rest closed.
func (p *pen) breaker(cx, cy float64) {
	p.dot(cx-half+0.8, cy, 0.8)
	p.line(cx-half, cy, cx-half+0.8, cy)
	p.Arc(cx, cy+2.1, 4.7, 26.4, 153.6, sheet.Rounded(bold))
	p.Arc(cx, cy+2.1, 3.3, 50, 130, sheet.Rounded(weight))
	p.ring(cx+half-0.8, cy, 0.8)
}

// cycles has a turn with an arrow: it closes again by itself.
func (p *pen) cycles(cx, cy float64) {
	p.breaker(cx, cy)
	p.Arc(cx, cy+3.7, 1.9, 180, 450, sheet.Rounded(weight))
	p.solid(cx-1.4, cy+1.8, cx+0.4, cy+0.6, cx+0.4, cy+3)
}

// stays has the resistor beside its contact that keeps the bow hot.
func (p *pen) stays(cx, cy float64) {
	p.line(cx-half+0.8, cy, cx-half+0.8, cy+3.8)
	p.line(cx+half-0.8, cy, cx+half-0.8, cy+3.8)
	p.breaker(cx, cy)
	p.zigzag(cx, cy+3.8, 4.2)
}

// reset has a button on its bow.
func (p *pen) reset(cx, cy float64) {
	p.breaker(cx, cy)
	p.line(cx, cy-2.6, cx, cy-5.2)
	p.Line(cx-2, cy-5.4, cx+2, cy-5.4, sheet.Rounded(bold))
}

// contacts are the two ends of a switch.
func (p *pen) contacts(cx, cy float64) {
	p.dot(cx-half+0.8, cy, 0.8)
	p.line(cx-half, cy, cx-half+0.8, cy)
	p.ring(cx+half-0.8, cy, 0.8)
}

// lever is the moving arm; rise is how far its tip stands above the contacts.
func (p *pen) lever(cx, cy, tip, rise float64) {
	p.contacts(cx, cy)
	p.Line(cx-half+0.8, cy, cx+tip, cy-rise, sheet.Rounded(bold))
}

func (p *pen) open(cx, cy float64)   { p.lever(cx, cy, 3.6, 3.6) }
func (p *pen) closed(cx, cy float64) { p.lever(cx, cy, 5, 1.3) }

// pressToClose is an open lever under a cap.
func (p *pen) pressToClose(cx, cy float64) {
	p.lever(cx, cy, 3.6, 3)
	p.dashed(cx, cy-1.6, cx, cy-5.2)
	p.Line(cx-2.2, cy-5.4, cx+2.2, cy-5.4, sheet.Rounded(bold))
}

// pressToOpen is a lever that closes from below, so that a push takes it off.
func (p *pen) pressToOpen(cx, cy float64) {
	p.lever(cx, cy, 5, -1.3)
	p.dashed(cx, cy+0.6, cx, cy-5.2)
	p.Line(cx-2.2, cy-5.4, cx+2.2, cy-5.4, sheet.Rounded(bold))
}

// isolatorClosed is a turning key whose bar bridges two studs.
func (p *pen) isolatorClosed(cx, cy float64) {
	p.key(cx, cy)
	p.Line(cx-4.2, cy, cx+4.2, cy, sheet.Rounded(1.2))
}

// isolatorOpen is the same key turned away.
func (p *pen) isolatorOpen(cx, cy float64) {
	p.key(cx, cy)
	p.Line(cx-2, cy+3.2, cx+2, cy-3.2, sheet.Rounded(1.2))
}

func (p *pen) key(cx, cy float64) {
	p.ring(cx-half, cy, 1)
	p.ring(cx+half, cy, 1)
	p.ring(cx, cy, 3.1)
}

// flasher is a contact with the beat that it makes.
func (p *pen) flasher(cx, cy float64) {
	p.dot(cx-4.4, cy-1.6, 0.8)
	p.Line(cx-4.4, cy-1.6, cx+3, cy-4.6, sheet.Rounded(bold))
	p.ring(cx+4.2, cy-1.6, 0.8)
	p.path(cx-5, cy+4.4, cx-3.4, cy+4.4, cx-3.4, cy+1.6, cx-1.4, cy+1.6, cx-1.4, cy+4.4, cx+0.6, cy+4.4, cx+0.6, cy+1.6, cx+2.6, cy+1.6, cx+2.6, cy+4.4, cx+5, cy+4.4)
}
