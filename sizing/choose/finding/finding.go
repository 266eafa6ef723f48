// Package finding reports what is wrong with what was settled: wires, feeds, fuses, and
// what only the solved states show. In: a Settled of package choose and the results that
// were written down of it, both for reading only. Out: problems with slug, level, span, what
// is wrong in numbers and what would be right. Always holds: each rule has an example that
// is wrong in its way (the test of this package). Sources stand at the rules.
package finding

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/choose/demand"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// inspection gathers the findings on what was chosen.
type inspection struct {
	*choose.Settled
	c   *chosen.Chosen
	out source.Problems
}

// All gathers the findings on what was settled, in a fixed order.
func All(s *choose.Settled, c *chosen.Chosen) source.Problems {
	f := &inspection{Settled: s, c: c}
	f.unprotected()
	f.crankingCables()
	f.fuseRatings()
	f.fuseShorts()
	f.sideBySide()
	f.fedTwice()
	f.cycling()
	f.heat()
	f.drops()
	f.contacts()
	f.loadsAndEnds()
	f.weakFeeds()
	f.converters()
	f.shortOfVolts()
	f.relayCoils()
	f.supply()
	f.inStates()
	f.ownSizes()
	f.ownRatings()
	f.bodies()
	f.onceAWire()
	return f.out.Sorted()
}

func (f *inspection) add(p source.Problem) { f.out = append(f.out, p) }

func (f *inspection) wireName(w harness.WireID) string { return f.H.Wires[w].Name }

// thicker says how a wire of a given gauge gets more copper.
func (f *inspection) thicker(w harness.WireID) string {
	if f.H.Wires[w].Existing {
		return "lay a new wire in its place and take existing: true and its gauge out"
	}
	for i := range f.H.Units {
		if u := &f.H.Units[i]; u.Kind == harness.Cabled && slices.Contains(u.Wires, w) {
			return "use a cable with thicker cores for " + u.Name + ", or route this wire beside it"
		}
	}
	return "leave the gauge out to have it chosen"
}

func (f *inspection) names(wires []harness.WireID) []string {
	var out []string
	for _, w := range wires {
		out = append(out, f.wireName(w))
	}
	return out
}

func number(name string, v float64) source.Number { return source.Number{Name: name, Value: v} }

// drops holds every load to its limit, one finding a load, or one a given gauge.
func (f *inspection) drops() {
	worst := map[harness.ElementID]*demand.Draw{}
	for i := range f.Draws {
		d := &f.Draws[i]
		if !f.Exceeds(d) {
			continue
		}
		if w := worst[d.Load]; w == nil || f.Drop(d) > f.Drop(w) {
			worst[d.Load] = d
		}
	}
	blamed := map[harness.WireID]bool{}
	long := map[harness.WireID][]*demand.Draw{} // by the wire that loses most
	var order []harness.WireID
	for _, e := range f.H.Elements {
		d := worst[e.ID]
		if d == nil {
			continue
		}
		if thin, ok := f.thinnestGiven(d); ok {
			f.givenDrop(d, thin, blamed)
			continue
		}
		w := f.loses(d)
		if long[w] == nil {
			order = append(order, w)
		}
		long[w] = append(long[w], d)
	}
	for _, w := range order {
		f.overDrop(long[w])
	}
}

// loses gives the wire on a load's way that loses most, None without one.
func (f *inspection) loses(d *demand.Draw) harness.WireID {
	best, most := harness.WireID(harness.None), 0.0
	for _, w := range d.Wires() {
		if loss := math.Abs(f.Solvings[d.State].State.WireAmps[w]) * f.OhmsIn(d.State, w); loss > most {
			best, most = w, loss
		}
	}
	return best
}

// overDrop reports the loads that one wire keeps from their limit, at the worst of them.
func (f *inspection) overDrop(draws []*demand.Draw) {
	worst := slices.MaxFunc(draws, func(a, b *demand.Draw) int { return cmp.Compare(f.excess(a), f.excess(b)) })
	limit, text := f.LimitOf(worst)
	load, state := f.H.Elements[worst.Load].Name, f.StateName(worst)
	subjects, also := []string{load, state}, ""
	var others []string
	for _, d := range draws {
		if d != worst {
			others = append(others, f.H.Elements[d.Load].Name)
		}
	}
	if len(others) > 0 {
		also = "; too much also for " + source.Some(others, "")
	}
	f.add(source.Problem{
		Slug: "drop-over-limit", Level: source.Warning, Span: f.PartOf(worst.Load).Span,
		Summary:  fmt.Sprintf("%s loses %.2f V in its wires in %s; %.2f V (%s) is allowed%s", load, f.Drop(worst), state, float64(limit), text, also),
		Detail:   "shorten the route, ground it nearer, feed it through a relay, or give its circuit a class with a wider limit",
		Subjects: append(subjects, others...), Numbers: f.dropNumbers(worst),
	})
}

func (f *inspection) excess(d *demand.Draw) float64 {
	limit, _ := f.LimitOf(d)
	return f.Drop(d) / float64(limit)
}

func (f *inspection) dropNumbers(d *demand.Draw) []source.Number {
	limit, _ := f.LimitOf(d)
	return []source.Number{number("drop_v", f.Drop(d)), number("limit_v", float64(limit)), number("amps", d.Most())}
}

// givenDrop blames a given gauge for a load's drop, once.
func (f *inspection) givenDrop(d *demand.Draw, thin harness.WireID, blamed map[harness.WireID]bool) {
	if blamed[thin] {
		return
	}
	blamed[thin] = true
	limit, text := f.LimitOf(d)
	load, state := f.H.Elements[d.Load].Name, f.StateName(d)
	f.add(source.Problem{
		Slug: "gauge-given-too-thin", Level: source.Warning, Span: f.H.Wires[thin].GaugeSpan,
		Summary:  fmt.Sprintf("%s is given as %s: %s loses %.2f V in %s, %.2f V (%s) is allowed", f.wireName(thin), f.c.Wires[thin].Gauge, load, f.Drop(d), state, float64(limit), text),
		Detail:   fmt.Sprintf("for the drop the wire needs %s; %s", f.c.Wires[thin].Wants.Drop, f.thicker(thin)),
		Subjects: []string{f.wireName(thin), load, state}, Numbers: f.dropNumbers(d),
	})
}

// thinnestGiven gives the given wire on a load's way that loses most of what a
// heavier gauge would save.
func (f *inspection) thinnestGiven(d *demand.Draw) (harness.WireID, bool) {
	best, most := harness.WireID(harness.None), 0.0
	st := &f.Solvings[d.State].State
	for _, w := range d.Wires() {
		wanted := f.Shelf[w].Index(f.c.Wires[w].Wants.Drop)
		if !f.Given(w) || wanted <= f.At[w] && len(f.Shelf[w]) > 1 {
			continue
		}
		if loss := math.Abs(st.WireAmps[w]) * f.OhmsIn(d.State, w); loss > most {
			best, most = w, loss
		}
	}
	return best, best != harness.None
}

// relayCoils reports relays that find no rest.
func (f *inspection) relayCoils() {
	for i := range f.States {
		for _, id := range f.States[i].Chatter {
			p := f.PartOf(id)
			f.add(source.Problem{
				Slug: "relay-chatter", Level: source.Error, Span: p.Span,
				Summary:  fmt.Sprintf("%s chatters in %s", p.Ref, f.States[i].Name),
				Detail:   "its own contact takes away the feed of its coil: feed the coil from before the contact",
				Subjects: []string{p.Ref, f.States[i].Name},
			})
		}
	}
}

// supply reports alternators that cannot carry a state, and the drain at rest. What a
// short or a sneak path draws is told as that.
func (f *inspection) supply() {
	f.outrun()
	for i := range f.c.Budgets {
		b := &f.c.Budgets[i]
		state := &f.H.States[b.State]
		if drain := float64(b.Drain); b.KeyOff && drain > demand.KeyOffLimit && !f.Faulty[b.State] {
			level := source.Warning
			if drain-f.pluggedIn(b.State) <= demand.KeyOffLimit {
				level = source.Advice
			}
			f.add(source.Problem{
				Slug: "key-off-drain", Level: level, Span: f.stateSpan(state),
				Summary:  fmt.Sprintf("with everything at rest (%s) the drain is %s%s%s", state.Name, unit.Amps(drain), days(b.Days), byFuse(b.Drains)),
				Detail:   "feed what draws it from the ignition switch, or fit an isolator",
				Subjects: append([]string{state.Name}, f.drawing(b)...), Numbers: []source.Number{number("amps", drain), number("days", b.Days)},
			})
		}
	}
}

// pluggedIn is what outlets draw in a state, A: it ends when the plug is pulled.
func (f *inspection) pluggedIn(state int) float64 {
	amps := 0.0
	for i := range f.Draws {
		if d := &f.Draws[i]; d.State == state && f.PartOf(d.Load).Kind == harness.Outlet {
			amps += d.Amps
		}
	}
	return amps
}

func (f *inspection) stateSpan(state *harness.State) source.Span {
	if state.Span.Known() {
		return state.Span
	}
	return f.H.System.Span
}

func days(d float64) string {
	if d <= 0 {
		return ""
	}
	return fmt.Sprintf("; half flat in %.1f days", d)
}

// drawing lists what draws current at rest: loads and coils, then what else is named.
func (f *inspection) drawing(b *chosen.Budget) []string {
	var out []string
	for _, list := range [][]demand.Draw{f.Draws, f.Coils} {
		for i := range list {
			if list[i].State == b.State {
				out = append(out, f.H.Elements[list[i].Load].Name)
			}
		}
	}
	for _, d := range b.Drains {
		for _, name := range d.Loads {
			if !slices.Contains(out, name) {
				out = append(out, name)
			}
		}
	}
	return out
}
