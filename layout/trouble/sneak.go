package trouble

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// setSneaks sets the ways of the current that nobody meant; one line where there are none.
func (t teller) setSneaks(s *page.Book) {
	p := &t.R.Proof
	if p.Looked.Solved == 0 && len(p.Sneaks) == 0 {
		return
	}
	if len(p.Sneaks) == 0 {
		s.Remark("Sneak paths: none found. " + looked(p.Looked))
		return
	}
	if slices.ContainsFunc(p.Sneaks, func(x proof.Sneak) bool { return !harmless(x) }) {
		s.Head2("Sneak paths", looked(p.Looked), 2*page.LineHigh)
	} else {
		s.Remark("Sneak paths: none that needs a cure. " + looked(p.Looked))
	}
	var harms []string
	for _, x := range p.Sneaks {
		if harmless(x) {
			harms = append(harms, t.sneak(x))
			continue
		}
		s.Need(2 * page.LineHigh)
		s.Say(t.sneak(x), brief)
		s.Say(page.List(" ", t.path(x.Path), "Cure: "+page.Sentence(x.Cure)), note)
		s.Down(0.8)
	}
	if words := "No cure needed: " + strings.Join(harms, " "); len(harms) > 0 && page.TextHeight(words, note, s.Room.W) <= s.Room.H {
		s.Say(words, note)
	}
}

// harmless tells that a way needs no cure.
func harmless(x proof.Sneak) bool { return x.Cure == "" || strings.HasPrefix(x.Cure, "none") }

// sneak says what happens, in which state and with what current; the way itself follows.
func (t teller) sneak(x proof.Sneak) string {
	says := x.Says
	if head, way, ok := strings.Cut(says, ": "); ok && strings.Contains(way, " – ") {
		says = head
	}
	when := page.List(", ", x.State, sneakAmps(x.Amps))
	if when == "" {
		return page.Sentence(says)
	}
	return page.Capital(says) + " (" + when + ")."
}

// sneakAmps is the current of a sneak path.
func sneakAmps(amps float64) string {
	if amps == 0 {
		return ""
	}
	return page.Amps(amps) + " A"
}

// looked says what was enumerated.
func looked(l proof.Looked) string {
	words := fmt.Sprintf("Looked at: %s, %s of one switch, %s of two that belong together; %d solved.",
		page.Counted(l.States, "state"), page.Counted(l.Changes, "change"), page.Counted(l.Pairs, "change"), l.Solved)
	if l.Left != "" {
		words += " Not looked at: " + page.Sentence(l.Left)
	}
	return words
}

// path is a way stop by stop; the two sides of a plug are one, and a wire against its written direction is marked.
func (t teller) path(stops []proof.Stop) string {
	var b strings.Builder
	last := ""
	for _, s := range stops {
		if name := t.say.Terminal(s.At); name != last {
			if last != "" {
				b.WriteString("→" + page.NoBreak)
			}
			b.WriteString(page.Firm(name) + " ")
			last = name
		}
		switch {
		case s.Wire != harness.None && s.Against:
			b.WriteString(page.Firm("("+t.H.Wires[s.Wire].Name+" backwards)") + " ")
		case s.Wire != harness.None:
			b.WriteString(page.Firm("("+t.H.Wires[s.Wire].Name+")") + " ")
		}
	}
	if last == "" {
		return ""
	}
	return strings.TrimSuffix(b.String(), " ") + "."
}
