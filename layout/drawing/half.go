package drawing

import (
	"example.com/loomfolio/sizing/harness"
)

// The halves of a relay, each drawn where its wires are.
const (
	coil    = "coil"
	contact = "contact"
)

// other is a half's counterpart.
var other = map[string]string{coil: contact, contact: coil}

// halfOf is the half of a relay to which a terminal belongs.
func (s *sheets) halfOf(t harness.TerminalID) string {
	if name := s.h.Terminals[t].Name; name == "85" || name == "86" {
		return coil
	}
	return contact
}

// halfAnchor is where references to a half of a relay lead.
func halfAnchor(p *harness.Part, half string) string { return "half/" + p.Ref + "." + half }

// half is the only half of a relay that concerns this strip, provided that the
// other one is drawn on another; "" where the part is drawn whole.
func (b *builder) half(p *harness.Part) string {
	if p.Kind != harness.Relay {
		return ""
	}
	half := ""
	for _, t := range b.s.touched(p, b.in) {
		if h := b.s.halfOf(t); half != "" && h != half {
			return ""
		} else {
			half = h
		}
	}
	if half != "" && b.s.drawnAs(p, other[half]) {
		return half
	}
	return ""
}

// drawnAs tells whether some strip has at least two of a relay's terminals, one of
// them of a half: there that half is drawn as a tile and not as an arrow.
func (s *sheets) drawnAs(p *harness.Part, half string) bool {
	count, has := map[*strip]int{}, map[*strip]bool{}
	for _, t := range p.Terminals {
		on := map[*strip]bool{}
		for _, w := range append(append([]harness.WireID{}, s.use[t].in...), s.use[t].out...) {
			on[s.stripOf[w]] = true
		}
		for st := range on {
			count[st]++
			has[st] = has[st] || s.halfOf(t) == half
		}
	}
	for st, n := range count {
		if n >= 2 && has[st] {
			return true
		}
	}
	return false
}
