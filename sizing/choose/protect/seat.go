package protect

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// Seat is where a fuse or breaker sits.
type Seat struct {
	H *harness.Harness
	E *harness.Element
}

func (s Seat) part() *harness.Part { return &s.H.Parts[s.E.Part] }

// given is the rating in the description, 0 where there is none.
func (s Seat) given() unit.Ampere {
	p := s.part()
	if p.Panel != nil {
		return p.Panel.Rating[s.E.Position]
	}
	return p.Rating
}

// Bodies lists the bodies that a fuse may have, in the order of trial.
func (s Seat) Bodies() []string {
	p := s.part()
	switch {
	case p.Kind == harness.Breaker:
		return []string{"breaker"}
	case p.Body != "":
		return []string{p.Body}
	case p.Panel != nil:
		return []string{"blade"}
	}
	return []string{"blade", "maxi", "bolt"}
}

// bodyFor gives the first body that is made in a given rating and whose holder carries it;
// where no holder does, the first that is made in it.
func (s Seat) bodyFor(r unit.Ampere) string {
	bodies := s.Bodies()
	made := func(b string) bool { return Made(b, r) }
	if i := slices.IndexFunc(bodies, func(b string) bool { return made(b) && r <= s.HolderLimit(b) }); i >= 0 {
		return bodies[i]
	}
	if i := slices.IndexFunc(bodies, made); i >= 0 {
		return bodies[i]
	}
	return bodies[len(bodies)-1]
}

// HolderLimit gives what the holder carries: as given, else as usual for the body.
func (s Seat) HolderLimit(body string) unit.Ampere {
	if h := s.part().Holder; h > 0 {
		return h
	}
	limit, _ := rating.HolderLimit(body)
	return limit
}

// Need is the least rating for the continuous current: the current over the
// share that a fuse carries for ever, and over what is left of it where it sits.
func (s Seat) Need(f *Fuse) float64 {
	return f.Amps / s.Share() / s.Heat()
}

// Share is how much of its rating a fuse carries for ever (practice.fuse-load).
func (s Seat) Share() float64 {
	if share := float64(s.H.Practice.FuseLoad); share > 0 {
		return share
	}
	return 0.75
}

// Heat is the share of its rating that a fuse keeps where it sits.
func (s Seat) Heat() float64 {
	p := s.part()
	if p.Place == harness.None {
		return 1
	}
	return rating.FuseAmbientFactor(s.H.Places[p.Place].Ambient)
}

// Holds tells whether a rating carries the start current for its time, by the
// earliest time in which it may open.
func (s Seat) Holds(body string, r unit.Ampere, f *Fuse) bool {
	if f.Start <= 0 {
		return true
	}
	earliest := rating.EarliestOpening(body, float64(f.Start)/(float64(r)*s.Heat()))
	return math.IsNaN(float64(earliest)) || earliest >= f.StartFor
}

// Ratings of breakers in use; common practice, no source (SAE J553 reaches to 200 A).
var breakerRatings = [...]unit.Ampere{5, 7.5, 10, 15, 20, 25, 30, 35, 40, 50, 60, 70, 80, 100, 120, 150, 200}

// Made tells that a fuse or breaker of a body is made in a rating.
func Made(body string, r unit.Ampere) bool {
	if body == "breaker" {
		return slices.Contains(breakerRatings[:], r)
	}
	_, made := rating.FuseOf(body, r)
	return made
}

// Ratings lists the ratings that a fuse or breaker of a body is made in, A.
func Ratings(f *Fuse) []unit.Ampere { return ratingsOf(f.Body) }

// Spare tells a panel position that no wire leaves and no rating is given for.
func (s Seat) Spare() bool {
	if p := s.part(); s.E.Position == "" || p.Panel != nil && p.Panel.Rating[s.E.Position] > 0 {
		return false
	}
	return !slices.ContainsFunc(s.H.Wires, func(w harness.Wire) bool { return w.From == s.E.B || w.To == s.E.B })
}
