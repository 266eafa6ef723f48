// Package protect chooses fuses and breakers, and says what each lets happen to which
// wire. In: what is drawn in a trial, and what the wires may carry there. Out: by element
// the rating and body of each fuse; by wire the fuses whose current it must stand, and
// that current; the shorts behind each fuse. Units: A, s, C. Always holds: a rating
// follows from currents alone, never from a wire, so that fuse and wire do not chase each
// other. Method: the smallest rating whose share (practice.fuse-load) carries the load in
// the ambient temperature there, and whose band of opening times passes the start; ISO 8820-3 and
// DIN 72581-3 for what it carries and when it opens, 33 CFR 183.455 for feeds.
package protect

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/choose/demand"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// Fuse is what was chosen for one fuse or breaker.
type Fuse struct {
	Rating   unit.Ampere
	Body     string   // as in rating.FuseSeries, or "breaker"
	Cold     unit.Ohm // its resistance, 0 for a breaker
	Given    bool     // in the description
	Kept     bool     // from the record
	Breaker  bool
	Amps     float64     // worst continuous, A
	State    string      // that gives it
	Start    unit.Ampere // worst start current through it
	StartFor unit.Second // how long it lasts
	Tight    bool        // no rating carries both the load and its start
	Short    bool        // no rating is large enough
	Least    unit.Ampere // what its currents alone ask for, where a larger one is bought; else 0
}

// Rated is the rating and the body of a fuse that is bought; zero for none.
type Rated struct {
	Rating unit.Ampere
	Body   string
}

// Choose sets every fuse from what is drawn; it tells whether any rating or body differs
// from those before, by ElementID, nil for none. Kept are the fuses, by ElementID, that
// hold what the record has. Most is, by ElementID, the largest rating with which the wires of
// a given gauge behind a fuse are safe, A; nil for none. Plan is, by ElementID, what is bought:
// no fuse that is free is smaller; nil for none. With grow no rating falls any more.
func Choose(d *demand.Demand, kept []bool, most []float64, plan []Rated, before []Fuse, grow bool) (fuses []Fuse, changed bool) {
	if before == nil {
		before = make([]Fuse, len(d.H.Elements))
	}
	fuses = make([]Fuse, len(d.H.Elements))
	begin := starts(d)
	for i := range d.H.Elements {
		e := &d.H.Elements[i]
		if e.Kind != harness.FuseLink {
			continue
		}
		f, was := fuseOf(d, e, kept[i], mostOf(most, i), begin[e.ID]), &before[i]
		if plan != nil {
			f.buy(Seat{d.H, e}, plan[i])
		}
		if grow && f.Rating < was.Rating {
			f.Rating, f.Body, f.Cold, f.Least = was.Rating, was.Body, was.Cold, was.Least
		}
		changed = changed || f.Rating != was.Rating || f.Body != was.Body
		fuses[i] = f
	}
	return fuses, changed
}

// buy takes the rating and body that are bought where they are no smaller than what was chosen,
// and the fuse is neither given nor kept; a body that opens on the start is not taken.
func (f *Fuse) buy(seat Seat, r Rated) {
	same := r.Rating == f.Rating && r.Body == f.Body
	if r.Rating < f.Rating || r.Rating <= 0 || same || f.Given || f.Kept || f.Short || !f.Tight && !seat.Holds(r.Body, r.Rating, f) {
		return
	}
	f.Least, f.Rating, f.Body = f.Rating, r.Rating, r.Body
	if !f.Breaker {
		f.Cold = rating.FuseCold(f.Body, f.Rating)
	}
}

// Measured gives the same fuses with the currents of another trial.
func Measured(d *demand.Demand, fuses []Fuse) []Fuse {
	out := slices.Clone(fuses)
	for i := range out {
		if d.H.Elements[i].Kind == harness.FuseLink {
			out[i].Amps, out[i].State = d.Through(harness.ElementID(i))
		}
	}
	return out
}

func mostOf(most []float64, i int) float64 {
	if most == nil {
		return math.Inf(1)
	}
	return most[i]
}

func fuseOf(d *demand.Demand, e *harness.Element, kept bool, most float64, start unit.Start) Fuse {
	seat := Seat{d.H, e}
	f := Fuse{Breaker: d.PartOf(e.ID).Kind == harness.Breaker, Start: start.Amps, StartFor: start.For}
	f.Amps, f.State = d.Through(e.ID)
	if r := seat.given(); r > 0 {
		f.Rating, f.Given, f.Body = r, true, seat.bodyFor(r)
	} else if kept {
		f.Rating, f.Body, f.Kept = e.Kept.Rating, e.Kept.Body, true
	} else {
		seat.Pick(&f, most)
	}
	if !f.Breaker && f.Rating > 0 {
		f.Cold = rating.FuseCold(f.Body, f.Rating)
	}
	return f
}

// Links gives the resistances of fuses, by ElementID, ohm.
func Links(fuses []Fuse) []float64 {
	out := make([]float64, len(fuses))
	for i, f := range fuses {
		out[i] = float64(f.Cold)
	}
	return out
}

// Types of breakers, by SAE J553.
const (
	SelfResetting = "1"
	HeldOpen      = "2"
	HandReset     = "3"
)
