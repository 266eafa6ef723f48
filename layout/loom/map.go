package loom

import (
	"math"
	"slices"

	"example.com/loomfolio/layout/loom/laid"

	"example.com/loomfolio/layout/loom/branch"
	"example.com/loomfolio/layout/loom/placing"
	"example.com/loomfolio/layout/loom/plane"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
)

// Drawing is one part of the map, laid out but for its references: a tree, or what
// was divided from one.
type Drawing struct {
	laid.Legs
	branch.Claims
	short    bool // names, letters and lengths alone
	labels   []placing.Placed
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
	d := drawer{laid.Words{Ask: a}, map[wording][]placing.Block{}}
	body := mapBody(d)
	room := d.roomIn(body)
	all := branch.Trees(a)
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
	for i, some := range bySheet(out) {
		d.raise(some, d.sheetRoom(i, out))
	}
	return out
}

// sheetRoom is what the heading of the map's sheet i leaves: that of a further sheet is lower than the first.
func (a drawer) sheetRoom(i int, parts []Drawing) sheet.Rect {
	var unseen sheet.Canvas
	f := a.Landscape()
	if i == 0 {
		return f.Heading(&unseen, mapTitle, a.mapSays(claimed(parts)))
	}
	return f.Running(&unseen, mapTitle+", continued")
}

// raise moves the parts of a sheet up by what their legend would reach over its foot, as far as the heading
// leaves room.
func (a drawer) raise(parts []Drawing, room sheet.Rect) {
	var unseen sheet.Canvas
	over := a.legend(&unseen, parts, under(parts, room)) - room.Bottom()
	up := min(over, parts[0].Area.Y-parts[0].above()-room.Y)
	if up <= 0 {
		return
	}
	for i := range parts {
		parts[i].shift(0, -up)
		parts[i].Area.Y -= up
	}
}

// divided lays a tree on a sheet, or divides it; parts need room for their headings,
// which a tree that is one of several has left already.
func divided(a drawer, t branch.Tree, room sheet.Rect, headed bool) []Drawing {
	if !a.crowded(t, room) {
		if drawn, ok := a.scaled(t, room, false); ok {
			return []Drawing{drawn}
		}
		if drawn, ok := a.unscaled(t, room, false); ok {
			return []Drawing{drawn}
		}
	}
	if halves := t.Halves(); len(halves) > 1 {
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
		drawn, ok := a.atScale(d.Tree, most, room, d.short)
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
	if drawn, ok := a.scaled(d.Tree, less, false); ok {
		return drawn
	}
	return d
}

// arrange puts the parts under one another, on as many sheets as they take.
func arrange(parts []Drawing, body sheet.Rect) {
	at, y := 0, body.Y
	for i := range parts {
		d := &parts[i]
		d.part, d.of, d.Claims = i+1, len(parts), d.Claimed()
		if r := d.used(); y > body.Y && y+d.above()+r.H+d.below() > body.Bottom() {
			at, y = at+1, body.Y
		}
		d.sheet = at
		y += d.above()
		r := d.used()
		d.shift(0, y-r.Y)
		d.Area = sheet.Rect{X: body.X, Y: y, W: body.W, H: r.H}
		y += r.H + d.below() + parted
	}
}

// crowded tells whether the labels take so much of the room that there is no
// sense in trying.
func (a drawer) crowded(t branch.Tree, room sheet.Rect) bool {
	sum := 0.0
	for n := range t.Nodes {
		sum += a.placeBlocks(t, n, false)[0].Area()
	}
	for _, l := range t.Legs {
		sum += a.runBlocks(l.Run)[0].Area()
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
	r := a.Landscape().Heading(&scratch, mapTitle, a.mapSays(branch.Claims{Front: true, Rear: true, Left: true, Right: true}))
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
func (a drawer) scaled(t branch.Tree, room sheet.Rect, short bool) (Drawing, bool) {
	const tries = 4
	trunk := t.MapTrunk().MM
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
func (a drawer) atScale(t branch.Tree, scale float64, room sheet.Rect, short bool) (Drawing, bool) {
	long := make([]float64, len(t.Legs))
	for i, l := range t.Legs {
		if long[i] = l.MM / scale; l.Closing {
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
func (a drawer) unscaled(t branch.Tree, room sheet.Rect, short bool) (Drawing, bool) {
	for _, least := range []float64{22, 16, 11} {
		sum := 0.0
		trunk := t.MapTrunk().Legs
		for _, l := range trunk {
			sum += math.Sqrt(t.Legs[l].MM)
		}
		per := min((0.86*room.W-least*float64(len(trunk)))/sum, 2)
		if per < 0.05 {
			continue
		}
		long := make([]float64, len(t.Legs))
		for i, l := range t.Legs {
			long[i] = least + per*math.Sqrt(l.MM)
			if l.Closing {
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
func (a drawer) draw(t branch.Tree, long []float64, room sheet.Rect, short bool) (Drawing, bool) {
	limbs := t.Limbs(t.MapTrunk())
	k := branch.Task{Tree: t, Limbs: limbs, Long: long, W: room.W - 2*margin, H: room.H - 2*margin, Clear: 13, Narrow: 38, Turned: t.Sides()}
	for _, b := range limbs {
		k.May = append(k.May, mapShapes(b))
	}
	var best Drawing
	least := math.Inf(1)
	for _, settled := range k.Settle() {
		out := Drawing{Legs: laid.Legs{Arrangement: settled, Area: room, Thick: a.thickness(t)}, short: short}
		out.Centre()
		labels, ok := a.place(&out)
		if out.labels = labels; ok && out.Cost+worth(labels) < least {
			best, least = out, out.Cost+worth(labels)
		}
	}
	return best, !math.IsInf(least, 1)
}

// worth is how badly labels stand, all together.
func worth(labels []placing.Placed) float64 {
	sum := 0.0
	for _, l := range labels {
		sum += l.Cost
	}
	return sum
}

// mapShapes are the angles by which a limb may leave.
func mapShapes(b branch.Limb) []branch.Shape {
	if b.Parent < 0 {
		return []branch.Shape{{}}
	}
	var out []branch.Shape
	for _, t := range []struct{ turn, cost float64 }{{90, 0}, {60, 0.5}, {45, 0.7}, {30, 1.5}, {120, 3}, {135, 3.5}} {
		out = append(out, branch.Shape{Turn: -t.turn, Cost: t.cost}, branch.Shape{Turn: t.turn, Cost: t.cost})
	}
	return out
}

const nodeRadius = 1.7

// place finds the places of all labels: first those of the nodes, then those of the legs.
func (a drawer) place(d *Drawing) ([]placing.Placed, bool) {
	p := placing.Placer{Room: d.Area, Reach: []float64{1.6, 3.2, 6, 9, 13, 18, 24, 31, 40, 50, 62, 75}}
	for i, segs := range d.Pieces {
		for _, s := range segs {
			p.Bands = append(p.Bands, placing.Band{Segment: s, Half: a.Half(&d.Legs, i), Leg: i})
		}
	}
	for n := range d.Tree.Nodes {
		at := d.Node(n)
		p.Bands = append(p.Bands, placing.Band{Segment: plane.Segment{A: at, B: at}, Half: nodeRadius, Leg: placing.OfNode(n)})
	}
	labels, failed := p.All(a.labels(d))
	return labels, failed < 0
}

// labels are all labels of a drawing: of the nodes, the legs and the splices along these.
func (a drawer) labels(d *Drawing) []placing.Label {
	near := d.Tree.Near()
	var out []placing.Label
	for n := range d.Tree.Nodes {
		out = append(out, placing.Label{Hooks: []placing.Hook{{At: d.Node(n), Radius: nodeRadius}}, Blocks: a.placeBlocks(d.Tree, n, d.short), Own: append(near[n], placing.OfNode(n))})
	}
	for i, l := range d.Tree.Legs {
		out = append(out, placing.Label{Hooks: a.Hooks(&d.Legs, i), Blocks: a.runBlocks(l.Run), Own: []int{i}})
	}
	for i := range d.Tree.Legs {
		for _, s := range a.Spots(&d.Legs, i) {
			out = append(out, placing.Label{Hooks: []placing.Hook{{At: s.At, Radius: laid.Dot}}, Blocks: []placing.Block{a.SpliceBlock(s.Part)}, Own: []int{i}})
		}
	}
	return out
}

// thickest is the greatest width of a branch on the map, mm.
const thickest = 4.2

// thickness is the scale of the branches' thickness.
func (a drawer) thickness(t branch.Tree) float64 {
	most := 0.0
	for _, l := range t.Legs {
		most = max(most, float64(a.R.Runs[l.Run].Diameter))
	}
	for _, s := range scales {
		if most/s <= thickest {
			return s
		}
	}
	return scales[len(scales)-1]
}
