package reason

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/choose/demand"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Of a cable at least so thick, mm2, it is told what a higher limit would save, where the load that
// makes it thick takes no more than smallShare of its current; common practice, no source.
const (
	thickFrom  = 10
	smallShare = 0.25
)

// limits are those that are tried in place of a tighter one, of the nominal voltage: 3 and 10 %
// are those of ABYC E-11, 5 % is common practice, no source.
var limits = [...]unit.Fraction{0.03, 0.05, 0.10}

// named is how many loads of a wire are told by name.
const named = 3

// drawn is one load whose current passes a wire.
type drawn struct {
	load harness.ElementID
	amps float64
	near float64 // the share of its limit that it loses
}

// loadsIn lists the loads whose current passes a wire in a state, the strongest first.
func (r report) loadsIn(w harness.WireID, state int) []drawn {
	var out []drawn
	for _, d := range r.Drawn[w] {
		if d.State != state || !d.Counts || r.H.Elements[d.Load].Kind != harness.Load {
			continue
		}
		limit, _ := r.LimitOf(d)
		out = append(out, drawn{d.Load, d.Amps, r.Drop(d) / float64(limit)})
	}
	slices.SortStableFunc(out, func(a, b drawn) int { return cmp.Compare(b.amps, a.amps) })
	return out
}

// thick says of a thick wire that the drop of small loads makes so what it carries, and what a
// higher limit for them would save.
func (r report) thick(w harness.WireID) (loads, saves string) {
	d := r.tightest(w)
	if d == nil || r.Pins.Wires[w] || r.Fixed[w] || r.At[w] <= r.Floors[w].Least() {
		return "", ""
	}
	if saves = strings.TrimPrefix(r.saving(w, d), "; "); saves != "" {
		loads, _, _ = strings.Cut(strings.TrimPrefix(r.sumText(w, d), ": "), ";")
	}
	return loads, saves
}

// sumText names the loads that share a wire with the one that comes nearest its limit.
func (r report) sumText(w harness.WireID, d *demand.Draw) string {
	all := r.loadsIn(w, d.State)
	if len(all) < 2 {
		return ""
	}
	sum, words := 0.0, []string{}
	for i, x := range all {
		sum += x.amps
		if i < named {
			words = append(words, r.H.Elements[x.load].Name+" "+unit.Amps(x.amps).String())
		}
	}
	if n := len(all) - named; n > 0 {
		words = append(words, fmt.Sprintf("%d more", n))
	}
	return fmt.Sprintf(": %d loads, %s in %s (%s); the tightest of them:", len(all), unit.Amps(sum), r.StateName(d), strings.Join(words, ", "))
}

// saving says what a thick cable would be if the loads that make it thick, small beside the rest,
// were allowed to lose more; "" where no customary limit makes it thinner.
func (r report) saving(w harness.WireID, d *demand.Draw) string {
	whole := math.Abs(r.Solvings[d.State].State.WireAmps[w])
	if r.ByRule() || r.Groups.Of[w] < 0 || r.Size(w).Conductor.Area < thickFrom || d.Amps > smallShare*whole {
		return ""
	}
	now, _ := r.LimitOf(d)
	for _, limit := range limits {
		volts := unit.Volt(float64(limit) * float64(r.Nominal(d.Load)))
		if volts <= now*(1+1e-9) {
			continue
		}
		for _, loads := range [][]harness.ElementID{{d.Load}, r.inTheWay(w, whole, volts)} {
			if at := r.relaxed(loads, volts)[w]; at < r.At[w] {
				return r.savingText(w, d, loads, limit, at)
			}
		}
	}
	return ""
}

// inTheWay lists the loads on a wire that are small beside the rest, would lose too much if it were
// one size thinner, and are allowed less than some volts; in the order of the elements.
func (r report) inTheWay(w harness.WireID, whole float64, volts unit.Volt) []harness.ElementID {
	var out []harness.ElementID
	for _, x := range r.Drawn[w] {
		limit, _ := r.LimitOf(x)
		if x.Counts && x.Amps <= smallShare*whole && limit < volts && r.dropBelow(x, w) > float64(limit) && !slices.Contains(out, x.Load) {
			out = append(out, x.Load)
		}
	}
	slices.Sort(out)
	return out
}

func (r report) savingText(w harness.WireID, d *demand.Draw, loads []harness.ElementID, limit unit.Fraction, at int) string {
	_, own := r.LimitOf(d)
	own, _, _ = strings.Cut(own, " of ")
	size, less := r.gauge(w, r.At[w]), r.gauge(w, at)
	if !r.alikeLimited(loads) {
		return fmt.Sprintf("; %s are small beside the rest: their limits make %s of this cable, %s for them would be %s", r.names(loads), size, limit, less)
	}
	if len(loads) == 1 {
		return fmt.Sprintf("; %s is small beside the rest: its %s makes %s of this cable, %s would be %s", r.H.Elements[loads[0]].Name, own, size, limit, less)
	}
	return fmt.Sprintf("; %s are small beside the rest: their %s makes %s of this cable, %s for them would be %s", r.names(loads), own, size, limit, less)
}

// alikeLimited tells that some loads have one limit.
func (r report) alikeLimited(loads []harness.ElementID) bool {
	first := unit.Volt(0)
	for i := range r.Draws {
		d := &r.Draws[i]
		limit, _ := r.LimitOf(d)
		switch {
		case !slices.Contains(loads, d.Load):
		case first == 0:
			first = limit
		case limit != first:
			return false
		}
	}
	return true
}

// names lists loads for reading, the first few by name.
func (r report) names(loads []harness.ElementID) string {
	var words []string
	for i, l := range loads {
		if i < named {
			words = append(words, r.H.Elements[l].Name)
		}
	}
	if n := len(loads) - named; n > 0 {
		words = append(words, fmt.Sprintf("%d more", n))
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " and " + words[last]
}

// solved keeps what was solved again, so that wires of one way ask once.
type solved struct {
	sizes map[string][]int
	left  int // how often it may still be solved
}

// newSolved bounds the work: a harness of few groups is solved in milliseconds, one of a
// thousand in a quarter of a second.
func newSolved(groups int) *solved {
	return &solved{sizes: map[string][]int{}, left: min(8, 2000/max(groups, 1))}
}

// relaxed gives by WireID the sizes if some loads were allowed a limit; those in hand where that
// was solved often enough.
func (r report) relaxed(loads []harness.ElementID, limit unit.Volt) []int {
	key := fmt.Sprint(loads, float64(limit))
	if at, ok := r.again.sizes[key]; ok {
		return at
	}
	if r.again.left == 0 {
		return r.At
	}
	r.again.left--
	allowed := map[harness.ElementID]unit.Volt{}
	for _, l := range loads {
		allowed[l] = limit
	}
	r.again.sizes[key] = r.Relaxed(allowed)
	return r.again.sizes[key]
}
