// Package outline draws a loom as a figure without words: its runs as branches as thick
// as what lies in them, its places as joints, and a hair for each part that hangs there.
//
// In: the model and the runs' results. Out: marks within an area. It holds that branches do
// not cross: each branch's ends have lines of their own, as the leaves of a tree have. A run
// that closes a ring is drawn thin. Along the width a place lies as far from the
// first one as the runs between them are long. All lengths are mm.
package outline

import (
	"cmp"
	"math"
	"slices"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
)

// Sizes of the figure, mm.
const (
	margin    = 5.5
	thickest  = 3.2
	thinnest  = 0.7
	joint     = 1.15 // radius of a place
	hair      = 3.6  // from a place to the dot of a part, and every second one
	shortHair = 2.6  // a little shorter
	dot       = 0.42
	mostHairs = 22 // a place shows no more
)

// Draw fills an area with the loom of a model; nothing where it has no runs.
func Draw(c *sheet.Canvas, area sheet.Rect, h *harness.Harness, runs []fitted.Run) {
	t := grow(h)
	if len(t.nodes) == 0 {
		return
	}
	at := t.place(area.Inset(margin))
	for _, r := range t.rings {
		c.Add(bow(at[h.Runs[r].From], at[h.Runs[r].To], sheet.Solid(sheet.Thin).In(sheet.Grey)))
	}
	widths := widths(h, runs)
	for _, n := range t.nodes {
		if n.parent != harness.None {
			c.Add(bow(at[n.parent], at[n.place], sheet.Rounded(widths[n.run])))
		}
	}
	for _, n := range t.nodes {
		hairs(c, at[n.place], parts(h, n.place), len(n.children) == 0, n.parent == harness.None)
	}
	for _, n := range t.nodes {
		c.Circle(at[n.place].X, at[n.place].Y, joint, sheet.Both(sheet.Solid(sheet.Thick), sheet.White))
	}
}

// widths gives each run's line by the bundle in it: the square root brings thin ones up.
func widths(h *harness.Harness, runs []fitted.Run) []float64 {
	out := make([]float64, len(h.Runs))
	most := 0.0
	for i := range out {
		if i < len(runs) {
			out[i] = float64(runs[i].Diameter)
		}
		most = math.Max(most, out[i])
	}
	for i, d := range out {
		out[i] = thinnest
		if most > 0 {
			out[i] += (thickest - thinnest) * math.Sqrt(d/most)
		}
	}
	return out
}

// bow is a branch that leaves and arrives level.
func bow(a, b sheet.Point, s sheet.Stroke) sheet.Path {
	half := (b.X - a.X) / 2
	c1, c2 := sheet.Point{X: a.X + half, Y: a.Y}, sheet.Point{X: b.X - half, Y: b.Y}
	return sheet.Path{Start: a, Segs: []sheet.Seg{{P: b, C1: &c1, C2: &c2}}, Stroke: &s}
}

// parts counts those that hang at a place; splices lie in the loom.
func parts(h *harness.Harness, at harness.PlaceID) int {
	n := 0
	for i := range h.Parts {
		if p := &h.Parts[i]; p.Place == at && p.Kind != harness.Splice {
			n++
		}
	}
	return min(n, mostHairs)
}

// hairs fans them out: from an end away from the loom, elsewhere to both sides.
func hairs(c *sheet.Canvas, p sheet.Point, n int, end, first bool) {
	for i := range n {
		long := hair
		if i%2 == 1 {
			long = shortHair
		}
		sin, cos := math.Sincos(turn(i, n, end, first) * math.Pi / 180)
		tip := sheet.Point{X: p.X + (joint+long)*cos, Y: p.Y - (joint+long)*sin}
		c.Line(p.X, p.Y, tip.X, tip.Y, sheet.Solid(sheet.Hair))
		c.Circle(tip.X, tip.Y, dot, sheet.Filled(sheet.Ink))
	}
}

// turn is the direction of a hair in degrees, from the right hand up.
func turn(i, n int, end, first bool) float64 {
	spread := func(i, n int, from, to float64) float64 {
		return from + (to-from)*(float64(i)+0.5)/float64(n)
	}
	switch {
	case first && !end:
		return spread(i, n, 95, 265)
	case end:
		return spread(i, n, -95, 95)
	case i%2 == 0:
		return spread(i/2, (n+1)/2, 40, 140)
	}
	return spread(i/2, n/2, -40, -140)
}

// node is a place in the tree.
type node struct {
	place, parent harness.PlaceID
	run           harness.RunID // from the parent
	children      []int         // indices of nodes, in the order in which they are drawn, from above
	along, reach  float64       // lengths of the runs from the first place, and on to the furthest
}

// tree is the loom from one end on.
type tree struct {
	nodes []node // parents first
	rings []harness.RunID
}

// grow makes a tree of the largest piece of a loom that hangs together: from one end of its
// longest way, that at the vehicle's front where the description says so.
func grow(h *harness.Harness) tree {
	var best tree
	most := 0.0
	seen := map[harness.PlaceID]bool{}
	for _, r := range h.Runs {
		if seen[r.From] {
			continue
		}
		any := from(h, r.From)
		for _, n := range any.nodes {
			seen[n.place] = true
		}
		if t := from(h, any.furthest()); t.length(h) > most {
			best, most = t, t.length(h)
		}
	}
	if len(best.nodes) > 0 && h.Places[best.furthest()].Lies.Is(harness.Front) {
		return from(h, best.furthest())
	}
	return best
}

// FrontFirst tells whether the loom is drawn with the vehicle's front at the left, as the description says.
func FrontFirst(h *harness.Harness) bool {
	t := grow(h)
	if len(t.nodes) == 0 {
		return false
	}
	return h.Places[t.nodes[0].place].Lies.Is(harness.Front) || h.Places[t.furthest()].Lies.Is(harness.Rear)
}

// from walks over the runs from a place, nearest first.
func from(h *harness.Harness, start harness.PlaceID) tree {
	t := tree{nodes: []node{{place: start, parent: harness.None, run: harness.None}}}
	at := map[harness.PlaceID]int{start: 0}
	used := map[harness.RunID]bool{}
	for i := 0; i < len(t.nodes); i++ {
		for _, r := range h.Runs {
			to, ok := other(r, t.nodes[i].place)
			if !ok || used[r.ID] {
				continue
			}
			used[r.ID] = true
			if _, there := at[to]; there {
				t.rings = append(t.rings, r.ID)
				continue
			}
			at[to] = len(t.nodes)
			t.nodes[i].children = append(t.nodes[i].children, len(t.nodes))
			t.nodes = append(t.nodes, node{place: to, parent: t.nodes[i].place, run: r.ID, along: t.nodes[i].along + math.Max(float64(r.Length), 1)})
		}
	}
	t.measure()
	return t
}

func other(r harness.Run, at harness.PlaceID) (harness.PlaceID, bool) {
	switch at {
	case r.From:
		return r.To, true
	case r.To:
		return r.From, true
	}
	return harness.None, false
}

// measure finds how far each branch reaches and sets the furthest one into the middle of its brothers.
func (t tree) measure() {
	for i := len(t.nodes) - 1; i >= 0; i-- {
		n := &t.nodes[i]
		n.reach = n.along
		for _, k := range n.children {
			n.reach = math.Max(n.reach, t.nodes[k].reach)
		}
		slices.SortStableFunc(n.children, func(a, b int) int { return cmp.Compare(t.nodes[b].reach, t.nodes[a].reach) })
		n.children = middled(n.children)
	}
}

// middled sets the first of a list into its middle, the next ones above and below in turn.
func middled(list []int) []int {
	var out []int
	for i, k := range list {
		if i%2 == 0 {
			out = append(out, k)
		} else {
			out = append([]int{k}, out...)
		}
	}
	return out
}

func (t tree) furthest() harness.PlaceID {
	best := t.nodes[0]
	for _, n := range t.nodes {
		if n.along > best.along {
			best = n
		}
	}
	return best.place
}

func (t tree) length(h *harness.Harness) float64 {
	sum := 0.0
	for _, n := range t.nodes[1:] {
		sum += float64(h.Runs[n.run].Length)
	}
	return sum
}

// place gives each place its point: ends lie on lines of their own, a fork level with
// the branch that reaches furthest.
func (t tree) place(area sheet.Rect) map[harness.PlaceID]sheet.Point {
	lines := make([]float64, len(t.nodes))
	ends := 0.0
	var walk func(i int)
	walk = func(i int) {
		n := t.nodes[i]
		if len(n.children) == 0 {
			lines[i] = ends
			ends++
			return
		}
		furthest := n.children[0]
		for _, k := range n.children {
			walk(k)
			if t.nodes[k].reach > t.nodes[furthest].reach {
				furthest = k
			}
		}
		lines[i] = lines[furthest]
	}
	walk(0)
	out := map[harness.PlaceID]sheet.Point{}
	for i, n := range t.nodes {
		out[n.place] = sheet.Point{X: area.X + area.W*n.along/t.nodes[0].reach, Y: area.Y + area.H*(lines[i]+0.5)/ends}
	}
	return out
}
