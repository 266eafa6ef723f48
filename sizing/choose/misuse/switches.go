package misuse

import (
	"fmt"
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// switches reports contacts that switch nothing since wires join their two sides, each part
// once, and positions of a key that wires join. What goes round through a fuse is told as two
// feeds.
func (f *inspection) switches() {
	told := map[harness.PartID]bool{}
	for i := range f.H.Elements {
		e := &f.H.Elements[i]
		p := f.PartOf(e.ID)
		if e.Kind != harness.Contact || e.When.Kind == harness.Always || p.Kind == harness.Isolator || told[p.ID] {
			continue
		}
		if f.Net.Tied(e.A, e.B) {
			told[p.ID] = true
			f.bypassed(p, fmt.Sprintf("%s switches nothing: wires beside it join %s to %s", e.Name, f.H.Terminals[e.A].Full, f.H.Terminals[e.B].Full),
				"take out the wire that goes round it")
		} else if other := f.joinedPosition(e); other != nil {
			told[p.ID] = true
			f.bypassed(p, fmt.Sprintf("wires join %s to %s: what one position is to feed, the other feeds too", f.H.Terminals[e.B].Full, f.H.Terminals[other.B].Full),
				"take out the wire that joins the two, or let a relay join them while the key is at run")
		}
	}
}

func (f *inspection) bypassed(p *harness.Part, summary, detail string) {
	f.add(source.Problem{Slug: "switch-bypassed", Level: source.Warning, Span: p.Span, Summary: summary, Detail: detail, Subjects: []string{p.Ref}})
}

// joinedPosition gives another contact of the same key, closed in other positions, whose output
// wires join to this one's; nil for none. Other switches are often used so on purpose: both
// throws of a two-way switch that has a rest between them.
func (f *inspection) joinedPosition(e *harness.Element) *harness.Element {
	p := f.PartOf(e.ID)
	if p.Kind != harness.IgnitionSwitch {
		return nil
	}
	for _, id := range p.Elements {
		other := &f.H.Elements[id]
		if other.Kind == harness.Contact && other.ID > e.ID && other.A == e.A && other.B != e.B && !slices.Equal(other.When.Positions, e.When.Positions) && f.Net.Tied(e.B, other.B) {
			return other
		}
	}
	return nil
}

// engaged reports starters whose solenoid is energised while the engine runs, each once.
func (f *inspection) engaged() {
	told := map[harness.PartID]bool{}
	for s := range f.States {
		for i := range f.H.Elements {
			e := &f.H.Elements[i]
			p := f.PartOf(e.ID)
			if e.Kind != harness.RelayCoil || p.Kind != harness.Starter || f.H.States[s].Engine != harness.EngineRunning || !f.States[s].Energised[i] || told[p.ID] {
				continue
			}
			told[p.ID] = true
			f.add(source.Problem{
				Slug: "starter-while-running", Level: source.Warning, Span: p.Span,
				Summary:  fmt.Sprintf("%s is engaged in %s, with the engine running", p.Ref, f.H.States[s].Name),
				Detail:   "feed its solenoid, or its relay's coil, from 50 of the key, which is live at start alone",
				Subjects: []string{p.Ref, f.H.States[s].Name},
			})
		}
	}
}

// idle reports relays whose coil follows nothing but what carries their load already: with
// their feed live they are pulled in, and they spare no contact.
func (f *inspection) idle() {
	for i := range f.H.Elements {
		e := &f.H.Elements[i]
		p := f.PartOf(e.ID)
		if e.Kind != harness.Contact || p.Kind != harness.Relay || p.Changeover || e.When.Kind != harness.Energised {
			continue
		}
		follows := f.contactsOf(e.When.Coil)
		if len(follows) == 0 || !f.carryAll(e.ID, follows) {
			continue
		}
		names := source.Some(f.elements(follows), "")
		f.add(source.Problem{
			Slug: "relay-spares-nothing", Level: source.Advice, Span: p.Span,
			Summary:  fmt.Sprintf("%s is pulled in whenever its %s is live: its coil and its load go through the same contacts (%s)", p.Ref, f.H.Terminals[e.A].Name, names),
			Detail:   "feed its contact from the battery through a fuse of its own, so that the switch carries the coil alone",
			Subjects: []string{p.Ref},
		})
	}
}

// contactsOf lists what opens and closes on the way of a coil; nothing where a load or a
// module lies on it, which may hold it back.
func (f *inspection) contactsOf(coil harness.ElementID) []harness.ElementID {
	own := &f.Owns[coil]
	var out []harness.ElementID
	if !own.Whole || own.Series {
		return nil
	}
	for _, id := range slices.Concat(own.Feed.Elements, own.Back.Elements) {
		if e := &f.H.Elements[id]; e.When.Kind != harness.Always {
			out = append(out, id)
		}
	}
	return out
}

// carryAll tells that every load behind a contact goes through all of some others.
func (f *inspection) carryAll(contact harness.ElementID, others []harness.ElementID) bool {
	found := false
	for i := range f.Owns {
		way := slices.Concat(f.Owns[i].Feed.Elements, f.Owns[i].Back.Elements)
		if !f.Owns[i].Whole || !slices.Contains(way, contact) {
			continue
		}
		found = true
		for _, id := range others {
			if !slices.Contains(way, id) {
				return false
			}
		}
	}
	return found
}
