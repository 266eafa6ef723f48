// Package polarity finds what stands the wrong way round. In: the model, its wires in
// the direction in which the current is meant to flow. Out: one finding for each part
// (load, diode, battery, alternator, relay coil with a diode), and a copy of the model
// with those elements turned, so that what is computed of the rest is that of the harness
// as it is meant, and no other part is blamed. Always holds: terminals and wires are
// those of the description; only the two ends of elements are exchanged. Method: an
// element is turned where every wire on its side A leaves and every one on its side B
// arrives; a source where its live side and not its other one is joined to the chassis.
package polarity

import (
	"fmt"
	"slices"

	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
	"example.com/loomfolio/sizing/source"
)

// Mend gives the model as it is meant, and what stands the wrong way round in it. The
// model itself is given back where nothing does.
func Mend(h *harness.Harness) (*harness.Harness, source.Problems) {
	r := newReading(h)
	for i := range h.Elements {
		r.judge(&h.Elements[i])
	}
	for i := range h.Parts {
		r.changeover(&h.Parts[i])
		r.outlet(&h.Parts[i])
	}
	return r.mended(), r.found.Sorted()
}

// reading is the model with the ends of its wires by vertex: terminals that are joined
// inside a part are one.
type reading struct {
	h        *harness.Harness
	vertex   forest.Forest
	metal    forest.Forest // wires, closed contacts and fuses join too
	firm     forest.Forest // wires, fuses, straps and isolators, no other contact
	wires    forest.Forest // only wires join
	in, out  map[int][]harness.WireID
	turned   map[harness.ElementID]bool
	swapped  map[harness.PartID][2]harness.TerminalID // terminals of changeover relays that stand for each other
	reported map[harness.PartID]bool
	found    source.Problems
}

func newReading(h *harness.Harness) *reading {
	r := &reading{
		h: h, vertex: forest.New(len(h.Terminals)), metal: forest.New(len(h.Terminals)), firm: forest.New(len(h.Terminals)), wires: forest.New(len(h.Terminals)),
		in: map[int][]harness.WireID{}, out: map[int][]harness.WireID{},
		turned: map[harness.ElementID]bool{}, swapped: map[harness.PartID][2]harness.TerminalID{}, reported: map[harness.PartID]bool{},
	}
	for i := range h.Elements {
		r.join(&h.Elements[i])
	}
	for i := range h.Wires {
		w := &h.Wires[i]
		from, to := r.vertex.Root(int(w.From)), r.vertex.Root(int(w.To))
		r.out[from], r.in[to] = append(r.out[from], w.ID), append(r.in[to], w.ID)
		r.metal.Join(int(w.From), int(w.To))
		r.firm.Join(int(w.From), int(w.To))
		r.wires.Join(int(w.From), int(w.To))
	}
	return r
}

func (r *reading) join(e *harness.Element) {
	a, b := int(e.A), int(e.B)
	switch e.Kind {
	case harness.Join:
		if e.When.Kind == harness.Always {
			r.vertex.Join(a, b)
			r.wires.Join(a, b)
		}
		r.metal.Join(a, b)
		r.firm.Join(a, b)
	case harness.Contact, harness.FuseLink:
		kind := r.h.Parts[e.Part].Kind
		if !e.Innards {
			r.metal.Join(a, b)
		}
		if e.Kind == harness.FuseLink || kind == harness.Isolator {
			r.firm.Join(a, b)
		}
	case harness.Resistance:
		if !r.h.Resists(e) {
			r.metal.Join(a, b)
			r.firm.Join(a, b)
		}
	}
}

// against tells that the wires enter an element at its B and leave it at its A.
func (r *reading) against(e *harness.Element) bool {
	a, b := r.vertex.Root(int(e.A)), r.vertex.Root(int(e.B))
	return len(r.out[a]) > 0 && len(r.in[a]) == 0 && len(r.in[b]) > 0 && len(r.out[b]) == 0
}

// judge turns an element that stands the wrong way round, and says so.
func (r *reading) judge(e *harness.Element) {
	switch e.Kind {
	case harness.Load:
		r.load(e)
	case harness.RelayCoil:
		r.coil(e)
	case harness.Rectifier:
		r.diode(e)
	case harness.EMF, harness.Charger, harness.Converter:
		r.source(e)
	}
}

func (r *reading) load(e *harness.Element) {
	if !r.against(e) || r.withSource(e) {
		return
	}
	p := &r.h.Parts[e.Part]
	if row, _ := kind.Of(p.Kind); row.Recipe != nil && row.Recipe.EitherWay {
		return
	}
	r.turned[e.ID] = true
	level := source.Error
	if eitherWay(p.Kind) || p.Like != "" && eitherWay(p.Like) {
		if r.h.System.PositiveEarth { // its marks are those of another polarity
			return
		}
		level = source.Warning
	}
	r.say(e, "load-reversed", level,
		fmt.Sprintf("%s is the wrong way round: its feed arrives at %s and %s goes to ground", p.Ref, r.name(e.B), r.name(e.A)),
		fmt.Sprintf("swap its two wires: the feed to %s, the return from %s", r.name(e.A), r.name(e.B)))
}

// eitherWay tells a kind of load that works whichever way the current flows.
// withSource tells what a charger or regulator takes for itself: it stands as its source does.
func (r *reading) withSource(e *harness.Element) bool {
	return slices.ContainsFunc(r.h.Parts[e.Part].Elements, func(id harness.ElementID) bool {
		x := &r.h.Elements[id]
		return x.Kind == harness.Charger && x.A == e.A && x.B == e.B
	})
}

func eitherWay(k harness.Kind) bool {
	return slices.Contains([]harness.Kind{harness.Lamp, harness.Heater, harness.Coil, harness.Solenoid}, k)
}

// coil judges one with a diode across it; without one a coil has no polarity.
func (r *reading) coil(e *harness.Element) {
	p := &r.h.Parts[e.Part]
	if !r.against(e) {
		return
	}
	r.turned[e.ID] = true
	if p.Suppression != "diode" {
		return
	}
	for _, id := range p.Elements {
		if r.h.Elements[id].Kind == harness.Rectifier {
			r.turned[id] = true
		}
	}
	r.say(e, "diode-relay-backwards", source.Error,
		fmt.Sprintf("%s has a diode across its coil and is fed at %s: the diode shorts the feed", p.Ref, r.name(e.B)),
		fmt.Sprintf("swap the two coil wires: %s is positive", r.name(e.A)))
}

// diode judges one that is a part of its own. Across a coil or a load it blocks the feed.
func (r *reading) diode(e *harness.Element) {
	p := &r.h.Parts[e.Part]
	if p.Kind != harness.Diode {
		return
	}
	switch across, shorts := r.across(e); {
	case shorts:
		r.turned[e.ID] = true
		r.say(e, "diode-reversed", source.Error,
			fmt.Sprintf("%s lies across a coil or load with its anode at the feed: it shorts the feed", p.Ref),
			fmt.Sprintf("swap its two wires: the cathode %s to the feed", r.name(e.B)))
	case !across && r.against(e):
		r.turned[e.ID] = true
		r.say(e, "diode-reversed", source.Error,
			fmt.Sprintf("%s is the wrong way round for this leg: the current arrives at its cathode %s, and it blocks", p.Ref, r.name(e.B)),
			fmt.Sprintf("swap its two wires: the feed to %s", r.name(e.A)))
	}
}

// across tells a diode whose two sides are wired to those of a load or coil, and
// whether its anode is on the side of the feed.
func (r *reading) across(d *harness.Element) (across, shorts bool) {
	a, k := r.wires.Root(int(d.A)), r.wires.Root(int(d.B))
	for i := range r.h.Elements {
		e := &r.h.Elements[i]
		if e.Kind != harness.Load && e.Kind != harness.RelayCoil {
			continue
		}
		plus, minus := r.wires.Root(int(e.A)), r.wires.Root(int(e.B))
		if r.against(e) {
			plus, minus = minus, plus
		}
		switch {
		case k == plus && a == minus:
			return true, false
		case a == plus && k == minus:
			shorts = true
		}
	}
	return shorts, shorts
}

// source judges a battery or alternator by which side is joined to the chassis; where
// neither is, by its wires.
func (r *reading) source(e *harness.Element) {
	live, earth := e.A, e.B
	if r.h.System.PositiveEarth {
		live, earth = e.B, e.A
	}
	liveDown, earthDown := r.grounded(live), r.grounded(earth)
	byLoads := !liveDown && r.takes(e) && r.reversedToo(e)
	if earthDown || !liveDown && !byLoads {
		return
	}
	r.turned[e.ID] = true
	p := &r.h.Parts[e.Part]
	slug := "battery-reversed"
	if e.Kind != harness.EMF {
		slug = "source-reversed"
	}
	r.say(e, slug, source.Error,
		fmt.Sprintf("%s is the wrong way round: %s is on the ground side and %s on that of the feeds", p.Ref, r.name(live), r.name(earth)),
		fmt.Sprintf("swap its two leads: %s to ground, the feeds to %s", r.name(earth), r.name(live)))
}

// takes tells that the wires arrive at a source's plus and leave it at its minus.
func (r *reading) takes(e *harness.Element) bool {
	a, b := r.vertex.Root(int(e.A)), r.vertex.Root(int(e.B))
	return len(r.in[a]) > 0 && len(r.out[a]) == 0 && len(r.out[b]) > 0 && len(r.in[b]) == 0
}

// reversedToo tells that a load on a battery's metal is fed from its minus side: with
// nothing joined to the chassis, the wires of one part alone prove little.
func (r *reading) reversedToo(s *harness.Element) bool {
	minus, plus := r.metal.Root(int(s.B)), r.metal.Root(int(s.A))
	if minus == plus { // some switch can join them
		return false
	}
	for i := range r.h.Elements {
		e := &r.h.Elements[i]
		if e.Kind != harness.Load || r.against(e) {
			continue
		}
		if r.metal.Root(int(e.A)) == minus && r.metal.Root(int(e.B)) == plus {
			return true
		}
	}
	return false
}

func (r *reading) grounded(t harness.TerminalID) bool {
	return r.firm.Root(int(t)) == r.firm.Root(int(harness.Chassis))
}

// changeover reports a relay that is to change over and has its common terminal 30 where
// a throw belongs: fed at one throw, with wires leaving at 30 and at the other throw. One
// whose other throw is on the ground side is one half of a motor's reversing pair, or brakes it.
func (r *reading) changeover(p *harness.Part) {
	if p.Kind != harness.Relay || !p.Changeover {
		return
	}
	at, terminal := map[string]int{}, map[string]harness.TerminalID{}
	for _, t := range p.Terminals {
		at[r.h.Terminals[t].Name], terminal[r.h.Terminals[t].Name] = r.vertex.Root(int(t)), t
	}
	fed := func(name string) bool { return len(r.in[at[name]]) > 0 && len(r.out[at[name]]) == 0 }
	leaves := func(name string) bool { return len(r.out[at[name]]) > 0 && len(r.in[at[name]]) == 0 }
	for _, throw := range [][2]string{{"87", "87a"}, {"87a", "87"}} {
		if !fed(throw[0]) || !leaves(throw[1]) || !leaves("30") || r.reverses(terminal[throw[1]]) {
			continue
		}
		r.found = append(r.found, source.Problem{
			Slug: "changeover-common", Level: source.Warning, Span: r.h.Wires[r.in[at[throw[0]]][0]].Span,
			Summary:  fmt.Sprintf("%s is fed at %s, and 30, the terminal that changes over, leads to a load: %s is never fed", p.Ref, throw[0], throw[1]),
			Detail:   "swap the wires at 30 and " + throw[0] + ": on a changeover relay 30 is the common terminal",
			Subjects: []string{p.Ref},
		})
		r.swapped[p.ID] = [2]harness.TerminalID{terminal["30"], terminal[throw[0]]}
		return
	}
}

// outlets are the terminals at which a key or a flasher is fed, and those at which it feeds.
var outlets = map[harness.Kind]struct {
	feed    string
	outlets []string
}{
	harness.IgnitionSwitch: {"30", []string{"15", "75", "50"}},
	harness.Flasher:        {"49", []string{"49a"}},
}

// outlet reports a key or flasher that is fed where it is to feed, while a wire leaves where its
// feed belongs. A key on the ground side is written so.
func (r *reading) outlet(p *harness.Part) {
	x, ok := outlets[p.Kind]
	feed, found := r.terminal(p, x.feed)
	arrives, leaves := r.in, r.out
	if r.h.System.PositiveEarth {
		arrives, leaves = r.out, r.in
	}
	if at := r.vertex.Root(int(feed)); !ok || !found || len(leaves[at]) == 0 || len(arrives[at]) > 0 || r.reverses(feed) {
		return
	}
	for _, name := range x.outlets {
		out, found := r.terminal(p, name)
		at := r.vertex.Root(int(out))
		if !found || len(arrives[at]) == 0 || len(leaves[at]) > 0 {
			continue
		}
		r.found = append(r.found, source.Problem{
			Slug: "fed-at-outlet", Level: source.Warning, Span: r.h.Wires[arrives[at][0]].Span, Subjects: []string{p.Ref},
			Summary: fmt.Sprintf("%s is fed at %s, and a load hangs on %s, where its feed belongs", p.Ref, name, x.feed),
			Detail:  "swap the wires at " + x.feed + " and " + name,
		})
		return
	}
}

// terminal finds a part's terminal by its name.
func (r *reading) terminal(p *harness.Part, name string) (harness.TerminalID, bool) {
	for _, t := range p.Terminals {
		if r.h.Terminals[t].Name == name {
			return t, true
		}
	}
	return harness.Chassis, false
}

// reverses tells a throw that lies on the ground side, with no load between.
func (r *reading) reverses(throw harness.TerminalID) bool {
	if r.grounded(throw) {
		return true
	}
	for i := range r.h.Elements {
		e := &r.h.Elements[i]
		earth := e.B
		if r.h.System.PositiveEarth {
			earth = e.A
		}
		if e.Gives() && r.firm.Root(int(earth)) == r.firm.Root(int(throw)) {
			return true
		}
	}
	return false
}

// say reports an element once a part, at the stop where its feed arrives.
func (r *reading) say(e *harness.Element, slug string, level source.Level, summary, detail string) {
	p := &r.h.Parts[e.Part]
	if r.reported[p.ID] {
		return
	}
	r.reported[p.ID] = true
	span := p.Span
	if wires := r.in[r.vertex.Root(int(e.B))]; len(wires) > 0 && !e.Gives() {
		span = r.h.Wires[wires[0]].Span
	}
	r.found = append(r.found, source.Problem{Slug: slug, Level: level, Span: span, Summary: summary, Detail: detail, Subjects: []string{p.Ref}})
}

func (r *reading) name(t harness.TerminalID) string { return r.h.Terminals[t].Full }

// mended gives a copy with the turned elements the right way round.
func (r *reading) mended() *harness.Harness {
	if len(r.turned) == 0 && len(r.swapped) == 0 {
		return r.h
	}
	out := *r.h
	out.Elements = slices.Clone(r.h.Elements)
	for id := range r.turned {
		e := &out.Elements[id]
		e.A, e.B = e.B, e.A
	}
	for i := range out.Elements {
		e := &out.Elements[i]
		if two, ok := r.swapped[e.Part]; ok && e.Kind == harness.Contact {
			e.A, e.B = other(two, e.A), other(two, e.B)
		}
	}
	return &out
}

// other gives the terminal that stands for one of two.
func other(two [2]harness.TerminalID, t harness.TerminalID) harness.TerminalID {
	switch t {
	case two[0]:
		return two[1]
	case two[1]:
		return two[0]
	}
	return t
}
