package choose

import (
	"fmt"
	"math"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// burden is one thing that a fuse lets happen to a wire, and what the wire stands of it.
type burden struct {
	passes  float64      // A, that the fuse lets through
	stands  float64      // A, that the wire stands
	share   float64      // of the fuse's rating, of which passes is the current; 1 where a table is in force
	limit   unit.Celsius // of the conductor; 0: a table of wires and protectors says it
	lasting unit.Second  // 0: for ever
}

func (b burden) held() bool { return b.stands >= b.passes*(1-1e-9) }

// excess is how far a burden is above what the wire stands.
func (b burden) excess() float64 { return b.passes / math.Max(b.stands, 1e-9) }

// overload gives what a fuse carries for ever and at what it opens, as multiples
// of its rating. The share is the larger in a cool place; a hot fuse gives the
// wire no credit. Where a published table of currents is in force its own rule
// stands: the rating against the table's current. (33 CFR 183.455(c) lets the
// fuse be 150 % of it; we do not.)
func (s *sizer) overload(f harness.ElementID) rating.Overload {
	if !s.balanced() {
		return rating.Overload{Carries: 1, Opens: 1}
	}
	o := rating.OverloadOf(s.fuses[f].body)
	cool := s.fuseCool(f)
	o.Carries, o.Opens = o.Carries*cool, o.Opens*cool
	return o
}

// fuseCool is how much more than its rating a fuse stands for in a cool place;
// never less than 1.
func (s *sizer) fuseCool(f harness.ElementID) float64 {
	p := s.partOf(f)
	if p.Place == harness.None {
		return 1
	}
	return rating.FuseCoolFactor(s.h.Places[p.Place].Ambient)
}

// pass works out what all fuses let through: for ever, and until they open.
func (s *sizer) pass() {
	s.passing = s.net.Passing(func(f harness.ElementID) float64 {
		return float64(s.fuses[f].rating) * s.overload(f).Carries
	})
	s.surging = s.passing
	if s.balanced() {
		s.surging = s.net.Passing(func(f harness.ElementID) float64 {
			return float64(s.fuses[f].rating) * s.overload(f).Opens
		})
	}
}

// burdens gives what a fuse lets happen to a size of a wire: the current that it
// carries for ever against the insulation's class, and the one at which it
// opens, which is to last so long that the wire is at its steady temperature
// (half an hour against minutes), against the limit for an overload.
func (s *sizer) burdens(w harness.WireID, z *size, f harness.ElementID) []burden {
	forever := burden{passes: s.letThrough(f, w), share: s.overload(f).Carries, limit: z.class}
	if !s.balanced() {
		forever.stands, forever.limit = s.tableFuse(w, z, f)
		return []burden{forever}
	}
	o := s.overload(f)
	forever.stands = s.carries(w, z)
	return []burden{forever, {
		passes: s.letThroughOf(s.surging, f, w), stands: s.withstands(w, z, z.overload),
		share: o.Opens, limit: z.overload, lasting: o.Latest,
	}}
}

// hottestOfTable11_3 is the ambient for which FAA AC 43.13-1B table 11-3 stands: 135 F.
const hottestOfTable11_3 = 57

// tableFuse gives the largest fuse that a table allows a size of a wire: the
// current of the table, or with the method of AC 43.13-1B its table 11-3, less
// where it is hotter than that table's 57 C.
func (s *sizer) tableFuse(w harness.WireID, z *size, f harness.ElementID) (amps float64, limit unit.Celsius) {
	if s.h.Practice.Method == "ac43-13" {
		most, breaker := rating.AircraftFuse(z.conductor)
		if s.fuses[f].breaker {
			most = breaker
		}
		if most > 0 {
			hot := math.Max(0, math.Min(1, float64(z.class-s.places[w].celsius)/float64(z.class-hottestOfTable11_3)))
			return float64(most) * math.Sqrt(hot), 0
		}
	}
	return s.carries(w, z), z.class
}

// worst gives the burden that a wire stands least of.
func (s *sizer) worst(w harness.WireID, z *size, f harness.ElementID) burden {
	all := s.burdens(w, z, f)
	out := all[0]
	for _, b := range all[1:] {
		if b.excess() > out.excess() {
			out = b
		}
	}
	return out
}

// stands tells whether a size of a wire stands all that a fuse lets happen to it:
// whether all burdens are held.
func (s *sizer) stands(w harness.WireID, z *size, f harness.ElementID) bool {
	if !s.balanced() {
		return s.worst(w, z, f).held()
	}
	return s.warm.carries(w, z, s.letThrough(f, w)*(1-1e-9), z.class) &&
		s.warm.carries(w, z, s.letThroughOf(s.surging, f, w)*(1-1e-9), z.overload)
}

// leastBehind gives the least size of a wire that stands its fuse; weak as hot in
// leastFor.
func (s *sizer) leastBehind(w harness.WireID, f harness.ElementID) (at int, weak bool) {
	at, ok := s.shelf[w].least(func(z *size) bool { return s.stands(w, z, f) })
	if ok || !s.balanced() {
		return at, !ok
	}
	at, _ = s.shelf[w].least(func(z *size) bool {
		for _, b := range s.burdens(w, z, f) {
			if s.warm.alone(w, z, b.limit) < b.passes*(1-1e-9) {
				return false
			}
		}
		return true
	})
	return at, true
}

// mostRating gives the largest rating of a fuse's body that a wire stands.
func (s *sizer) mostRating(w harness.WireID, z *size, f harness.ElementID) float64 {
	least := math.Inf(1)
	for _, b := range s.burdens(w, z, f) {
		least = math.Min(least, b.stands/b.share)
	}
	return least
}

// burdenText says a burden in numbers: "110 % of 20 A is 22 A; 1 mm² carries
// 20.1 A at 50 °C".
func (s *sizer) burdenText(w harness.WireID, z *size, f harness.ElementID, b burden) string {
	rated := s.fuses[f].rating
	passes, stands := unit.Ampere(round(b.passes, 1)), unit.Ampere(round(b.stands, 1))
	text := passes.String()
	switch {
	case b.passes < float64(rated)*b.share*(1-1e-6):
		text = fmt.Sprintf("its supply gives it %s at most", passes)
	case b.share > 1:
		text = fmt.Sprintf("%s of %s is %s", unit.Fraction(round(b.share, 2)), rated, passes)
	}
	here := s.places[w].celsius
	switch {
	case b.limit == 0:
		return fmt.Sprintf("%s; FAA AC 43.13-1B table 11-3 allows %s %s", text, z.conductor.Gauge, stands)
	case b.lasting > 0:
		return fmt.Sprintf("%s for up to %.0f min; %s stands %s at %s before it passes %s", text, float64(b.lasting)/60, z.conductor.Gauge, stands, here, b.limit)
	}
	return fmt.Sprintf("%s for ever; %s carries %s at %s", text, z.conductor.Gauge, stands, here)
}

// overloadSources names what a wire's protection rests on.
func (s *sizer) overloadSources(w harness.WireID, f harness.ElementID) []string {
	if !s.balanced() {
		return []string{"ac43-11-3"}
	}
	keys := []string{rating.OverloadOf(s.fuses[f].body).Source}
	if in, ok := rating.InsulationOf(s.h.Wires[w].Insulation); ok {
		keys = append(keys, in.OverloadSource)
	}
	return keys
}
