package misuse

import (
	"fmt"
	"math"
	"slices"

	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// shares is how much of the voltage two loads in series may want together before one of
// them is in the other's way; common practice, no source.
const shares = 1.3

// working are kinds that take their whole voltage; gauges and senders share it, modules
// sense through others.
var working = []harness.Kind{harness.Lamp, harness.Motor, harness.Heater, harness.Horn, harness.Solenoid, harness.Outlet}

// inSeries reports loads whose only way leads through another load, where the two are not
// made to share the voltage.
func (f *inspection) inSeries() {
	for i := range f.H.Elements {
		e := &f.H.Elements[i]
		own := &f.Owns[i]
		if e.Kind != harness.Load || !own.Whole || !own.Series || !f.works(e) {
			continue
		}
		for _, id := range own.Feed.Elements {
			first := &f.H.Elements[id]
			if first.Kind != harness.Load || first.Part == e.Part || !f.works(first) || float64(first.AtVolts+e.AtVolts) < shares*float64(f.H.SystemOf(e).Running) {
				continue
			}
			f.add(source.Problem{
				Slug: "loads-in-series", Level: source.Warning, Span: f.PartOf(e.ID).Span,
				Summary:  fmt.Sprintf("%s gets its current through %s: in series the two share the voltage, and neither works as it should", e.Name, first.Name),
				Detail:   fmt.Sprintf("give each its own way: the feed of %s from before %s, and a return of its own", e.Name, first.Name),
				Subjects: []string{e.Name, first.Name},
			})
		}
	}
}

// starving is the share of the nominal voltage that a load must get in some state; common
// practice, no source: a motor or relay does nothing below it.
const starving = 0.5

// behindModules reports loads that get next to nothing since all their current goes through
// a module, gauge or sender.
func (f *inspection) behindModules() {
	for i := range f.H.Elements {
		e := &f.H.Elements[i]
		own := &f.Owns[i]
		if e.Kind != harness.Load || !own.Whole || !own.Series || !f.works(e) {
			continue
		}
		most, state := f.mostVolts(e.ID)
		if state == "" || most >= starving*float64(f.Nominal(e.ID)) {
			continue
		}
		for _, id := range slices.Concat(own.Feed.Elements, own.Back.Elements) {
			through := &f.H.Elements[id]
			if through.Kind != harness.Load || through.Part == e.Part || f.works(through) {
				continue
			}
			f.add(source.Problem{
				Slug: "loads-in-series", Level: source.Warning, Span: f.PartOf(e.ID).Span,
				Summary:  fmt.Sprintf("all current of %s goes through %s: it gets %.1f V at most, in %s", e.Name, through.Name, most, state),
				Detail:   fmt.Sprintf("give %s a feed and a return of its own", e.Name),
				Subjects: []string{e.Name, through.Name}, Numbers: []source.Number{number("volts", most)},
			})
			break
		}
	}
}

func (f *inspection) works(e *harness.Element) bool {
	return slices.Contains(working, f.PartOf(e.ID).Kind)
}

// keepAlive is the largest fuse across an isolator that keeps a clock or a memory alive
// and no more, A; common practice, no source.
const keepAlive = 10

// bypasses reports isolators whose two sides metal joins though they are open.
func (f *inspection) bypasses() {
	for i := range f.H.Elements {
		e := &f.H.Elements[i]
		p := f.PartOf(e.ID)
		if e.Kind != harness.Contact || p.Kind != harness.Isolator || e.When.Kind != harness.InPosition {
			continue
		}
		if !f.Net.Bypassed(e.ID, func(fuse harness.ElementID) bool { return f.Fuses[fuse].Rating > keepAlive }) {
			continue
		}
		f.add(source.Problem{
			Slug: "isolator-bypassed", Level: source.Warning, Span: p.Span,
			Summary:  fmt.Sprintf("%s switches nothing off: a cable beside it joins %s to %s", p.Ref, f.H.Terminals[e.A].Full, f.H.Terminals[e.B].Full),
			Detail:   "move that cable to the other side of the isolator; what must stay alive gets a fuse of 10 A at most across it",
			Subjects: []string{p.Ref},
		})
	}
}

// returns reports sources whose return reaches no battery, and fuses on the ground side.
func (f *inspection) returns() {
	batteries := f.ElementsOf(harness.EMF)
	for _, id := range batteries {
		if f.H.System.WiredReturn && !f.wired(f.earth(id)) {
			f.noReturn(id, "no wire ends on it: no load has a return")
		}
	}
	for _, id := range f.ElementsOf(harness.Charger) {
		if len(batteries) > 0 && !slices.ContainsFunc(batteries, func(b harness.ElementID) bool {
			return f.Net.Bonded(f.earth(id), f.earth(b)) || f.Net.Bonded(f.earth(id), f.liveOf(b))
		}) && f.wired(f.liveOf(id)) && f.wiredBattery(batteries) {
			f.noReturn(id, "its return reaches no battery: its current has no return path")
		}
	}
	for _, id := range batteries {
		f.adrift(id)
	}
	for _, id := range f.ElementsOf(harness.FuseLink) {
		if f.Net.InReturn(id) {
			f.inGround(id)
		}
	}
}

// adrift reports a battery that feeds loads of which none leads back to it.
func (f *inspection) adrift(battery harness.ElementID) {
	fed := false
	for i := range f.Owns {
		own, e := &f.Owns[i], &f.H.Elements[i]
		if !own.Whole || own.Feed.Source != battery {
			continue
		}
		if fed = true; f.Net.Bonded(f.H.Earthed(e), f.earth(battery)) || own.Series || f.onRegulator(own) {
			return
		}
	}
	if fed && f.wired(f.earth(battery)) && !f.inString(battery) {
		f.noReturn(battery, "no load that it feeds leads back to it")
	}
}

// onRegulator tells a load, as a charge lamp, that ends on an alternator's regulator.
func (f *inspection) onRegulator(own *flow.Own) bool {
	return f.H.OnRegulator(own.Back.Elements)
}

// inString tells a battery whose earth side is another's live side.
func (f *inspection) inString(battery harness.ElementID) bool {
	return slices.ContainsFunc(f.ElementsOf(harness.EMF), func(b harness.ElementID) bool {
		return b != battery && f.Net.Bonded(f.earth(battery), f.liveOf(b))
	})
}

// wiredBattery tells that the earth side of a battery has a wire, which else is told already.
func (f *inspection) wiredBattery(batteries []harness.ElementID) bool {
	return slices.ContainsFunc(batteries, func(b harness.ElementID) bool { return f.wired(f.earth(b)) })
}

func (f *inspection) earth(source harness.ElementID) harness.TerminalID {
	return f.H.Earthed(&f.H.Elements[source])
}

func (f *inspection) liveOf(source harness.ElementID) harness.TerminalID {
	return f.H.Live(&f.H.Elements[source])
}

func (f *inspection) wired(t harness.TerminalID) bool {
	return slices.ContainsFunc(f.H.Wires, func(w harness.Wire) bool { return w.From == t || w.To == t })
}

func (f *inspection) noReturn(id harness.ElementID, why string) {
	p := f.PartOf(id)
	at := f.H.Terminals[f.earth(id)].Full
	f.add(source.Problem{
		Slug: "no-return-to-source", Level: source.Error, Span: p.Span,
		Summary:  fmt.Sprintf("%s: %s", at, why),
		Detail:   "write the leg that joins " + at + " to the bar or ground on which the returns end",
		Subjects: []string{p.Ref},
	})
}

func (f *inspection) inGround(id harness.ElementID) {
	e, p := &f.H.Elements[id], f.PartOf(id)
	f.add(source.Problem{
		Slug: "fuse-in-ground", Level: source.Warning, Span: p.Span,
		Summary:  fmt.Sprintf("%s is in the ground side: when it opens, what is behind it stays live, and a short to the bodywork passes it by", e.Name),
		Detail:   "take it out of the return and put it into the feed, near the source",
		Subjects: []string{e.Name},
	})
}

// oversize is how many times the rating that its loads need a given fuse may have before
// it is said that the wires grow for it; common practice, no source.
const oversize = 2

// fuses reports given ratings far above the load, and bodies not made for the voltage or
// for the current that the battery can drive through them.
func (f *inspection) fuses() {
	for i := range f.c.Fuses {
		fuse := &f.c.Fuses[i]
		f.oversized(fuse)
		f.unmade(fuse)
		f.fuseVolts(fuse)
	}
	f.breaking(f.driven())
}

// starved reports sources whose lead of a given gauge loses more than its class allows: a
// regulator sees its own terminals, not the battery's, and charges it too little.
func (f *inspection) starved() {
	for i := range f.Charge {
		d := &f.Charge[i]
		if !f.Exceeds(d) || !slices.ContainsFunc(d.Wires(), f.Given) {
			continue
		}
		thin := slices.MaxFunc(d.Wires(), func(a, b harness.WireID) int {
			return int(math.Copysign(1, f.lostIn(d.State, a)-f.lostIn(d.State, b)))
		})
		limit, text := f.LimitOf(d)
		e, w := &f.H.Elements[d.Load], &f.H.Wires[thin]
		f.add(source.Problem{
			Slug: "regulator-starved", Level: source.Warning, Span: w.GaugeSpan,
			Summary: fmt.Sprintf("%s loses %.2f V on its way to the battery while it gives %s; %.2f V (%s) is allowed: the battery is charged too little, and %s (%s) loses most",
				e.Name, f.Drop(d), unit.Amps(d.Amps), float64(limit), text, w.Name, f.c.Wires[thin].Gauge),
			Detail:   "a heavier wire: leave the gauge of " + w.Name + " out to have it chosen",
			Subjects: []string{e.Name, w.Name},
			Numbers:  []source.Number{number("drop_v", f.Drop(d)), number("limit_v", float64(limit))},
		})
	}
}

// lostIn gives the drop in one given wire, 0 in any other, V.
func (f *inspection) lostIn(state int, w harness.WireID) float64 {
	if !f.Given(w) {
		return 0
	}
	return f.DropIn(state, []harness.WireID{w})
}
