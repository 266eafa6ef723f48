package choose

import (
	"slices"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// contactsOf writes down every pair of contacts, in the order of the elements.
func (s *sizer) Contacts() []chosen.Contact {
	var out []chosen.Contact
	for i := range s.H.Elements {
		if e := &s.H.Elements[i]; e.Kind == harness.Contact {
			out = append(out, s.contact(e))
		}
	}
	return out
}

func (s *sizer) contact(e *harness.Element) chosen.Contact {
	c := chosen.Contact{Element: e.ID, Name: e.Name, Part: e.Part, Rating: s.H.Parts[e.Part].Rating}
	through, state := s.Through(e.ID)
	c.Amps, c.State, c.WantsIn = unit.Ampere(through), state, state
	for i := range s.States {
		loads, wants := s.switched(e.ID, i)
		if wants > c.Wants {
			c.Loads, c.Wants, c.WantsIn = loads, wants, s.H.States[i].Name
		}
	}
	return c
}

// switched gives the loads and coils whose current passes a contact in a state,
// and the rating that they want together.
func (s *sizer) switched(contact harness.ElementID, state int) (loads []chosen.Switched, wants unit.Ampere) {
	for _, list := range [][]Draw{s.Draws, s.Coils} {
		for i := range list {
			d := &list[i]
			if d.State != state || !slices.Contains(d.Feed.Elements, contact) && !slices.Contains(d.Back.Elements, contact) {
				continue
			}
			kind := s.loadKind(d.Load)
			x := chosen.Switched{Name: s.H.Elements[d.Load].Name, Kind: kind, Amps: unit.Ampere(d.Amps), Factor: rating.SwitchFactor(s.Nominal(), kind)}
			loads = append(loads, x)
			wants += x.Amps * unit.Ampere(x.Factor)
		}
	}
	return loads, wants
}

// loadKind gives the kind of load by the words of FAA AC 43.13-1B table 11-4.
func (s *sizer) loadKind(id harness.ElementID) string {
	e := &s.H.Elements[id]
	if e.Kind == harness.RelayCoil {
		return "inductive"
	}
	switch s.PartOf(id).Kind {
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
