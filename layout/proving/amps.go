package proving

import (
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/unit"
)

// currents sets the amps through fuses and coils, and what flows with the key off.
func (s *sheets) currents(l *list) {
	s.throughFuses(l)
	s.coils(l)
	s.keyOff(l)
}

// throughFuses adds the fuses state by state.
func (s *sheets) throughFuses(l *list) {
	if len(s.p.Through) == 0 {
		return
	}
	l.sub("Through each fuse, everything behind it on, A", "Meter for the fuse, 10"+page.NoBreak+"A range; a clamp above. Then leads back to the volts socket: in the 10"+page.NoBreak+"A socket they short the battery.")
	by := make([][]proof.Through, len(s.H.States))
	for _, x := range s.p.Through {
		by[x.State] = append(by[x.State], x)
	}
	for state, all := range by {
		if len(all) > 0 {
			l.add(table.Strong(page.StateLetter(state)), s.fuseAmps(all)...)
		}
	}
}

func (s *sheets) fuseAmps(all []proof.Through) []run {
	var runs []run
	for _, x := range all {
		runs = append(runs, limit(amps(x.Low, x.High)), small(page.Firm(s.H.Elements[x.Fuse].Name+" "+blank)))
	}
	return runs
}

// coils adds the relays: the amps by state, those with one limit together, then the ohms.
func (s *sheets) coils(l *list) {
	if len(s.p.Coils) == 0 {
		return
	}
	l.sub("Relay coils: A in the feed, Ω with the relay out", "")
	for state := range s.H.States {
		here := slices.DeleteFunc(slices.Clone(s.p.Coils), func(x proof.CoilAmps) bool { return x.State != state })
		if runs := s.coilRuns(here, func(x proof.CoilAmps) string { return amps(x.Low, x.High) }, " "+blank); len(runs) > 0 {
			l.add(table.Strong(page.StateLetter(state)), runs...)
		}
	}
	l.add(table.Strong("Ω"), s.coilRuns(s.p.Coils, ohms, "")...)
}

// coilRuns are coils with what is the same for some of them.
func (s *sheets) coilRuns(all []proof.CoilAmps, limits func(proof.CoilAmps) string, room string) []run {
	var runs []run
	for i, x := range all {
		like := func(y proof.CoilAmps) bool { return limits(y) == limits(x) }
		if slices.ContainsFunc(all[:i], like) {
			continue
		}
		runs = append(runs, limit(limits(x)))
		for _, y := range all[i:] {
			if like(y) {
				runs = append(runs, small(page.Firm(strings.TrimSuffix(s.H.Elements[y.Coil].Name, ".coil")+room)))
			}
		}
	}
	return runs
}

// ohms are the bounds of a coil's resistance, and which way a diode beside it lies.
func ohms(x proof.CoilAmps) string {
	return page.List(", ", between(float64(x.OhmsLow), float64(x.OhmsHigh), 1, 0), x.Diode)
}

// keyOff adds what flows with everything at rest.
func (s *sheets) keyOff(l *list) {
	k := s.p.KeyOff
	if k.State == proof.None || k.High == 0 && len(k.Fuses) == 0 {
		return
	}
	l.sub("Key off, everything at rest, mA", s.restWords(k.Limit))
	runs := []run{limit("≤" + page.NoBreak + milli(float64(k.High))), small(page.Firm("battery lead " + blank))}
	for _, x := range k.Fuses {
		runs = append(runs, limit(between(1000*float64(x.Low), 1000*float64(x.High), 1, 0)), small(page.Firm(s.H.Elements[x.Fuse].Name+" "+blank)))
	}
	l.add(table.Strong(page.StateLetter(k.State)), runs...)
}

// restWords say how such a current is measured (modules wake when the lead is opened: makers' manuals),
// and what is too much whatever draws it.
func (s *sheets) restWords(limit unit.Ampere) string {
	text := "Bridge the lead before you open it, wait 30" + page.NoBreak + "min: modules wake."
	if limit > 0 {
		text += " Over " + milli(float64(limit)) + page.NoBreak + "mA empties the battery in weeks, whatever draws it."
	}
	return text
}

// milli is a bound of a current in milliamperes, rounded up.
func milli(a float64) string { return page.Figure(math.Ceil(a*1000-1e-6), 0) }
