package reason

import (
	"fmt"
	"slices"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/choose/protect"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// beside gives the ratings on both sides of a fuse's and why they were not taken.
func (x fusing) beside() (below, above chosen.Neighbour) {
	lower, higher := unit.Ampere(0), unit.Ampere(0)
	for _, r := range protect.Ratings(x.f) {
		if r < x.f.Rating {
			lower = r
		}
		if r > x.f.Rating && higher == 0 {
			higher = r
		}
	}
	if lower > 0 {
		below = chosen.Neighbour{Size: lower.String(), Fails: x.tooLittle(lower)}
	}
	if higher > 0 {
		above = chosen.Neighbour{Size: higher.String(), Fails: x.tooMuch(higher)}
	}
	return below, above
}

// tooLittle tries a smaller rating against the load and its start.
func (x fusing) tooLittle(r unit.Ampere) []chosen.Fail {
	var out []chosen.Fail
	if most := float64(r) * x.seat.Share() * x.seat.Heat(); x.f.Amps > most*(1+1e-9) {
		text := fmt.Sprintf("carries %s continuously (%s of it", unit.Amps(most), unit.Fraction(x.seat.Share()))
		if heat := x.seat.Heat(); heat < 0.995 {
			text += fmt.Sprintf(", and %s of that at the ambient temperature there", unit.Fraction(unit.Round(heat, 2)))
		}
		out = append(out, fail("continuous", x.f.State, x.f.Amps, most, fmt.Sprintf("%s), and %s flows in %s", text, unit.Amps(x.f.Amps), x.f.State)))
	}
	if !x.f.Breaker && !x.seat.Holds(x.f.Body, r, x.f) {
		earliest := float64(rating.EarliestOpening(x.f.Body, float64(x.f.Start)/(float64(r)*x.seat.Heat())))
		text := fmt.Sprintf("may open %s after the start of %s begins, which lasts %s", unit.Second(unit.Round(earliest, 3)), unit.Amps(float64(x.f.Start)), x.f.StartFor)
		out = append(out, fail("start", "", earliest, float64(x.f.StartFor), text))
	}
	if least := x.seat.Least(); r < least {
		out = append(out, fail("smallest", "", float64(r), float64(least), fmt.Sprintf("is below %s, the smallest that the practice fits", least)))
	}
	if len(out) == 0 && !x.seat.Stocks(x.f.Body, r) && x.seat.Stocks(x.f.Body, x.f.Rating) {
		text := "is seldom on the shelf"
		if _, weakest := x.behind(); float64(x.f.Rating) <= weakest*(1+1e-9) {
			text += fmt.Sprintf("; %s is, and serves load and wire too", x.f.Rating)
		}
		out = append(out, fail("stock", "", float64(r), float64(x.f.Rating), text))
	}
	if len(out) == 0 && x.f.Least > 0 {
		out = append(out, fail("bought", "", float64(r), float64(x.f.Rating), "would do; it is "+x.bought()))
	}
	return out
}

// tooMuch tries a larger rating against the holder and every wire behind.
func (x fusing) tooMuch(r unit.Ampere) []chosen.Fail {
	var out []chosen.Fail
	if limit := x.seat.HolderLimit(x.f.Body); !x.f.Breaker && limit > 0 && r > limit {
		out = append(out, fail("holder", "", float64(r), float64(limit), fmt.Sprintf("the holder takes %s at most", limit)))
	}
	for i, guards := range x.Stand {
		w := harness.WireID(i)
		if !slices.Contains(guards, x.e.ID) {
			continue
		}
		if most := x.MostRating(w, x.Size(w), x.e.ID); most < float64(r)*(1-1e-9) {
			name := x.H.Wires[w].Name
			text := fmt.Sprintf("%s (%s) is safe behind a fuse of up to %s", name, x.gauge(w, x.At[w]), unit.Amps(most))
			out = append(out, fail("wire", name, most, float64(r), text))
		}
	}
	return out
}
