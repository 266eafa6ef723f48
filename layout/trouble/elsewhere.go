package trouble

import (
	"slices"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// A load that several ways feed has its ladder in one state; what leaves it dead in another alone,
// as the stalk of indicators that the hazard switch feeds too, shows on no line of it.

// only are by ladder the faults that leave its load dead, told on no ladder, each at its first load.
func (t teller) only() map[int][]int {
	told := map[int]bool{}
	for i := range t.R.Proof.Ladders {
		for _, f := range t.R.Proof.Ladders[i].Suspects() {
			told[f] = true
		}
	}
	of := map[harness.ElementID]int{}
	for i, l := range t.R.Proof.Ladders {
		of[l.Load] = i
	}
	out := map[int][]int{}
	for f, x := range t.R.Proof.Faults {
		if told[f] || x.Kind != proof.Open {
			continue
		}
		if at := slices.IndexFunc(x.Dead, func(e harness.ElementID) bool { _, ok := of[e]; return ok }); at >= 0 {
			out[of[x.Dead[at]]] = append(out[of[x.Dead[at]]], f)
		}
	}
	return out
}

// otherwise are the lines of some ladders for what shows in other states alone, by state.
func (t teller) otherwise(ladders []int) []line {
	var states []int
	var faults [][]int
	for _, l := range ladders {
		for _, f := range t.others[l] {
			s := t.R.Proof.Faults[f].State
			at := slices.Index(states, s)
			if at < 0 {
				at = len(states)
				states, faults = append(states, s), append(faults, nil)
			}
			faults[at] = append(faults[at], f)
		}
	}
	var out []line
	for i, s := range states {
		out = append(out, line{point: "right", means: "dead only in " + page.Firm(t.H.States[s].Name) + ": " + t.say.Grouped(faults[i])})
	}
	return out
}
