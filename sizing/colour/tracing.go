package colour

import (
	"math"
	"sort"
	"sync"

	"example.com/loomfolio/sizing/colour/sight"
	"example.com/loomfolio/sizing/harness"
)

// Sight is a way of seeing in which colours come near each other.
type Sight string

// The sights, in words for the sheets.
const (
	NormalSight Sight = "in any light"
	RedWeak     Sight = "with red-green colour blindness (protan)"
	GreenWeak   Sight = "with red-green colour blindness (deutan)"
	BlueWeak    Sight = "with blue-yellow colour blindness"
	DimLight    Sight = "in dim light"
)

var sights = [...]Sight{sight.Normal: NormalSight, sight.Protan: RedWeak, sight.Deutan: GreenWeak, sight.Tritan: BlueWeak, sight.Dim: DimLight}

// Near is two wires of different nets that meet and are not clear apart.
type Near struct {
	A, B     harness.WireID // in the order of their names
	Distance float64        // over all sights, in CIEDE2000 units
	Sight    Sight          // in which they come nearest
	Words    string         // "check in good light", "go by the number sleeve"
}

// Confusion is two colours that look alike in some sight.
type Confusion struct {
	A, B     string // letters
	Sight    Sight
	Distance float64 // in that sight, weighted as in the choice
}

// standardSights are the scales of the built-in palettes, one for each sight.
var standardSights = sync.OnceValue(func() []*scale { return scalesBySight(shadesOf(nil)) })

// sightScales gives the scales for a harness, whose description may replace shades.
func sightScales(h *harness.Harness) []*scale {
	if len(h.Practice.Palette) == 0 {
		return standardSights()
	}
	return scalesBySight(shadesOf(h.Practice.Palette))
}

func scalesBySight(shades [][]sight.Shade) []*scale {
	var out []*scale
	for v := range allViews {
		alone := make(weights, len(allViews))
		for o := range alone {
			alone[o] = math.Inf(1)
		}
		alone[v] = allViews[v]
		out = append(out, newScale(shades, alone))
	}
	return out
}

// nearest gives the distance of two pairs and the sight that gives it.
func nearest(scales []*scale, a, b Pair) (int, Sight) {
	best, sight := never, NormalSight
	for v, s := range scales {
		if d := s.apart(a, b); d < best {
			best, sight = d, sights[v]
		}
	}
	return best, sight
}

// Confusions gives the pairs of colours, of those that are used, that only the
// number sleeve tells apart in some sight; the nearest first.
func Confusions(h *harness.Harness, letters []string) []Confusion {
	scales := sightScales(h)
	var out []Confusion
	for i, a := range letters {
		for _, b := range letters[:i] {
			d, sight := nearest(scales, Pair{Base: b}, Pair{Base: a})
			if d < checkInGood && a != b {
				out = append(out, Confusion{A: b, B: a, Sight: sight, Distance: hundredths(d)})
			}
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Distance < out[j].Distance })
	return out
}

// Standing says how well two wires at a distance are told apart.
func Standing(distance float64) string { return words(int(math.Round(100 * distance))) }

// near lists the two wires of a spot that are not clear apart, the nearest first.
// A pair of which both colours are settled by rule is left out: see LookAlikes.
func (v *verdict) near(spot int, scales []*scale) []Near {
	var out []Near
	seen := newSeen(len(v.combos) * len(v.combos))
	for i, b := range v.here[spot] {
		for _, a := range v.here[spot][:i] {
			p, q := v.option[a], v.option[b]
			d, key := v.apart[p][q], p*len(v.combos)+q
			if d >= clear || seen[key] || !v.mistakable(a, b) {
				continue
			}
			seen[key] = true
			_, sight := nearest(scales, v.combos[p], v.combos[q])
			out = append(out, Near{a, b, hundredths(d), sight, words(d)})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Distance < out[j].Distance })
	return out
}
