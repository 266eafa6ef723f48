package demand

import (
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// Currents from which the contact of a switch is asked for its rating, A; common practice,
// no source: small switches are made for 10 to 20 A.
const (
	AskKey    = 15
	AskSwitch = 20
)

// Contacts writes down every pair of contacts, in the order of the elements.
func (m *Demand) Contacts() []chosen.Contact {
	var out []chosen.Contact
	for i := range m.H.Elements {
		if e := &m.H.Elements[i]; e.Kind == harness.Contact {
			out = append(out, m.contact(e))
		}
	}
	return out
}

func (m *Demand) contact(e *harness.Element) chosen.Contact {
	c := chosen.Contact{Element: e.ID, Name: e.Name, Part: e.Part, Rating: m.H.Parts[e.Part].Rating}
	through, state := m.Through(e.ID)
	c.Amps, c.State, c.WantsIn = unit.Ampere(through), state, state
	c.Cranks = m.cranks(e.ID)
	for i := range m.States {
		loads, wants := m.Switched(e.ID, i)
		if wants > c.Wants {
			c.Loads, c.Wants, c.WantsIn = loads, wants, m.H.States[i].Name
		}
	}
	return c
}

// cranks gives the current of a starter that passes a contact.
func (m *Demand) cranks(contact harness.ElementID) unit.Ampere {
	most := 0.0
	for i := range m.Draws {
		if d := &m.Draws[i]; m.PartOf(d.Load).Kind == harness.Starter && d.Passes(contact) {
			most = max(most, d.Most())
		}
	}
	return unit.Ampere(most)
}

// Switched gives the loads and coils whose current passes a contact in a state,
// and the rating that they want together.
func (m *Demand) Switched(contact harness.ElementID, state int) (loads []chosen.Switched, wants unit.Ampere) {
	for _, list := range [][]Draw{m.Draws, m.Coils} {
		for i := range list {
			d := &list[i]
			if d.State != state || !d.Passes(contact) {
				continue
			}
			kind := m.loadKind(d.Load)
			x := chosen.Switched{Name: m.H.Elements[d.Load].Name, Kind: kind, Amps: unit.Ampere(d.Most()), Factor: rating.SwitchFactor(m.Nominal(d.Load), kind)}
			if m.PartOf(d.Load).Kind == harness.Starter {
				x.Factor = 1 // a starter's own switch is rated by what it cranks with; common practice, no source
			}
			loads = append(loads, x)
			wants += x.Amps * unit.Ampere(x.Factor)
		}
	}
	return loads, wants
}

// loadKind gives the kind of load by the words of FAA AC 43.13-1B table 11-4.
func (m *Demand) loadKind(id harness.ElementID) string {
	e := &m.H.Elements[id]
	if e.Kind == harness.RelayCoil {
		return string(kind.Inductive)
	}
	row, _ := kind.Of(m.PartOf(id).Kind)
	return string(row.ClassOf(e.Behaves))
}
