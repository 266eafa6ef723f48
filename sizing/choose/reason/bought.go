package reason

import (
	"fmt"

	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
)

// Bought writes down what was settled on the sizes that are bought (choose.Again), with the
// reason of each choice: of a wire that is bought thicker, what decided its own least size, in
// the numbers of the first settling, and what it is bought with. What each rule alone asks
// for is of the first settling too, on the whole shelf, and so is the bound on the copper: no
// set of sizes that can be had is lighter, bought or not.
func Bought(least, final *choose.Settled) chosen.Chosen {
	b := buying{was: report{least, newSolved(len(least.Groups.Wires))}, now: report{final, newSolved(len(final.Groups.Wires))}}
	b.of = b.kinds()
	var wires []chosen.Wire
	for w, wanted := range least.WantedForDrop() {
		wires = append(wires, b.wire(harness.WireID(w), wanted))
	}
	out := b.now.chosen(wires)
	_, bound := least.Copper()
	out.CopperBound = min(bound, out.CopperMass)
	return out
}

// buying reads what was settled first beside what is bought.
type buying struct {
	was, now report
	of       map[kind]int // wires
}

// kind is what is on one kind of reel, colours apart.
type kind struct{ shelf, size string }

func (b buying) kind(w harness.WireID) kind {
	return kind{b.now.Keys[w], b.now.Size(w).Conductor.Gauge.String()}
}

// kinds counts the wires of each kind that are cut from reels.
func (b buying) kinds() map[kind]int {
	out := map[kind]int{}
	for w, core := range b.now.H.OffReels() {
		if !core {
			out[b.kind(harness.WireID(w))]++
		}
	}
	return out
}

// wire writes down one wire.
func (b buying) wire(w harness.WireID, wanted int) chosen.Wire {
	out, own := b.now.figures(w, b.now.At[w]), b.was.figures(w, wanted)
	out.Wants, out.Below = own.Wants, b.now.below(w)
	var keys []string
	switch {
	case out.Area > own.Area:
		out.Least, out.Bought = own.Gauge, b.with(w)
		out.Reason, keys = b.thicker(w)
	case out.Area < own.Area: // beside wires that are thicker than they need
		out.Reason, keys = b.now.reason(w)
		out.Loads, out.Saves = b.now.thick(w)
	default:
		out.Reason, keys = b.same(w, len(out.Below.Fails) > 0)
		out.Loads, out.Saves = b.was.thick(w)
	}
	out.Sources = rating.Distinct(append(append([]string(nil), b.now.Size(w).Sources...), keys...)...)
	return out
}

// same gives the reason of a wire that is bought in its own least size: what decided that size
// first; where a rule or a load holds it there among the sizes that are bought, in the figures
// of these.
func (b buying) same(w harness.WireID, held bool) (string, []string) {
	switch f := b.now.Floors[w]; {
	case b.now.Fixed[w]:
		return b.now.reason(w)
	case b.now.At[w] == 0: // the least that is bought: no rule on that shelf says why
		return b.was.reason(w)
	case f.Ruled() == b.now.At[w]:
		return b.now.reason(w)
	case held:
		return b.now.sharedReason(w, b.now.Ampacity.Sources(w))
	}
	return b.was.reason(w)
}

// thicker gives the reason of a wire that is bought thicker: that of its own least size, and
// where a rule asks for more on the shelf that is bought, that rule.
func (b buying) thicker(w harness.WireID) (string, []string) {
	text, keys := b.was.reason(w)
	text += fmt.Sprintf("; bought as %s", b.now.gauge(w, b.now.At[w]))
	next := b.now.Shelf[w].From(b.was.Size(w).Conductor.Area)
	if f := b.now.Floors[w]; f.Ruled() == b.now.At[w] && f.Ruled() > next {
		more, also := b.now.reason(w)
		return text + ", for in the sizes that are bought: " + more, append(keys, also...)
	}
	return text, keys
}

// with says what a wire that is bought thicker is bought with.
func (b buying) with(w harness.WireID) string {
	size, others := b.now.gauge(w, b.now.At[w]), b.of[b.kind(w)]-1
	switch {
	case others > 1:
		return fmt.Sprintf("bought with the %s of %d other wires", size, others)
	case others == 1:
		return fmt.Sprintf("bought with the %s of another wire", size)
	}
	return "bought as " + size + ", the next of the sizes that are bought"
}
