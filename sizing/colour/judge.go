package colour

import (
	"fmt"
	"sort"
	"strings"

	"example.com/loomfolio/sizing/colour/spread"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// verdict is how the finished colours stand, wire by wire.
type verdict struct {
	*task
	choices []Choice
	option  []int              // by wire: the number of its combination
	apart   [][]int            // by two combinations: their distance, 1/100
	here    [][]harness.WireID // by spot
	reached []int              // by spot: distance of the nearest two that differ; never where there are none
	settled int                // the same of two that were both settled, anywhere
	alike   []alike            // in the order of the wires' names
	byRule  map[string]bool    // wires that are alike because rules leave neither a choice
	bundles [][]Bundle         // by RunID
}

const never = 1 << 30

// alike is two wires of one colour, or of base and tracer swapped.
type alike struct {
	a, b  harness.WireID // in the order of their names
	touch bool           // they end at one part
}

// judge looks at every two wires afresh, spot by spot.
func (t *task) judge(choices []Choice, option []int) *verdict {
	v := &verdict{task: t, choices: choices, apart: t.apart(), here: t.bySpot(), settled: never, byRule: map[string]bool{}}
	for w := range t.h.Wires {
		v.option = append(v.option, option[t.class[w]])
	}
	v.bundles = make([][]Bundle, len(t.h.Runs))
	seen := map[int]int{}
	for s := range t.meetings() {
		v.reached = append(v.reached, never)
		for i, b := range v.here[s] {
			for _, a := range v.here[s][:i] {
				v.compare(s, a, b, seen)
			}
		}
	}
	rank := make([]int, len(t.h.Wires))
	for i, w := range t.order {
		rank[w] = i
	}
	sort.Slice(v.alike, func(i, j int) bool {
		x, y := v.alike[i], v.alike[j]
		if x.b != y.b {
			return rank[x.b] < rank[y.b]
		}
		return rank[x.a] < rank[y.a]
	})
	return v
}

// compare measures two wires at a spot. Seen holds the places in the list of those
// that are alike, by both their numbers.
func (v *verdict) compare(s int, a, b harness.WireID, seen map[int]int) {
	if !v.mistakable(a, b) {
		return
	}
	p, q := v.option[a], v.option[b]
	if v.far[p][q] == 0 && (p == q || swapped(v.combos[p], v.combos[q])) {
		touch := v.rankOf(s) == spread.Touch
		key := int(a)*len(v.h.Wires) + int(b)
		if k, known := seen[key]; known {
			v.alike[k].touch = v.alike[k].touch || touch
		} else {
			seen[key] = len(v.alike)
			v.alike = append(v.alike, alike{a, b, touch})
		}
	}
	if p == q {
		return
	}
	d := v.apart[p][q]
	if v.classes[v.class[a]].fixed() && v.classes[v.class[b]].fixed() {
		v.settled = min(v.settled, d)
		return
	}
	v.reached[s] = min(v.reached[s], d)
}

// report sums up, with the ceilings of parts and runs.
func (v *verdict) report(ceilings []most) Report {
	out := Report{Settled: hundredths(v.settled)}
	scales := sightScales(v.h)
	smallest, bound := never, never
	for s := range v.meetings() {
		most := ceilings[s]
		most.Distance = max(most.Distance, 0)
		x := Spot{Nets: most.nets, Reached: hundredths(v.reached[s]), Bound: hundredths(most.Distance), Exact: most.Exact && most.Distance < never, Near: v.near(s, scales)}
		smallest, bound = min(smallest, v.reached[s]), min(bound, most.Distance)
		if s < len(v.h.Parts) {
			out.Parts = append(out.Parts, x)
			continue
		}
		x.Bundles = v.bundles[s-len(v.h.Parts)]
		out.Runs = append(out.Runs, x)
	}
	for _, x := range v.alike {
		if v.choices[x.a].Pair == v.choices[x.b].Pair {
			out.LookAlikes++
		}
	}
	out.Smallest, out.Bound = hundredths(smallest), hundredths(bound)
	return out
}

// hundredths turns a distance into CIEDE2000 units; none at all is 0.
func hundredths(d int) float64 {
	if d == never {
		return 0
	}
	return float64(d) / 100
}

// problems are the findings on the colours.
func (v *verdict) problems() source.Problems {
	var out source.Problems
	told := map[[2]int]bool{}
	for _, x := range v.alike {
		first, second := &v.classes[v.class[x.a]], &v.classes[v.class[x.b]]
		key := [2]int{v.class[x.a], v.class[x.b]}
		switch {
		case v.insisted(first), v.insisted(second): // asked for: the number sleeves tell them apart
		case v.ruled(first) && v.ruled(second):
			v.byRule[v.h.Wires[x.a].Name], v.byRule[v.h.Wires[x.b].Name] = true, true
		case v.banded(x), told[key]:
		default:
			told[key] = true
			out = append(out, v.lookAlike(x.a, x.b))
		}
	}
	if len(v.byRule) > 0 {
		out = append(out, v.alikeByRule())
	}
	out = append(out, v.bands()...)
	for i := range v.broken {
		out = append(out, v.broken[i].problem(v.task, v.choices[v.broken[i].wire].Pair))
	}
	out = append(out, v.inGroundColour()...)
	out = append(out, v.unkept()...)
	return append(out, v.asFound()...)
}

// lookAlike is the finding on two wires that have one colour, or base and tracer
// swapped: a warning where the description gave a colour, else advice.
func (v *verdict) lookAlike(a, b harness.WireID) source.Problem {
	if v.force(a) > v.force(b) {
		a, b = b, a
	}
	first, second := v.h.Wires[a], v.h.Wires[b]
	p := source.Problem{
		Slug: "look-alike", Level: source.Advice, Span: second.Span,
		Summary:  fmt.Sprintf("wires %s (%s) and %s (%s) look alike where they meet", first.Name, v.choices[a].Pair, second.Name, v.choices[b].Pair),
		Detail:   "tell them apart by their number sleeves, or put more colours on the shelf",
		Subjects: []string{first.Name, second.Name},
		Others:   []source.Note{{Span: first.Span, Text: "the other wire"}},
	}
	switch {
	case v.force(b) == written:
		p.Level, p.Span = source.Warning, second.ColourSpan
		p.Detail = "give one of them another colour, or leave it out to have one chosen"
	case v.force(a) == built:
		p.Detail = "both are built: put number sleeves on their ends"
	case v.force(b) == built:
		p.Detail = fmt.Sprintf("%s is built: put number sleeves on both, or give %s another colour", second.Name, first.Name)
	case v.force(b) == planned:
		p.Detail = fmt.Sprintf("%s keeps its planned colour: plan another one for it, or put number sleeves on both", second.Name)
	}
	return p
}

// ruled tells whether a rule leaves a class the one colour that it has, whether it is built so or not.
func (v *verdict) ruled(c *class) bool {
	if !c.fixed() || c.force == written {
		return false
	}
	if c.force == open {
		return true
	}
	g := unit.Gauge{}
	if len(c.gauges) > 0 {
		g = v.gauges[c.gauges[0]]
	}
	d := v.choiceFor(c.role, nil, g, c.wires[0]).domain
	return len(d) == 1 && d[0] == c.domain[0]
}

func (v *verdict) force(w harness.WireID) force { return v.held[w].force }

// alikeByRule is one advice on all wires to which the rules leave one colour.
func (v *verdict) alikeByRule() source.Problem {
	var names []string
	var at source.Span
	for _, w := range v.order {
		if name := v.h.Wires[w].Name; v.byRule[name] {
			if len(names) == 0 {
				at = v.h.Wires[w].Span
			}
			names = append(names, name)
		}
	}
	return source.Problem{
		Slug: "look-alike", Level: source.Advice, Span: at,
		Summary:  "wires that must be the same colour meet: " + strings.Join(names, ", "),
		Detail:   "battery feeds and thick wire come in one colour: fit number sleeves to both ends",
		Subjects: names, Gathers: true,
	}
}
