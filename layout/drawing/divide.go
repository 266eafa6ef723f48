package drawing

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/harness"
)

// divide cuts a strip that does not fit. Of all ways to cut one of its legs in
// two, and of that between legs, the one is taken whose pieces fit and part least
// of what belongs together; where no pieces fit, that between legs. Each piece is
// a set of wires that hang together.
func (s *sheets) divide(st *strip) [][]harness.WireID {
	a, b := s.betweenLegs(st.wires)
	if len(b) == 0 {
		at := s.middle(st.wires)
		a, b = st.wires[:at], st.wires[at:]
	}
	usual := append(s.components(a), s.components(b)...)
	best, least := usual, math.Inf(1)
	for _, pieces := range append([][][]harness.WireID{usual}, s.cuts(st.wires)...) {
		if cost := s.parted(pieces); cost < least && s.fit(pieces) {
			best, least = pieces, cost
		}
	}
	return best
}

// cuts gives the pieces for each place at which a leg may be cut, save where no
// piece would fit.
func (s *sheets) cuts(wires []harness.WireID) [][][]harness.WireID {
	var out [][][]harness.WireID
	area := s.stripArea()
	hopeless := func(wires []harness.WireID) bool { return s.tooHigh(wires, area.H) || s.tooWide(wires, area.W) }
	for i := 1; i < len(wires); i++ {
		before, after := s.h.Wires[wires[i-1]], s.h.Wires[wires[i]]
		if before.To != after.From && s.h.Terminals[before.To].Part != s.h.Terminals[after.From].Part {
			continue
		}
		for _, ends := range s.ends(wires, i) {
			_, rest := setOf(ends).only(wires)
			if len(rest) > 0 && !hopeless(rest) && !hopeless(ends) {
				out = append(out, append(s.components(rest), s.components(ends)...))
			}
		}
	}
	return out
}

// ends gives the part of a leg before and the part from wire i on.
func (s *sheets) ends(wires []harness.WireID, i int) [][]harness.WireID {
	leg := func(at int) bool {
		a, b := s.h.Wires[wires[at]], s.h.Wires[wires[i]]
		return a.Leg == b.Leg && a.Circuit == b.Circuit
	}
	from, to := i, i
	for from > 0 && leg(from-1) {
		from--
	}
	for to < len(wires) && leg(to) {
		to++
	}
	var out [][]harness.WireID
	if from < i {
		out = append(out, wires[from:i])
	}
	return append(out, wires[i:to])
}

// parted is what a division parts: relays most, then terminals that need a
// reference; a piece of one wire counts as much as a relay.
func (s *sheets) parted(pieces [][]harness.WireID) float64 {
	cost := 0.0
	seen := map[harness.PartID]int{}
	for _, wires := range pieces {
		if len(wires) == 1 {
			cost += 8
		}
		for _, p := range s.partsOf(wires) {
			seen[p]++
		}
	}
	for p, n := range seen {
		switch kind := s.h.Parts[p].Kind; {
		case n < 2 || kind == harness.Ground || kind == harness.Battery || kind == harness.FusePanel || kind == harness.Bus:
		case kind == harness.Relay:
			cost += 8 * float64(n-1)
		case kind == harness.Connector:
			cost += 0.5 * float64(n-1)
		default:
			cost += 3 * float64(n-1)
		}
	}
	return cost + float64(len(pieces))
}

// fit tells whether each piece fits a sheet in some look.
func (s *sheets) fit(pieces [][]harness.WireID) bool {
	area := s.stripArea()
	if slices.ContainsFunc(pieces, func(wires []harness.WireID) bool { return s.tooLarge(wires, area) }) {
		return false
	}
	for _, wires := range pieces {
		st := &strip{wires: wires, lent: s.lentTo(wires, true)}
		if !slices.ContainsFunc(quickLooks, func(f look) bool {
			l := s.version(st, f, area, false).layout
			return l != nil && l.Fits
		}) {
			return false
		}
	}
	return true
}

// legs groups wires by their leg, in order.
func (s *sheets) legs(wires []harness.WireID) [][]harness.WireID {
	var out [][]harness.WireID
	for i, id := range wires {
		w := s.h.Wires[id]
		if i > 0 && s.h.Wires[wires[i-1]].Leg == w.Leg && s.h.Wires[wires[i-1]].Circuit == w.Circuit {
			out[len(out)-1] = append(out[len(out)-1], id)
			continue
		}
		out = append(out, []harness.WireID{id})
	}
	return out
}

// middle is where a single chain is cut: near its middle, at a connector if there
// is one within a quarter of its length.
func (s *sheets) middle(wires []harness.WireID) int {
	half := len(wires) / 2
	for d := 0; 4*d <= len(wires); d++ {
		for _, at := range []int{half - d, half + d} {
			if at < 1 || at >= len(wires) {
				continue
			}
			if p := s.h.PartOf(s.h.Wires[wires[at]].From); p != nil && p.Kind == harness.Connector {
				return at
			}
		}
	}
	return slices.Max([]int{half, 1})
}
