package glance

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/harness"
)

// along is how far to the right each place of a loom stands. Where the description says what
// lies at the front or the rear of the vehicle, the front is at the left: a place between both
// stands by its share of the way through the loom. Else the loom begins at the first battery.
func along(h *harness.Harness) []float64 {
	front, rear := ways(h, lying(h, harness.Front)), ways(h, lying(h, harness.Rear))
	begin := ways(h, first(h))
	out := make([]float64, len(h.Places))
	for i := range out {
		switch {
		case front != nil && rear != nil:
			out[i] = share(front[i], rear[i])
		case front != nil:
			out[i] = front[i]
		case rear != nil:
			out[i] = -rear[i]
		case begin != nil:
			out[i] = begin[i]
		}
	}
	return out
}

// share is from 0 at the front to 1 at the rear; of several at the front, those that are
// furthest from the rear come first, and at the rear those last that are furthest from the front.
func share(front, rear float64) float64 {
	if math.IsInf(front+rear, 0) {
		return 2
	}
	const among = 1e-6 // per mm: enough to part those at one end, too little to part others
	return front/math.Max(front+rear, 1) + among*(front-rear)
}

// sideOf is where a place stands in its band. With the front at the left, and seen from above, the
// vehicle's left is below.
func sideOf(s harness.Side) int {
	switch {
	case s.Is(harness.Left):
		return 1
	case s.Is(harness.Right):
		return -1
	}
	return 0
}

// lying are the places that lie on a side.
func lying(h *harness.Harness, side harness.Side) []harness.PlaceID {
	var out []harness.PlaceID
	for _, p := range h.Places {
		if p.Lies.Is(side) {
			out = append(out, p.ID)
		}
	}
	return out
}

// first is the place at which a loom begins of which no end is named.
func first(h *harness.Harness) []harness.PlaceID {
	at := slices.IndexFunc(h.Parts, func(p harness.Part) bool { return p.Kind == harness.Battery && p.Place >= 0 })
	if at < 0 {
		return nil
	}
	return []harness.PlaceID{h.Parts[at].Place}
}

// ways are the lengths through the loom from each place to the nearest of some, mm, without
// end where no run leads there; nil for none.
func ways(h *harness.Harness, to []harness.PlaceID) []float64 {
	if len(to) == 0 {
		return nil
	}
	out := make([]float64, len(h.Places))
	for i := range out {
		out[i] = math.Inf(1)
	}
	for _, p := range to {
		out[p] = 0
	}
	for again := true; again; {
		again = false
		for _, r := range h.Runs {
			for _, e := range [2][2]harness.PlaceID{{r.From, r.To}, {r.To, r.From}} {
				if d := out[e[0]] + float64(r.Length); d < out[e[1]] {
					out[e[1]], again = d, true
				}
			}
		}
	}
	return out
}
