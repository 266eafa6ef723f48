package drawing

import (
	"slices"

	"example.com/loomfolio/sizing/harness"
)

// divide cuts a strip that does not fit in two: between legs where it has
// several, else in the middle of its wires, at a connector if there is one near.
// Each half falls into the components that hang together.
func (s *sheets) divide(st *strip) [][]harness.WireID {
	a, b := s.betweenLegs(st.wires)
	if len(b) == 0 {
		at := s.middle(st.wires)
		a, b = st.wires[:at], st.wires[at:]
	}
	return append(s.components(a), s.components(b)...)
}

// betweenLegs divides by legs: from the cut nearest to the middle on, legs change
// sides for as long as fewer terminals need a reference and neither side has more
// than two thirds of the wires. b is empty when there is one leg.
func (s *sheets) betweenLegs(wires []harness.WireID) (a, b []harness.WireID) {
	legs := s.legs(wires)
	if len(legs) < 2 {
		return wires, nil
	}
	second := make([]bool, len(legs))
	count := 0
	for i := range legs {
		second[i] = i > 0 && 2*count >= len(wires)
		count += len(legs[i])
	}
	second[len(legs)-1] = true
	most := max(2*len(wires)/3, len(wires)-len(legs[0]))
	if len(legs) > 2 {
		most = 2 * len(wires) / 3
	}
	for range 3 * len(legs) {
		if !s.betterSide(legs, second, most) {
			break
		}
	}
	return sides(legs, second)
}

// betterSide moves the leg whose move saves most references.
func (s *sheets) betterSide(legs [][]harness.WireID, second []bool, most int) bool {
	best, at := s.references(sides(legs, second)), -1
	for i := range legs {
		second[i] = !second[i]
		a, b := sides(legs, second)
		if n := s.references(a, b); n < best && len(a) > 0 && len(b) > 0 && max(len(a), len(b)) <= most {
			best, at = n, i
		}
		second[i] = !second[i]
	}
	if at < 0 {
		return false
	}
	second[at] = !second[at]
	return true
}

func sides(legs [][]harness.WireID, second []bool) (a, b []harness.WireID) {
	for i, l := range legs {
		if second[i] {
			b = append(b, l...)
		} else {
			a = append(a, l...)
		}
	}
	return a, b
}

// references counts the terminals that would be shown by an arrow: of a part on
// both sides, those on the side that has fewer.
func (s *sheets) references(a, b []harness.WireID) int {
	inA, inB := setOf(a), setOf(b)
	n := 0
	for _, id := range s.partsOf(a) {
		p := &s.h.Parts[id]
		if p.Kind == harness.Ground || p.Kind == harness.Battery || p.Kind == harness.FusePanel || p.Kind == harness.Connector {
			continue
		}
		n += min(len(s.touched(p, inA)), len(s.touched(p, inB)))
	}
	return n
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
