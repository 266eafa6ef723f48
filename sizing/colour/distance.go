package colour

import (
	"math"
	"sync"
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

// ask is the weight of a view in the distance.
var ask = [...]float64{normal: 1, protan: 1.5, deutan: 1.5, tritan: 2, dim: 2}

// bases gives the distance of any two single colours of the palette: the
// smallest over both palettes and every view but grey, in 1/100.
var bases = sync.OnceValue(func() [][]int {
	seen := looks()
	out := make([][]int, len(seen))
	for i := range seen {
		out[i] = make([]int, len(seen))
		for j := range seen {
			if i != j {
				out[i][j] = smallestView(seen[i], seen[j])
			}
		}
	}
	return out
})

// looks gives each colour of the palette in each of its shades and views.
func looks() [][][]lab {
	var out [][][]lab
	for _, c := range palette() {
		var shades [][]lab
		for _, s := range c.shades {
			var views []lab
			for v := range ask {
				views = append(views, look(s, view(v)))
			}
			shades = append(shades, views)
		}
		out = append(out, shades)
	}
	return out
}

func smallestView(a, b [][]lab) int {
	smallest := math.Inf(1)
	for p := range min(len(a), len(b)) {
		for v, weight := range ask {
			smallest = min(smallest, weight*difference(a[p][v], b[p][v]))
		}
	}
	return int(math.Round(100 * smallest))
}

// single is the distance of two single colours; unknown letters are at 0.
func single(a, b string) int {
	i, j := find(a), find(b)
	if i < 0 || j < 0 {
		return 0
	}
	return bases()[i][j]
}

// apart is the distance of two wires in 1/100: the larger of what the bases
// and what the tracers give, a plain wire's tracer being its own base. A pair
// and its reverse keep only a part of the distance between their two colours.
func apart(a, b Pair) int {
	base := single(a.Base, b.Base)
	tracer := int(math.Round(tracerShare * float64(single(a.stripe(), b.stripe()))))
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

// Distance gives how far two wires look apart, in CIEDE2000 units: the worst
// of two palettes and of normal, colour-deficient and dim sight (with less
// asked of the weaker views). 0 is the same colour.
func Distance(a, b Pair) float64 { return float64(apart(a, b)) / 100 }

// Alike says in words how well two wires are told apart: "clear" from 20 on,
// "check in good light" from 12, below that "use the number sleeve".
func Alike(a, b Pair) string {
	switch d := apart(a, b); {
	case d >= clear:
		return "clear"
	case d >= checkInGood:
		return "check in good light"
	}
	return "use the number sleeve"
}
