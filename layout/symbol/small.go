package symbol

import (
	"math"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/harness"
)

// SmallSide is the side of the square in which a small pictogram lies, mm.
const SmallSide = 6.2

const smaller = 0.52

// Small draws the pictogram of a part at half its size, without text, about a
// centre: for a sheet that shows a part by its sign and its name alone.
func Small(c *sheet.Canvas, h *harness.Harness, part *harness.Part, cx, cy float64) {
	var p pen
	if draw, ok := smallOnly[part.Kind]; ok {
		draw(&p)
	} else {
		p.glyph(VariantOf(h, part), 0, 0)
	}
	c.Add(sheet.Move(sheet.Scale(p.Marks, smaller), cx, cy)...)
}

// smallOnly are the kinds whose tiles have no pictogram of their own, about 0, 0.
var smallOnly = map[harness.Kind]func(p *pen){
	harness.Relay: (*pen).smallRelay, harness.Connector: (*pen).smallConnector, harness.Splice: (*pen).smallSplice,
	harness.Ground: (*pen).smallGround, harness.IgnitionSwitch: (*pen).smallKey, harness.FusePanel: (*pen).smallPanel,
	harness.Switch: (*pen).smallSwitch, harness.OpenEnd: (*pen).smallOpenEnd,
}

// smallRelay is a contact over its winding.
func (p *pen) smallRelay() {
	p.lever(0, -2.4, 3.6, 3)
	p.dashed(0, -3.4, 0, 1.4)
	p.winding(0, 3.6, 8, 4.4)
	p.line(-half, 3.6, -4, 3.6)
	p.line(4, 3.6, half, 3.6)
}

// smallConnector is two brackets that face each other.
func (p *pen) smallConnector() {
	for _, side := range []float64{-1, 1} {
		p.Polyline(pairs([]float64{side * 4.4, -4.4, side * 1.2, -4.4, side * 1.2, 4.4, side * 4.4, 4.4}), sheet.Rounded(bold))
		p.line(side*half, 0, side*1.2, 0)
	}
}

// smallSplice is three wires that meet in a dot.
func (p *pen) smallSplice() {
	p.line(-half, 0, half, 0)
	p.line(0, 0, half, 3.6)
	p.dot(0, 0, 1.9)
}

// smallGround is a lead on the hatched bodywork.
func (p *pen) smallGround() {
	p.line(0, -4.6, 0, 0)
	p.Line(-4.4, 0, 4.4, 0, sheet.Rounded(bold))
	for _, x := range []float64{-3.2, -0.6, 2, 4.2} {
		p.line(x, 0, x-1.8, 2.8)
	}
}

// smallKey is a key.
func (p *pen) smallKey() {
	p.ring(-3, 0, 2)
	p.Line(-1, 0, 5, 0, sheet.Rounded(bold))
	p.Line(3, 0, 3, 1.8, sheet.Rounded(bold))
	p.Line(4.8, 0, 4.8, 1.8, sheet.Rounded(bold))
}

// smallPanel is the bar that feeds a row of fuses.
func (p *pen) smallPanel() { p.panel(0, 0) }

// smallSwitch is an open lever.
func (p *pen) smallSwitch() { p.open(0, math.Sqrt2) }
