package loom

import (
	"fmt"
	"math"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
)

// Drawing is one sheet of the map, laid out but for its references.
type Drawing struct {
	arrangement
	Scale  float64 // the loom is so many times as large as drawn; 0: not to scale
	thick  float64 // the same of the branches' thickness
	short  bool    // names, letters and lengths alone
	area   sheet.Rect
	labels []placed
}

// scales are those that a map may have. ISO 5455 recommends 1:1, 1:2, 1:5 and their
// tenfolds; the steps between are ours, so that a sheet is filled.
var scales = []float64{1, 2, 2.5, 4, 5, 7.5, 10, 12.5, 15, 20, 25, 30, 40, 50, 75, 100}

// shortest is the least length in mm of a leg on the map, so that it can be seen.
const shortest = 5

// Lay lays the map out: a sheet a tree, or several where a tree does not fit.
func Lay(a page.Ask) []Drawing {
	d := drawer{a, map[wording][]block{}}
	var out []Drawing
	for _, t := range trees(a) {
		out = append(out, divided(d, t)...)
	}
	return out
}

// divided lays a tree on a sheet, or divides it.
func divided(a drawer, t tree) []Drawing {
	room := mapRoom(a)
	if !a.crowded(t, room) {
		if drawn, ok := a.scaled(t, room, false); ok {
			return []Drawing{drawn}
		}
		if drawn, ok := a.unscaled(t, room, false); ok {
			return []Drawing{drawn}
		}
	}
	if halves := t.halves(); len(halves) > 1 {
		return append(divided(a, halves[0]), divided(a, halves[1])...)
	}
	drawn, _ := a.unscaled(t, room, true)
	return []Drawing{drawn}
}

// crowded tells whether the labels take so much of the room that there is no
// sense in trying.
func (a drawer) crowded(t tree, room sheet.Rect) bool {
	sum := 0.0
	for n := range t.nodes {
		sum += a.placeBlocks(t, n, false)[0].area()
	}
	for _, l := range t.legs {
		sum += a.runBlocks(l.run, true)[0].area()
	}
	return sum > 0.4*room.W*room.H
}

// foot is the height of the legend under the map, mm.
const foot = 14

// mapRoom is where the map may lie on its sheet.
func mapRoom(a drawer) sheet.Rect {
	var scratch sheet.Canvas
	r := a.Landscape().Heading(&scratch, mapTitle, a.mapSays())
	r.H -= foot
	return r
}

// scaled tries the scales from the largest; a smaller one is no better where the
// legs do not fit for other reasons, so a few are tried.
func (a drawer) scaled(t tree, room sheet.Rect, short bool) (Drawing, bool) {
	const tries = 3
	tried := 0
	for _, s := range scales {
		long, least, trunk := make([]float64, len(t.legs)), math.Inf(1), t.limbs()[0].mm/s
		for i, l := range t.legs {
			long[i] = l.mm / s
			if l.closing {
				long[i] = min(long[i], stub)
			}
			least = min(least, long[i])
		}
		if trunk > room.W-2*margin {
			continue
		}
		if tried++; tried > tries || least < shortest {
			break
		}
		if drawn, ok := a.draw(t, long, room, short); ok {
			drawn.Scale = s
			return drawn, true
		}
	}
	return Drawing{}, false
}

const (
	stub   = 14 // length of a closing leg on the map, mm
	margin = 3  // between legs and the edge of the map
)

// unscaled draws long legs shorter, so that they grow with the root of their length.
func (a drawer) unscaled(t tree, room sheet.Rect, short bool) (Drawing, bool) {
	for _, least := range []float64{22, 16, 11} {
		sum := 0.0
		trunk := t.limbs()[0].legs
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
	limbs := t.limbs()
	k := task{tree: t, limbs: limbs, long: long, w: room.W - 2*margin, h: room.H - 2*margin, clear: 13, narrow: 38}
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

// centre moves the legs into the middle of the area.
func (d *Drawing) centre() {
	r := bounds(d.lines)
	dx, dy := d.area.X+(d.area.W-r.W)/2-r.X, d.area.Y+(d.area.H-r.H)/2-r.Y
	for i, l := range d.lines {
		for j := range l {
			l[j].X, l[j].Y = l[j].X+dx, l[j].Y+dy
		}
		d.pieces[i] = l.segments()
	}
}

// node is where a node lies.
func (d *Drawing) node(n int) point {
	for i, l := range d.tree.legs {
		if l.from == n || l.to == n {
			if d.start[i] == n {
				return d.lines[i][0]
			}
			return d.lines[i][len(d.lines[i])-1]
		}
	}
	return point{}
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
		out = append(out, label{hooks: a.hooks(d, i), blocks: a.runBlocks(l.run, d.short), own: []int{i}})
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

const mapTitle = "Loom map"

// mapSays stands under the title; places that no run reaches are listed there.
func (a drawer) mapSays() string {
	says := "The branches as they lie, breakouts and ends with what sits there. Letters lead to the list of runs."
	reached := make([]bool, len(a.H.Places))
	for _, r := range a.H.Runs {
		reached[r.From], reached[r.To] = true, true
	}
	var lonely []string
	for i, p := range a.H.Places {
		if parts, splices := a.parts(p.ID); !reached[i] {
			name := p.Name
			for _, part := range append(parts, splices...) {
				name += " " + part.Ref
			}
			lonely = append(lonely, name)
		}
	}
	if len(lonely) > 0 {
		says += " No run reaches: " + strings.Join(lonely, "; ") + "."
	}
	return says
}

// Map makes the pages of the map.
func Map(a page.Ask, drawings []Drawing) []frame.Page {
	var out []frame.Page
	for i := range drawings {
		f := a.Landscape()
		var c sheet.Canvas
		if i == 0 {
			c.Anchor("sheet/loom", f.Body.X, f.Body.Y)
		}
		f.Heading(&c, mapTitle, drawer{Ask: a}.mapSays())
		drawer{Ask: a}.paint(&c, &drawings[i])
		p := frame.Page{Frame: f, Title: mapTitle, Marks: c.Marks}
		if len(drawings) > 1 {
			p.Title, p.Group = fmt.Sprintf("%s (%d of %d)", mapTitle, i+1, len(drawings)), mapTitle
		}
		out = append(out, p)
	}
	return out
}
