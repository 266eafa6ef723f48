package fuses

import (
	"maps"
	"math"
	"slices"

	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/protect"
	"example.com/loomfolio/sizing/choose/shelf"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// offer is what a fuse may be in one body: the ratings, ascending, and by how much its wires
// grow with each, g.
type offer struct {
	body    string
	ratings []unit.Ampere
	grams   []float64
}

// offers gives what a fuse may be, its own body first.
func (p *planner) offers(f harness.ElementID) []offer {
	var out []offer
	for _, body := range p.upward(f) {
		if o := p.offer(f, body); len(o.ratings) > 0 {
			out = append(out, o)
		}
	}
	return out
}

// upward lists the bodies that a fuse may have, its own first, then heavier ones where the
// description leaves the body open. A lighter one has terminals that take thinner wire.
func (p *planner) upward(f harness.ElementID) []string {
	own := p.s.Fuses[f].Body
	all := p.seat(f).Bodies()
	if i := slices.Index(all, own); i >= 0 {
		return all[i:]
	}
	return []string{own}
}

func (p *planner) offer(f harness.ElementID, body string) offer {
	out, now := offer{body: body}, p.now(f)
	if body == now.Body && float64(now.Rating) >= p.above[f] {
		out.ratings, out.grams = append(out.ratings, now.Rating), append(out.grams, 0)
	}
	for _, r := range p.list(f, body) {
		if r < now.Rating || r == now.Rating && body == now.Body {
			continue
		}
		x := p.serves(f, body, r)
		if !x.ok || float64(r) >= p.below[f] {
			break
		}
		if float64(r) >= p.above[f] {
			out.ratings, out.grams = append(out.ratings, r), append(out.grams, x.grams)
		}
		if body != now.Body {
			break // its holder costs more: the first rating that serves, or none
		}
	}
	return out
}

// list gives the ratings of a body that may be bought: the shop's own list, else what shops stock.
func (p *planner) list(f harness.ElementID, body string) []unit.Ampere {
	if _, known := p.listed[body]; !known {
		seat := p.seat(f)
		p.listed[body] = slices.DeleteFunc(protect.Ratings(&protect.Fuse{Body: body}), func(r unit.Ampere) bool {
			return !seat.Stocks(body, r) || r < seat.Least()
		})
	}
	return p.listed[body]
}

// asked is a fuse with a body and rating.
type asked struct {
	fuse harness.ElementID
	choose.Rated
}

// answer is whether it may be so, and the sizes, by WireID, to which wires grow for it.
type answer struct {
	ok    bool
	to    map[harness.WireID]int
	grams float64
}

// serves tells whether a fuse may be bought in a body and rating: whether its load starts, and
// its holder, its wires and a short at their far ends allow it.
func (p *planner) serves(f harness.ElementID, body string, r unit.Ampere) answer {
	key := asked{f, choose.Rated{Rating: r, Body: body}}
	out, known := p.answers[key]
	if !known {
		out.to, out.ok = p.tried(f, body, r)
		out.grams = p.grams(out.to)
		p.answers[key] = out
	}
	return out
}

func (p *planner) tried(f harness.ElementID, body string, r unit.Ampere) (map[harness.WireID]int, bool) {
	x, seat := &p.s.Fuses[f], p.seat(f)
	switch amps := float64(r); {
	case r > Small && amps > Near*float64(x.Rating)*(1+1e-6):
		return nil, false
	case !x.Breaker && (r > seat.HolderLimit(body) || !seat.Holds(body, r, x)):
		return nil, false
	case p.s.Shorts[f].Least() < about*enough*amps, math.IsInf(p.s.Shorts[f].Least(), 1):
		return nil, false // a fuse of which no short is known stays as it is
	}
	to := map[harness.WireID]int{}
	for _, w := range p.wires[f] {
		if !p.fits(to, w, func(z *shelf.Size) bool { return p.stood(f, body, w, z) >= float64(r)*(1-1e-9) }) {
			return nil, false
		}
	}
	for _, w := range p.s.Guards.Wires[f] {
		amps := p.s.Shorts[f].At(w)
		lasts := p.s.LastsAs(f, body, r, amps)
		if !p.fits(to, w, func(z *shelf.Size) bool { return lasts <= protect.OutLasts(z, amps)*(1+1e-9) }) {
			return nil, false
		}
	}
	return to, true
}

// enough is how many times its rating a dead short at the far end is to draw (ECSS-Q-ST-30-11C).
const enough = 3

// about: a short counts with the fuse and the wires as they are, and larger ones resist less. The
// engine's check has the last word.
const about = 0.95

// stood gives the largest rating of a fuse, were it of a body, that a size of a wire stands, A.
func (p *planner) stood(f harness.ElementID, body string, w harness.WireID, z *shelf.Size) float64 {
	most, own := p.s.MostRating(w, z, f), p.s.Fuses[f].Body
	if body == own || math.IsInf(most, 1) {
		return most
	}
	a, b := rating.OverloadOf(own), rating.OverloadOf(body)
	return most * math.Min(1, math.Min(a.Carries/b.Carries, a.Opens/b.Opens))
}

// fits finds the least size of a wire, no thinner than it is, that serves, and notes it where
// the wire has to grow, with those that take one size with it.
func (p *planner) fits(to map[harness.WireID]int, w harness.WireID, serves func(*shelf.Size) bool) bool {
	at := max(p.s.At[w], to[w])
	if serves(&p.s.Shelf[w][at]) {
		return true
	}
	if !p.grows || p.held(w) {
		return false
	}
	for at++; at <= p.s.Ceiling(w); at++ {
		if serves(&p.s.Shelf[w][at]) {
			return p.grow(to, w, at)
		}
	}
	return false
}

// held tells a wire whose gauge is given, that is the vehicle's own, or that the record has as it is.
func (p *planner) held(w harness.WireID) bool {
	kept := p.s.H.Wires[w].Kept
	return p.s.Fixed[w] || p.s.H.Wires[w].Existing || kept.State != "" && kept.Gauge == p.s.Size(w).Conductor.Gauge
}

// grow notes the size of a wire and of those that take one size with it.
func (p *planner) grow(to map[harness.WireID]int, w harness.WireID, at int) bool {
	together := []harness.WireID{w}
	if g := p.s.Groups.Of[w]; g >= 0 {
		together = p.s.Groups.Wires[g]
	}
	for _, o := range together {
		if at > p.s.Ceiling(o) {
			return false
		}
		to[o] = max(to[o], at, p.s.At[o])
	}
	return true
}

// grams is the copper by which wires grow.
func (p *planner) grams(to map[harness.WireID]int) float64 {
	sum := 0.0
	for _, w := range slices.Sorted(maps.Keys(to)) { // in their order: a sum of fractions depends on it
		more := p.s.Shelf[w][to[w]].Conductor.Area - p.s.Size(w).Conductor.Area
		sum += float64(rating.CopperMass(more, p.s.Ways[w].Length))
	}
	return sum
}

// grown gives the sizes to which wires grow for a whole plan.
func (p *planner) grown(plan []choose.Rated) map[harness.WireID]int {
	out := map[harness.WireID]int{}
	for f, r := range plan {
		if r.Rating <= 0 {
			continue
		}
		for w, at := range p.serves(harness.ElementID(f), r.Body, r.Rating).to {
			out[w] = max(out[w], at)
		}
	}
	return out
}
