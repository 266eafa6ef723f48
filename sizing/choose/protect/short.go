package protect

import (
	"math"

	"example.com/loomfolio/sizing/choose/shelf"
	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// Shorts works out the shorts behind every fuse, by ElementID, with the wires as warm as
// they run and the fuses hot: the most resistance, so the least current.
func (p *Protection) Shorts() []flow.Shorts {
	ohms := p.ShortOhms(func(w harness.WireID) float64 { return p.OhmsAt(w, p.Hottest[w]) }, rating.HotFuse)
	var fuses []harness.ElementID
	for i := range p.H.Elements {
		if e := &p.H.Elements[i]; e.Kind == harness.FuseLink && !(Seat{p.H, e}).Spare() {
			fuses = append(fuses, e.ID)
		}
	}
	return p.Net.Shorts(fuses, ohms)
}

// ShortOhms gives what a dead short meets, Ω: the wires as told, and the fuses at so many
// times their cold resistance.
func (p *Protection) ShortOhms(wire func(harness.WireID) float64, fuse float64) flow.Ohms {
	ohms := flow.Ohms{Wires: make([]float64, len(p.H.Wires)), Elements: make([]float64, len(p.H.Elements))}
	for w := range ohms.Wires {
		ohms.Wires[w] = wire(harness.WireID(w))
	}
	for i := range p.H.Elements {
		e := &p.H.Elements[i]
		ohms.Elements[i] = float64(e.Ohms)
		if cold := p.Fuses[i].Cold; e.Kind == harness.FuseLink && cold > 0 {
			ohms.Elements[i] = fuse * float64(cold)
		}
	}
	return ohms
}

// Clears gives the longest time in which a fuse opens at a current, s; a fuse in
// a cool place is the slower. +Inf: it need not open; NaN: its body has no times.
func (p *Protection) Clears(f harness.ElementID, amps float64) float64 {
	return p.clearsAs(f, p.Fuses[f].Body, p.Fuses[f].Rating, amps)
}

func (p *Protection) clearsAs(f harness.ElementID, body string, r unit.Ampere, amps float64) float64 {
	return float64(rating.LatestOpening(body, amps/(float64(r)*p.fuseCool(f))))
}

// shortLasts is the longest time for which k²S² stands (IEC 60364-5-54); a fuse
// that takes longer is compared at that time.
const shortLasts = 5 // s

// Lasts gives the longest time for which a fuse lets a short flow, as far as k²S² is
// compared with it, s; 0 where no time is known.
func (p *Protection) Lasts(f harness.ElementID, amps float64) float64 {
	return p.LastsAs(f, p.Fuses[f].Body, p.Fuses[f].Rating, amps)
}

// LastsAs is Lasts with another body and rating in the place of a fuse.
func (p *Protection) LastsAs(f harness.ElementID, body string, r unit.Ampere, amps float64) float64 {
	t := math.Min(p.clearsAs(f, body, r, amps), shortLasts)
	if math.IsInf(amps, 1) || math.IsNaN(t) {
		return 0
	}
	return t
}

// OutLasts gives the time after which a short brings a size to its limit, s: k²S²/I² of
// IEC 60364-5-54.
func OutLasts(z *shelf.Size, amps float64) float64 {
	return math.Pow(rating.ShortCircuitK(z.Class, z.Shorted)*float64(z.Conductor.Area)/amps, 2)
}

// BranchSum adds up the fuses that hang on a fuse.
func (p *Protection) BranchSum(id harness.ElementID) (sum unit.Ampere, n int) {
	for _, b := range p.Branches[id] {
		if !(Seat{p.H, &p.H.Elements[b]}).Spare() {
			sum += p.Fuses[b].Rating
			n++
		}
	}
	return sum, n
}

// BoltedOn tells that a terminal belongs to a fuse whose body is bolted on.
func (p *Protection) BoltedOn(t harness.TerminalID) bool {
	part := p.H.PartOf(t)
	if part == nil || part.Kind != harness.Fuse {
		return false
	}
	for _, e := range part.Elements {
		if p.Fuses[e].Body == "bolt" {
			return true
		}
	}
	return false
}
