package colour

import (
	"math"
	"sync"

	"example.com/loomfolio/sizing/colour/sight"
	"example.com/loomfolio/sizing/harness"
)

// All distances are whole hundredths of a CIEDE2000 unit, so that searches on
// them give the same answer on every machine.
//
// The figures below are our own choices (no source): how much less is asked of
// a view than of normal sight, what a tracer counts against a base, what is
// left of a base and tracer that are swapped, and the bands of words.
const (
	tracerShare    = 0.6  // a tracer is narrower than its base, and often turned away
	swappedShare   = 0.35 // OG/BK against BK/OG
	least          = 1200 // a tracer must stand off its base by this much
	clear          = 2000
	checkInGood    = 1200
	sizeTellsApart = 2.5 // copper of two wires that nobody mistakes for each other
)

// weights are those of the views, by view; a view past the end takes no part.
type weights []float64

// allViews is what is asked of each view.
var allViews = weights{sight.Normal: 1, sight.Protan: 1.5, sight.Deutan: 1.5, sight.Tritan: 2, sight.Dim: 2}

// scale measures how far apart colours look.
type scale struct {
	bases [][]int // by two colours of the palette, 1/100
}

// standard is the scale of the built-in palettes: the smallest distance over
// both of them and every view but grey.
var standard = sync.OnceValue(func() *scale { return newScale(shadesOf(nil), allViews) })

// scaleOf gives the scale for a harness, whose description may replace shades.
func scaleOf(h *harness.Harness) *scale {
	if len(h.Practice.Palette) == 0 {
		return standard()
	}
	return newScale(shadesOf(h.Practice.Palette), allViews)
}

// shadesOf gives the shades of each colour by palette; a replaced one is the
// same in both.
func shadesOf(replaced []harness.Shade) [][]sight.Shade {
	var out [][]sight.Shade
	for _, c := range palette() {
		shades := c.shades
		for _, r := range replaced {
			if r.Letters == c.letters {
				shades = []sight.Shade{r.RGB, r.RGB}
			}
		}
		out = append(out, shades)
	}
	return out
}

func newScale(shades [][]sight.Shade, ask weights) *scale {
	seen := looks(shades, ask)
	s := &scale{bases: make([][]int, len(seen))}
	for i := range seen {
		s.bases[i] = make([]int, len(seen))
		for j := range i {
			s.bases[i][j] = smallestView(seen[i], seen[j], ask)
			s.bases[j][i] = s.bases[i][j]
		}
	}
	return s
}

// looks gives each colour in each of its shades and views.
func looks(shades [][]sight.Shade, ask weights) [][][]sight.Lab {
	var out [][][]sight.Lab
	for _, list := range shades {
		var each [][]sight.Lab
		for _, s := range list {
			var views []sight.Lab
			for v := range ask {
				views = append(views, sight.Look(s, sight.View(v)))
			}
			each = append(each, views)
		}
		out = append(out, each)
	}
	return out
}

func smallestView(a, b [][]sight.Lab, ask weights) int {
	smallest := math.Inf(1)
	for p := range min(len(a), len(b)) {
		for v, weight := range ask {
			smallest = min(smallest, weight*sight.Difference(a[p][v], b[p][v]))
		}
	}
	return int(math.Round(100 * smallest))
}

// single is the distance of two single colours; unknown letters are at 0.
func (s *scale) single(a, b string) int {
	i, j := find(a), find(b)
	if i < 0 || j < 0 {
		return 0
	}
	return s.bases[i][j]
}

// apart is the distance of two wires in 1/100: the larger of what the bases
// and what the tracers give, a plain wire's tracer being its own base. A pair
// and its reverse keep only a part of the distance between their two colours.
func (s *scale) apart(a, b Pair) int {
	base := s.single(a.Base, b.Base)
	tracer := int(math.Round(tracerShare * float64(s.single(a.stripe(), b.stripe()))))
	d := max(base, tracer)
	if swapped(a, b) {
		d = min(d, int(math.Round(swappedShare*float64(base))))
	}
	return d
}

// stripe is what shows in the tracer's place.
func (p Pair) stripe() string {
	if p.Tracer == "" {
		return p.Base
	}
	return p.Tracer
}

// swapped tells whether one pair is the reverse of the other.
func swapped(a, b Pair) bool {
	return a.Tracer != "" && b.Tracer != "" && a.Base == b.Tracer && a.Tracer == b.Base
}

// words says how well two wires so far apart are told apart.
func words(d int) string {
	switch {
	case d >= clear:
		return "clear"
	case d >= checkInGood:
		return "check in good light"
	}
	return "go by the number sleeve"
}
