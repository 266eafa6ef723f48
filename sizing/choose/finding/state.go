package finding

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/choose/demand"
	"example.com/loomfolio/sizing/choose/trial"
	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// inStates reports what only the solved states show: currents through no load,
// coils that get too little, grounds that lift a gauge, contacts that are live
// and bare, and what an isolator leaves on.
func (f *inspection) inStates() {
	f.noLoad()
	f.weakCoils()
	f.swappedRelays()
	f.liveContacts()
	f.liftedGauges()
	f.neverClosed()
	f.isolators()
}

// noLoad reports the first state in which a source's current comes back through
// no load, by its way.
func (f *inspection) noLoad() {
	for i := range f.States {
		if !f.Faulty[i] {
			continue
		}
		way, src := flow.In(f.H, &f.States[i]).NoLoad(trial.Metal)
		if src == harness.None {
			continue
		}
		state := &f.H.States[i]
		if p := f.backToFront(way); p != nil {
			f.swapped(p, fmt.Sprintf("in %s the contacts of %s short its feed to ground, and its coil lies before a load: coil and contacts are confused", state.Name, p.Ref), math.Abs(f.States[i].Amps[src]))
			f.out[len(f.out)-1].Level = source.Error
			return
		}
		out := math.Abs(f.States[i].Amps[src])
		names := f.wayNames(way)
		f.add(source.Problem{
			Slug: "short-circuit", Level: source.Error, Span: f.shortSpan(way, src),
			Summary:  fmt.Sprintf("in %s the current of %s comes back through no load: %s", state.Name, f.H.Elements[src].Name, strings.Join(names, ", ")),
			Detail:   "only fuses and wires limit it: remove the leg that bypasses the load; the lamp terminal of a lit switch is grounded, or fed, on one side only",
			Subjects: append([]string{f.H.Elements[src].Name, state.Name}, names...), Numbers: []source.Number{number("amps", out)},
		})
		return
	}
}

// backToFront gives the relay whose contacts lie on a short and whose coil is in series with
// a load, nil where there is none.
func (f *inspection) backToFront(way flow.Path) *harness.Part {
	for _, id := range way.Elements {
		p := f.PartOf(id)
		if f.H.Elements[id].Kind != harness.Contact || p.Kind != harness.Relay {
			continue
		}
		for _, x := range p.Elements {
			if f.H.Elements[x].Kind == harness.RelayCoil && f.Owns[x].Series {
				return p
			}
		}
	}
	return nil
}

// shortSpan points at the last switch on the way, else at the source.
func (f *inspection) shortSpan(way flow.Path, src harness.ElementID) source.Span {
	span := f.PartOf(src).Span
	for _, id := range way.Elements {
		if p := f.PartOf(id); len(p.Positions) > 0 || p.Kind == harness.Relay {
			span = p.Span
		}
	}
	return span
}

// wayNames lists the wires and then the elements of a way.
func (f *inspection) wayNames(way flow.Path) []string {
	names := f.names(way.Wires)
	for _, id := range way.Elements {
		names = append(names, f.H.Elements[id].Name)
	}
	return names
}

// called is the share of its pull-in voltage from which a coil counts as meant
// to pull in; common practice, no source.
const called = 0.25

// weakCoils reports each relay that a state calls for and that gets too little,
// in the state where it lacks most. A coil behind a load is not called for: it
// lies there to sense. A state stands alone: its relays begin released, and one
// that pulled in before the starter took hold is held down to its drop-out.
func (f *inspection) weakCoils() {
	worst := map[harness.ElementID]*demand.Draw{}
	for i := range f.Coils {
		d := &f.Coils[i]
		e := &f.H.Elements[d.Load]
		if f.States[d.State].Energised[d.Load] || d.Volts < called*float64(e.PullIn) || d.Volts >= float64(e.PullIn) || f.throughLoad(d) || f.restless(d) || f.shorted(d.State) {
			continue
		}
		if w := worst[d.Load]; w == nil || d.Volts < w.Volts {
			worst[d.Load] = d
		}
	}
	for i := range f.H.Elements {
		if d := worst[harness.ElementID(i)]; d != nil {
			f.weakCoil(d)
		}
	}
}

func (f *inspection) weakCoil(d *demand.Draw) {
	e, st := &f.H.Elements[d.Load], &f.States[d.State]
	if e.Senses {
		return
	}
	wires, links := 0.0, 0.0
	for _, w := range d.Wires() {
		from, to := f.H.Wires[w].From, f.H.Wires[w].To
		wires += math.Abs(st.Volts[from] - st.Volts[to])
	}
	for id := range d.Elements() {
		links += math.Abs(st.Volts[f.H.Elements[id].A] - st.Volts[f.H.Elements[id].B])
	}
	state := f.H.States[d.State].Name
	p := f.PartOf(d.Load)
	f.add(source.Problem{
		Slug: "relay-will-not-pull-in", Level: source.Warning, Span: p.Span,
		Summary: fmt.Sprintf("%s gets %.1f V in %s and pulls in from %.1f V: %.1f V at the source, %.2f V lost in wires, %.2f V in fuses, contacts and joints",
			e.Name, d.Volts, state, float64(e.PullIn), d.Volts+wires+links, wires, links),
		Detail:   "feed the coil from nearer the battery, or by a heavier wire; where cranking pulls the battery down, let the relay pull in before the starter does, or use one that pulls in at a lower voltage",
		Subjects: []string{p.Ref, state},
		Numbers:  []source.Number{number("coil_v", d.Volts), number("pull_in_v", float64(e.PullIn)), number("wires_v", wires), number("links_v", links)},
	})
}

// throughLoad tells whether a load or another coil lies on a draw's way.
func (f *inspection) throughLoad(d *demand.Draw) bool {
	for id := range d.Elements() {
		if k := f.H.Elements[id].Kind; k == harness.Load || k == harness.RelayCoil || k == harness.Resistance && f.H.Elements[id].Ohms > trial.Metal {
			return true
		}
	}
	return false
}

// shorted tells a state in which current comes back through no load, which is told already:
// it pulls the feeds of the rest down.
func (f *inspection) shorted(state int) bool {
	if !f.Faulty[state] {
		return false
	}
	_, src := flow.In(f.H, &f.States[state]).NoLoad(trial.Metal)
	return src != harness.None
}

// restless tells a coil that chatters in a draw's state, which is told already.
func (f *inspection) restless(d *demand.Draw) bool {
	return slices.Contains(f.States[d.State].Chatter, d.Load)
}

// swappedRelays reports relays whose coil is fed at once while a switch carries
// the current of their contacts, and loads that get their current through a coil.
func (f *inspection) swappedRelays() {
	told := map[harness.PartID]bool{}
	for _, p := range f.out { // as the cause of a short
		for i := range f.H.Parts {
			told[f.H.Parts[i].ID] = told[f.H.Parts[i].ID] || p.Slug == "relay-sides-swapped" && slices.Contains(p.Subjects, f.H.Parts[i].Ref)
		}
	}
	for i := range f.Draws {
		if d := &f.Draws[i]; f.Declared(d) && f.switchOn(d) != harness.None {
			f.switchedThrough(d, told)
		}
	}
	for i := range f.Coils {
		d := &f.Coils[i]
		load := f.starved(d)
		if p := f.PartOf(d.Load); load != harness.None && !told[p.ID] {
			told[p.ID] = true
			f.swapped(p, fmt.Sprintf("%s gets its current through the coil of %s: %s of %s", f.H.Elements[load].Name, p.Ref, unit.Amps(d.Amps), unit.Amps(float64(f.H.Elements[load].Amps))), d.Amps)
		}
	}
}

// switchedThrough reports the relays through whose contacts a switched draw passes while
// no switch commands their coil.
func (f *inspection) switchedThrough(d *demand.Draw, told map[harness.PartID]bool) {
	for id := range d.Elements() {
		p, when := f.PartOf(id), f.H.Elements[id].When
		if when.Kind != harness.Energised || p.Kind != harness.Relay || told[p.ID] || !f.unswitched(when.Coil, d.State) {
			continue
		}
		told[p.ID] = true
		f.swapped(p, fmt.Sprintf("%s switches the %s of %s through the contacts of %s, whose coil no switch commands",
			f.H.Elements[f.switchOn(d)].Name, unit.Amps(d.Amps), f.H.Elements[d.Load].Name, p.Ref), d.Amps)
	}
}

func (f *inspection) swapped(p *harness.Part, summary string, through float64) {
	f.add(source.Problem{
		Slug: "relay-sides-swapped", Level: source.Warning, Span: p.Span, Summary: summary,
		Detail:   "swap coil and contacts: the switch feeds 86 and 85 goes to ground, the fuse feeds 30 and 87 goes to the load",
		Subjects: []string{p.Ref}, Numbers: []source.Number{number("amps", through)},
	})
}

// switchOn gives the plain switch on a draw's way, or None.
func (f *inspection) switchOn(d *demand.Draw) harness.ElementID {
	for id := range d.Elements() {
		if f.PartOf(id).Kind == harness.Switch && f.H.Elements[id].When.Kind == harness.InPosition {
			return id
		}
	}
	return harness.None
}

// unswitched tells whether nothing that moves lies on a coil's way in a state.
func (f *inspection) unswitched(coil harness.ElementID, state int) bool {
	for i := range f.Coils {
		d := &f.Coils[i]
		if d.Load != coil || d.State != state {
			continue
		}
		for id := range d.Elements() {
			if k := f.PartOf(id).Kind; f.H.Elements[id].When.Kind != harness.Always && k != harness.Isolator {
				return false
			}
		}
		return true
	}
	return false
}

// starved gives the load on a coil's way that takes much more than the coil
// passes and never gets half of it, in any state.
func (f *inspection) starved(d *demand.Draw) harness.ElementID {
	for id := range d.Elements() {
		e := &f.H.Elements[id]
		if e.Kind == harness.Load && float64(e.Amps) > 3*d.Amps && f.Most(id) < 0.5*float64(e.Amps) {
			return id
		}
	}
	return harness.None
}

// liveContacts reports a relay's terminal that no wire reaches and that a state
// makes live: 87a of a changeover relay is live whenever its coil is off.
func (f *inspection) liveContacts() {
	wired := make([]bool, len(f.H.Terminals))
	for i := range f.H.Wires {
		wired[f.H.Wires[i].From], wired[f.H.Wires[i].To] = true, true
	}
	for i := range f.H.Elements {
		e := &f.H.Elements[i]
		if p := f.PartOf(e.ID); e.Kind != harness.Contact || e.When.Kind != harness.Released || p.Kind != harness.Relay {
			continue
		}
		for _, t := range []harness.TerminalID{e.A, e.B} {
			if st := f.liveIn(t); !wired[t] && st != nil {
				f.bareContact(t, st)
			}
		}
	}
}

// liveIn gives the first state in which a terminal stands more than 1 V from the
// battery's earth side, or nil.
func (f *inspection) liveIn(t harness.TerminalID) *network.State {
	for i := range f.States {
		if math.Abs(f.States[i].Volts[t]) > 1 {
			return &f.States[i]
		}
	}
	return nil
}

func (f *inspection) bareContact(t harness.TerminalID, st *network.State) {
	p := f.H.PartOf(t)
	full := f.H.Terminals[t].Full
	f.add(source.Problem{
		Slug: "open-contact-live", Level: source.Advice, Span: p.Span,
		Summary:  fmt.Sprintf("%s has no wire and is live in %s, as whenever the coil is off: %.1f V", full, st.Name, math.Abs(st.Volts[t])),
		Detail:   "cover the terminal, or use a relay without it",
		Subjects: []string{p.Ref, st.Name}, Numbers: []source.Number{number("volts", math.Abs(st.Volts[t]))},
	})
}

// liftLimit is how far, in volts, the ground of a gauge or sender may move while
// it shows something; common practice, no source.
const liftLimit = 0.1

// liftedGauges reports gauges and senders whose ground moves with other loads,
// measured against the chassis, cranking aside.
func (f *inspection) liftedGauges() {
	for i := range f.H.Elements {
		e := &f.H.Elements[i]
		if k := f.PartOf(e.ID).Kind; e.Kind != harness.Load || k != harness.Gauge && k != harness.Sender {
			continue
		}
		low, high := f.groundRange(e)
		if low == nil || f.groundOf(e, high)-f.groundOf(e, low) <= liftLimit {
			continue
		}
		f.lifted(e, low, high)
	}
}

// groundRange gives the draws of a gauge in which its ground stands lowest and highest.
func (f *inspection) groundRange(e *harness.Element) (low, high *demand.Draw) {
	for i := range f.Draws {
		d := &f.Draws[i]
		if d.Load != e.ID || !f.Declared(d) || f.Cranking(d) || f.throughLoadBack(d) {
			continue
		}
		if low == nil || f.groundOf(e, d) < f.groundOf(e, low) {
			low = d
		}
		if high == nil || f.groundOf(e, d) > f.groundOf(e, high) {
			high = d
		}
	}
	return low, high
}

// throughLoadBack tells whether a draw returns through another load: a gauge
// through its sender, whose own ground counts.
func (f *inspection) throughLoadBack(d *demand.Draw) bool {
	for _, id := range d.Back.Elements {
		if f.H.Elements[id].Kind == harness.Load {
			return true
		}
	}
	return false
}

// groundOf is how far a gauge's earth side stands from the chassis, in V; from
// the battery where the chassis floats.
func (f *inspection) groundOf(e *harness.Element, d *demand.Draw) float64 {
	v := f.States[d.State].Volts
	side := e.B
	if f.H.System.PositiveEarth {
		side = e.A
	}
	body := v[harness.Chassis]
	if math.IsNaN(body) || f.H.System.WiredReturn {
		body = 0
	}
	return math.Abs(v[side] - body)
}

func (f *inspection) lifted(e *harness.Element, low, high *demand.Draw) {
	by := f.groundOf(e, high) - f.groundOf(e, low)
	where := f.lossiest(high)
	p, state := f.PartOf(e.ID), f.H.States[high.State].Name
	f.add(source.Problem{
		Slug: "gauge-on-shared-ground", Level: source.Advice, Span: p.Span,
		Summary:  fmt.Sprintf("the ground of %s rises by %.2f V from %s to %s, most of it from %s: what it shows moves with the other loads", e.Name, by, f.H.States[low.State].Name, state, where),
		Detail:   "give it a ground of its own",
		Subjects: []string{p.Ref, where, state}, Numbers: []source.Number{number("lift_v", by)},
	})
}

// lossiest names the wire or element on a draw's return that loses most.
func (f *inspection) lossiest(d *demand.Draw) string {
	st := &f.States[d.State]
	name, most := "", 0.0
	for _, w := range d.Back.Wires {
		if v := math.Abs(st.Volts[f.H.Wires[w].From] - st.Volts[f.H.Wires[w].To]); v > most {
			name, most = f.wireName(w), v
		}
	}
	for _, id := range d.Back.Elements {
		e := &f.H.Elements[id]
		if v := math.Abs(st.Volts[e.A] - st.Volts[e.B]); v > most {
			name, most = e.Name, v
		}
	}
	return name
}

// neverClosed names switch contacts that no declared state closes: what hangs on
// them is sized for nothing.
func (f *inspection) neverClosed() {
	for i := range f.H.Elements {
		e := &f.H.Elements[i]
		p := f.PartOf(e.ID)
		if e.Kind != harness.Contact || e.When.Kind != harness.InPosition || !p.Is(harness.Switch) || f.everClosed(e) {
			continue
		}
		var names []string
		for _, n := range e.When.Positions {
			names = append(names, p.Positions[n])
		}
		f.add(source.Problem{
			Slug: "contact-never-closed", Level: source.Advice, Span: p.Span,
			Summary:  fmt.Sprintf("no state closes %s (%s at %s)", e.Name, p.Ref, strings.Join(names, ", ")),
			Detail:   "only what a state shows is computed: add a state with it, for example {" + p.Ref + ": " + names[0] + "}",
			Subjects: []string{p.Ref},
		})
	}
}

func (f *inspection) everClosed(e *harness.Element) bool {
	for i := range f.H.States {
		for _, n := range e.When.Positions {
			if f.H.States[i].Position[e.When.Switch] == n {
				return true
			}
		}
	}
	return false
}

// byFuse says through which fuses most is drawn at rest, three at most.
func byFuse(drains []chosen.Drain) string {
	var parts []string
	for _, d := range drains[:min(len(drains), 3)] {
		name := d.Name
		if name == "" {
			name = "no fuse"
		}
		parts = append(parts, fmt.Sprintf("%s through %s (%s)", unit.Amps(float64(d.Amps)), name, strings.Join(d.Loads, ", ")))
	}
	if len(parts) == 0 {
		return ""
	}
	return ": " + strings.Join(parts, ", ")
}
