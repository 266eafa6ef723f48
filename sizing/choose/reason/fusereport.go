package reason

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/choose/demand"
	"example.com/loomfolio/sizing/choose/protect"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// fusing is one fuse or breaker, for its reasons.
type fusing struct {
	report
	e    *harness.Element
	f    *protect.Fuse
	seat protect.Seat
}

func (r report) fusing(e *harness.Element) fusing {
	return fusing{r, e, &r.Fuses[e.ID], protect.Seat{H: r.H, E: e}}
}

// fuse writes down one fuse.
func (r report) fuse(e *harness.Element) chosen.Fuse {
	x := r.fusing(e)
	f := x.f
	out := chosen.Fuse{
		Element: e.ID, Name: e.Name, Part: e.Part, Position: e.Position, Body: f.Body, Rating: f.Rating,
		Breaker: f.Breaker, Given: f.Given, Amps: unit.Ampere(f.Amps), State: f.State, Feeds: x.feeds(),
		Wires: r.Guards.Wires[e.ID], Reason: x.fuseReason() + x.feederReason(), Sources: x.fuseSources(),
	}
	out.Spare = unit.Ampere(max(0, float64(f.Rating)*x.seat.Share()*x.seat.Heat()-f.Amps))
	if out.Least = f.Least; out.Least > 0 {
		out.Bought = x.bought()
	}
	if f.Breaker {
		out.Type = x.H.Parts[e.Part].BreakerType
		out.Reason += breakerReason(out.Type)
	}
	if row, ok := rating.FuseOf(f.Body, f.Rating); ok {
		out.BodyColour = row.Colour
	}
	x.standing(&out)
	x.shorted(&out)
	out.Below, out.Above = x.beside()
	return out
}

// standing finds the wire that stands least of those that the fuse guards, and
// the largest rating that all of them stand.
func (x fusing) standing(out *chosen.Fuse) {
	stand, weakest := x.behind()
	out.Smallest = x.weakestOf(stand)
	if math.IsInf(weakest, 1) {
		// No wire limits the rating: a short feed of a panel, say, is sized by the
		// panel's fuses. It is the wire behind this one all the same.
		if w := x.weakestOf(out.Wires); w != harness.None {
			out.Smallest = w
		}
		out.MostAllowed = out.Rating
		return
	}
	if limit := x.H.LimitOf(x.e); limit > 0 { // one rated above it is never opened
		weakest = math.Min(weakest, float64(max(limit, out.Rating)))
	}
	for _, r := range append(protect.Ratings(x.f), out.Rating) {
		if float64(r) <= weakest*(1+1e-9) {
			out.MostAllowed = max(out.MostAllowed, r)
		}
	}
}

// behind lists the wires that must stand the fuse, and the largest rating that all of
// them stand.
func (x fusing) behind() (stand []harness.WireID, weakest float64) {
	weakest = math.Inf(1)
	for w, guards := range x.Stand {
		if !slices.Contains(guards, x.e.ID) {
			continue
		}
		id := harness.WireID(w)
		stand = append(stand, id)
		weakest = math.Min(weakest, x.MostRating(id, x.Size(id), x.e.ID))
	}
	return stand, weakest
}

// weakestOf gives the wire that carries least, the first of equals; None of none.
func (r report) weakestOf(wires []harness.WireID) harness.WireID {
	best, least := harness.WireID(harness.None), math.Inf(1)
	for _, w := range wires {
		if a := r.Carries(w, r.Size(w)); a < least {
			best, least = w, a
		}
	}
	return best
}

// feeds lists the loads and coils behind the fuse, in the order of the elements.
func (x fusing) feeds() []string {
	behind := make([]bool, len(x.H.Elements))
	for _, list := range [][]demand.Draw{x.Draws, x.Coils} {
		for i := range list {
			if slices.Contains(list[i].Feed.Elements, x.e.ID) {
				behind[list[i].Load] = true
			}
		}
	}
	var out []string
	for i, yes := range behind {
		if yes {
			out = append(out, x.H.Elements[i].Name)
		}
	}
	return out
}

// shorted writes down the smallest current of a dead short on what a fuse feeds,
// and the longest time in which it opens.
func (x fusing) shorted(out *chosen.Fuse) {
	least := x.Shorts[x.e.ID].Least()
	if math.IsInf(least, 1) || out.Rating <= 0 {
		return
	}
	out.Prospective = unit.Ampere(least)
	if t := x.Clears(x.e.ID, least); !math.IsNaN(t) && !math.IsInf(t, 1) {
		out.ClearsIn = unit.Second(t)
	}
}
