package drawing

import (
	"example.com/loomfolio/layout/diagram"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/symbol"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Sizes of wires and flags, mm.
const (
	flagText = sheet.SizeNote
	flagHigh = 3.7
	flagPad  = 0.8
	clear    = 1.5 // from a wire's middle to its flag
	rim      = 0.25
)

// flag is a wire's label: its name in a dark field, gauge and colour in a light one.
type flag struct {
	name, spec   string
	nameW, specW float64
	w            float64
	stacked      bool // name above the wire, the rest below
	lent         bool // of another circuit
}

func (s *sheets) flag(w harness.WireID, f look) flag {
	l := flag{name: s.h.Wires[w].Name, spec: s.spec(w), stacked: f.stacked}
	l.nameW = typeface.Width(l.name, sheet.Bold, flagText) + 2*flagPad
	if l.spec != "" {
		l.specW = typeface.Width(l.spec, sheet.Regular, flagText) + 2*flagPad
	}
	l.w = l.nameW + l.specW
	if f.stacked {
		l.w = max(l.nameW, l.specW)
	}
	return l
}

// spec is "2.5 · OG/BK", as far as it is known.
func (s *sheets) spec(w harness.WireID) string {
	gauge := ""
	if int(w) < len(s.r.Wires) {
		gauge = s.gauge(s.r.Wires[w].Gauge)
	}
	if x := &s.h.Wires[w]; x.Existing && !x.Gauge.Given() && gauge != "" {
		gauge = "≥ " + gauge // nobody says how thick it is
	}
	pair := s.pair(w).String()
	switch {
	case gauge == "":
		return pair
	case pair == "":
		return gauge
	}
	return gauge + " · " + pair
}

// gauge prints a size as the sheet's own system has it, and marks another.
func (s *sheets) gauge(g unit.Gauge) string {
	if !g.Given() {
		return ""
	}
	if g.System == unit.Metric {
		return g.Size
	}
	return g.Size + " " + map[unit.System]string{unit.AWG: "AWG", unit.SAE: "ga"}[g.System]
}

func (s *sheets) pair(w harness.WireID) colour.Pair {
	if int(w) < len(s.r.Colours) {
		return s.r.Colours[w].Pair
	}
	return colour.Pair{Base: s.h.Wires[w].Base, Tracer: s.h.Wires[w].Tracer}
}

// above and below are how far a flag reaches from its wire.
func (f look) above() float64 { return clear + flagHigh }

func (f look) below() float64 {
	if f.stacked {
		return clear + flagHigh
	}
	return clear
}

// boxes are the two fields of a flag in the room that the layout keeps for it;
// the second is empty when nothing but the name is known.
func (l flag) boxes(r diagram.Rect) (name, spec sheet.Rect) {
	name = sheet.Rect{X: r.X, Y: r.Y, W: l.nameW, H: flagHigh}
	spec = sheet.Rect{X: r.X + l.nameW, Y: r.Y, W: l.specW, H: flagHigh}
	if l.stacked {
		name.X = r.X + (r.W-l.nameW)/2
		spec.X, spec.Y = r.X+(r.W-l.specW)/2, r.Y+r.H-flagHigh
	}
	return name, spec
}

func (s *sheets) drawFlag(c *sheet.Canvas, l flag, r diagram.Rect) {
	name, spec := l.boxes(r)
	thin := sheet.Solid(0.2)
	field, letters := sheet.Ink, sheet.White
	if l.lent {
		field, letters = sheet.White, sheet.Ink
	}
	c.Rect(name.X, name.Y, name.W, name.H, sheet.Both(thin, field))
	c.Text(name.X+name.W/2, base(name.Y), l.name, sheet.Strong(flagText).At(sheet.Centre).In(letters))
	if l.spec == "" {
		return
	}
	c.Rect(spec.X, spec.Y, spec.W, spec.H, sheet.Both(thin, sheet.White))
	c.Text(spec.X+spec.W/2, base(spec.Y), l.spec, sheet.Plain(flagText).At(sheet.Centre))
}

func base(top float64) float64 { return top + (flagHigh+flagText*typeface.CapHeight)/2 }

// drawWire draws a wire along its path: a clear rim where it crosses others, a
// dark outline, its colour, and the tracer as a dashed middle line. Black has no
// outline, which would make it look thicker than it is.
func (s *sheets) drawWire(c *sheet.Canvas, w harness.WireID, points []sheet.Point) {
	wide := s.wide(w)
	pair := s.pair(w)
	c.Polyline(points, sheet.Solid(wide+2*rim+0.8).In(sheet.White))
	if s.h.Wires[w].Existing {
		broken(c, points, wide, pair)
		return
	}
	if pair.Base != "BK" {
		c.Polyline(points, sheet.Solid(wide+2*rim))
	}
	c.Polyline(points, sheet.Solid(wide).In(rgb(pair.Base)))
	if pair.Tracer != "" {
		c.Polyline(points, sheet.Dashed(wide*0.45, 2.2, 1.6).In(rgb(pair.Tracer)))
	}
}

// broken draws a wire of the vehicle's own: a broken line, with the tracer along its pieces.
func broken(c *sheet.Canvas, points []sheet.Point, wide float64, pair colour.Pair) {
	piece := func(w float64) sheet.Stroke { return sheet.Dashed(w, symbol.OwnDash, symbol.OwnGap) }
	c.Polyline(points, piece(wide+2*rim))
	c.Polyline(points, piece(wide).In(rgb(pair.Base)))
	if pair.Tracer != "" {
		c.Polyline(points, piece(wide*0.35).In(rgb(pair.Tracer)))
	}
}

// wide is the width of a wire's line, in the steps that the reading guide
// explains; the middle one while the size is not known.
func (s *sheets) wide(w harness.WireID) float64 {
	if int(w) >= len(s.r.Wires) || s.r.Wires[w].Area == 0 {
		return page.MediumLine
	}
	return page.LineWeight(float64(s.r.Wires[w].Area))
}

func rgb(letters string) sheet.Colour {
	if letters == "" {
		return sheet.Rule
	}
	return page.Shade(letters)
}
