package misuse

import (
	"fmt"
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// latches reports relays that hold themselves with nothing to let them go: once pulled in
// they stay so until the battery is flat.
func (f *inspection) latches() {
	for i := range f.H.Elements {
		e := &f.H.Elements[i]
		if e.Kind != harness.RelayCoil || f.PartOf(e.ID).Kind != harness.Relay || !f.Net.Holds(e.ID) {
			continue
		}
		p := f.PartOf(e.ID)
		f.add(source.Problem{
			Slug: "relay-never-releases", Level: source.Warning, Span: p.Span, Subjects: []string{p.Ref},
			Summary: fmt.Sprintf("%s holds itself by its own contact, and no switch releases it: it runs until the battery is flat", p.Ref),
			Detail:  "route the hold through a switch that opens, such as the key or a stop button, or feed the contact from the key",
		})
	}
}

// stops reports switches that are closed at rest and lie before the button that pulls a
// relay in, while the relay then holds itself past them, and nothing but a key lets it go.
func (f *inspection) stops() {
	for i := range f.H.Elements {
		e := &f.H.Elements[i]
		p := f.PartOf(e.ID)
		if e.Kind != harness.RelayCoil || p.Kind != harness.Relay || !f.holdsByKey(e.ID) {
			continue
		}
		for k := range f.H.Elements {
			if stop := &f.H.Elements[k]; f.closedAtRest(stop) && f.pullsInPast(e.ID, stop) {
				f.stopsNothing(p, stop)
				break
			}
		}
	}
}

// holdsByKey tells a coil that its own contact holds over keys and isolators alone.
func (f *inspection) holdsByKey(coil harness.ElementID) bool {
	held := func(y *harness.Element) bool {
		return f.keyed(y) || y.When.Kind == harness.Energised && y.When.Coil == coil
	}
	return !f.Net.Holds(coil) && f.Net.Reaches(coil, held) && !f.Net.Reaches(coil, f.keyed)
}

// keyed tells a contact of a key or isolator.
func (f *inspection) keyed(y *harness.Element) bool {
	k := f.PartOf(y.ID).Kind
	return y.When.Kind == harness.InPosition && (k == harness.IgnitionSwitch || k == harness.Isolator)
}

// closedAtRest tells a contact of a plain switch that opens where the switch is worked.
func (f *inspection) closedAtRest(e *harness.Element) bool {
	if e.Kind != harness.Contact || e.When.Kind != harness.InPosition {
		return false
	}
	p := f.PartOf(e.ID)
	return p.Kind == harness.Switch && slices.Contains(e.When.Positions, 0) && len(e.When.Positions) < len(p.Positions)
}

// pullsInPast tells that a coil pulls in by a switch that is worked, over no contact of its
// own, and that this needs a contact which is closed at rest.
func (f *inspection) pullsInPast(coil harness.ElementID, stop *harness.Element) bool {
	any := func(y *harness.Element) bool {
		own := (y.When.Kind == harness.Energised || y.When.Kind == harness.Released) && y.When.Coil == coil
		return !own
	}
	return f.Net.Reaches(coil, any) &&
		!f.Net.Reaches(coil, func(y *harness.Element) bool { return y.ID != stop.ID && any(y) }) &&
		!f.Net.Reaches(coil, func(y *harness.Element) bool {
			return any(y) && (f.PartOf(y.ID).Kind != harness.Switch || f.closedAtRest(y))
		})
}

// stopsNothing is advice of a switch that stays as it is put, which may be there to bar the start.
func (f *inspection) stopsNothing(relay *harness.Part, stop *harness.Element) {
	p := f.PartOf(stop.ID)
	level := source.Warning
	if !p.Momentary {
		level = source.Advice
	}
	f.add(source.Problem{
		Slug: "stop-releases-nothing", Level: level, Span: p.Span, Subjects: []string{p.Ref, relay.Ref},
		Summary: fmt.Sprintf("%s lies before the switch that pulls %s in, and %s then holds itself past it: opening %s stops nothing, until the key is off", p.Ref, relay.Ref, relay.Ref, p.Ref),
		Detail:  fmt.Sprintf("put %s into the lead of the coil itself, behind the place where the switch and the hold meet", p.Ref),
	})
}
