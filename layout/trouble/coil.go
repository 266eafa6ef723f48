package trouble

import (
	"slices"
	"strconv"
	"strings"

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
	refer, others := t.referred(point, others)
	return page.List("; ", t.across(coil)+t.say.Grouped(own), "less: "+page.List(", ", refer, t.say.Grouped(others)))
}

// relayed are what it may be behind the contact of a relay, for relays that feed coils of others.
type relayed struct {
	point int
	said  map[string]bool // faults in words
}

// leastReferred is from how many causes on they are not said again where they lie behind another relay.
const leastReferred = 6

// relayedOf lists the points behind relays in the order of the ladders.
func (t teller) relayedOf() []relayed {
	var out []relayed
	for _, l := range t.R.Proof.Ladders {
		for _, r := range l.Rungs {
			faults := faultsOf(r)
			if t.coilBefore(r.Point, faults) == nil {
				continue
			}
			at := slices.IndexFunc(out, func(x relayed) bool { return x.point == r.Point })
			if at < 0 {
				at = len(out)
				out = append(out, relayed{r.Point, map[string]bool{}})
			}
			for _, f := range faults {
				out[at].said[t.said(f)] = true
			}
		}
	}
	return out
}

// said is a fault in words; of one that blows a fuse other words.
func (t teller) said(fault int) string {
	f := &t.R.Proof.Faults[fault]
	if len(f.Blown) > 0 {
		return "blown: " + t.say.Fault(f)
	}
	return t.say.Fault(f)
}

// referred leaves out of the faults behind a relay those of another by which its coil is fed, and refers to that.
func (t teller) referred(point int, faults []int) (refer string, left []int) {
	here := map[string]bool{}
	for _, f := range faults {
		here[t.said(f)] = true
	}
	for _, x := range t.relays {
		if x.point != point && x.within(here) {
			left = slices.DeleteFunc(slices.Clone(faults), func(f int) bool { return x.said[t.said(f)] })
			return "all at " + page.Firm(t.say.Point(x.point)), left
		}
	}
	return "", faults
}

// within tells that all but what blows fuses is among some faults, and more than a few.
func (x relayed) within(here map[string]bool) bool {
	n := 0
	for s := range x.said {
		if strings.HasPrefix(s, "blown: ") {
			continue
		}
		if !here[s] {
			return false
		}
		n++
	}
	return n >= leastReferred
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
