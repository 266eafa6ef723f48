package trouble

import (
	"slices"
	"strconv"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// Behind the contact of a relay lies what switches it too. All readings before it being right, one
// across the coil parts the causes: with the volts at which it closes there it is the relay,
// with less it is what feeds or grounds the coil.

// split says the causes at a point; behind a relay's contact those with its coil fed, then those without.
func (t teller) split(point int, faults []int) string {
	coil := t.coilBefore(point, faults)
	if coil == nil {
		return t.say.Grouped(faults)
	}
	var own, others []int
	for _, f := range faults {
		if x := &t.R.Proof.Faults[f]; x.Part == coil.Part && len(x.Blown) == 0 {
			own = append(own, f)
		} else {
			others = append(others, f)
		}
	}
	if len(others) == 0 {
		return t.say.Grouped(faults)
	}
	return page.List("; ", t.across(coil)+t.say.Grouped(own), "less: "+t.say.Grouped(others))
}

// across says how a coil is read: the volts at which it closes, and its terminals.
func (t teller) across(coil *harness.Element) string {
	volts := strconv.FormatFloat(float64(coil.PullIn), 'f', -1, 64)
	return page.Firm("≥" + volts + " V across " + t.H.Terminals[coil.A].Name + "–" + t.H.Terminals[coil.B].Name + ": ")
}

// coilBefore is the coil that switches the contact at which faults show first, the contact itself being
// one of them and ending at the point; nil for none.
func (t teller) coilBefore(point int, faults []int) *harness.Element {
	at := t.R.Proof.Points[point].At
	for _, f := range faults {
		x := &t.R.Proof.Faults[f]
		e, ok := t.ElementNamed(x.Element)
		if ok && x.Kind == proof.Open && e.When.Kind == harness.Energised && slices.Contains([]harness.TerminalID{e.A, e.B}, at) {
			return &t.H.Elements[e.When.Coil]
		}
	}
	return nil
}
