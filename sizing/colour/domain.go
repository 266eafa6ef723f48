package colour

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strconv"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// combinations gives every base and tracer that may come up: first those that
// are issued unasked (the usual colours plain, then with the tracers that
// stand off them), then what else the shelf, the description, a lock or a
// convention names. GN/YE and YE/GN belong to the protective earth of the mains
// (IEC 60757:2021 clause 5.1, IEC 60445) and are never issued.
func (t *task) combinations(locks Locks) (combos []Pair, issued int) {
	var out []Pair
	common := Letters()[:usual]
	for _, base := range common {
		out = append(out, Pair{Base: base})
	}
	for _, base := range common {
		for _, tracer := range common {
			p := Pair{Base: base, Tracer: tracer}
			if t.scale.single(base, tracer) >= least && !earthPair(p) {
				out = append(out, p)
			}
		}
	}
	return append(out, t.extras(locks, out)...), len(out)
}

func earthPair(p Pair) bool {
	return p == Pair{"GN", "YE"} || p == Pair{"YE", "GN"}
}

// extras gives the pairs that are named somewhere and not yet in the list, in
// the order of their letters.
func (t *task) extras(locks Locks, have []Pair) []Pair {
	seen := map[Pair]bool{}
	for _, p := range have {
		seen[p] = true
	}
	var out []Pair
	for _, p := range t.named(locks) {
		if !seen[p] {
			seen[p] = true
			out = append(out, p)
		}
	}
	sort.Slice(out, func(i, j int) bool { return out[i].String() < out[j].String() })
	return out
}

func (t *task) named(locks Locks) []Pair {
	h := t.h
	out := []Pair{practicePair(h.Practice.GroundColour, "BK"), practicePair(h.Practice.FeedColour, "RD")}
	for _, s := range h.Practice.Stock {
		for _, c := range s.Colours {
			out = append(out, Pair{Base: c.Base, Tracer: c.Tracer})
		}
	}
	for w := range h.Wires {
		if p := (Pair{h.Wires[w].Base, h.Wires[w].Tracer}); p.Base != "" {
			out = append(out, p)
		}
		if lock, ok := locks[harness.WireID(w)]; ok {
			out = append(out, lock.Pair)
		}
	}
	for _, c := range t.custom {
		if c != nil && c.named() {
			out = append(out, c.colour)
		}
	}
	return out
}

// practicePair reads a colour of the practice, with the customary one where
// it says nothing that can be read.
func practicePair(text, customary string) Pair {
	if p, err := Parse(text); err == nil {
		return p
	}
	return Pair{Base: customary}
}

// apart gives the distance of any two combinations.
func (t *task) apart() [][]int {
	out := make([][]int, len(t.combos))
	for i := range out {
		out[i] = make([]int, len(t.combos))
		for j := range i {
			out[i][j] = t.scale.apart(t.combos[i], t.combos[j])
			out[j][i] = out[i][j]
		}
	}
	return out
}

// farTable is the same with swapped pairs at 0, as equal ones are, so that they
// never stand side by side.
func (t *task) farTable() [][]int {
	far := t.apart()
	for i, p := range t.combos {
		for j, q := range t.combos {
			if swapped(p, q) {
				far[i][j] = 0
			}
		}
	}
	return far
}

func (t *task) index(p Pair) int {
	for i, c := range t.combos {
		if c == p {
			return i
		}
	}
	return 0
}

// choiceOf gives what a wire may take, given the colours held by other wires of
// its net. The order of force: ground, battery feed, the colour held by another
// wire of its net, thick wire, conventions that are insisted on, the shelf.
func (t *task) choiceOf(r role, held []int, g unit.Gauge, w harness.WireID) choice {
	groundPair := practicePair(t.h.Practice.GroundColour, "BK")
	feedPair := practicePair(t.h.Practice.FeedColour, "RD")
	switch r {
	case ground:
		return choice{rule: fmt.Sprintf("ground: %s by practice", groundPair), domain: []int{t.index(groundPair)}}
	case feed:
		return choice{rule: fmt.Sprintf("battery feed before any fuse: %s by practice", feedPair), domain: []int{t.index(feedPair)}}
	}
	shelf := t.shelf(g)
	if same := both(held, shelf.domain); len(same) > 0 {
		return choice{rule: "as the given wire of its net", domain: same[:1]}
	}
	return t.byCustom(t.custom[w], shelf, groundPair, feedPair, thick(g))
}

// byCustom narrows or widens what the shelf has by what the conventions have for a wire.
func (t *task) byCustom(c *custom, shelf choice, groundPair, feedPair Pair, thick bool) choice {
	out := t.withoutReserved(shelf, groundPair, feedPair)
	insist := t.h.Practice.Insist
	switch {
	case c == nil && insist && shelf.rule == "":
		out.domain = t.unmeant(out.domain)
	case c == nil, !c.named(), c.colour.Base == groundPair.Base, thick && c.colour != feedPair:
	case insist:
		return choice{rule: c.says(), domain: []int{t.index(c.colour)}}
	case shelf.rule == "" && (c.colour != feedPair || strings.HasPrefix(c.function, "permanent")): // live always, as the feeds are
		out.domain = withNumber(out.domain, t.index(c.colour))
	}
	return out
}

// meanings marks the combinations that mean something on a wire of the loom.
func (t *task) meanings() []bool {
	out := make([]bool, len(t.combos))
	for w, c := range t.custom {
		if c != nil && c.named() && (w == 0 || t.custom[w-1] != c) {
			out[t.index(c.colour)] = true
		}
	}
	return out
}

// unmeant leaves out what means something on another wire of the loom, where the
// conventions are kept always; all stays where nothing else is left.
func (t *task) unmeant(domain []int) []int {
	rest := slices.DeleteFunc(slices.Clone(domain), func(i int) bool { return t.meant[i] })
	if len(rest) == 0 {
		return domain
	}
	return rest
}

// choiceFor is choiceOf, looked up where it was prepared.
func (t *task) choiceFor(r role, held []int, g unit.Gauge, w harness.WireID) choice {
	if t.options == nil || len(held) > 0 {
		return t.choiceOf(r, held, g, w)
	}
	if thick(g) {
		return t.options[w][1]
	}
	return t.options[w][0]
}

// shelf gives what can be had in a gauge: the stock where it is stated, black
// and red for thick wire (common practice, no source), else everything usual.
func (t *task) shelf(g unit.Gauge) choice {
	for _, s := range t.h.Practice.Stock {
		if s.Gauge == g && g.Given() && !t.few {
			return choice{rule: "from the shelf", domain: t.stocked(s)}
		}
	}
	if thick(g) {
		return choice{rule: "thick wire comes in BK and RD", domain: []int{t.index(Pair{Base: "BK"}), t.index(Pair{Base: "RD"})}}
	}
	return choice{domain: t.usualDomain()}
}

func (t *task) stocked(s harness.Stock) []int {
	var out []int
	for _, c := range s.Colours {
		if p := (Pair{Base: c.Base, Tracer: c.Tracer}); !earthPair(p) {
			out = append(out, t.index(p))
		}
	}
	sort.Ints(out)
	return out
}

// withoutReserved leaves the base of the ground's colour to the grounds, with a tracer too,
// whatever the shelf holds: who reaches for a ground must not take hold of what is live. The
// feed's colour it leaves to the feeds as long as something else remains.
func (t *task) withoutReserved(c choice, groundPair, feedPair Pair) choice {
	rest := t.without(c.domain, groundPair.Base, Pair{})
	if len(rest) < len(c.domain) && c.rule != "" {
		c.rule += fmt.Sprintf(", and %s is the ground's", groundPair.Base)
	}
	if len(rest) == 0 {
		rest = t.without(t.usualDomain(), groundPair.Base, Pair{})
	}
	c.domain = rest
	if rest = t.without(rest, "", feedPair); len(rest) > 0 {
		c.domain = rest
	}
	return c
}

// without leaves out the combinations of a base, and one pair.
func (t *task) without(domain []int, base string, pair Pair) []int {
	var out []int
	for _, i := range domain {
		if t.combos[i].Base != base && t.combos[i] != pair {
			out = append(out, i)
		}
	}
	return out
}

// usualDomain is what is issued unasked.
func (t *task) usualDomain() []int {
	all := make([]int, t.issued)
	for i := range all {
		all[i] = i
	}
	return all
}

// thick tells whether a gauge is 10 mm2 or 8 gauge or heavier.
func thick(g unit.Gauge) bool {
	if g.System == unit.Metric {
		return area(g) >= 10
	}
	n, ok := gaugeNumber(g.Size)
	return ok && n <= 8
}

// area gives a size's copper in mm2: of metric wire its name, of a gauge number
// that of a solid wire by ASTM B258 (d = 0.127 mm x 92^((36-n)/39)). Sizes are
// only compared here. 0 where the size is not known.
func area(g unit.Gauge) float64 {
	if g.System == unit.Metric {
		mm2, err := strconv.ParseFloat(g.Size, 64)
		if err != nil {
			return 0
		}
		return mm2
	}
	n, ok := gaugeNumber(g.Size)
	if !ok {
		return 0
	}
	d := 0.127 * math.Pow(92, float64(36-n)/39)
	return math.Pi / 4 * d * d
}

// gaugeNumber reads 12 as 12, 1/0 as 0 and 3/0 as -2.
func gaugeNumber(size string) (int, bool) {
	if noughts, ok := strings.CutSuffix(size, "/0"); ok {
		n, err := strconv.Atoi(noughts)
		return 1 - n, err == nil
	}
	n, err := strconv.Atoi(size)
	return n, err == nil
}
