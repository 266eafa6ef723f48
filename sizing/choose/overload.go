package choose

import (
	"fmt"
	"math"

	"example.com/loomfolio/sizing/choose/shelf"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// burden is one thing that a fuse lets happen to a wire, and what the wire stands of it.
type Burden struct {
	Passes  float64      // A, that the fuse lets through
	Stands  float64      // A, that the wire stands
	Share   float64      // of the fuse's rating, of which passes is the current; 1 where a table is in force
	Limit   unit.Celsius // of the conductor; 0: a table of wires and protectors says it
	Lasting unit.Second  // 0: for ever
}

func (b Burden) Held() bool { return b.Stands >= b.Passes*(1-1e-9) }

// excess is how far a burden is above what the wire stands.
func (b Burden) Excess() float64 { return b.Passes / math.Max(b.Stands, 1e-9) }

// overload gives what a fuse carries for ever and at what it opens, as multiples
// of its rating. The share is the larger in a cool place; a hot fuse gives the
// wire no credit. Where a published table of currents is in force its own rule
// stands: the rating against the table's current. (33 CFR 183.455(c) lets the
// fuse be 150 % of it; we do not.)
func (s *sizer) overload(f harness.ElementID) rating.Overload {
	if !s.Balanced() {
		return rating.Overload{Carries: 1, Opens: 1}
	}
	o := rating.OverloadOf(s.Fuses[f].Body)
	cool := s.fuseCool(f)
	o.Carries, o.Opens = o.Carries*cool, o.Opens*cool
	return o
}

// fuseCool is how much more than its rating a fuse stands for in a cool place;
// never less than 1.
func (s *sizer) fuseCool(f harness.ElementID) float64 {
	p := s.PartOf(f)
	if p.Place == harness.None {
		return 1
	}
	return rating.FuseCoolFactor(s.H.Places[p.Place].Ambient)
}

// pass works out what all fuses let through: for ever, and until they open.
func (s *sizer) pass() {
	s.passing = s.Net.Passing(func(f harness.ElementID) float64 {
		return float64(s.Fuses[f].Rating) * s.overload(f).Carries
	})
	s.surging = s.passing
	if s.Balanced() {
		s.surging = s.Net.Passing(func(f harness.ElementID) float64 {
			return float64(s.Fuses[f].Rating) * s.overload(f).Opens
		})
	}
}

// burdens gives what a fuse lets happen to a size of a wire: the current that it
// carries for ever against the insulation's class, and the one at which it
// opens, which is to last so long that the wire is at its steady temperature
// (half an hour against minutes), against the limit for an overload.
func (s *sizer) Burdens(w harness.WireID, z *shelf.Size, f harness.ElementID) []Burden {
	forever := Burden{Passes: s.LetThrough(f, w), Share: s.overload(f).Carries, Limit: z.Class}
	if !s.Balanced() {
		forever.Stands, forever.Limit = s.tableFuse(w, z, f)
		return []Burden{forever}
	}
	o := s.overload(f)
	forever.Stands = s.Carries(w, z)
	return []Burden{forever, {
		Passes: s.letThroughOf(s.surging, f, w), Stands: s.Withstands(w, z, z.Overload),
		Share: o.Opens, Limit: z.Overload, Lasting: o.Latest,
	}}
}

// hottestOfTable11_3 is the ambient for which FAA AC 43.13-1B table 11-3 stands: 135 F.
const hottestOfTable11_3 = 57

// tableFuse gives the largest fuse that a table allows a size of a wire: the
// current of the table, or with the method of AC 43.13-1B its table 11-3, less
// where it is hotter than that table's 57 C.
func (s *sizer) tableFuse(w harness.WireID, z *shelf.Size, f harness.ElementID) (amps float64, limit unit.Celsius) {
	if s.H.Practice.Method == "ac43-13" {
		most, breaker := rating.AircraftFuse(z.Conductor)
		if s.Fuses[f].Breaker {
			most = breaker
		}
		if most > 0 {
			hot := math.Max(0, math.Min(1, float64(z.Class-s.Places[w].Celsius)/float64(z.Class-hottestOfTable11_3)))
			return float64(most) * math.Sqrt(hot), 0
		}
	}
	return s.Carries(w, z), z.Class
}

// worst gives the burden that a wire stands least of.
func (s *sizer) Worst(w harness.WireID, z *shelf.Size, f harness.ElementID) Burden {
	all := s.Burdens(w, z, f)
	out := all[0]
	for _, b := range all[1:] {
		if b.Excess() > out.Excess() {
			out = b
		}
	}
	return out
}

// stands tells whether a size of a wire stands all that a fuse lets happen to it:
// whether all burdens are held.
func (s *sizer) Stands(w harness.WireID, z *shelf.Size, f harness.ElementID) bool {
	if !s.Balanced() {
		return s.Worst(w, z, f).Held()
	}
	return s.warm.carries(w, z, s.LetThrough(f, w)*(1-1e-9), z.Class) &&
		s.warm.carries(w, z, s.letThroughOf(s.surging, f, w)*(1-1e-9), z.Overload)
}

// leastBehind gives the least size of a wire that stands its fuse; weak as hot in
// leastFor.
func (s *sizer) leastBehind(w harness.WireID, f harness.ElementID) (at int, weak bool) {
	at, ok := s.Of[w].Least(func(z *shelf.Size) bool { return s.Stands(w, z, f) })
	if ok || !s.Balanced() {
		return at, !ok
	}
	at, _ = s.Of[w].Least(func(z *shelf.Size) bool {
		for _, b := range s.Burdens(w, z, f) {
			if s.warm.alone(w, z, b.Limit) < b.Passes*(1-1e-9) {
				return false
			}
		}
		return true
	})
	return at, true
}

// mostRating gives the largest rating of a fuse's body that a wire stands.
func (s *sizer) MostRating(w harness.WireID, z *shelf.Size, f harness.ElementID) float64 {
	least := math.Inf(1)
	for _, b := range s.Burdens(w, z, f) {
		least = math.Min(least, b.Stands/b.Share)
	}
	return least
}

// burdenText says a burden in numbers: "110 % of 20 A is 22 A; 1 mm² carries
// 20.1 A at 50 °C".
func (s *sizer) BurdenText(w harness.WireID, z *shelf.Size, f harness.ElementID, b Burden) string {
	rated := s.Fuses[f].Rating
	passes, stands := unit.Ampere(unit.Round(b.Passes, 1)), unit.Ampere(unit.Round(b.Stands, 1))
	text := passes.String()
	switch {
	case b.Passes < float64(rated)*b.Share*(1-1e-6):
		text = fmt.Sprintf("its supply gives it %s at most", passes)
	case b.Share > 1:
		text = fmt.Sprintf("%s of %s is %s", unit.Fraction(unit.Round(b.Share, 2)), rated, passes)
	}
	here := s.Places[w].Celsius
	switch {
	case b.Limit == 0:
		return fmt.Sprintf("%s; FAA AC 43.13-1B table 11-3 allows %s %s", text, z.Conductor.Gauge, stands)
	case b.Lasting > 0:
		return fmt.Sprintf("%s for up to %.0f min; %s stands %s at %s before it passes %s", text, float64(b.Lasting)/60, z.Conductor.Gauge, stands, here, b.Limit)
	}
	return fmt.Sprintf("%s for ever; %s carries %s at %s", text, z.Conductor.Gauge, stands, here)
}

// overloadSources names what a wire's protection rests on.
func (s *sizer) OverloadSources(w harness.WireID, f harness.ElementID) []string {
	if !s.Balanced() {
		return []string{"ac43-11-3"}
	}
	keys := []string{rating.OverloadOf(s.Fuses[f].Body).Source}
	if in, ok := rating.InsulationOf(s.H.Wires[w].Insulation); ok {
		keys = append(keys, in.OverloadSource)
	}
	return keys
}
