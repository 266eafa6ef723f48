package fuses

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/choose/protect"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// span is what a fuse may be in one body: any listed rating from the least to the most, A.
type span struct {
	body        string
	least, most unit.Ampere
}

// upward lists the bodies that a fuse may have instead of its own: heavier ones, where the
// description leaves the body open. A lighter one has terminals that take thinner wire.
func (p *planner) upward(f harness.ElementID) []string {
	own := p.s.Fuses[f].Body
	all := p.seat(f).Bodies()
	return all[max(slices.Index(all, own), 0):]
}

// spans gives what a fuse may be, its own body first.
func (p *planner) spans(f harness.ElementID) []span {
	x := &p.s.Fuses[f]
	var out []span
	for i, body := range p.upward(f) {
		if i == 0 {
			body = x.Body
		}
		s := span{body: body, least: p.at[f].Rating}
		for _, r := range p.list(f, body) {
			if r > s.least && p.serves(f, body, r) {
				s.most = r
			} else if r == s.least && i > 0 && p.serves(f, body, r) {
				s.most = max(s.most, r)
			}
		}
		if i == 0 {
			s.most = max(s.most, s.least)
		}
		if s.most > 0 {
			out = append(out, s)
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

// serves tells whether a fuse may be bought in a body and rating: whether its load starts, its
// holder, its wires and a short at their far ends allow it, and its feeder stays above it.
func (p *planner) serves(f harness.ElementID, body string, r unit.Ampere) bool {
	x, seat := &p.s.Fuses[f], p.seat(f)
	amps := float64(r)
	switch {
	case amps > Near*float64(x.Rating)*(1+1e-9), amps >= p.below[f], !p.selective(f, r):
		return false
	case !x.Breaker && (r > seat.HolderLimit(body) || !seat.Holds(body, r, x)):
		return false
	}
	return amps <= p.stood(f, body)*(1+1e-9) && p.opens(f, body, r)
}

// selective tells whether a fuse stays below those that feed it where it was, and no larger
// where it was as large.
func (p *planner) selective(f harness.ElementID, r unit.Ampere) bool {
	own := p.s.Fuses[f].Rating
	for _, feeder := range p.feeders[f] {
		was, now := p.s.Fuses[feeder].Rating, p.at[feeder].Rating
		if own >= was && r > max(now, own) || own < was && r >= now {
			return false
		}
	}
	return true
}

// stood gives the largest rating in a body that all wires behind a fuse stand as they are, A.
func (p *planner) stood(f harness.ElementID, body string) float64 {
	least := math.Inf(1)
	for _, w := range p.wires[f] {
		least = math.Min(least, p.s.MostRating(w, p.s.Size(w), f))
	}
	own := p.s.Fuses[f].Body
	if body == own || math.IsInf(least, 1) {
		return least
	}
	a, b := rating.OverloadOf(own), rating.OverloadOf(body)
	return least * math.Min(1, math.Min(a.Carries/b.Carries, a.Opens/b.Opens))
}

// enough is how many times its rating a dead short at the far end is to draw (ECSS-Q-ST-30-11C).
const enough = 3

// opens tells whether a dead short at the far end of what a fuse feeds draws enough, and is
// over before any of its wires is too hot. The fuse counts with the resistance that it has now:
// a larger one has less. A fuse of which no short is known stays as it is.
func (p *planner) opens(f harness.ElementID, body string, r unit.Ampere) bool {
	shorts := &p.s.Shorts[f]
	if least := shorts.Least(); math.IsInf(least, 1) || least < enough*float64(r) {
		return false
	}
	for _, w := range p.s.Guards.Wires[f] {
		amps := shorts.At(w)
		if p.s.LastsAs(f, body, r, amps) > protect.OutLasts(p.s.Size(w), amps)*(1+1e-9) {
			return false
		}
	}
	return true
}
