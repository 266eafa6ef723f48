package misuse

import (
	"fmt"
	"math"
	"slices"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/choose/demand"
	"example.com/loomfolio/sizing/choose/protect"
	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/loose"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// systems are the voltages that parts are made for: those at which a draw may be written
// for such a part, and the highest that it gets in a sound vehicle. Common practice, no
// source; 16 V and 32 V are the upper ends of ISO 16750-2 code C and H (from memory).
var systems = []struct{ nominal, below, highest float64 }{{6, 9, 8}, {12, 18, 16}, {24, 36, 32}, {48, 60, 60}}

// tooLittle is the share of what a part is made for below which it gets clearly less;
// common practice, no source.
const tooLittle = 0.75

// madeFor gives the system that a part with such a figure is made for.
func madeFor(at unit.Volt) (nominal, highest float64) {
	for _, s := range systems {
		if float64(at) < s.below {
			return s.nominal, s.highest
		}
	}
	return float64(at), math.Inf(1)
}

// volts reports loads at a voltage that they are not made for, each once: above it in the
// worst state, below it where no state gives enough.
func (f *inspection) volts() {
	for i := range f.H.Elements {
		e := &f.H.Elements[i]
		if e.Kind != harness.Load || e.AtVolts <= 0 {
			continue
		}
		nominal, highest := madeFor(e.AtVolts)
		most, state := f.mostVolts(e.ID)
		switch made := fmt.Sprintf("%s is made for %s (its current is given at %s)", e.Name, unit.Volt(nominal), e.AtVolts); {
		case state == "":
		case most > highest:
			f.wrongVolts(e, "over-voltage", source.Error, fmt.Sprintf("%s and gets %.1f V in %s", made, most, state), most)
		case most < tooLittle*nominal && nominal > float64(f.Nominal(e.ID)):
			f.wrongVolts(e, "below-working-voltage", source.Warning, fmt.Sprintf("%s and gets %.1f V at most, in %s", made, most, state), most)
		}
	}
}

func (f *inspection) mostVolts(load harness.ElementID) (most float64, state string) {
	for i := range f.Draws {
		if d := &f.Draws[i]; d.Load == load && f.shown(d) && d.Volts > most {
			most, state = d.Volts, f.StateName(d)
		}
	}
	return most, state
}

// shown tells a draw of a declared state that is no fault.
func (f *inspection) shown(d *demand.Draw) bool { return f.Declared(d) && !f.Faulty[d.State] }

func (f *inspection) wrongVolts(e *harness.Element, slug string, level source.Level, summary string, volts float64) {
	f.add(source.Problem{
		Slug: slug, Level: level, Span: f.PartOf(e.ID).Span, Summary: summary,
		Detail:   fmt.Sprintf("use one for %s, or feed it through a resistor or converter that makes the difference", f.Nominal(e.ID)),
		Subjects: []string{e.Name}, Numbers: []source.Number{number("volts", volts), number("made_for_v", float64(e.AtVolts))},
	})
}

// working reports parts that get less than they work above, each once in its worst state.
// What a part senses with, through a sender or another part, is not its supply.
func (f *inspection) working() {
	for i := range f.H.Parts {
		p := &f.H.Parts[i]
		if p.WorksAbove <= 0 {
			continue
		}
		var worst *demand.Draw
		for j := range f.Draws {
			d := &f.Draws[j]
			if f.PartOf(d.Load).ID == p.ID && f.shown(d) && !f.Owns[d.Load].Series && d.Volts < float64(p.WorksAbove)*(1-1e-9) && (worst == nil || d.Volts < worst.Volts) {
				worst = d
			}
		}
		if worst != nil {
			f.fails(p, worst)
		}
	}
}

func (f *inspection) fails(p *harness.Part, d *demand.Draw) {
	cure := "feed it from nearer the battery, by heavier wires, or from a source that holds its voltage"
	if f.Cranking(d) {
		cure = "a battery with less inner resistance, shorter or heavier cranking cables, or a supply that bridges the start (a small battery behind a diode, or a converter)"
	}
	f.add(source.Problem{
		Slug: "below-working-voltage", Level: source.Warning, Span: p.Span,
		Summary:  fmt.Sprintf("%s works above %s and gets %.1f V in %s", p.Ref, p.WorksAbove, d.Volts, f.StateName(d)),
		Detail:   cure,
		Subjects: []string{p.Ref, f.StateName(d)}, Numbers: []source.Number{number("volts", d.Volts), number("works_above_v", float64(p.WorksAbove))},
	})
}

// unlit reports ignition coils whose feed is open while the engine is cranked, though a
// running state feeds them: the engine turns and does not fire.
func (f *inspection) unlit() {
	crank := f.stateOf(harness.EngineCranking, nil)
	if crank < 0 {
		return
	}
	for i := range f.H.Elements {
		e := &f.H.Elements[i]
		if e.Kind != harness.Load || f.PartOf(e.ID).Kind != harness.Coil || f.IsMeant(e.ID, crank) {
			continue
		}
		run := f.stateOf(harness.EngineRunning, func(s int) bool { return f.IsMeant(e.ID, s) })
		if run < 0 {
			continue
		}
		p, state := f.PartOf(e.ID), f.H.States[crank].Name
		f.add(source.Problem{
			Slug: "below-working-voltage", Level: source.Warning, Span: p.Span,
			Summary:  fmt.Sprintf("%s is fed in %s and gets nothing in %s: the engine turns and does not fire", e.Name, f.H.States[run].Name, state),
			Detail:   "feed it from a terminal of the key that stays live while the starter turns (15)",
			Subjects: []string{p.Ref, state},
		})
	}
}

// stateOf gives the first state with the engine so, of which a test holds where there is
// one; -1 for none.
func (f *inspection) stateOf(engine harness.Engine, holds func(state int) bool) int {
	for i := range f.H.States {
		if f.H.States[i].Engine == engine && (holds == nil || holds(i)) {
			return i
		}
	}
	return -1
}

// flashers compares what flows through each flasher with the least load that it needs.
func (f *inspection) flashers() {
	for i := range f.H.Elements {
		e := &f.H.Elements[i]
		p := f.PartOf(e.ID)
		if e.Kind != harness.Contact || p.Kind != harness.Flasher || p.Needs <= 0 {
			continue
		}
		least, at := math.Inf(1), -1
		for s := range f.States {
			if a := math.Abs(f.Solvings[s].State.Amps[e.ID]); a > demand.OnFrom && a < least {
				least, at = a, s
			}
		}
		if at >= 0 && least < float64(p.Needs)*(1-1e-6) {
			f.idleFlasher(e, at, least)
		}
	}
}

func (f *inspection) idleFlasher(e *harness.Element, state int, amps float64) {
	p := f.PartOf(e.ID)
	short := float64(p.Needs) - amps
	volts := float64(f.H.SystemOf(e).Running)
	f.add(source.Problem{
		Slug: "flasher-load-low", Level: source.Warning, Span: p.Span,
		Summary: fmt.Sprintf("%s needs %s to flash and its lamps take %s in %s: %s too little", p.Ref, p.Needs, unit.Amps(amps), f.H.States[state].Name, unit.Amps(short)),
		Detail: fmt.Sprintf("use an electronic flasher, which needs no load, or put a resistor of %.2g Ω (%.0f W) beside the lamps of each side",
			volts/short, volts*short),
		Subjects: []string{p.Ref}, Numbers: []source.Number{number("amps", amps), number("needs_a", float64(p.Needs))},
	})
}

// unrated reports heavy currents through switches that state no rating, and isolators that
// carry more than theirs while the engine is cranked.
func (f *inspection) unrated() {
	for i := range f.c.Contacts {
		c := &f.c.Contacts[i]
		p := &f.H.Parts[c.Part]
		ask := map[harness.Kind]float64{harness.IgnitionSwitch: demand.AskKey, harness.Switch: demand.AskSwitch}[p.Kind]
		switch {
		case c.Rating <= 0 && ask > 0 && float64(c.Amps) > ask && (p.Stud == "" || p.Kind == harness.IgnitionSwitch):
			f.askRating(p, c)
		case c.Rating > 0 && p.Kind == harness.Isolator && f.Most(c.Element) > float64(c.Rating)*(1+1e-6) && c.Amps <= c.Rating:
			f.cranksIsolator(p, c)
		}
	}
}

func (f *inspection) askRating(p *harness.Part, c *chosen.Contact) {
	f.add(source.Problem{
		Slug: "contact-unrated", Level: source.Warning, Span: p.Span,
		Summary:  fmt.Sprintf("%s carries %s in %s, and no rating says that its contacts are made for it", c.Name, unit.Amps(float64(c.Amps)), c.State),
		Detail:   "give its rating (rating: 30 A), or let it switch a relay that carries the loads",
		Subjects: []string{p.Ref}, Numbers: []source.Number{number("amps", float64(c.Amps))},
	})
}

func (f *inspection) cranksIsolator(p *harness.Part, c *chosen.Contact) {
	f.add(source.Problem{
		Slug: "contact-overloaded", Level: source.Warning, Span: p.Span,
		Summary:  fmt.Sprintf("%s carries %s while the engine is cranked and is rated %s", c.Name, unit.Amps(f.Most(c.Element)), c.Rating),
		Detail:   "use an isolator rated for the starter; where its sheet gives a higher figure for seconds, write that as its rating",
		Subjects: []string{p.Ref}, Numbers: []source.Number{number("amps", f.Most(c.Element)), number("rating_a", float64(c.Rating))},
	})
}

// oversized reports a given rating far above what its loads need, where wires grow for it: in
// their least sizes, for what is bought may be thicker for other reasons. A feeder with fuses
// behind it is given for what may come, one between batteries for what one gives the other;
// what nobody has traced behind a fuse may need it.
func (f *inspection) oversized(fuse *chosen.Fuse) {
	if _, behind := f.BranchSum(fuse.Element); !fuse.Given || behind > 0 || fuse.Amps <= 0 || f.Net.BetweenBatteries(fuse.Element) || loose.Behind(f.H, fuse.Wires) {
		return
	}
	x := f.least.Fuses[fuse.Element]
	best := protect.Fuse{Breaker: x.Breaker, Amps: x.Amps, Start: x.Start, StartFor: x.StartFor}
	protect.Seat{H: f.H, E: &f.H.Elements[fuse.Element]}.Pick(&best, math.Inf(1))
	if best.Rating <= 0 || fuse.Rating < oversize*best.Rating {
		return
	}
	grown := f.grown(fuse.Element)
	if len(grown) == 0 {
		return
	}
	f.add(source.Problem{
		Slug: "fuse-oversized", Level: source.Warning, Span: f.span(fuse),
		Summary:  fmt.Sprintf("%s is given as %s and its loads need %s: the wires behind it are heavier for its sake (%s)", fuse.Name, fuse.Rating, best.Rating, source.Some(grown, "")),
		Detail:   fmt.Sprintf("leave the rating out, or write %s", best.Rating),
		Subjects: append([]string{fuse.Name}, grown...), Numbers: []source.Number{number("rating_a", float64(fuse.Rating)), number("needs_a", float64(best.Rating))},
	})
}

// grown names the wires whose least size is what a fuse asks for.
func (f *inspection) grown(fuse harness.ElementID) []string {
	var out []string
	for _, w := range f.least.Guards.Wires[fuse] {
		fl := f.least.Floors[w]
		own := max(fl.Protection, fl.Short.Step)
		if !f.least.Given(w) && fl.Guard == fuse && f.least.At[w] == own && own > max(fl.Heat, fl.Handling) {
			out = append(out, f.H.Wires[w].Name)
		}
	}
	return out
}

func (f *inspection) span(fuse *chosen.Fuse) source.Span {
	return f.H.Parts[fuse.Part].RatingPlace(fuse.Position)
}

// unmade reports a given rating in which no fuse of its body is made.
func (f *inspection) unmade(fuse *chosen.Fuse) {
	if !fuse.Given || protect.Made(fuse.Body, fuse.Rating) {
		return
	}
	x := f.Fuses[fuse.Element]
	below, above := unit.Ampere(0), unit.Ampere(0)
	for _, r := range protect.Ratings(&x) {
		if r < fuse.Rating {
			below = r
		} else if above == 0 {
			above = r
		}
	}
	detail := fmt.Sprintf("write %s or %s, or leave the rating out", below, above)
	switch {
	case below == 0:
		detail = fmt.Sprintf("write %s, or a smaller body (body: blade)", above)
	case above == 0:
		detail = fmt.Sprintf("%s is the largest: choose a larger body (body: maxi or bolt)", below)
	}
	f.add(source.Problem{
		Slug: "fuse-not-made", Level: source.Error, Span: f.span(fuse), Subjects: []string{fuse.Name}, Detail: detail,
		Summary: fmt.Sprintf("%s is given as %s, in which no %s is made", fuse.Name, fuse.Rating, bodyName(fuse)),
	})
}

func bodyName(fuse *chosen.Fuse) string {
	if fuse.Breaker {
		return "breaker"
	}
	return fuse.Body + " fuse"
}

// fuseVolts reports bodies whose fuses are made for less than the system's voltage.
func (f *inspection) fuseVolts(fuse *chosen.Fuse) {
	limits, ok := rating.FuseLimitsOf(fuse.Body)
	if !ok {
		return
	}
	p := &f.H.Parts[fuse.Part]
	if running := f.H.SystemOf(&f.H.Elements[fuse.Element]).Running; running > limits.Volts {
		f.add(source.Problem{
			Slug: "fuse-volts", Level: source.Warning, Span: p.Span,
			Summary:  fmt.Sprintf("%s: fuses of its body (%s) are made for %s, and %s runs at %s: an arc may not go out", fuse.Name, fuse.Body, limits.Volts, f.sideWord(fuse.Element), running),
			Detail:   "use fuses that are marked for the voltage (58 V or more), and write body: of that kind",
			Subjects: []string{fuse.Name}, Numbers: []source.Number{number("volts", float64(running)), number("made_for_v", float64(limits.Volts))},
		})
	}
}

// sideWord names the side of an element where there are several voltages.
func (f *inspection) sideWord(id harness.ElementID) string {
	if f.H.Mixed() {
		return fmt.Sprintf("its side of %s", f.Nominal(id))
	}
	return "the system"
}

// estimated is by how much the current that a battery drives must be above what a fuse
// breaks before it is said: its inner resistance is an estimate, and the fuse's own arc
// takes volts. Common practice, no source.
const estimated = 1.5

// breaking reports, once, the fuses through which the batteries can drive clearly more
// than their bodies break.
func (f *inspection) breaking(driven []flow.Shorts) {
	var names []string
	worst, most := (*chosen.Fuse)(nil), 0.0
	for i := range f.c.Fuses {
		fuse := &f.c.Fuses[i]
		limits, ok := rating.FuseLimitsOf(fuse.Body)
		if through := driven[fuse.Element].Most(); ok && through > estimated*float64(limits.Breaks) {
			names = append(names, fuse.Name)
			if through > most {
				worst, most = fuse, through
			}
		}
	}
	if worst == nil {
		return
	}
	limits, _ := rating.FuseLimitsOf(worst.Body)
	f.add(source.Problem{
		Slug: "fuse-breaking-capacity", Level: source.Advice, Span: f.H.Parts[worst.Part].Span,
		Summary:  fmt.Sprintf("the battery can drive %s through %s; fuses of its body (%s) break %s%s", unit.Amps(most), worst.Name, worst.Body, limits.Breaks, likewise(names, worst.Name)),
		Detail:   "put a main fuse near the battery that breaks more (its sheet says how many amps DC), or use a body that does",
		Subjects: names, Numbers: []source.Number{number("prospective_a", most), number("breaks_a", float64(limits.Breaks))},
	})
}

// likewise names the other fuses of which the same holds.
func likewise(names []string, worst string) string {
	others := slices.DeleteFunc(slices.Clone(names), func(name string) bool { return name == worst })
	if len(others) == 0 {
		return ""
	}
	return "; so it is with " + source.Some(others, "")
}

// driven gives, by ElementID, the largest current that the batteries can drive through each
// fuse: a dead short right behind it, wires and fuses cold, A.
func (f *inspection) driven() []flow.Shorts {
	return f.Net.Shorts(f.ElementsOf(harness.FuseLink), f.ShortOhms(f.Ohms, 1))
}
