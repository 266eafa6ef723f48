package buying

import (
	"fmt"
	"math"
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/ladder"
	"example.com/loomfolio/sizing/unit"
)

// usualRatings are those in which contacts are sold, A; common practice, no source.
var usualRatings = [...]unit.Ampere{1, 3, 5, 10, 15, 20, 25, 30, 40, 50, 70, 100, 150, 200, 300}

// plugIn is the rating up to which plug-in relays are one size and cost the same, A; common
// practice, no source.
const plugIn = 40

// ratings decides in which ratings contacts that state none are bought, by PartID: an index
// into usualRatings, -1 for none. Each is at least the usual rating that carries what it has to;
// where few kinds are bought, those of one make take as few ratings as one step up allows
// (relays any up to plugIn): heavier contacts do worse with milliamps. A given rating is obeyed.
func (b *basket) ratings() []int {
	out := make([]int, len(b.h.Parts))
	makes := map[string][]int{}
	var order []string
	for i := range b.h.Parts {
		p := &b.h.Parts[i]
		out[i] = -1
		what := b.contactItem(p)
		if what == "" || p.Rating > 0 {
			continue
		}
		out[i] = b.leastRating(p)
		if out[i] < 0 || p.PartNumber != "" || !b.few() {
			continue
		}
		if !slices.Contains(order, what) {
			order = append(order, what)
		}
		makes[what] = append(makes[what], i)
	}
	for _, what := range order {
		b.together(makes[what], out)
	}
	return out
}

// few tells whether few kinds are bought.
func (b *basket) few() bool {
	return b.h.Practice.Buy.For == "few" || b.h.Practice.Buy.For == "numbers"
}

// together gives parts of one make the fewest ratings, and of these the least.
func (b *basket) together(parts []int, at []int) {
	needs := make([]ladder.Need, len(parts))
	for n, i := range parts {
		x := ladder.Need{Least: at[i], Most: min(at[i]+1, len(usualRatings)-1), Cost: make([]float64, len(usualRatings))}
		for k, r := range usualRatings {
			x.Cost[k] = float64(r)
			if b.h.Parts[i].Kind == harness.Relay && r <= plugIn {
				x.Most = max(x.Most, k)
			}
		}
		needs[n] = x
	}
	for _, set := range ladder.Curve(len(usualRatings), needs, nil) {
		if !math.IsInf(set.Cost, 1) {
			for n, i := range parts {
				at[i] = set.Serving(needs[n])
			}
			return
		}
	}
}

// leastRating gives the least usual rating that carries what a part's contacts carry and that
// FAA AC 43.13-1B table 11-4 wants for their loads, as an index; -1 where none is asked for. A
// flasher is made for its lamps; an isolator is not opened under its loads, but carries the
// starter's current too.
func (b *basket) leastRating(p *harness.Part) int {
	wants := unit.Ampere(0)
	switch p.Kind {
	case harness.Flasher:
	case harness.Isolator:
		wants = mostThrough(b.c, p)
	default:
		if wants = b.switched(p.ID); wants > usualRatings[len(usualRatings)-1] {
			wants = mostThrough(b.c, p) // a starter's switch closes for seconds, and is made for it
		}
	}
	if wants <= 0 {
		return -1
	}
	return slices.IndexFunc(usualRatings[:], func(r unit.Ampere) bool { return r >= wants })
}

// switched is the most that any contact of a part carries, or that its loads want.
func (b *basket) switched(p harness.PartID) unit.Ampere {
	most := unit.Ampere(0)
	for i := range b.c.Contacts {
		if c := &b.c.Contacts[i]; c.Part == p {
			most = max(most, c.Amps, c.Wants)
		}
	}
	return most
}

// contactItem is what a part that switches is bought as, without a rating; "" for any other.
func (b *basket) contactItem(p *harness.Part) string {
	what := ""
	switch p.Kind {
	case harness.Relay:
		return b.relayItem(p)
	case harness.Isolator:
		what = "isolator"
	case harness.IgnitionSwitch:
		what = "ignition switch, " + unit.Counted(len(p.Positions), "position")
	case harness.Switch:
		what = "switch, " + unit.Counted(len(p.Positions), "position") + ", " + unit.Counted(len(p.Terminals), "terminal")
	case harness.Flasher:
		what = fmt.Sprintf("flasher, %g V", b.volts(p))
	default:
		return ""
	}
	if p.Momentary {
		what += ", momentary"
	}
	return what
}

// volts is the nominal voltage that a part is bought for: of a relay that of its coil.
func (b *basket) volts(p *harness.Part) float64 {
	for _, id := range p.Elements {
		if e := &b.h.Elements[id]; e.Kind == harness.RelayCoil || e.Side > 0 && p.Kind != harness.Relay {
			return float64(b.h.SystemOf(e).Volts)
		}
	}
	return float64(b.h.System.Volts)
}

func (b *basket) relayItem(p *harness.Part) string {
	what := fmt.Sprintf("relay, %g V, make contact", b.volts(p))
	if p.Changeover {
		what = fmt.Sprintf("relay, %g V, changeover", b.volts(p))
	}
	if p.Suppression == "resistor" || p.Suppression == "diode" {
		what += ", " + p.Suppression + " across the coil"
	}
	return what
}

// contacts lists relays, and what is switched by hand or by itself.
func (b *basket) contacts() {
	ratings := b.ratings()
	for i := range b.h.Parts {
		p := &b.h.Parts[i]
		what, group := b.contactItem(p), "switches"
		if what == "" || p.Existing {
			continue
		}
		if p.Kind == harness.Relay {
			group = "relays"
		}
		switch {
		case p.Rating > 0:
			what += ", " + p.Rating.String()
		case ratings[i] >= 0:
			what += atLeast + usualRatings[ratings[i]].String()
		}
		b.add(group, numbered(what, p), 1, "pcs", p.Ref)
	}
}
