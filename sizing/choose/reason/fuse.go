package reason

import (
	"fmt"
	"math"

	"example.com/loomfolio/sizing/choose/demand"
	"example.com/loomfolio/sizing/choose/protect"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// breakerReason says how a breaker behaves once it has opened (SAE J553).
func breakerReason(kind string) string {
	switch kind {
	case protect.SelfResetting:
		return "; type 1, automatic reset: cycles while the fault lasts, easily mistaken for a loose connection"
	case protect.HeldOpen:
		return "; type 2, modified reset: stays open while it has power, resets once that is removed"
	case protect.HandReset:
		return "; type 3, manual reset: stays open until it is reset by hand, and cannot be held closed on a fault"
	}
	return ""
}

// fuseReason says in one sentence why a fuse has its rating.
func (x fusing) fuseReason() string {
	carried := fmt.Sprintf("%s continuous in %s", unit.Amps(x.f.Amps), x.f.State)
	cranking := x.Most(x.e.ID)
	switch {
	case x.f.Amps < demand.OnFrom && cranking >= demand.OnFrom && x.f.Given:
		return fmt.Sprintf("given: %s; carries %s while cranking, seconds only", x.f.Rating, unit.Ampere(unit.Round(cranking, 1)))
	case x.f.Amps < demand.OnFrom && cranking >= demand.OnFrom:
		return fmt.Sprintf("%s: carries %s while cranking, seconds only", x.f.Rating, unit.Ampere(unit.Round(cranking, 1)))
	case x.f.Amps < demand.OnFrom && x.f.Given:
		return fmt.Sprintf("given: %s; no state draws current through it", x.f.Rating)
	case x.f.Amps < demand.OnFrom && x.f.Kept:
		return fmt.Sprintf("%s; no state draws current through it", x.f.Rating)
	case x.f.Amps < demand.OnFrom && x.f.Least > 0:
		return fmt.Sprintf("%s: no state draws current through it", x.f.Rating) + x.boughtReason()
	case x.f.Amps < demand.OnFrom:
		return fmt.Sprintf("%s: the smallest, no state draws current through it", x.f.Rating)
	case x.f.Given:
		return fmt.Sprintf("given: %s; carries %s", x.f.Rating, carried)
	}
	text := fmt.Sprintf("%s: %s over %s is %s", x.f.Rating, carried, unit.Fraction(x.seat.Share()), unit.Amps(x.f.Amps/x.seat.Share()))
	if heat := x.seat.Heat(); heat < 0.995 {
		text += fmt.Sprintf(", over %s for the ambient temperature there %s", unit.Fraction(unit.Round(heat, 2)), unit.Amps(x.seat.Need(x.f)))
	}
	return text + x.startReason() + x.shelfReason() + x.boughtReason()
}

// boughtReason says of a fuse that is bought larger what would do, with which others it is
// bought, and up to what its wires are safe.
func (x fusing) boughtReason() string {
	if x.f.Least <= 0 {
		return ""
	}
	text := fmt.Sprintf("; %s would do, %s", x.f.Least, x.bought())
	if x.f.Least == x.f.Rating {
		text = "; a lighter body would do, " + x.bought()
	}
	if _, weakest := x.behind(); !math.IsInf(weakest, 1) {
		text += fmt.Sprintf("; its wires are safe behind up to %s", unit.Ampere(unit.Round(math.Floor(weakest*10)/10, 1)))
	}
	return text
}

// bought names the other fuses with which one is bought.
func (x fusing) bought() string {
	n := 0
	for i := range x.H.Elements {
		e, f := &x.H.Elements[i], &x.Fuses[i]
		if e.Kind == harness.FuseLink && e.ID != x.e.ID && f.Rating == x.f.Rating && f.Body == x.f.Body && !(protect.Seat{H: x.H, E: e}).Spare() {
			n++
		}
	}
	if n == 0 {
		return "bought so that there are few kinds"
	}
	return fmt.Sprintf("bought as %s like %s", x.f.Rating, unit.Counted(n, "other"))
}

// shelfReason says why a smaller rating that carries the load was passed over.
func (x fusing) shelfReason() string {
	if x.f.Kept || x.f.Least > 0 {
		return ""
	}
	below, _ := x.beside()
	for _, f := range below.Fails {
		if f.Rule == "smallest" || f.Rule == "stock" {
			return "; " + below.Size + " " + f.Text
		}
	}
	return ""
}

func (x fusing) startReason() string {
	if x.f.Start <= 0 || x.f.Breaker {
		return ""
	}
	earliest := rating.EarliestOpening(x.f.Body, float64(x.f.Start)/(float64(x.f.Rating)*x.seat.Heat()))
	what := "start"
	if x.f.StartFor == demand.FilamentHot {
		what = "lamp inrush"
	}
	switch {
	case math.IsNaN(float64(earliest)):
		return ""
	case math.IsInf(float64(earliest), 1):
		return fmt.Sprintf("; the %s of %s does not open it", what, unit.Ampere(unit.Round(float64(x.f.Start), 1)))
	}
	return fmt.Sprintf("; the %s of %s for %s opens it in %s at the earliest", what, unit.Ampere(unit.Round(float64(x.f.Start), 1)), x.f.StartFor, unit.Second(unit.Round(float64(earliest), 2)))
}

func (x fusing) fuseSources() []string {
	var keys []string
	if row, ok := rating.FuseOf(x.f.Body, x.f.Rating); ok {
		keys = append(keys, row.Sources...)
	}
	if !x.f.Given && !x.f.Kept {
		keys = append(keys, "fuse-fills")
		if x.seat.Heat() < 0.995 {
			keys = append(keys, "fuse-ambient")
		}
	}
	if x.f.Breaker && x.PartOf(x.e.ID).BreakerType != "" {
		keys = append(keys, "sae-j553")
	}
	if x.f.Start > 0 && x.f.StartFor == demand.FilamentHot {
		keys = append(keys, "cold-filament")
	}
	if x.f.Start > 0 {
		for _, o := range rating.Openings(x.f.Body) {
			keys = append(keys, o.Source)
		}
	}
	return rating.Distinct(keys...)
}

// feederReason says, of a fuse that other fuses hang on, what it is sized for:
// what runs at once. Its branches may add up to more, since each wire behind
// them has a fuse of its own; a state that takes more than the feeder's share is
// a finding (fuse-too-small). Common practice, no source.
func (x fusing) feederReason() string {
	sum, n := x.BranchSum(x.e.ID)
	if n < 2 || sum <= x.f.Rating {
		return ""
	}
	return fmt.Sprintf("; its %d fuses add up to %s: it is sized for the %s that run at once, not for their sum", n, sum, unit.Ampere(unit.Round(x.f.Amps, 1)))
}
