package protect

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/choose/ampacity"
	"example.com/loomfolio/sizing/choose/shelf"
	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// Burden is one thing that a fuse lets happen to a wire, and what the wire stands of it.
type Burden struct {
	Passes  float64      // A, that the fuse lets through
	Stands  float64      // A, that the wire stands
	Share   float64      // of the fuse's rating, of which passes is the current; 1 where a table is in force
	Limit   unit.Celsius // of the conductor; 0: a table of wires and protectors says it
	Lasting unit.Second  // 0: for ever
}

// Held tells that the wire stands it.
func (b Burden) Held() bool { return b.Stands >= b.Passes*(1-1e-9) }

// Excess is how far a burden is above what the wire stands.
func (b Burden) Excess() float64 { return b.Passes / math.Max(b.Stands, 1e-9) }

// overload gives what a fuse carries for ever and at what it opens, as multiples
// of its rating. The share is the larger in a cool place; a hot fuse gives the
// wire no credit. Where a published table of currents is in force its own rule
// stands: the rating against the table's current. (33 CFR 183.455(c) lets the
// fuse be 150 % of it; we do not.)
func (p *Protection) overload(f harness.ElementID) rating.Overload {
	if !p.Balanced() {
		return rating.Overload{Carries: 1, Opens: 1}
	}
	o := rating.OverloadOf(p.Fuses[f].Body)
	cool := p.fuseCool(f)
	o.Carries, o.Opens = o.Carries*cool, o.Opens*cool
	return o
}

// fuseCool is how much more than its rating a fuse stands for in a cool place;
// never less than 1.
func (p *Protection) fuseCool(f harness.ElementID) float64 {
	place := p.PartOf(f).Place
	if place == harness.None {
		return 1
	}
	return rating.FuseCoolFactor(p.H.Places[place].Ambient)
}

// pass works out what all fuses let through: for ever, and until they open.
func (p *Protection) pass() {
	carried, opened := make([]float64, len(p.H.Elements)), make([]float64, len(p.H.Elements))
	for i := range p.H.Elements {
		if f := harness.ElementID(i); p.H.Elements[i].Kind == harness.FuseLink {
			o := p.overload(f)
			carried[i], opened[i] = float64(p.Fuses[f].Rating)*o.Carries, float64(p.Fuses[f].Rating)*o.Opens
		}
	}
	carries := func(f harness.ElementID) float64 { return carried[f] }
	opens := func(f harness.ElementID) float64 { return opened[f] }
	p.passing = p.Net.Passing(carries)
	p.gangs[0] = p.Net.Gangs(p.States, carries)
	p.surging, p.gangs[1] = p.passing, p.gangs[0]
	if p.Balanced() {
		p.surging, p.gangs[1] = p.Net.Passing(opens), p.Net.Gangs(p.States, opens)
	}
}

// Burdens gives what a fuse lets happen to a size of a wire: the current that it
// carries for ever against the insulation's class, and the one at which it
// opens, which is to last so long that the wire is at its steady temperature
// (half an hour against minutes), against the limit for an overload.
func (p *Protection) Burdens(w harness.WireID, z *shelf.Size, f harness.ElementID) []Burden {
	forever := Burden{Passes: p.LetThrough(f, w), Share: p.overload(f).Carries, Limit: z.Class}
	if !p.Balanced() {
		forever.Stands, forever.Limit = p.tableFuse(w, z, f)
		return []Burden{forever}
	}
	o := p.overload(f)
	forever.Stands = p.Carries(w, z)
	return []Burden{forever, {
		Passes: p.letThroughOf(p.surging, p.gangs[1][w], f, w), Stands: p.Withstands(w, z, z.Overload),
		Share: o.Opens, Limit: z.Overload, Lasting: o.Latest,
	}}
}

// hottestOfTable11_3 is the ambient for which FAA AC 43.13-1B table 11-3 stands: 135 F.
const hottestOfTable11_3 = 57

// tableFuse gives the largest fuse that a table allows a size of a wire: the
// current of the table, or with the method of AC 43.13-1B its table 11-3, less
// where it is hotter than that table's 57 C.
func (p *Protection) tableFuse(w harness.WireID, z *shelf.Size, f harness.ElementID) (amps float64, limit unit.Celsius) {
	if p.H.Practice.Method == "ac43-13" {
		most, breaker := rating.AircraftFuse(z.Conductor)
		if p.Fuses[f].Breaker {
			most = breaker
		}
		if most > 0 {
			hot := math.Max(0, math.Min(1, float64(z.Class-p.Places[w].Celsius)/float64(z.Class-hottestOfTable11_3)))
			return float64(most) * math.Sqrt(hot), 0
		}
	}
	return p.Carries(w, z), z.Class
}

// Worst gives the burden that a wire stands least of.
func (p *Protection) Worst(w harness.WireID, z *shelf.Size, f harness.ElementID) Burden {
	all := p.Burdens(w, z, f)
	out := all[0]
	for _, b := range all[1:] {
		if b.Excess() > out.Excess() {
			out = b
		}
	}
	return out
}

// Stands tells whether a size of a wire stands all that a fuse lets happen to it:
// whether all burdens are held.
func (p *Protection) Stands(w harness.WireID, z *shelf.Size, f harness.ElementID) bool {
	if !p.Balanced() {
		return p.Worst(w, z, f).Held()
	}
	return p.CarriesTo(w, z, p.LetThrough(f, w)*(1-1e-9), z.Class) &&
		p.CarriesTo(w, z, p.letThroughOf(p.surging, p.gangs[1][w], f, w)*(1-1e-9), z.Overload)
}

// LeastBehind gives the least size of a wire that stands its fuse; weak as hot in
// leastFor.
func (p *Protection) LeastBehind(w harness.WireID, f harness.ElementID) (at int, weak bool) {
	at, ok := p.Shelf[w].Least(func(z *shelf.Size) bool { return p.Stands(w, z, f) })
	if !p.Balanced() || ok && at <= ampacity.Neighbourly {
		return at, !ok
	}
	steady, surge := p.LetThrough(f, w)*(1-1e-9), p.letThroughOf(p.surging, p.gangs[1][w], f, w)*(1-1e-9)
	alone, _ := p.Shelf[w].Least(func(z *shelf.Size) bool {
		return p.Ampacity.Alone(w, z, z.Class) >= steady && p.Ampacity.Alone(w, z, z.Overload) >= surge
	})
	if !ok || at > alone+ampacity.Neighbourly {
		return alone, true
	}
	return at, false
}

// MostRating gives the largest rating of a fuse's body that a wire stands; +Inf where it is
// its supply that limits what passes, and the wire stands that: a larger fuse passes no more.
func (p *Protection) MostRating(w harness.WireID, z *shelf.Size, f harness.ElementID) float64 {
	least := math.Inf(1)
	for _, b := range p.Burdens(w, z, f) {
		own := float64(p.Fuses[f].Rating) * b.Share
		limited := b.Passes < own*(1-1e-6)
		if limited && b.Held() {
			continue
		}
		others := math.Max(0, b.Passes-own) // what comes from beside the fuse
		least = math.Min(least, math.Max(0, b.Stands-others)/b.Share)
	}
	return math.Max(least, 0)
}

// elements names some elements.
func (p *Protection) elements(list []harness.ElementID) string {
	var names []string
	for _, id := range list {
		names = append(names, p.H.Elements[id].Name)
	}
	return strings.Join(names, ", ")
}

// BurdenText says a burden in numbers: "110 % of 20 A is 22 A; 1 mm² carries
// 20.1 A at 50 °C".
func (p *Protection) BurdenText(w harness.WireID, z *shelf.Size, f harness.ElementID, b Burden) string {
	rated := p.Fuses[f].Rating
	passes, stands := unit.Ampere(unit.Round(b.Passes, 1)), unit.Ampere(unit.Round(b.Stands, 1))
	text := passes.String()
	gang, _ := flow.Best(p.gangs[0][w], f)
	others := slices.DeleteFunc(slices.Clone(gang.Fuses), func(id harness.ElementID) bool { return id == f })
	switch {
	case b.Passes > float64(rated)*b.Share*(1+1e-6) && len(others) > 0:
		text = fmt.Sprintf("%s together with %s", passes, p.elements(others))
	case b.Passes < float64(rated)*b.Share*(1-1e-6):
		text = fmt.Sprintf("its supply gives it %s at most", passes)
	case b.Share > 1:
		text = fmt.Sprintf("%s of %s is %s", unit.Fraction(unit.Round(b.Share, 2)), rated, passes)
	}
	here := p.Places[w].Celsius
	switch {
	case b.Limit == 0:
		return fmt.Sprintf("%s; FAA AC 43.13-1B table 11-3 allows %s %s", text, z.Conductor.Gauge, stands)
	case b.Lasting > 0:
		return fmt.Sprintf("%s for up to %.0f min; %s is good for %s at %s before it passes %s", text, float64(b.Lasting)/60, z.Conductor.Gauge, stands, here, b.Limit)
	}
	return fmt.Sprintf("%s continuously; %s carries %s at %s", text, z.Conductor.Gauge, stands, here)
}

// OverloadSources names what a wire's protection rests on.
func (p *Protection) OverloadSources(w harness.WireID, f harness.ElementID) []string {
	if !p.Balanced() {
		return []string{"ac43-11-3"}
	}
	keys := []string{rating.OverloadOf(p.Fuses[f].Body).Source}
	if in, ok := rating.InsulationOf(p.H.Wires[w].Insulation); ok {
		keys = append(keys, in.OverloadSource)
	}
	return keys
}
