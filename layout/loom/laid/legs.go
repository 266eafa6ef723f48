// Package laid is what the map and the board of a loom share: the legs of a tree as they lie
// on a sheet, and the words for what lies on a loom.
package laid

import (
	"example.com/loomfolio/layout/loom/branch"
	"example.com/loomfolio/layout/loom/placing"
	"example.com/loomfolio/layout/loom/plane"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/harness"
)

// Legs are the branches of one tree as they lie on a sheet.
type Legs struct {
	branch.Arrangement
	Scale float64 // the loom is so many times as large as drawn; 0: not to scale
	Thick float64 // the same of the branches' thickness
	Area  sheet.Rect
}

// Centre moves the legs into the middle of the area.
func (d *Legs) Centre() {
	r := plane.Bounds(d.Lines)
	d.Move(d.Area.X+(d.Area.W-r.W)/2-r.X, d.Area.Y+(d.Area.H-r.H)/2-r.Y)
}

// Move moves the legs.
func (d *Legs) Move(dx, dy float64) {
	for i, l := range d.Lines {
		for j := range l {
			l[j] = plane.Point{X: l[j].X + dx, Y: l[j].Y + dy}
		}
		d.Pieces[i] = l.Segments()
	}
}

// Dot is the radius of a splice.
const Dot = 1.5

// Spot is a splice where it lies on the sheet.
type Spot struct {
	Part *harness.Part
	At   plane.Point
}

// Spots are the splices along a leg.
func (a Words) Spots(d *Legs, i int) []Spot {
	var out []Spot
	l := d.Tree.Legs[i]
	for _, p := range a.Along(l.Run) {
		share := l.Drawn(float64(p.Along.Distance)) / max(l.MM, 1)
		if d.Start[i] != l.From {
			share = 1 - share
		}
		at, _ := d.Lines[i].At(share * d.Lines[i].Length())
		out = append(out, Spot{p, at})
	}
	return out
}

// tints lie under the pattern of a cover; they differ in grey as well.
var tints = map[string]sheet.Colour{
	"braid":   {R: 0xc9, G: 0xd6, B: 0xe4},
	"conduit": {R: 0xd9, G: 0xd9, B: 0xd9},
	"tape":    {R: 0xee, G: 0xe3, B: 0xc4},
	"tube":    {R: 0xb9, G: 0xcf, B: 0xb9},
}

// Tint lies under the pattern of a cover: white where it has none.
func Tint(cover string) sheet.Colour {
	if tint, ok := tints[cover]; ok {
		return tint
	}
	return sheet.White
}

// Hooks are places along a leg at which its label may hang, square to it.
func (a Words) Hooks(d *Legs, i int) []placing.Hook {
	var out []placing.Hook
	for _, share := range []float64{0.5, 0.4, 0.6, 0.3, 0.7} {
		at, deg := d.Lines[i].At(share * d.Lines[i].Length())
		out = append(out, placing.Hook{At: at, Radius: a.Half(d, i), Dirs: []float64{deg - 90, deg + 90, deg - 60, deg + 60, deg - 120, deg + 120}})
	}
	return out
}

// Half is half the thickness of a leg on the sheet.
func (a Words) Half(d *Legs, i int) float64 {
	return max(float64(a.R.Runs[d.Tree.Legs[i].Run].Diameter)/d.Thick, Thinnest) / 2
}

// Thinnest is the least width of a branch, mm.
const Thinnest = 1.3
