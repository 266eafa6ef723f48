package fit

import (
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// tightened says how hard a ground is tightened, dry, on each thing that it may be made of;
// "" where no list has it. Brass or lead would not stand it, and the torque of a screw in a
// device holds a ground too loosely.
func (f *fitter) tightened(stud string) string {
	var words []string
	for _, place := range []string{rating.InBodywork, rating.WeldedPin} {
		if t, ok := rating.TorqueOf(place, stud); ok {
			f.used = append(f.used, t.Source)
			words = append(words, torqueText(t, f.h.Sheet.Imperial)+" ("+t.On+")")
		}
	}
	return strings.Join(words, " or ")
}

// torqueText is a torque or its range in the sheet's unit.
func torqueText(t rating.Torque, imperial bool) string {
	value, name := unit.Torque(t.Most, imperial)
	if t.Least < t.Most {
		least, _ := unit.Torque(t.Least, imperial)
		value = least + " to " + value
	}
	return value + " " + name
}

// torqueAt gives how hard the nut of a stud that is no ground is tightened: by the part, whose
// material is taken as the softest that is usual; the zero Torque where no list has it.
func (f *fitter) torqueAt(t harness.TerminalID, stud string) rating.Torque {
	p, place := f.h.PartOf(t), rating.InDevice
	switch {
	case p != nil && (harness.EngineMachine(p.Kind)):
		if f.h.Terminals[t].Name == "case" {
			return rating.Torque{} // into the engine's own metal: its manual has it
		}
		place = rating.OnMachine
	case p != nil && p.Kind == harness.Bus:
		place = rating.OnBrass
	case p != nil && p.Kind == harness.Battery && p.Stud == "":
		place = rating.LeadPost
	case p != nil && p.Kind == harness.Battery:
		place = rating.LeadInsert
	}
	out, ok := rating.TorqueOf(place, stud)
	if ok {
		f.used = append(f.used, out.Source)
	}
	return out
}
