package finding

import (
	"fmt"
	"math"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/choose/protect"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// fuseRatings checks every fuse both ways: against the wires behind it, and
// against the load and its holder.
func (f *inspection) fuseRatings() {
	weak := map[harness.ElementID][]harness.WireID{}
	for i := range f.H.Wires {
		w := harness.WireID(i)
		if g := f.Floors[w].Guard; g != harness.None && f.Worst(w, f.Size(w), g).Excess() > 1+1e-6 {
			weak[g] = append(weak[g], w)
		}
	}
	for i := range f.c.Fuses {
		fuse := &f.c.Fuses[i]
		f.tooBig(fuse, weak[fuse.Element])
		f.tooSmall(fuse)
		f.holder(fuse)
	}
}

func (f *inspection) fuseSpan(fuse *chosen.Fuse) source.Span {
	return f.H.Parts[fuse.Part].RatingPlace(fuse.Position)
}

// tooBig blames the fuse where its rating is given, else a given gauge, else
// the lack of a heavier size.
func (f *inspection) tooBig(fuse *chosen.Fuse, wires []harness.WireID) {
	if len(wires) == 0 {
		return
	}
	if !fuse.Given {
		for _, w := range wires {
			f.weakWire(fuse, w)
		}
		return
	}
	thin, worst := f.weakest(fuse, wires)
	p := source.Problem{
		Slug: "fuse-too-big", Level: source.Error, Span: f.fuseSpan(fuse),
		Summary:  fmt.Sprintf("%s (%s) is too big for %s behind it: %s", fuse.Name, fuse.Rating, f.wireName(thin), f.BurdenText(thin, f.Size(thin), fuse.Element, worst)),
		Detail:   "fit " + fuse.MostAllowed.String() + " at most, or a heavier wire",
		Subjects: append([]string{fuse.Name}, f.names(wires)...),
		Numbers:  append(burdenNumbers(fuse, worst), number("most_allowed_a", float64(fuse.MostAllowed))),
	}
	if fuse.MostAllowed <= 0 {
		p.Detail = "no rating is small enough for this wire: fit a heavier one"
	}
	if f.Given(thin) {
		p.Others = []source.Note{{Span: f.H.Wires[thin].GaugeSpan, Text: "the wire's gauge is given here"}}
	}
	f.add(p)
}

// weakest gives the wire that stands a fuse least, and what it does not stand.
func (f *inspection) weakest(fuse *chosen.Fuse, wires []harness.WireID) (harness.WireID, protect.Burden) {
	thin, worst := wires[0], protect.Burden{}
	for _, w := range wires {
		if b := f.Worst(w, f.Size(w), fuse.Element); b.Excess() > worst.Excess() {
			thin, worst = w, b
		}
	}
	return thin, worst
}

func burdenNumbers(fuse *chosen.Fuse, b protect.Burden) []source.Number {
	return []source.Number{number("rating_a", float64(fuse.Rating)), number("passes_a", b.Passes), number("stands_a", b.Stands)}
}

func (f *inspection) weakWire(fuse *chosen.Fuse, w harness.WireID) {
	b := f.Worst(w, f.Size(w), fuse.Element)
	text := f.BurdenText(w, f.Size(w), fuse.Element, b)
	p := source.Problem{Level: source.Error, Subjects: []string{f.wireName(w), fuse.Name}, Numbers: burdenNumbers(fuse, b)}
	if f.Given(w) {
		p.Slug, p.Span = "gauge-given-too-thin", f.H.Wires[w].GaugeSpan
		p.Summary = fmt.Sprintf("%s is given as %s and its fuse %s must be %s for the load: %s", f.wireName(w), f.c.Wires[w].Gauge, fuse.Name, fuse.Rating, text)
		p.Detail = fmt.Sprintf("for the fuse the wire needs %s; %s", f.c.Wires[w].Wants.Protection, f.thicker(w)) + f.rarer(fuse, w)
	} else {
		p.Slug, p.Span = "wire-too-weak-for-fuse", f.H.Wires[w].Span
		p.Summary = fmt.Sprintf("%s is safe behind the %s of %s in no size: %s", f.wireName(w), fuse.Rating, fuse.Name, text)
		p.Detail = "split the load over two fuses, or route the wire through a cooler place"
	}
	f.add(p)
}

// rarer names the rating that would serve the load and a wire, or None, and that shops seldom
// have: none such is chosen, but a given one is obeyed.
func (f *inspection) rarer(fuse *chosen.Fuse, w harness.WireID) string {
	if fuse.Given {
		return ""
	}
	most := math.Inf(1)
	if w != harness.None {
		most = f.MostRating(w, f.Size(w), fuse.Element)
	}
	r, ok := f.seat(fuse).Rarer(&f.Fuses[fuse.Element], most)
	if !ok {
		return ""
	}
	return fmt.Sprintf("; %s would serve and is seldom on the shelf: give it (rating: %s) once you have it", r, r)
}

// tooSmall checks the continuous current and the start.
func (f *inspection) tooSmall(fuse *chosen.Fuse) {
	x := &f.Fuses[fuse.Element]
	seat := f.seat(fuse)
	most := float64(fuse.Rating) * seat.Share() * seat.Heat()
	p := source.Problem{
		Slug: "fuse-too-small", Level: source.Warning, Span: f.fuseSpan(fuse),
		Subjects: []string{fuse.Name, fuse.State},
		Numbers:  []source.Number{number("rating_a", float64(fuse.Rating)), number("amps", x.Amps), number("start_a", float64(x.Start))},
	}
	switch {
	case x.Amps > float64(fuse.Rating)*(1+1e-6) || x.Short:
		p.Level = source.Error
		p.Summary = fmt.Sprintf("%s is rated %s and carries %s in %s", fuse.Name, fuse.Rating, unit.Amps(x.Amps), fuse.State)
		if fuse.Rating == 0 {
			p.Summary = fmt.Sprintf("%s carries %s in %s, and no %s fuse is as small as its holder carries (%s)", fuse.Name, unit.Amps(x.Amps), fuse.State, fuse.Body, seat.HolderLimit(fuse.Body))
		}
		cure := "leave the rating out to have it chosen"
		if !fuse.Given {
			cure = fmt.Sprintf("its body (%s) goes to %s in its holder: leave body: out to have it chosen", fuse.Body, seat.HolderLimit(fuse.Body))
			if f.H.Parts[fuse.Part].Holder > 0 {
				cure = fmt.Sprintf("its holder carries %s: use one that carries more", seat.HolderLimit(fuse.Body))
			}
		}
		p.Detail = fmt.Sprintf("it needs %s: %s, fit a larger body, or split the loads", unit.Amps(seat.Need(x)), cure) + f.feederAdvice(fuse) + f.rarer(fuse, harness.None)
	case x.Amps > most*(1+1e-6):
		p.Summary = fmt.Sprintf("%s is rated %s and carries %s in %s: more than %s of it continuously", fuse.Name, fuse.Rating, unit.Amps(x.Amps), fuse.State, unit.Fraction(unit.Round(seat.Share()*seat.Heat(), 2)))
		p.Detail = fmt.Sprintf("it ages and opens early: it needs %s", unit.Amps(seat.Need(x))) + f.feederAdvice(fuse)
	default:
		if !f.opensOnStart(seat, fuse, x, &p) {
			return
		}
	}
	f.add(p)
}

// opensOnStart tells a fuse that may open while its load starts: advice where
// only the earliest of the published times is passed, a warning beyond the latest.
func (f *inspection) opensOnStart(seat protect.Seat, fuse *chosen.Fuse, x *protect.Fuse, p *source.Problem) bool {
	if x.Breaker || seat.Holds(fuse.Body, fuse.Rating, x) {
		return false
	}
	multiple := float64(x.Start) / (float64(fuse.Rating) * seat.Heat())
	latest := float64(rating.LatestOpening(fuse.Body, multiple))
	earliest := float64(rating.EarliestOpening(fuse.Body, multiple))
	p.Level = source.Advice
	if float64(x.StartFor) > latest {
		p.Level = source.Warning
	}
	p.Summary = fmt.Sprintf("%s (%s %s) may open while its load starts: %s for %s, it opens in %.2f to %.1f s", fuse.Name, fuse.Body, fuse.Rating, unit.Amps(float64(x.Start)), x.StartFor, earliest, latest)
	p.Detail = "a slower body (maxi) holds longer; or use the next rating and the wire that is safe behind it"
	return true
}

func (f *inspection) holder(fuse *chosen.Fuse) {
	limit := f.seat(fuse).HolderLimit(fuse.Body)
	if fuse.Breaker || limit <= 0 || fuse.Rating <= limit {
		return
	}
	p := source.Problem{
		Slug: "holder-too-small", Level: source.Warning, Span: f.fuseSpan(fuse),
		Summary:  fmt.Sprintf("%s is rated %s; its %s holder carries %s", fuse.Name, fuse.Rating, fuse.Body, limit),
		Detail:   "say the holder's own rating (holder: 40 A), or choose a larger body",
		Subjects: []string{fuse.Name}, Numbers: []source.Number{number("rating_a", float64(fuse.Rating)), number("holder_a", float64(limit))},
	}
	if f.H.Parts[fuse.Part].Holder > 0 {
		p.Detail = fmt.Sprintf("use a holder that carries %s; a smaller fuse only where its load takes no more", fuse.Rating)
	}
	if fuse.Amps > limit {
		p.Level = source.Error
	}
	f.add(p)
}

func (f *inspection) seat(fuse *chosen.Fuse) protect.Seat {
	return protect.Seat{H: f.H, E: &f.H.Elements[fuse.Element]}
}

// feederAdvice is what a feeder that is too small needs besides a larger fuse.
func (f *inspection) feederAdvice(fuse *chosen.Fuse) string {
	sum, n := f.BranchSum(fuse.Element)
	if n < 2 {
		return ""
	}
	return fmt.Sprintf("; its %d fuses add up to %s, and %s of that runs at once in %s: move some to another feeder", n, sum, unit.Amps(float64(fuse.Amps)), fuse.State)
}

// cycling reports self-resetting breakers with nothing before them that opens
// for good: such a breaker closes on the fault again and again (SAE J553).
func (f *inspection) cycling() {
	for i := range f.c.Fuses {
		fuse := &f.c.Fuses[i]
		if fuse.Type != protect.SelfResetting || !f.Net.Unlimited(fuse.Element, f.opensForGood) {
			continue
		}
		p := &f.H.Parts[fuse.Part]
		f.add(source.Problem{
			Slug: "breaker-cycles-unfused", Level: source.Warning, Span: p.Span,
			Summary:  fmt.Sprintf("%s resets by itself (type 1, automatic reset) and has no fuse before it: it goes on feeding a short in bursts", fuse.Name),
			Detail:   "put a fuse between the battery and this breaker, or use a breaker of type 3, reset by hand (SAE J553)",
			Subjects: []string{fuse.Name}, Numbers: []source.Number{number("rating_a", float64(fuse.Rating))},
		})
	}
}

func (f *inspection) opensForGood(id harness.ElementID) bool {
	p := f.PartOf(id)
	return p.Kind != harness.Breaker || p.BreakerType != protect.SelfResetting
}
