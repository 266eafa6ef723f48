package tree

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/unit"
)

// Near and Part are what two readings must differ by, the greater of the two, for a meter to
// tell them apart: 0.1 V holds a cheap meter's error at 12.6 V (0.5 % + 2 digits: 0.083 V, as
// the cheapest ones' manuals state it), a tenth holds a battery that is not as full, and loads,
// lengths and contacts that are not quite as described; judgement, not published.
const (
	Near unit.Volt = 0.1
	Part           = 0.1
)

// Apart is the least difference of a reading from a higher one that a meter tells, V.
func Apart(low, high float64) float64 {
	return max(float64(Near), Part*max(math.Abs(low), math.Abs(high)))
}

// Band is an answer: the volts that count as it. Between two bands lies the middle of what
// would be read; beyond the first and the last one the meter's error.
type Band struct {
	Low, High unit.Volt
	Says      string // full, low, some, none, negative
}

// Bands makes answers of what would be read, and gives by reading its answer. The lowest is
// the first. Full is the voltage of the source.
func Bands(readings []float64, full unit.Volt) ([]Band, []int) {
	sorted := slices.Sorted(slices.Values(readings))
	groups := groupsOf(sorted)
	bands := make([]Band, len(groups))
	for i, g := range groups {
		low, high := g[0], g[len(g)-1]
		bands[i] = Band{Low: unit.Volt(low - Apart(low, low)), High: unit.Volt(high + Apart(high, high)), Says: says((low+high)/2, float64(full))}
		if i > 0 {
			edge := between(groups[i-1][len(groups[i-1])-1], low)
			bands[i-1].High, bands[i].Low = edge, edge
		}
	}
	return bands, answers(readings, groups)
}

// groupsOf parts sorted readings where the gap is one that a meter tells.
func groupsOf(sorted []float64) [][]float64 {
	var groups [][]float64
	from := 0
	for i := range sorted {
		if i > 0 && sorted[i]-sorted[i-1] >= Apart(sorted[i-1], sorted[i]) {
			groups, from = append(groups, sorted[from:i]), i
		}
	}
	if len(sorted) > 0 {
		groups = append(groups, sorted[from:])
	}
	return groups
}

// answers gives by reading its group.
func answers(readings []float64, groups [][]float64) []int {
	out := make([]int, len(readings))
	for i, v := range readings {
		for g := range groups {
			if v >= groups[g][0] {
				out[i] = g
			}
		}
	}
	return out
}

// between is the middle of a gap, rounded as far as the gap allows.
func between(low, high float64) unit.Volt {
	mid := (low + high) / 2
	for _, step := range []float64{1, .5, .1} {
		if v := math.Round(mid/step) * step; math.Abs(v-mid) <= (high-low)/8 {
			return unit.Volt(v)
		}
	}
	return unit.Volt(math.Round(mid*100) / 100)
}

// says names a reading beside the source's voltage.
func says(v, full float64) string {
	switch {
	case v < -float64(Near):
		return "negative"
	case v < .05*full:
		return "none"
	case v < .5*full:
		return "some"
	case v < .93*full:
		return "low"
	}
	return "full"
}

// At is the answer that a reading is; -1 where it is none.
func At(bands []Band, v float64) int {
	for i, b := range bands {
		if v >= float64(b.Low) && v <= float64(b.High) {
			return i
		}
	}
	return -1
}
