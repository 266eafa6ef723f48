package fit

import (
	"math"
	"strings"

	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/unit"
)

// wallOf is how much wider a cover is outside than the bore that it is bought by;
// common practice, no source.
var wallOf = map[string]unit.Millimetre{"conduit": 3, "braid": 2, "tape": 1}

const (
	otherWall   unit.Millimetre = 2
	clearRound  unit.Millimetre = 9.525 // 3/8 in, FAA AC 43.13-1B 11-115
	mostBetween unit.Millimetre = 609.6 // 24 in, FAA AC 43.13-1B 11-96a; 46 CFR 183.340(b)(4)
	bootGrips   unit.Millimetre = 20    // on the cover, and as much on the bundle; common practice
)

// edges finds what a run needs where it goes through metal and where its cover
// ends, and how many supports hold it.
func (f *fitter) edges(r *fitted.Run) {
	run := &f.h.Runs[r.Run]
	r.Outside = r.Diameter
	if r.CoverName != "" {
		r.Outside = outside(r.CoverName, r.Diameter, r.Cover)
		if tube, ok := tubeOver(r.Outside, r.Diameter); ok {
			r.Boot = tube.Name(f.h.Sheet.Imperial)
			r.BootLen = cutLong(2 * bootGrips)
			f.used = append(f.used, tube.Source, "shrink-rule")
		}
	}
	r.Grommet = unit.Millimetre(math.Ceil(float64(r.Outside) - 1e-9))
	r.Clear = unit.Millimetre(math.Ceil(float64(r.Outside+2*clearRound) - 1e-9))
	from, to := f.h.Places[run.From].Zone, f.h.Places[run.To].Zone
	r.Wall = from != "" && to != "" && !strings.EqualFold(from, to)
	r.Clamps = max(0, int(math.Ceil(float64(run.Length/mostBetween)-1e-9))-1)
	f.used = append(f.used, "ac43-11-96", "ac43-11-118", "cfr-183-340", "ac43-11-115")
}

// outside is how wide a run is over its cover: tape lies on the bundle, all else
// is as wide as its bore and its wall.
func outside(cover string, bundle, bore unit.Millimetre) unit.Millimetre {
	wall, known := wallOf[strings.ToLower(cover)]
	if !known {
		wall = otherWall
	}
	if fitted.Taped(cover) {
		return bundle + wall
	}
	return bore + wall
}
