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
type fusing struct {
	rating  unit.Ampere
	body    string
	cold    unit.Ohm
	given   bool
	kept    bool // from the record
	breaker bool
	amps    float64 // worst continuous
	state   string
	start   unit.Ampere // worst start current through it
	startOf unit.Second
	tight   bool // no rating carries both the load and its start
	short   bool // no rating is large enough
}

// Ratings of breakers in use; common practice, no source (SAE J553 reaches to 200 A).
var breakerRatings = [...]unit.Ampere{5, 7.5, 10, 15, 20, 25, 30, 35, 40, 50, 60, 70, 80, 100, 120, 150, 200}

// cranks is how long the starter may turn at once; common practice, no source.
const cranks unit.Second = 10

// chooseFuses sets every fuse from the solved currents; it tells whether any
// rating changed. With grow no rating falls any more.
func (s *sizer) chooseFuses(grow bool) bool {
	changed := false
	starts := s.starts()
	for i := range s.h.Elements {
		e := &s.h.Elements[i]
		if e.Kind != harness.FuseLink {
			continue
		}
		f := s.fuseOf(e, starts)
		if was := &s.fuses[i]; grow && f.rating < was.rating {
			f.rating, f.body, f.cold = was.rating, was.body, was.cold
		}
		if f.rating != s.fuses[i].rating || f.body != s.fuses[i].body {
			changed = true
		}
		s.fuses[i] = f
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
	for i := range s.fuses {
		if s.h.Elements[i].Kind == harness.FuseLink {
			s.fuses[i].amps, s.fuses[i].state = s.through(harness.ElementID(i))
		}
	}
	s.findGroups()
	s.findFloors()
	return nil
}

func (s *sizer) fuseOf(e *harness.Element, starts map[harness.ElementID]unit.Start) fusing {
	f := fusing{breaker: s.partOf(e.ID).Kind == harness.Breaker}
	f.amps, f.state = s.through(e.ID)
	f.start, f.startOf = starts[e.ID].Amps, starts[e.ID].For
	if r := s.givenRating(e); r > 0 {
		f.rating, f.given = r, true
		f.body = s.bodyFor(e, r)
	} else if s.pins.fuses[e.ID] {
		f.rating, f.body, f.kept = e.Kept.Rating, e.Kept.Body, true
	} else {
		s.pick(e, &f)
	}
	if !f.breaker && f.rating > 0 {
		f.cold = rating.FuseCold(f.body, f.rating)
	}
	return f
}

// givenRating gives the rating in the description, 0 where there is none.
func (s *sizer) givenRating(e *harness.Element) unit.Ampere {
	p := s.partOf(e.ID)
	if p.Panel != nil {
		return p.Panel.Rating[e.Position]
	}
	return p.Rating
}

// bodies lists the bodies that a fuse may have, in the order of trial.
func (s *sizer) bodies(e *harness.Element) []string {
	p := s.partOf(e.ID)
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
	if s.partOf(e.ID).Kind == harness.Breaker {
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
	if h := s.partOf(e.ID).Holder; h > 0 {
		return h
	}
	limit, _ := rating.HolderLimit(body)
	return limit
}

// through gives the worst continuous current of a fuse. The seconds of a
// starter's motor do not count.
func (s *sizer) through(id harness.ElementID) (float64, string) {
	worst, name := 0.0, ""
	starting := s.onStarter(id)
	s.each(func(st *network.State, cranking bool) {
		a := math.Abs(st.Amps[id])
		if !math.IsNaN(a) && !(cranking && starting) && a > worst+1e-9 {
			worst, name = a, st.Name
		}
	})
	return worst, name
}

func (s *sizer) onStarter(id harness.ElementID) bool {
	for i := range s.draws {
		d := &s.draws[i]
		if s.partOf(d.load).Kind == harness.Starter && (slices.Contains(d.feed.Elements, id) || slices.Contains(d.back.Elements, id)) {
			return true
		}
	}
	return false
}

// need is the least rating for the continuous current: the current over the
// share that a fuse carries for ever, and over what is left of it where it sits.
func (s *sizer) need(e *harness.Element, f *fusing) float64 {
	return f.amps / s.fuseShare() / s.fuseHeat(e)
}

func (s *sizer) fuseShare() float64 {
	if share := float64(s.h.Practice.FuseLoad); share > 0 {
		return share
	}
	return 0.75
}

// fuseHeat is the share of its rating that a fuse keeps where it sits.
func (s *sizer) fuseHeat(e *harness.Element) float64 {
	p := s.partOf(e.ID)
	if p.Place == harness.None {
		return 1
	}
	return rating.FuseAmbientFactor(s.h.Places[p.Place].Ambient)
}

// pick chooses the smallest rating that carries the load and its start.
func (s *sizer) pick(e *harness.Element, f *fusing) {
	if f.breaker {
		f.body = "breaker"
		f.rating = breakerRatings[len(breakerRatings)-1]
		for _, r := range breakerRatings {
			if float64(r) >= s.need(e, f)*(1-1e-9) {
				f.rating = r
				return
			}
		}
		f.short = true
		return
	}
	for _, body := range s.bodies(e) {
		if r, ok := s.firstRating(e, f, body, true); ok {
			f.body, f.rating = body, r
			return
		}
	}
	for _, body := range s.bodies(e) {
		if r, ok := s.firstRating(e, f, body, false); ok {
			f.body, f.rating, f.tight = body, r, true
			return
		}
	}
	bodies := s.bodies(e)
	f.body, f.short = bodies[len(bodies)-1], true
	for _, r := range rating.FuseSeries(f.body) {
		if r.Rating <= s.holderLimit(e, f.body) {
			f.rating = r.Rating
		}
	}
}

func (s *sizer) firstRating(e *harness.Element, f *fusing, body string, start bool) (unit.Ampere, bool) {
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
func (s *sizer) holds(e *harness.Element, body string, r unit.Ampere, f *fusing) bool {
	if f.start <= 0 {
		return true
	}
	earliest := rating.EarliestOpening(body, float64(f.start)/(float64(r)*s.fuseHeat(e)))
	return math.IsNaN(float64(earliest)) || earliest >= f.startOf
}

// starts gives the worst start current through each fuse. Loads behind the same
// last fuse start together when a state has them on together; through a fuse
// further up, one such group starts while all else runs.
func (s *sizer) starts() map[harness.ElementID]unit.Start {
	out := map[harness.ElementID]unit.Start{}
	for state := range s.states {
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
	for i := range s.draws {
		d := &s.draws[i]
		start := s.startOf(d)
		fuses := d.feed.Fuses(s.h)
		if d.state != state || start.Amps <= unit.Ampere(d.amps) || len(fuses) == 0 {
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
		groups[j].extra += float64(start.Amps) - d.amps
		groups[j].lasts = max(groups[j].lasts, start.For)
	}
	for _, g := range groups {
		for _, f := range g.fuses {
			running := math.Abs(s.states[state].Amps[f])
			if total := unit.Ampere(running + g.extra); total > out[f].Amps {
				out[f] = unit.Start{Amps: total, For: g.lasts}
			}
		}
	}
	s.crankStarts(state, out)
}

// crankStarts lets a fuse in the starter's way carry the cranking current.
func (s *sizer) crankStarts(state int, out map[harness.ElementID]unit.Start) {
	for i := range s.draws {
		d := &s.draws[i]
		if d.state != state || s.partOf(d.load).Kind != harness.Starter {
			continue
		}
		for _, f := range d.feed.Fuses(s.h) {
			if a := unit.Ampere(math.Abs(s.states[state].Amps[f])); a > out[f].Amps {
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
	filamentHot  unit.Second = 0.05
)

// startOf gives what a load takes while it starts; the part's figure belongs to
// its first load. Filament lamps start cold where nothing is given.
func (s *sizer) startOf(d *draw) unit.Start {
	p := s.partOf(d.load)
	for _, id := range p.Elements {
		if s.h.Elements[id].Kind != harness.Load {
			continue
		}
		if id == d.load && p.Starts.Amps > 0 {
			return p.Starts
		}
		break
	}
	if s.h.Elements[d.load].Behaves == harness.AsLamp {
		return unit.Start{Amps: unit.Ampere(coldFilament * d.amps), For: filamentHot}
	}
	return unit.Start{}
}

// most is the largest current through an element in any state, cranking included.
func (s *sizer) most(e harness.ElementID) float64 {
	out := 0.0
	for i := range s.states {
		if a := math.Abs(s.states[i].Amps[e]); a > out { // false for NaN
			out = a
		}
	}
	return out
}

// fuseReason says in one sentence why a fuse has its rating.
func (s *sizer) fuseReason(e *harness.Element, f *fusing) string {
	carried := fmt.Sprintf("%s continuous in %s", amps(f.amps), f.state)
	cranking := s.most(e.ID)
	switch {
	case f.amps < onFrom && cranking >= onFrom && f.given:
		return fmt.Sprintf("given: %s; carries %s while cranking, seconds only", f.rating, unit.Ampere(round(cranking, 1)))
	case f.amps < onFrom && cranking >= onFrom:
		return fmt.Sprintf("%s: carries %s while cranking, seconds only", f.rating, unit.Ampere(round(cranking, 1)))
	case f.amps < onFrom && f.given:
		return fmt.Sprintf("given: %s; no state draws current through it", f.rating)
	case f.amps < onFrom && f.kept:
		return fmt.Sprintf("%s; no state draws current through it", f.rating)
	case f.amps < onFrom:
		return fmt.Sprintf("%s: the smallest, no state draws current through it", f.rating)
	case f.given:
		return fmt.Sprintf("given: %s; carries %s", f.rating, carried)
	}
	text := fmt.Sprintf("%s: %s over %s is %s", f.rating, carried, unit.Fraction(s.fuseShare()), amps(f.amps/s.fuseShare()))
	if heat := s.fuseHeat(e); heat < 0.995 {
		text += fmt.Sprintf(", over %s for the heat where it sits %s", unit.Fraction(round(heat, 2)), amps(s.need(e, f)))
	}
	return text + s.startReason(e, f)
}

func (s *sizer) startReason(e *harness.Element, f *fusing) string {
	if f.start <= 0 || f.breaker {
		return ""
	}
	earliest := rating.EarliestOpening(f.body, float64(f.start)/(float64(f.rating)*s.fuseHeat(e)))
	what := "start"
	if f.startOf == filamentHot {
		what = "cold filaments' start"
	}
	switch {
	case math.IsNaN(float64(earliest)):
		return ""
	case math.IsInf(float64(earliest), 1):
		return fmt.Sprintf("; the %s of %s does not open it", what, unit.Ampere(round(float64(f.start), 1)))
	}
	return fmt.Sprintf("; the %s of %s for %s opens it in %s at the earliest", what, unit.Ampere(round(float64(f.start), 1)), f.startOf, unit.Second(round(float64(earliest), 2)))
}

func (s *sizer) fuseSources(e *harness.Element, f *fusing) []string {
	var keys []string
	if row, ok := rating.FuseOf(f.body, f.rating); ok {
		keys = append(keys, row.Sources...)
	}
	if !f.given && !f.kept {
		keys = append(keys, "fuse-fills")
		if s.fuseHeat(e) < 0.995 {
			keys = append(keys, "fuse-ambient")
		}
	}
	if f.breaker && s.partOf(e.ID).BreakerType != "" {
		keys = append(keys, "sae-j553")
	}
	if f.start > 0 && f.startOf == filamentHot {
		keys = append(keys, "cold-filament")
	}
	if f.start > 0 {
		for _, o := range rating.Openings(f.body) {
			keys = append(keys, o.Source)
		}
	}
	return distinct(keys)
}

func round(x float64, digits int) float64 {
	p := math.Pow(10, float64(digits))
	return math.Round(x*p) / p
}

func distinct(keys []string) []string {
	var out []string
	seen := map[string]bool{}
	for _, k := range keys {
		if k != "" && !seen[k] {
			seen[k] = true
			out = append(out, k)
		}
	}
	return out
}
