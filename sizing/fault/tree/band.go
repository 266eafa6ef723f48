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
	Part float64   = 0.1
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
	groups := groupsOf(readings)
	bands := make([]Band, len(groups))
	for i, g := range groups {
		bands[i] = Band{Low: unit.Volt(g.low - Apart(g.low, g.low)), High: unit.Volt(g.high + Apart(g.high, g.high)), Says: says((g.low+g.high)/2, float64(full))}
		if i > 0 {
			edge := between(groups[i-1].high, g.low)
			bands[i-1].High, bands[i].Low = edge, edge
		}
	}
	return bands, answers(readings, groups)
}

// group is readings of which each is near the next.
type group struct{ low, high float64 }

// groupsOf joins readings that no meter tells apart, the lowest group first. Groups are kept
// in order while the readings come: what lies between two that are near is near to both.
func groupsOf(readings []float64) []group {
	var few [16]group
	groups := few[:0]
	for _, v := range readings {
		at := 0
		for at < len(groups) && v-groups[at].high >= Apart(groups[at].high, v) {
			at++
		}
		if at == len(groups) || groups[at].low-v >= Apart(v, groups[at].low) {
			groups = slices.Insert(groups, at, group{v, v})
			continue
		}
		g := &groups[at]
		g.low, g.high = min(g.low, v), max(g.high, v)
		for at+1 < len(groups) && groups[at+1].low-g.high < Apart(g.high, groups[at+1].low) {
			g.high = groups[at+1].high
			groups = slices.Delete(groups, at+1, at+2)
		}
	}
	return groups
}

// answers gives by reading its group.
func answers(readings []float64, groups []group) []int {
	out := make([]int, len(readings))
	for i, v := range readings {
		for out[i]+1 < len(groups) && v >= groups[out[i]+1].low {
			out[i]++
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

// says names a reading beside the source's voltage, which is negative where plus is grounded.
func says(v, full float64) string {
	if full < 0 {
		v, full = -v, -full
	}
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
