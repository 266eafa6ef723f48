package choose

import (
	"fmt"
	"math"
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// fusing is what was chosen for one fuse or breaker.
type Fuse struct {
	Rating   unit.Ampere
	Body     string
	Cold     unit.Ohm
	Given    bool
	Kept     bool // from the record
	Breaker  bool
	Amps     float64 // worst continuous
	State    string
	Start    unit.Ampere // worst start current through it
	StartFor unit.Second
	Tight    bool // no rating carries both the load and its start
	Short    bool // no rating is large enough
}

// Ratings of breakers in use; common practice, no source (SAE J553 reaches to 200 A).
var BreakerRatings = [...]unit.Ampere{5, 7.5, 10, 15, 20, 25, 30, 35, 40, 50, 60, 70, 80, 100, 120, 150, 200}

// cranks is how long the starter may turn at once; common practice, no source.
const cranks unit.Second = 10

// chooseFuses sets every fuse from the solved currents; it tells whether any
// rating changed. With grow no rating falls any more.
func (s *sizer) chooseFuses(grow bool) bool {
	changed := false
	starts := s.starts()
	for i := range s.H.Elements {
		e := &s.H.Elements[i]
		if e.Kind != harness.FuseLink {
			continue
		}
		f := s.fuseOf(e, starts)
		if was := &s.Fuses[i]; grow && f.Rating < was.Rating {
			f.Rating, f.Body, f.Cold = was.Rating, was.Body, was.Cold
		}
		if f.Rating != s.Fuses[i].Rating || f.Body != s.Fuses[i].Body {
			changed = true
		}
		s.Fuses[i] = f
	}
	return changed
}

// unsettled solves once more with the sizes and fuses in hand, where the rounds
// ended before they stood still, so that the findings see what is true of them.
func (s *sizer) unsettled() error {
	if err := s.solveAll(); err != nil {
		return err
	}
	s.measure()
	for i := range s.Fuses {
		if s.H.Elements[i].Kind == harness.FuseLink {
			s.Fuses[i].Amps, s.Fuses[i].State = s.Through(harness.ElementID(i))
		}
	}
	s.findGroups()
	s.findFloors()
	return nil
}

func (s *sizer) fuseOf(e *harness.Element, starts map[harness.ElementID]unit.Start) Fuse {
	f := Fuse{Breaker: s.PartOf(e.ID).Kind == harness.Breaker}
	f.Amps, f.State = s.Through(e.ID)
	f.Start, f.StartFor = starts[e.ID].Amps, starts[e.ID].For
	if r := s.givenRating(e); r > 0 {
		f.Rating, f.Given = r, true
		f.Body = s.bodyFor(e, r)
	} else if s.Pins.Fuses[e.ID] {
		f.Rating, f.Body, f.Kept = e.Kept.Rating, e.Kept.Body, true
	} else {
		s.pick(e, &f)
	}
	if !f.Breaker && f.Rating > 0 {
		f.Cold = rating.FuseCold(f.Body, f.Rating)
	}
	return f
}

// givenRating gives the rating in the description, 0 where there is none.
func (s *sizer) givenRating(e *harness.Element) unit.Ampere {
	p := s.PartOf(e.ID)
	if p.Panel != nil {
		return p.Panel.Rating[e.Position]
	}
	return p.Rating
}

// bodies lists the bodies that a fuse may have, in the order of trial.
func (s *sizer) bodies(e *harness.Element) []string {
	p := s.PartOf(e.ID)
	switch {
	case p.Body != "":
		return []string{p.Body}
	case p.Panel != nil:
		return []string{"blade"}
	}
	return []string{"blade", "maxi", "bolt"}
}

// bodyFor gives the first body that is made in a given rating and whose holder
// carries it.
func (s *sizer) bodyFor(e *harness.Element, r unit.Ampere) string {
	if s.PartOf(e.ID).Kind == harness.Breaker {
		return "breaker"
	}
	bodies := s.bodies(e)
	for _, b := range bodies {
		if _, ok := rating.FuseOf(b, r); ok && r <= s.holderLimit(e, b) {
			return b
		}
	}
	return bodies[len(bodies)-1]
}

// holderLimit gives what the holder carries: as given, else as usual for the body.
func (s *sizer) holderLimit(e *harness.Element, body string) unit.Ampere {
	if h := s.PartOf(e.ID).Holder; h > 0 {
		return h
	}
	limit, _ := rating.HolderLimit(body)
	return limit
}

// through gives the worst continuous current of a fuse. The seconds of a
// starter's motor do not count.
func (s *sizer) Through(id harness.ElementID) (float64, string) {
	worst, name := 0.0, ""
	starting := s.onStarter(id)
	s.Each(func(st *network.State, cranking bool) {
		a := math.Abs(st.Amps[id])
		if !math.IsNaN(a) && !(cranking && starting) && a > worst+1e-9 {
			worst, name = a, st.Name
		}
	})
	return worst, name
}

func (s *sizer) onStarter(id harness.ElementID) bool {
	for i := range s.Draws {
		d := &s.Draws[i]
		if s.PartOf(d.Load).Kind == harness.Starter && (slices.Contains(d.Feed.Elements, id) || slices.Contains(d.Back.Elements, id)) {
			return true
		}
	}
	return false
}

// need is the least rating for the continuous current: the current over the
// share that a fuse carries for ever, and over what is left of it where it sits.
func (s *sizer) need(e *harness.Element, f *Fuse) float64 {
	return f.Amps / s.fuseShare() / s.fuseHeat(e)
}

func (s *sizer) fuseShare() float64 {
	if share := float64(s.H.Practice.FuseLoad); share > 0 {
		return share
	}
	return 0.75
}

// fuseHeat is the share of its rating that a fuse keeps where it sits.
func (s *sizer) fuseHeat(e *harness.Element) float64 {
	p := s.PartOf(e.ID)
	if p.Place == harness.None {
		return 1
	}
	return rating.FuseAmbientFactor(s.H.Places[p.Place].Ambient)
}

// pick chooses the smallest rating that carries the load and its start.
func (s *sizer) pick(e *harness.Element, f *Fuse) {
	if f.Breaker {
		f.Body = "breaker"
		f.Rating = BreakerRatings[len(BreakerRatings)-1]
		for _, r := range BreakerRatings {
			if float64(r) >= s.need(e, f)*(1-1e-9) {
				f.Rating = r
				return
			}
		}
		f.Short = true
		return
	}
	for _, body := range s.bodies(e) {
		if r, ok := s.firstRating(e, f, body, true); ok {
			f.Body, f.Rating = body, r
			return
		}
	}
	for _, body := range s.bodies(e) {
		if r, ok := s.firstRating(e, f, body, false); ok {
			f.Body, f.Rating, f.Tight = body, r, true
			return
		}
	}
	bodies := s.bodies(e)
	f.Body, f.Short = bodies[len(bodies)-1], true
	for _, r := range rating.FuseSeries(f.Body) {
		if r.Rating <= s.holderLimit(e, f.Body) {
			f.Rating = r.Rating
		}
	}
}

func (s *sizer) firstRating(e *harness.Element, f *Fuse, body string, start bool) (unit.Ampere, bool) {
	for _, r := range rating.FuseSeries(body) {
		if r.Rating > s.holderLimit(e, body) {
			break
		}
		if float64(r.Rating) >= s.need(e, f)*(1-1e-9) && (!start || s.holds(e, body, r.Rating, f)) {
			return r.Rating, true
		}
	}
	return 0, false
}

// holds tells whether a rating carries the start current for its time, by the
// earliest time in which it may open.
func (s *sizer) holds(e *harness.Element, body string, r unit.Ampere, f *Fuse) bool {
	if f.Start <= 0 {
		return true
	}
	earliest := rating.EarliestOpening(body, float64(f.Start)/(float64(r)*s.fuseHeat(e)))
	return math.IsNaN(float64(earliest)) || earliest >= f.StartFor
}

// starts gives the worst start current through each fuse. Loads behind the same
// last fuse start together when a state has them on together; through a fuse
// further up, one such group starts while all else runs.
func (s *sizer) starts() map[harness.ElementID]unit.Start {
	out := map[harness.ElementID]unit.Start{}
	for state := range s.States {
		s.startsIn(state, out)
	}
	return out
}

type rush struct {
	extra  float64
	lasts  unit.Second
	fuses  []harness.ElementID
	behind harness.ElementID
}

func (s *sizer) startsIn(state int, out map[harness.ElementID]unit.Start) {
	var groups []rush
	for i := range s.Draws {
		d := &s.Draws[i]
		start := s.StartOf(d)
		fuses := d.Feed.Fuses(s.H)
		if d.State != state || start.Amps <= unit.Ampere(d.Amps) || len(fuses) == 0 {
			continue
		}
		last := fuses[len(fuses)-1]
		j := 0
		for j < len(groups) && groups[j].behind != last {
			j++
		}
		if j == len(groups) {
			groups = append(groups, rush{fuses: fuses, behind: last})
		}
		groups[j].extra += float64(start.Amps) - d.Amps
		groups[j].lasts = max(groups[j].lasts, start.For)
	}
	for _, g := range groups {
		for _, f := range g.fuses {
			running := math.Abs(s.States[state].Amps[f])
			if total := unit.Ampere(running + g.extra); total > out[f].Amps {
				out[f] = unit.Start{Amps: total, For: g.lasts}
			}
		}
	}
	s.crankStarts(state, out)
}

// crankStarts lets a fuse in the starter's way carry the cranking current.
func (s *sizer) crankStarts(state int, out map[harness.ElementID]unit.Start) {
	for i := range s.Draws {
		d := &s.Draws[i]
		if d.State != state || s.PartOf(d.Load).Kind != harness.Starter {
			continue
		}
		for _, f := range d.Feed.Fuses(s.H) {
			if a := unit.Ampere(math.Abs(s.States[state].Amps[f])); a > out[f].Amps {
				out[f] = unit.Start{Amps: a, For: cranks}
			}
		}
	}
}

// A cold filament takes ten times its running current until it is hot: component
// text gives 10 times, mains lamps measured 7 to 14 times, near nominal after
// 0.05 s; no measurement of a 12 V lamp was found.
const (
	coldFilament             = 10
	FilamentHot  unit.Second = 0.05
)

// startOf gives what a load takes while it starts; the part's figure belongs to
// its first load. Filament lamps start cold where nothing is given.
func (s *sizer) StartOf(d *Draw) unit.Start {
	p := s.PartOf(d.Load)
	for _, id := range p.Elements {
		if s.H.Elements[id].Kind != harness.Load {
			continue
		}
		if id == d.Load && p.Starts.Amps > 0 {
			return p.Starts
		}
		break
	}
	if s.H.Elements[d.Load].Behaves == harness.AsLamp {
		return unit.Start{Amps: unit.Ampere(coldFilament * d.Amps), For: FilamentHot}
	}
	return unit.Start{}
}

// most is the largest current through an element in any state, cranking included.
func (s *sizer) Most(e harness.ElementID) float64 {
	out := 0.0
	for i := range s.States {
		if a := math.Abs(s.States[i].Amps[e]); a > out { // false for NaN
			out = a
		}
	}
	return out
}

// fuseReason says in one sentence why a fuse has its rating.
func (s *sizer) fuseReason(e *harness.Element, f *Fuse) string {
	carried := fmt.Sprintf("%s continuous in %s", unit.Amps(f.Amps), f.State)
	cranking := s.Most(e.ID)
	switch {
	case f.Amps < OnFrom && cranking >= OnFrom && f.Given:
		return fmt.Sprintf("given: %s; carries %s while cranking, seconds only", f.Rating, unit.Ampere(unit.Round(cranking, 1)))
	case f.Amps < OnFrom && cranking >= OnFrom:
		return fmt.Sprintf("%s: carries %s while cranking, seconds only", f.Rating, unit.Ampere(unit.Round(cranking, 1)))
	case f.Amps < OnFrom && f.Given:
		return fmt.Sprintf("given: %s; no state draws current through it", f.Rating)
	case f.Amps < OnFrom && f.Kept:
		return fmt.Sprintf("%s; no state draws current through it", f.Rating)
	case f.Amps < OnFrom:
		return fmt.Sprintf("%s: the smallest, no state draws current through it", f.Rating)
	case f.Given:
		return fmt.Sprintf("given: %s; carries %s", f.Rating, carried)
	}
	text := fmt.Sprintf("%s: %s over %s is %s", f.Rating, carried, unit.Fraction(s.fuseShare()), unit.Amps(f.Amps/s.fuseShare()))
	if heat := s.fuseHeat(e); heat < 0.995 {
		text += fmt.Sprintf(", over %s for the heat where it sits %s", unit.Fraction(unit.Round(heat, 2)), unit.Amps(s.need(e, f)))
	}
	return text + s.startReason(e, f)
}

func (s *sizer) startReason(e *harness.Element, f *Fuse) string {
	if f.Start <= 0 || f.Breaker {
		return ""
	}
	earliest := rating.EarliestOpening(f.Body, float64(f.Start)/(float64(f.Rating)*s.fuseHeat(e)))
	what := "start"
	if f.StartFor == FilamentHot {
		what = "cold filaments' start"
	}
	switch {
	case math.IsNaN(float64(earliest)):
		return ""
	case math.IsInf(float64(earliest), 1):
		return fmt.Sprintf("; the %s of %s does not open it", what, unit.Ampere(unit.Round(float64(f.Start), 1)))
	}
	return fmt.Sprintf("; the %s of %s for %s opens it in %s at the earliest", what, unit.Ampere(unit.Round(float64(f.Start), 1)), f.StartFor, unit.Second(unit.Round(float64(earliest), 2)))
}

func (s *sizer) fuseSources(e *harness.Element, f *Fuse) []string {
	var keys []string
	if row, ok := rating.FuseOf(f.Body, f.Rating); ok {
		keys = append(keys, row.Sources...)
	}
	if !f.Given && !f.Kept {
		keys = append(keys, "fuse-fills")
		if s.fuseHeat(e) < 0.995 {
			keys = append(keys, "fuse-ambient")
		}
	}
	if f.Breaker && s.PartOf(e.ID).BreakerType != "" {
		keys = append(keys, "sae-j553")
	}
	if f.Start > 0 && f.StartFor == FilamentHot {
		keys = append(keys, "cold-filament")
	}
	if f.Start > 0 {
		for _, o := range rating.Openings(f.Body) {
			keys = append(keys, o.Source)
		}
	}
	return rating.Distinct(keys...)
}
