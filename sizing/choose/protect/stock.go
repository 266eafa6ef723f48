package protect

import (
	"slices"

	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// Least is the smallest rating that is chosen (practice.fuses), 3 A where none is said: smaller
// ones open at a touch, and are looked for in vain on the road; common practice, no source.
func (s Seat) Least() unit.Ampere {
	if r := s.H.Practice.LeastFuse; r > 0 {
		return r
	}
	return 3
}

// Stocks tells whether a rating of a body is one that the shop has (practice.fuses); where its
// list holds none of that body, one that shops stock.
func (s Seat) Stocks(body string, r unit.Ampere) bool {
	if own := s.H.Practice.FuseStock; slices.ContainsFunc(own, func(a unit.Ampere) bool { return Made(body, a) }) {
		return slices.Contains(own, r)
	}
	return sold(body, r)
}

// Named tells whether a rating of a body is on the shop's list, or on that of what shops stock:
// no other is chosen.
func (s Seat) Named(body string, r unit.Ampere) bool {
	return s.Stocks(body, r) || sold(body, r)
}

// sold tells a rating that shops stock (rating.Fuse.Stocked).
func sold(body string, r unit.Ampere) bool {
	if body == "breaker" {
		return Made(body, r) && r != 35 && r != 70 // common practice, no source
	}
	f, _ := rating.FuseOf(body, r)
	return f.Stocked
}

// wish is what a rating is to meet besides the load: its start, the wires behind it that are
// given, the shop's own list.
type wish struct{ start, within, own bool }

// wishes are tried in turn, with every body: a heavier body rather than one that opens on the
// start.
var wishes = [...]wish{{start: true, within: true}, {start: true}, {within: true}, {}}

// firstRating gives the smallest rating of a body that carries the load as wished.
func (s Seat) firstRating(f *Fuse, body string, most float64, w wish) (unit.Ampere, bool) {
	for _, r := range ratingsOf(body) {
		switch {
		case r > s.HolderLimit(body) && body != "breaker":
			return 0, false
		case r < s.Least(), float64(r) < s.Need(f)*(1-1e-9), w.within && float64(r) > most*(1+1e-9), w.start && !s.Holds(body, r, f):
			continue
		case w.own && !s.Stocks(body, r), !s.Named(body, r):
			continue
		}
		return r, true
	}
	return 0, false
}

// ownFirst goes beyond the shop's own list only where none of that serves.
func (s Seat) ownFirst(f *Fuse, body string, most float64, w wish) (unit.Ampere, bool) {
	w.own = true
	if r, ok := s.firstRating(f, body, most, w); ok {
		return r, true
	}
	w.own = false
	return s.firstRating(f, body, most, w)
}

// Rarer gives the smallest rating of a body that no list names and that would carry the load
// and its start, with wires behind it that are safe up to most, A: to be given, by who has it.
func (s Seat) Rarer(f *Fuse, most float64) (unit.Ampere, bool) {
	for _, r := range ratingsOf(f.Body) {
		fits := f.Breaker || r <= s.HolderLimit(f.Body)
		if fits && float64(r) >= s.Need(f)*(1-1e-9) && float64(r) <= most*(1+1e-9) && !s.Named(f.Body, r) && s.Holds(f.Body, r, f) {
			return r, true
		}
	}
	return 0, false
}

// Pick chooses the smallest rating that carries the load and its start, of those that the shop
// has where one serves, and never one that no shop stocks. Most is the largest that given wires behind it are safe with, A.
func (s Seat) Pick(f *Fuse, most float64) {
	bodies := s.Bodies()
	for _, w := range wishes {
		for _, body := range bodies {
			if r, ok := s.ownFirst(f, body, most, w); ok {
				f.Body, f.Rating, f.Tight = body, r, !w.start
				return
			}
		}
	}
	f.Body, f.Rating = bodies[0], s.largest(bodies[0])
	for _, body := range bodies[1:] {
		if r := s.largest(body); r > f.Rating {
			f.Body, f.Rating = body, r
		}
	}
	f.Short = float64(f.Rating) < s.Need(f)*(1-1e-9)
}

// largest is the largest stocked rating of a body that its holder carries.
func (s Seat) largest(body string) (most unit.Ampere) {
	for _, r := range ratingsOf(body) {
		if s.Named(body, r) && (body == "breaker" || r <= s.HolderLimit(body)) {
			most = r
		}
	}
	return most
}

// ratingsOf lists the ratings that a body is made in, smallest first, A.
func ratingsOf(body string) []unit.Ampere {
	if body == "breaker" {
		return slices.Clone(breakerRatings[:])
	}
	var out []unit.Ampere
	for _, r := range rating.FuseSeries(body) {
		out = append(out, r.Rating)
	}
	return out
}
