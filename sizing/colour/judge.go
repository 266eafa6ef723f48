package colour

import (
	"fmt"
	"sort"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// verdict is how the finished colours stand, wire by wire.
type verdict struct {
	*task
	choices  []Choice
	alike    int                 // pairs of neighbouring wires of one colour
	smallest int                 // distance of the nearest pair that differs; -1 when there is none
	pairs    [][2]harness.WireID // the first pair of every two classes that look alike, the one to change last
	byRule   map[string]bool     // wires that are alike because rules leave neither a choice
}

// judge looks at every two wires afresh.
func (t *task) judge(choices []Choice) *verdict {
	v := &verdict{task: t, choices: choices, smallest: -1, byRule: map[string]bool{}}
	class := t.classOf()
	order := t.byName()
	told := map[[2]int]bool{}
	for i, b := range order {
		for _, a := range order[:i] {
			if !t.mistakable(class, a, b) {
				continue
			}
			p, q := choices[a].Pair, choices[b].Pair
			if p == q {
				v.alike++
			} else if d := apart(p, q); v.smallest < 0 || d < v.smallest {
				v.smallest = d
			}
			if key := [2]int{class[a], class[b]}; (p == q || swapped(p, q)) && !told[key] {
				told[key] = true
				v.tell(a, b, &t.classes[class[a]], &t.classes[class[b]])
			}
		}
	}
	return v
}

// byName gives the wires in the order of their names.
func (t *task) byName() []harness.WireID {
	out := make([]harness.WireID, len(t.h.Wires))
	for i := range out {
		out[i] = harness.WireID(i)
	}
	sort.Slice(out, func(i, j int) bool { return earlier(t.h.Wires[out[i]].Name, t.h.Wires[out[j]].Name) })
	return out
}

func (t *task) classOf() []int {
	out := make([]int, len(t.h.Wires))
	for i, c := range t.classes {
		for _, w := range c.wires {
			out[w] = i
		}
	}
	return out
}

// mistakable tells whether two wires meet, must look different, and are not
// told apart by their size.
func (t *task) mistakable(class []int, a, b harness.WireID) bool {
	if !meet(t.spots[a], t.spots[b]) || !rivals(&t.classes[class[a]], &t.classes[class[b]]) {
		return false
	}
	thin, heavy := min(t.areas[a], t.areas[b]), max(t.areas[a], t.areas[b])
	return thin == 0 || heavy < sizeTellsApart*thin
}

// tell keeps a pair for the findings.
func (v *verdict) tell(a, b harness.WireID, first, second *class) {
	if first.fixed() && second.fixed() && !first.given && !second.given {
		v.byRule[v.h.Wires[a].Name], v.byRule[v.h.Wires[b].Name] = true, true
		return
	}
	if first.given && !second.given {
		a, b = b, a
	}
	v.pairs = append(v.pairs, [2]harness.WireID{a, b})
}

func (v *verdict) problems() source.Problems {
	var out source.Problems
	for _, p := range v.pairs {
		out = append(out, v.lookAlike(p[0], p[1]))
	}
	if len(v.byRule) > 0 {
		out = append(out, v.alikeByRule())
	}
	return out
}

// lookAlike is the finding on two wires that have one colour, or base and tracer
// swapped: a warning where the description gave a colour, else advice.
func (v *verdict) lookAlike(a, b harness.WireID) source.Problem {
	first, second := v.h.Wires[a], v.h.Wires[b]
	p := source.Problem{
		Slug: "look-alike", Level: source.Advice, Span: second.Span,
		Summary:  fmt.Sprintf("wires %s (%s) and %s (%s) look alike where they meet", first.Name, v.choices[a].Pair, second.Name, v.choices[b].Pair),
		Detail:   "tell them apart by their number sleeves, or put more colours on the shelf",
		Subjects: []string{first.Name, second.Name},
		Others:   []source.Note{{Span: first.Span, Text: "the other wire"}},
	}
	if v.choices[b].Given {
		p.Level, p.Span = source.Warning, second.ColourSpan
		p.Detail = "give one of them another colour, or leave it out to have one chosen"
	}
	return p
}

// alikeByRule is one advice on all wires to which the rules leave one colour.
func (v *verdict) alikeByRule() source.Problem {
	var names []string
	var at source.Span
	for _, w := range v.byName() {
		if name := v.h.Wires[w].Name; v.byRule[name] {
			if len(names) == 0 {
				at = v.h.Wires[w].Span
			}
			names = append(names, name)
		}
	}
	return source.Problem{
		Slug: "look-alike", Level: source.Advice, Span: at,
		Summary:  "wires that have one colour by rule meet: " + strings.Join(names, ", "),
		Detail:   "battery feeds and thick wire come in one colour: sleeve their ends with the wire's number",
		Subjects: names,
	}
}
