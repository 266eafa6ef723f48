package loom

import (
	"math"
	"slices"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
)

// Drawing is one part of the map, laid out but for its references: a tree, or what
// was divided from one.
type Drawing struct {
	arrangement
	claims
	Scale    float64 // the loom is so many times as large as drawn; 0: not to scale
	thick    float64 // the same of the branches' thickness
	short    bool    // names, letters and lengths alone
	area     sheet.Rect
	labels   []placed
	part, of int // which part of the map it is
	sheet    int // on which of the map's sheets, from 0
}

// scales are those that a map may have. ISO 5455 recommends 1:1, 1:2, 1:5 and their
// tenfolds; the steps between are ours, so that a sheet is filled.
var scales = []float64{1, 2, 2.5, 4, 5, 7.5, 10, 12.5, 15, 20, 25, 30, 40, 50, 75, 100}

// shortest is the least length in mm of a leg on the map, so that it can be seen.
const shortest = 5

// Lay lays the map out in parts: one a tree, or several where a tree does not fit a
// sheet. All have one scale where that goes, and stand under one another where they fit.
func Lay(a page.Ask) []Drawing {
	if len(a.R.Runs) == 0 {
		return nil
	}
	d := drawer{a, map[wording][]block{}}
	body := mapBody(d)
	room := d.roomIn(body)
	all := trees(a)
	if len(all) > 1 {
		room.H -= headHigh
	}
	var out []Drawing
	for _, t := range all {
		out = append(out, divided(d, t, room, len(all) > 1)...)
	}
	out = d.alike(out, room)
	if len(out) == 1 {
		out[0] = d.lower(out[0], room)
	}
	arrange(out, body)
	return out
}

// divided lays a tree on a sheet, or divides it; parts need room for their headings,
// which a tree that is one of several has left already.
func divided(a drawer, t tree, room sheet.Rect, headed bool) []Drawing {
	if !a.crowded(t, room) {
		if drawn, ok := a.scaled(t, room, false); ok {
			return []Drawing{drawn}
		}
		if drawn, ok := a.unscaled(t, room, false); ok {
			return []Drawing{drawn}
		}
	}
	if halves := t.halves(); len(halves) > 1 {
		if !headed {
			room.H -= headHigh
		}
		return append(divided(a, halves[0], room, true), divided(a, halves[1], room, true)...)
	}
	drawn, _ := a.unscaled(t, room, true)
	return []Drawing{drawn}
}

// alike lays the parts once more, all at the smallest of their scales; they stay as they
// are where one of them has none, or does not go at that one.
func (a drawer) alike(parts []Drawing, room sheet.Rect) []Drawing {
	most := 0.0
	for _, d := range parts {
		if d.Scale == 0 {
			return parts
		}
		most = max(most, d.Scale)
	}
	out := slices.Clone(parts)
	for i, d := range parts {
		if d.Scale == most {
			continue
		}
		drawn, ok := a.atScale(d.tree, most, room, d.short)
		if !ok {
			return parts
		}
		out[i] = drawn
	}
	return out
}

// lower lays a map that leaves no room for the runs under it once more, in the
// height that they leave; it stays as it is where that does not go.
func (a drawer) lower(d Drawing, room sheet.Rect) Drawing {
	const least = 45 // mm, that a map may take
	less := room
	less.H -= a.listing(room.W).least() + 2*listGap
	if less.H < least || d.used().H <= less.H || d.Scale == 0 {
		return d
	}
	if drawn, ok := a.scaled(d.tree, less, false); ok {
		return drawn
	}
	return d
}

// arrange puts the parts under one another, on as many sheets as they take.
func arrange(parts []Drawing, body sheet.Rect) {
	at, y := 0, body.Y
	for i := range parts {
		d := &parts[i]
		d.part, d.of, d.claims = i+1, len(parts), d.claimed()
		if r := d.used(); y > body.Y && y+d.above()+r.H+d.below() > body.Bottom() {
			at, y = at+1, body.Y
		}
		d.sheet = at
		y += d.above()
		r := d.used()
		d.shift(0, y-r.Y)
		d.area = sheet.Rect{X: body.X, Y: y, W: body.W, H: r.H}
		y += r.H + d.below() + parted
	}
}

// crowded tells whether the labels take so much of the room that there is no
// sense in trying.
func (a drawer) crowded(t tree, room sheet.Rect) bool {
	sum := 0.0
	for n := range t.nodes {
		sum += a.placeBlocks(t, n, false)[0].area()
	}
	for _, l := range t.legs {
		sum += a.runBlocks(l.run)[0].area()
	}
	return sum > 0.4*room.W*room.H
}

const (
	foot     = 14  // height of the legend under the map, mm
	edgeHigh = 5.5 // height of a row that names sides of the vehicle
	headHigh = sheet.SizeHead * 1.5
	parted   = 5 // clear between two parts
)

// mapBody is what a sheet of the map has for its parts, over the legend.
func mapBody(a drawer) sheet.Rect {
	var scratch sheet.Canvas
	r := a.Landscape().Heading(&scratch, mapTitle, a.mapSays(claims{true, true, true, true}))
	r.H -= foot
	return r
}

// roomIn is where legs and labels of one part may lie, so that sides can be named at
// its edges.
func (a drawer) roomIn(body sheet.Rect) sheet.Rect {
	if a.sided() {
		body.Y, body.H = body.Y+edgeHigh, body.H-2*edgeHigh
	}
	return body
}

// scaled tries the scales from the largest; a smaller one is no better where the
// legs do not fit for other reasons, so a few are tried.
func (a drawer) scaled(t tree, room sheet.Rect, short bool) (Drawing, bool) {
	const tries = 4
	trunk := t.mapTrunk().mm
	tried := 0
	for _, s := range scales {
		if trunk/s > room.W-2*margin {
			continue
		}
		if tried++; tried > tries {
			break
		}
		if drawn, ok := a.atScale(t, s, room, short); ok {
			return drawn, true
		}
	}
	return Drawing{}, false
}

// atScale lays a tree at a scale, unless a leg would be too short to be seen.
func (a drawer) atScale(t tree, scale float64, room sheet.Rect, short bool) (Drawing, bool) {
	long := make([]float64, len(t.legs))
	for i, l := range t.legs {
		if long[i] = l.mm / scale; l.closing {
			long[i] = min(long[i], stub)
		}
		if long[i] < shortest {
			return Drawing{}, false
		}
	}
	drawn, ok := a.draw(t, long, room, short)
	drawn.Scale = scale
	return drawn, ok
}

const (
	stub   = 14 // length of a closing leg on the map, mm
	margin = 3  // between legs and the edge of the map
)

// unscaled draws long legs shorter, so that they grow with the root of their length.
func (a drawer) unscaled(t tree, room sheet.Rect, short bool) (Drawing, bool) {
	for _, least := range []float64{22, 16, 11} {
		sum := 0.0
		trunk := t.mapTrunk().legs
		for _, l := range trunk {
			sum += math.Sqrt(t.legs[l].mm)
		}
		per := min((0.86*room.W-least*float64(len(trunk)))/sum, 2)
		if per < 0.05 {
			continue
		}
		long := make([]float64, len(t.legs))
		for i, l := range t.legs {
			long[i] = least + per*math.Sqrt(l.mm)
			if l.closing {
				long[i] = stub
			}
		}
		if drawn, ok := a.draw(t, long, room, short); ok {
			return drawn, true
		}
	}
	return Drawing{}, false
}

// draw lays the legs with lengths on paper, then the labels.
func (a drawer) draw(t tree, long []float64, room sheet.Rect, short bool) (Drawing, bool) {
	limbs := t.limbs(t.mapTrunk())
	k := task{tree: t, limbs: limbs, long: long, w: room.W - 2*margin, h: room.H - 2*margin, clear: 13, narrow: 38, turned: t.sides()}
	for _, b := range limbs {
		k.may = append(k.may, mapShapes(b))
	}
	var best Drawing
	least := math.Inf(1)
	for _, settled := range k.settle() {
		out := Drawing{arrangement: settled, short: short, area: room, thick: a.thickness(t)}
		out.centre()
		labels, ok := a.place(&out)
		if out.labels = labels; ok && out.cost+worth(labels) < least {
			best, least = out, out.cost+worth(labels)
		}
	}
	return best, !math.IsInf(least, 1)
}

// worth is how badly labels stand, all together.
func worth(labels []placed) float64 {
	sum := 0.0
	for _, l := range labels {
		sum += l.cost
	}
	return sum
}

// mapShapes are the angles by which a limb may leave.
func mapShapes(b limb) []shape {
	if b.parent < 0 {
		return []shape{{}}
	}
	var out []shape
	for _, t := range []struct{ turn, cost float64 }{{90, 0}, {60, 0.5}, {45, 0.7}, {30, 1.5}, {120, 3}, {135, 3.5}} {
		out = append(out, shape{turn: -t.turn, cost: t.cost}, shape{turn: t.turn, cost: t.cost})
	}
	return out
}

const nodeRadius = 1.7

// place finds the places of all labels: first those of the nodes, then those of the legs.
func (a drawer) place(d *Drawing) ([]placed, bool) {
	p := placer{room: d.area, reach: []float64{1.6, 3.2, 6, 9, 13, 18, 24, 31, 40, 50, 62, 75}}
	for i, segs := range d.pieces {
		for _, s := range segs {
			p.bands = append(p.bands, band{s, a.half(d, i), i})
		}
	}
	for n := range d.tree.nodes {
		at := d.node(n)
		p.bands = append(p.bands, band{segment{at, at}, nodeRadius, ofNode(n)})
	}
	labels, failed := p.all(a.labels(d))
	return labels, failed < 0
}

// ofNode marks the band of a node among those of the legs.
func ofNode(n int) int { return -1 - n }

// labels are all labels of a drawing: of the nodes, the legs and the splices along these.
func (a drawer) labels(d *Drawing) []label {
	near := d.tree.near()
	var out []label
	for n := range d.tree.nodes {
		out = append(out, label{hooks: []hook{{at: d.node(n), radius: nodeRadius}}, blocks: a.placeBlocks(d.tree, n, d.short), own: append(near[n], ofNode(n))})
	}
	for i, l := range d.tree.legs {
		out = append(out, label{hooks: a.hooks(d, i), blocks: a.runBlocks(l.run), own: []int{i}})
	}
	for i := range d.tree.legs {
		for _, s := range a.spots(d, i) {
			out = append(out, label{hooks: []hook{{at: s.at, radius: dot}}, blocks: []block{a.spliceBlock(s.part)}, own: []int{i}})
		}
	}
	return out
}

// hooks are places along a leg at which its label may hang, square to it.
func (a drawer) hooks(d *Drawing, i int) []hook {
	var out []hook
	for _, share := range []float64{0.5, 0.4, 0.6, 0.3, 0.7} {
		at, deg := d.lines[i].at(share * d.lines[i].length())
		out = append(out, hook{at: at, radius: a.half(d, i), dirs: []float64{deg - 90, deg + 90, deg - 60, deg + 60, deg - 120, deg + 120}})
	}
	return out
}

// half is half the thickness of a leg on the sheet.
func (a drawer) half(d *Drawing, i int) float64 {
	return a.thick(float64(a.R.Runs[d.tree.legs[i].run].Diameter), d.thick) / 2
}

const (
	thinnest = 1.3 // mm of a branch on the map
	thickest = 4.2
)

func (a drawer) thick(mm, scale float64) float64 { return max(mm/scale, thinnest) }

// thickness is the scale of the branches' thickness.
func (a drawer) thickness(t tree) float64 {
	most := 0.0
	for _, l := range t.legs {
		most = max(most, float64(a.R.Runs[l.run].Diameter))
	}
	for _, s := range scales {
		if most/s <= thickest {
			return s
		}
	}
	return scales[len(scales)-1]
}
