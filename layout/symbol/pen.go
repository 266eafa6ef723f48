package symbol

import (
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

// pen draws pictograms with the one line weight.
type pen struct{ sheet.Canvas }

func (p *pen) line(x1, y1, x2, y2 float64) { p.Line(x1, y1, x2, y2, sheet.Rounded(weight)) }

// path draws through pairs of x and y.
func (p *pen) path(xy ...float64) { p.Polyline(pairs(xy), sheet.Rounded(weight)) }

// shape draws a closed outline, filled white.
func (p *pen) shape(xy ...float64) {
	p.Polygon(pairs(xy), sheet.Both(sheet.Rounded(weight), sheet.White))
}

// solid fills an outline with ink.
func (p *pen) solid(xy ...float64) { p.Polygon(pairs(xy), sheet.Filled(sheet.Ink)) }

func (p *pen) ring(x, y, r float64) {
	p.Circle(x, y, r, sheet.Both(sheet.Rounded(weight), sheet.White))
}

func (p *pen) dot(x, y, r float64) { p.Circle(x, y, r, sheet.Filled(sheet.Ink)) }

func (p *pen) dashed(x1, y1, x2, y2 float64) { p.Line(x1, y1, x2, y2, sheet.Dashed(weight, 1.2, 1)) }

func (p *pen) box(x, y, w, h, r float64) {
	p.RoundRect(x, y, w, h, r, sheet.Both(sheet.Rounded(weight), sheet.White))
}

// word sets a text centred on a place, both ways.
func (p *pen) word(x, y float64, s string, bold bool) {
	st := sheet.Plain(text).At(sheet.Centre)
	if bold {
		st.Face = sheet.Bold
	}
	p.Text(x, y+text*typeface.CapHeight/2, s, st)
}

// wave draws n humps of a height along a level line.
func (p *pen) wave(x, y, w, h float64, n int) {
	path := sheet.Path{Start: sheet.Point{X: x, Y: y}}
	step := w / float64(n)
	for i := range n {
		x0 := x + float64(i)*step
		up := h
		if i%2 == 1 {
			up = -h
		}
		c1, c2 := sheet.Point{X: x0 + step*0.36, Y: y - up*1.33}, sheet.Point{X: x0 + step*0.64, Y: y - up*1.33}
		path.Segs = append(path.Segs, sheet.Seg{P: sheet.Point{X: x0 + step, Y: y}, C1: &c1, C2: &c2})
	}
	s := sheet.Rounded(weight)
	path.Stroke = &s
	p.Add(path)
}

// plumb is a wave that runs downward.
func (p *pen) plumb(x, y, h, w float64, n int) {
	path := sheet.Path{Start: sheet.Point{X: x, Y: y}}
	step := h / float64(n)
	for i := range n {
		y0 := y + float64(i)*step
		side := w
		if i%2 == 1 {
			side = -w
		}
		c1, c2 := sheet.Point{X: x + side*1.33, Y: y0 + step*0.36}, sheet.Point{X: x + side*1.33, Y: y0 + step*0.64}
		path.Segs = append(path.Segs, sheet.Seg{P: sheet.Point{X: x, Y: y0 + step}, C1: &c1, C2: &c2})
	}
	s := sheet.Rounded(weight)
	path.Stroke = &s
	p.Add(path)
}

func pairs(xy []float64) []sheet.Point {
	var out []sheet.Point
	for i := 0; i+1 < len(xy); i += 2 {
		out = append(out, sheet.Point{X: xy[i], Y: xy[i+1]})
	}
	return out
}
