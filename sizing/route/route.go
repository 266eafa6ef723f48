package route

import (
	"fmt"
	"math"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Find gives the way and the cut length of every wire, indexed by WireID. A
// wire whose ends no runs join and that has no given length is a problem that
// names both ends.
func Find(h *harness.Harness) ([]Way, source.Problems) { return FindFor(h, guessed(h)) }

// FindFor is Find with what is known of the wires' sections, by WireID: the wires of
// a twist are longer by its turns, and the turns are wider the thicker the wires.
func FindFor(h *harness.Harness, sections []Section) ([]Way, source.Problems) {
	f := &finder{h: h, near: neighbours(h), sections: sections}
	ways := make([]Way, len(h.Wires))
	for i := range h.Wires {
		ways[i] = f.way(&h.Wires[i])
	}
	f.unmeasured(ways)
	for i := range h.Units {
		f.together(&h.Units[i], ways)
	}
	for i := range ways {
		if !ways[i].Given {
			ways[i] = f.asBuilt(&h.Wires[i], ways[i])
		}
	}
	return ways, f.problems
}

type finder struct {
	h        *harness.Harness
	near     [][]step
	sections []Section
	problems source.Problems
}

// step is a run that leads from one place to another.
type step struct {
	to  harness.PlaceID
	run harness.RunID
	mm  unit.Millimetre
}

func neighbours(h *harness.Harness) [][]step {
	near := make([][]step, len(h.Places))
	for _, r := range h.Runs {
		near[r.From] = append(near[r.From], step{r.To, r.ID, r.Length})
		near[r.To] = append(near[r.To], step{r.From, r.ID, r.Length})
	}
	return near
}

// leg is a stretch between two spots.
type leg struct {
	shares []Share
	places []harness.PlaceID
	mm     unit.Millimetre
}

// way finds one wire's way; a given length keeps the way for the bundles.
func (f *finder) way(w *harness.Wire) Way {
	from, to := f.h.PartOf(w.From), f.h.PartOf(w.To)
	if w.Beside {
		return f.beside(w)
	}
	if from.ID == to.ID && w.Length == 0 && len(w.Via) == 0 {
		return f.jumper()
	}
	found, ok := f.between(from, to, w.Via)
	if w.Length > 0 {
		f.short(w, found.mm)
		return Way{Shares: found.shares, Places: found.places, Length: w.Length, Wants: w.Length, Given: true,
			Reason: "given: " + f.text(w.Length)}
	}
	if !ok && (from.Unplaced() || to.Unplaced()) {
		return f.taken()
	}
	if !ok {
		f.report(w, from, to)
		return Way{}
	}
	p := f.h.Practice
	tails := from.Tail + to.Tail
	raw := (float64(found.mm+tails) + 2*float64(p.EachEnd)) * (1 + float64(p.Dress))
	length := RoundUp(raw, float64(p.RoundUp))
	return Way{
		Shares: found.shares, Places: found.places, Length: length, Wants: length,
		Reason: fmt.Sprintf("%s of runs + %s of tails + 2 × %s of slack, + %s for dress, rounded up to %s",
			f.text(found.mm), f.text(tails), f.text(p.EachEnd), p.Dress, f.text(length)),
	}
}

// jumperLength is what a wire between two terminals of one part is cut to: both crimps,
// and a bow that does not pull at them. Common practice, no source.
const (
	jumperLength         unit.Millimetre = 100
	imperialJumperLength unit.Millimetre = 4 * 25.4
)

// jumper is the way of a wire between two terminals of one part: it does not enter the loom.
func (f *finder) jumper() Way {
	length := jumperLength
	if f.h.Sheet.Imperial {
		length = imperialJumperLength
	}
	return Way{Length: length, Wants: length, Reason: "a jumper between two terminals of one part: " + f.text(length) + " (common practice, no source)"}
}

// beside is the way of a wire that goes straight across: no run holds it, and only its description knows how long it is.
func (f *finder) beside(w *harness.Wire) Way {
	if w.Length > 0 {
		return Way{Length: w.Length, Wants: w.Length, Given: true, Reason: "given: " + f.text(w.Length) + ", outside the loom"}
	}
	to := f.h.Terminals[w.To].Full
	f.problems = append(f.problems, source.Problem{
		Slug: "no-way", Level: source.Error, Span: w.Span, Subjects: []string{w.Name},
		Summary: fmt.Sprintf("wire %s to %s runs outside the loom (via: []) and has no length", w.Name, to),
		Detail:  fmt.Sprintf("measure it: {to: %s, length: %s, via: []}", to, f.example()),
	})
	return Way{}
}

// The length of a wire of which nobody knows where it goes: once through a car from the
// battery to the dash and on. Common practice, no source.
const (
	takenLength         unit.Millimetre = 3000
	imperialTakenLength unit.Millimetre = 120 * 25.4
)

func (f *finder) taken() Way {
	length := takenLength
	if f.h.Sheet.Imperial {
		length = imperialTakenLength
	}
	return Way{Length: length, Wants: length, Taken: true, Reason: "not traced: taken as " + f.text(length) + " (common practice, no source) until its length is known"}
}

// short advises where a given length is less than the runs that the wire is to lie in.
func (f *finder) short(w *harness.Wire, way unit.Millimetre) {
	if w.Length >= way {
		return
	}
	f.problems = append(f.problems, source.Problem{
		Slug: "shorter-than-way", Level: source.Advice, Span: w.Span, Subjects: []string{w.Name},
		Summary: fmt.Sprintf("%s is given as %s, and the runs on its route are %s", w.Name, f.text(w.Length), f.text(way)),
		Detail:  "measure again; a wire that runs outside the loom says so: via: []",
	})
}

// asCut is how far a length of the record may lie from a computed one that it
// was written from, mm.
const asCut = 0.01

// asBuilt gives a built wire the length that it was cut to.
func (f *finder) asBuilt(w *harness.Wire, way Way) Way {
	cut := w.Kept.Length
	if w.Kept.State != harness.Built || cut <= 0 || math.Abs(float64(cut-way.Length)) < asCut {
		return way
	}
	way.Length = cut
	way.Reason = fmt.Sprintf("built: %s; the route needs %s", f.text(cut), way.Reason)
	return way
}

// long is a length of wire as an example shows it, in the sheet's units.
func (f *finder) long() string {
	if f.h.Sheet.Imperial {
		return "4 ft"
	}
	return "1.2 m"
}

func (f *finder) text(mm unit.Millimetre) string { return unit.LengthText(mm, f.h.Sheet.Imperial) }

// RoundUp rounds to the next multiple, mm, to a thousandth of a mm; a hair over it
// (binary rounding) is not over.
func RoundUp(mm, multiple float64) unit.Millimetre {
	if multiple <= 0 {
		return unit.Millimetre(math.Ceil(mm - 1e-6))
	}
	return unit.Millimetre(math.Round(math.Ceil(mm/multiple-1e-9)*multiple*1000) / 1000)
}

func (f *finder) report(w *harness.Wire, from, to *harness.Part) {
	f.problems = append(f.problems, source.Problem{
		Slug: "no-way", Level: source.Error, Span: w.Span, Subjects: []string{w.Name},
		Summary: fmt.Sprintf("wire %s from %s to %s has no length: %s", w.Name,
			f.h.Terminals[w.From].Full, f.h.Terminals[w.To].Full, f.why(from, to)),
		Detail: "write the runs between the two places, or give this wire's length: {to: " + f.h.Terminals[w.To].Full + ", length: " + f.long() + "}",
	})
}

func (f *finder) why(from, to *harness.Part) string {
	for _, p := range []*harness.Part{from, to} {
		if p.Place == harness.None && p.Along == nil {
			return p.Ref + " has no place (at:)"
		}
	}
	return fmt.Sprintf("no runs join %s and %s", f.spot(from), f.spot(to))
}

func (f *finder) spot(p *harness.Part) string {
	if p.Place != harness.None {
		return f.h.Places[p.Place].Key
	}
	r := f.h.Runs[p.Along.Run]
	return "the run " + f.h.Places[r.From].Key + "–" + f.h.Places[r.To].Key
}

// between finds the shortest way from part to part, through the via places in order.
func (f *finder) between(from, to *harness.Part, via []harness.PlaceID) (leg, bool) {
	if !located(from) || !located(to) {
		return leg{}, false
	}
	var total leg
	at := f.start(from)
	for _, v := range via {
		next := []entry{{place: v}}
		part, ok := f.shortest(at, next)
		if !ok {
			return leg{}, false
		}
		total = total.plus(part)
		at = next
	}
	if len(via) == 0 {
		if direct, ok := f.sameRun(from, to); ok {
			return direct, true
		}
	}
	part, ok := f.shortest(at, f.start(to))
	if !ok {
		return leg{}, false
	}
	return total.plus(part), true
}

func located(p *harness.Part) bool { return p.Place != harness.None || p.Along != nil }

// entry is a way onto the places: the place, and the stretch of run to it.
type entry struct {
	place harness.PlaceID
	run   harness.RunID
	mm    unit.Millimetre // 0: the part sits at the place
}

// start gives the entries of a part: its place, or both ends of the run it lies along.
func (f *finder) start(p *harness.Part) []entry {
	if p.Place != harness.None {
		return []entry{{place: p.Place}}
	}
	r := f.h.Runs[p.Along.Run]
	return []entry{
		{place: r.From, run: r.ID, mm: p.Along.Distance},
		{place: r.To, run: r.ID, mm: r.Length - p.Along.Distance},
	}
}

// sameRun is the way between two splices on one run, or from one to the run's own end.
func (f *finder) sameRun(from, to *harness.Part) (leg, bool) {
	if from.Place != harness.None || to.Place != harness.None || from.Along.Run != to.Along.Run {
		return leg{}, false
	}
	mm := unit.Millimetre(math.Abs(float64(from.Along.Distance - to.Along.Distance)))
	return leg{shares: []Share{{from.Along.Run, mm}}, mm: mm}, true
}

func (l leg) plus(o leg) leg {
	out := leg{shares: append(append([]Share(nil), l.shares...), o.shares...), mm: l.mm + o.mm}
	out.places = append([]harness.PlaceID(nil), l.places...)
	for _, p := range o.places {
		if n := len(out.places); n == 0 || out.places[n-1] != p {
			out.places = append(out.places, p)
		}
	}
	return out
}

// shortest is Dijkstra's method over the places; ties go to the lower place.
func (f *finder) shortest(from, to []entry) (leg, bool) {
	n := len(f.h.Places)
	dist := make([]float64, n)
	back := make([]step, n)
	done := make([]bool, n)
	for i := range dist {
		dist[i] = math.Inf(1)
		back[i].to = harness.None
	}
	for _, e := range from {
		dist[e.place] = float64(e.mm)
	}
	for {
		at := nearest(dist, done)
		if at < 0 {
			break
		}
		done[at] = true
		for _, s := range f.near[at] {
			if d := dist[at] + float64(s.mm); d < dist[s.to]-1e-9 {
				dist[s.to] = d
				back[s.to] = step{to: harness.PlaceID(at), run: s.run, mm: s.mm}
			}
		}
	}
	return f.traced(from, to, dist, back)
}

func nearest(dist []float64, done []bool) int {
	best := -1
	for i, d := range dist {
		if !done[i] && !math.IsInf(d, 1) && (best < 0 || d < dist[best]) {
			best = i
		}
	}
	return best
}

// traced walks back from the best of the goals.
func (f *finder) traced(from, to []entry, dist []float64, back []step) (leg, bool) {
	best := -1
	for i, e := range to {
		if math.IsInf(dist[e.place], 1) {
			continue
		}
		if best < 0 || dist[e.place]+float64(e.mm) < dist[to[best].place]+float64(to[best].mm) {
			best = i
		}
	}
	if best < 0 {
		return leg{}, false
	}
	goal := to[best]
	out := leg{mm: unit.Millimetre(dist[goal.place]) + goal.mm}
	var shares []Share
	places := []harness.PlaceID{goal.place}
	for at := goal.place; back[at].to != harness.None; at = back[at].to {
		shares = append(shares, Share{back[at].run, back[at].mm})
		places = append(places, back[at].to)
	}
	first := places[len(places)-1]
	for _, e := range from {
		if e.place == first && e.mm > 0 {
			shares = append(shares, Share{e.run, e.mm})
		}
	}
	for i := len(shares) - 1; i >= 0; i-- {
		out.shares = append(out.shares, shares[i])
	}
	for i := len(places) - 1; i >= 0; i-- {
		out.places = append(out.places, places[i])
	}
	if goal.mm > 0 {
		out.shares = append(out.shares, Share{goal.run, goal.mm})
	}
	return out, true
}
