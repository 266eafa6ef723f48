package trouble

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/layout/fused"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// How many loads are named of those that are dead, weak, that work and that are on though off.
const (
	mostDead  = 2
	mostWeak  = 2
	mostLive  = 1
	mostExtra = 1
	mostOn    = 1
	onAbreast = 2 // tables of what is on though off
)

// symptom is a row of what dies together, or of what is on though it is off.
type symptom struct {
	dead, weak, live, extra []harness.ElementID
	faults                  []int
}

// together are the sets of two dead or weak loads and more, the largest first, of several cards: what dies
// together on one stands there, and where all are weak no other load tells. A fault stands in the first of its sets alone, where it
// shows most; what blows a fuse and what is a poor joint stand on the ladders.
func (t teller) together() []symptom {
	cards := t.cardOf()
	told := map[string]bool{}
	var out []symptom
	for _, x := range t.R.Proof.Together {
		if ill := slices.Concat(x.Dead, x.Weak); len(ill) < 2 || len(x.Dead) == 1 || len(x.Dead)+len(x.Live)+len(x.Extra) == 0 || t.sameCard(ill, cards) {
			continue
		}
		faults := t.fresh(x.Faults, told, breaks)
		at := slices.IndexFunc(out, func(o symptom) bool { return len(x.Dead) > 0 && slices.Equal(o.dead, x.Dead) })
		switch {
		case len(faults) == 0:
		case at >= 0:
			out[at].faults = append(out[at].faults, faults...)
		default:
			out = append(out, symptom{dead: x.Dead, weak: x.Weak, live: x.Live, extra: x.Extra, faults: faults})
		}
	}
	return out
}

// uncalled are the sets of loads that are on though they are switched off, none being dead or several weak: contacts
// that do not open.
func (t teller) uncalled() []symptom {
	told := map[string]bool{}
	var out []symptom
	for _, x := range t.R.Proof.Together {
		if len(x.Dead) > 0 || len(x.Weak) > 1 || len(x.Extra) == 0 {
			continue
		}
		faults := t.fresh(x.Faults, told, breaks)
		at := slices.IndexFunc(out, func(o symptom) bool { return slices.Equal(o.extra, x.Extra) })
		switch {
		case len(faults) == 0:
		case at >= 0:
			out[at].faults = append(out[at].faults, faults...)
		default:
			out = append(out, symptom{extra: x.Extra, faults: faults})
		}
	}
	return out
}

// cardOf is by load the block of ladders that it is on.
func (t teller) cardOf() map[harness.ElementID]int {
	out := map[harness.ElementID]int{}
	_, own, _ := t.blocks()
	for i, b := range own {
		for _, l := range b.ladders {
			out[t.R.Proof.Ladders[l].Load] = i
		}
	}
	return out
}

// sameCard tells whether some loads are of one circuit, or on one block of ladders.
func (t teller) sameCard(loads []harness.ElementID, cards map[harness.ElementID]int) bool {
	circuit, block := true, true
	for _, e := range loads {
		first, known := cards[loads[0]]
		at, ok := cards[e]
		block = block && known && ok && at == first
		circuit = circuit && t.feeder(e) != nil && t.feeder(e) == t.feeder(loads[0])
	}
	return circuit || block
}

// breaks tells of the kinds of faults that leave loads dead without a fuse being blown.
func breaks(k proof.Kind) bool {
	return !slices.Contains([]proof.Kind{proof.Joint, proof.Burnt, proof.Short, proof.Shorted}, k)
}

// fresh are the faults of some kinds whose words were not told before.
func (t teller) fresh(faults []int, told map[string]bool, of func(proof.Kind) bool) []int {
	var out []int
	var words []string
	for _, f := range faults {
		x := &t.R.Proof.Faults[f]
		if s := t.say.Fault(x); of(x.Kind) && !told[s] {
			out, words = append(out, f), append(words, s)
		}
	}
	for _, s := range words {
		told[s] = true
	}
	return out
}

// setTogether sets what dies together, for one load alone has its ladder, and what is on though it is off.
func (t teller) setTogether(s *page.Book) {
	var dead, on []table.Row
	for _, x := range t.together() {
		dead = append(dead, small(t.ill(x), t.working(x), t.found(x.faults)))
	}
	for _, x := range t.uncalled() {
		on = append(on, small(firsts(page.LoadNames(t.Ask, t.elements(x.extra)), mostOn), t.found(x.faults)))
	}
	if len(dead) > 0 {
		s.Head("Dead or weak together", headRoom)
		s.Table(sets(dead, "Dead, or weak", "While these work", "Look at"))
	}
	if len(on) > 0 {
		s.Head("On though switched off", headRoom)
		s.Spread(sets(on, "On", "Look at"), onAbreast, 0)
	}
}

// small is a row in the size of notes, its first cell bold.
func small(cells ...string) table.Row {
	row := table.Texts(cells...)
	for i := range row.Cells {
		row.Cells[i].Size, row.Cells[i].Bold = sheet.SizeNote, i == 0
	}
	return row
}

// headRoom is what stands at least under the heading of a table, mm.
const headRoom = 32

// sets is a table of sets of symptoms.
func sets(rows []table.Row, columns ...string) *table.Table {
	m := &table.Table{Rows: rows, Tight: true, Pad: 0.05}
	for _, c := range columns {
		m.Columns = append(m.Columns, table.Column{Title: c})
	}
	return m
}

// ill are the loads that are dead, then those that are weak: where some are dead too, the dead tell enough.
func (t teller) ill(x symptom) string {
	if len(x.dead) > 0 {
		return t.called(x.dead, mostDead)
	}
	return "Weak: " + firsts(page.LoadNames(t.Ask, t.elements(x.weak)), mostWeak)
}

// working are loads that share most with those that are dead, or those that come on, which tell more of some that are weak.
func (t teller) working(x symptom) string {
	if len(x.extra) > 0 && (len(x.live) == 0 || len(x.dead) == 0) {
		return "yet on: " + firsts(page.LoadNames(t.Ask, t.elements(x.extra)), mostExtra)
	}
	return t.called(x.live[:min(len(x.live), mostLive)], mostLive)
}

// elements are the names of loads.
func (t teller) elements(loads []harness.ElementID) []string {
	var names []string
	for _, e := range loads {
		names = append(names, t.H.Elements[e].Name)
	}
	return names
}

// called are loads in plain words, those of a panel together where they are many.
func (t teller) called(loads []harness.ElementID, most int) string {
	names := t.elements(loads)
	said := page.LoadNames(t.Ask, names)
	if len(said) > most+1 {
		said = fused.Gathered(t.Ask, names)
	}
	return firsts(said, most)
}

// firsts are the first ones of some names where they are more than so many by one at least.
func firsts(said []string, most int) string {
	if left := len(said) - most; left > 1 {
		said = append(said[:most], fmt.Sprintf("%d more", left))
	}
	return page.Capital(strings.Join(said, ", "))
}

// found are faults in their order.
func (t teller) found(faults []int) string { return t.say.Grouped(faults) }
