package colour

import (
	"slices"
	"strings"

	"example.com/loomfolio/sizing/colour/fewest"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Alike is two nets whose wires look alike where they should not: their number sleeves alone tell
// them apart.
type Alike struct {
	A, B     harness.WireID // one wire of each, where they meet, in the order of their names
	Part     harness.PartID // where they meet; None where only in a run or at a branching
	Run      harness.RunID  // None where not in a run
	Distance float64        // of their colours, CIEDE2000
	ByRule   bool           // rules, a lock or the description leave neither a choice, and no earlier choice is behind it
}

// SizeBound is how many reels of one size no colouring that tells all apart goes below.
type SizeBound struct {
	Bought
	Reels int  // that are bought
	Least int  // that must be; those on the shelf apart
	Exact bool // the size alone can do with so few
}

// settled is finished colours that are being judged.
type settled struct {
	*Shop
	t      *task
	sizes  []Bought
	p      *fewest.Problem
	option []int           // by class
	alike  []Alike         // in the order of the wires' names
	before map[[2]int]bool // classes, the lesser first, that look alike by an earlier choice
}

// Settle gives finished colours with their reasons, how they stand, the pairs that only the number
// sleeve tells apart, and a bound for every size, the thinnest as they come by wire. A pair that the
// choice left to the sleeve is listed and is no finding.
func (s *Shop) Settle(bought []Bought, pairs []Pair, a Ask) ([]Choice, Report, []Alike, []SizeBound, source.Problems) {
	t, sizes := s.lay(bought)
	p := s.question(t, sizes, a)
	x := &settled{Shop: s, t: t, sizes: sizes, p: p, option: p.Begin(t.begun(pairs)), before: map[[2]int]bool{}}
	for _, n := range s.before {
		x.before[x.classes(n[0], n[1])] = true
	}
	x.meet()
	choices := x.written()
	v := t.judge(choices, x.option)
	return choices, x.report(v), x.alike, x.bounds(), x.problems(v, a)
}

// classes gives those of two wires, the lesser first.
func (x *settled) classes(a, b harness.WireID) [2]int {
	p, q := x.t.class[a], x.t.class[b]
	return [2]int{min(p, q), max(p, q)}
}

// meet lists the pairs that look alike, once for every two classes.
func (x *settled) meet() {
	t := x.t
	at := map[[2]int]int{}
	for i := range x.meets {
		e := &x.meets[i]
		p, q := x.option[t.class[e.a]], x.option[t.class[e.b]]
		if !x.Shop.alike[p][q] || t.toldBySize(e.a, e.b) {
			continue
		}
		key := x.classes(e.a, e.b)
		found := x.listed(e, p, q)
		if k, known := at[key]; !known {
			at[key] = len(x.alike)
			x.alike = append(x.alike, found)
		} else if x.sooner(&found, &x.alike[k]) {
			x.alike[k] = found
		}
	}
	slices.SortStableFunc(x.alike, func(a, b Alike) int {
		if d := x.rank[a.A] - x.rank[b.A]; d != 0 {
			return d
		}
		return x.rank[a.B] - x.rank[b.B]
	})
}

func (x *settled) listed(e *encounter, p, q int) Alike {
	t := x.t
	out := Alike{A: e.a, B: e.b, Part: harness.None, Run: harness.None, Distance: float64(t.scale.apart(t.combos[p], t.combos[q])) / 100}
	switch parts := len(t.h.Parts); {
	case e.spot < parts:
		out.Part = harness.PartID(e.spot)
	case e.spot < t.meetings():
		out.Run = harness.RunID(e.spot - parts)
	}
	out.ByRule = t.classes[t.class[e.a]].fixed() && t.classes[t.class[e.b]].fixed() && !x.before[x.classes(e.a, e.b)]
	return out
}

// sooner tells whether a meeting stands for two nets rather than another: one at a part before one
// in a run, then by name.
func (x *settled) sooner(a, b *Alike) bool {
	if atPart := a.Part != harness.None; atPart != (b.Part != harness.None) {
		return atPart
	}
	return x.rank[a.A] < x.rank[b.A] || a.A == b.A && x.rank[a.B] < x.rank[b.B]
}

// written gives the colours with their reasons, by wire.
func (x *settled) written() []Choice {
	t := x.t
	out := make([]Choice, len(t.h.Wires))
	standing, sleeved := x.standing(), x.sleeved()
	for i := range t.classes {
		c := &t.classes[i]
		reason := c.rule
		if c.force == planned || c.force == built || t.insisted(c) {
			reason = joined(reason, sleeved[i])
		}
		if !c.fixed() {
			reason = joined(joined(joined(c.rule, t.customReason(c, t.wish(c), x.option[i])), x.shared(i)), standing[i])
			reason = joined(reason, sleeved[i])
		}
		for _, w := range c.wires {
			out[w] = t.choice(c, w, x.option[i], reason)
		}
	}
	return out
}

// shared says of a class that its reels serve other nets too, or are on the shelf.
func (x *settled) shared(class int) string {
	n, stock := 0, false
	for i := range x.p.Nodes {
		if i == class || x.option[i] != x.option[class] {
			continue
		}
		if slices.ContainsFunc(x.p.Nodes[i].Sizes, func(z int) bool { return slices.Contains(x.p.Nodes[class].Sizes, z) }) {
			n++
		}
	}
	for _, z := range x.p.Nodes[class].Sizes {
		stock = stock || x.p.Price[z][x.option[class]] == 0
	}
	switch {
	case stock:
		return "on the shelf"
	case n > 0:
		return "shares its reel with " + unit.Counted(n, "other net")
	}
	return ""
}

// standing says how far each class is from those that it must not look like, those on the sleeve apart.
func (x *settled) standing() []string {
	count, smallest := make([]int, len(x.t.classes)), make([]int, len(x.t.classes))
	for _, e := range x.p.Edges {
		p, q := x.option[e.A], x.option[e.B]
		if e.Rank == fewest.Kin || x.Shop.alike[p][q] {
			continue
		}
		d := x.t.far[p][q]
		for _, c := range [2]int{e.A, e.B} {
			if count[c] == 0 || d < smallest[c] {
				smallest[c] = d
			}
			count[c]++
		}
	}
	out := make([]string, len(count))
	for c := range out {
		if count[c] > 0 {
			out[c] = standing(count[c], smallest[c])
		}
	}
	return out
}

// sleeved says which wires each class is told from by its number sleeve alone.
func (x *settled) sleeved() []string {
	names := make([][]string, len(x.t.classes))
	for _, p := range x.alike {
		a, b := x.t.class[p.A], x.t.class[p.B]
		names[a] = append(names[a], x.t.h.Wires[p.B].Name)
		names[b] = append(names[b], x.t.h.Wires[p.A].Name)
	}
	out := make([]string, len(names))
	for c, list := range names {
		if len(list) > 0 {
			out[c] = "its number sleeve tells it from " + strings.Join(list, ", ")
		}
	}
	return out
}

// report sums up. No ceilings are given: where reels are saved nothing is asked beyond the least
// distance at which colours are told apart.
func (x *settled) report(v *verdict) Report {
	none := make([]most, v.meetings())
	here := v.bySpot()
	for s := range none {
		none[s].nets, none[s].Distance = x.t.nets(here[s]), never
	}
	out := v.report(none)
	smallest := never
	for _, e := range x.p.Edges {
		p, q := x.option[e.A], x.option[e.B]
		if e.Rank != fewest.Kin && !x.Shop.alike[p][q] {
			smallest = min(smallest, x.t.far[p][q])
		}
	}
	out.LookAlikes, out.Smallest, out.Bound = len(x.alike), hundredths(smallest), 0
	return out
}

// bounds gives the bound of every size from which wire is bought.
func (x *settled) bounds() []SizeBound {
	bounds := fewest.Bounds(x.p, 4000)
	var out []SizeBound
	for z, b := range x.sizes {
		reels, used := map[int]bool{}, false
		for i := range x.p.Nodes {
			if slices.Contains(x.p.Nodes[i].Sizes, z) {
				used = true
				if o := x.option[i]; x.p.Price[z][o] > 0 {
					reels[o] = true
				}
			}
		}
		if used {
			out = append(out, SizeBound{b, len(reels), bounds[z].Least, bounds[z].Exact})
		}
	}
	return out
}

// problems are the findings on the colours but for what was left to the sleeve by choice.
func (x *settled) problems(v *verdict, a Ask) source.Problems {
	taught := map[[2]int]bool{}
	for _, y := range x.alike {
		taught[x.classes(y.A, y.B)] = true
	}
	v.alike = slices.DeleteFunc(v.alike, func(y alike) bool {
		return v.chosen(y) || v.kept(y) && (a.Numbers || x.before[x.classes(y.a, y.b)] || !taught[x.classes(y.a, y.b)])
	})
	return v.problems()
}

// kept tells whether the record holds the colour of one of two wires at least: an earlier run
// chose it, or a hand wrote it there.
func (v *verdict) kept(x alike) bool {
	of := func(w harness.WireID) bool { return v.force(w) == planned || v.force(w) == built }
	return of(x.a) || of(x.b)
}
