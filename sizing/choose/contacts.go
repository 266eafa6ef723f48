package choose

import (
	"slices"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// contactsOf writes down every pair of contacts, in the order of the elements.
func (s *sizer) contactsOf() []chosen.Contact {
	var out []chosen.Contact
	for i := range s.h.Elements {
		if e := &s.h.Elements[i]; e.Kind == harness.Contact {
			out = append(out, s.contact(e))
		}
	}
	return out
}

func (s *sizer) contact(e *harness.Element) chosen.Contact {
	c := chosen.Contact{Element: e.ID, Name: e.Name, Part: e.Part, Rating: s.h.Parts[e.Part].Rating}
	through, state := s.through(e.ID)
	c.Amps, c.State, c.WantsIn = unit.Ampere(through), state, state
	for i := range s.states {
		loads, wants := s.switched(e.ID, i)
		if wants > c.Wants {
			c.Loads, c.Wants, c.WantsIn = loads, wants, s.h.States[i].Name
		}
	}
	return c
}

// switched gives the loads and coils whose current passes a contact in a state,
// and the rating that they want together.
func (s *sizer) switched(contact harness.ElementID, state int) (loads []chosen.Switched, wants unit.Ampere) {
	for _, list := range [][]draw{s.draws, s.coils} {
		for i := range list {
			d := &list[i]
			if d.state != state || !slices.Contains(d.feed.Elements, contact) && !slices.Contains(d.back.Elements, contact) {
				continue
			}
			kind := s.loadKind(d.load)
			x := chosen.Switched{Name: s.h.Elements[d.load].Name, Kind: kind, Amps: unit.Ampere(d.amps), Factor: rating.SwitchFactor(s.nominal(), kind)}
			loads = append(loads, x)
			wants += x.Amps * unit.Ampere(x.Factor)
		}
	}
	return loads, wants
}

// loadKind gives the kind of load by the words of FAA AC 43.13-1B table 11-4.
func (s *sizer) loadKind(id harness.ElementID) string {
	e := &s.h.Elements[id]
	if e.Kind == harness.RelayCoil {
		return "inductive"
	}
	switch s.partOf(id).Kind {
	case harness.Coil, harness.Solenoid, harness.Horn:
		return "inductive"
	case harness.Lamp:
		return "lamp" // however its current is computed
	case harness.Motor, harness.Starter:
		return "motor"
	}
	switch e.Behaves {
	case harness.AsLamp:
		return "lamp"
	case harness.AsMotor:
		return "motor"
	}
	return "resistive"
}
