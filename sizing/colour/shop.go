package colour

import (
	"slices"
	"sort"

	"example.com/loomfolio/sizing/colour/fewest"
	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/unit"
)

// Bought is what reel a wire is cut from, but for its colour.
type Bought struct {
	Gauge      unit.Gauge
	Insulation string
}

// Ask says what is looked for.
type Ask struct {
	Numbers  bool    // as few colours as rules allow, sleeves tell the wires apart
	Tracer   float64 // what a tracer costs, in reels
	PartPair float64 // what two wires cost that only the sleeve tells apart at a part, in reels
	RunPair  float64 // the same in a run
	MostPart int     // no more such pairs at parts, those by rule apart; below 0: no limit
	MostRun  int     // the same in runs
	Moves    int     // how many changes are tried
	Start    []Pair  // by WireID, colours to begin with; nil for none
}

// Found is a colouring with what it costs.
type Found struct {
	Pairs     []Pair // by WireID
	Reels     int    // to be bought: those on the shelf and the cores of cables apart
	Tracers   int    // of them with a tracer
	PartPairs int    // of nets that look alike at a part where they should not, those by rule apart
	RunPairs  int    // the same in a run or, where asked for, at a branching
	RuleParts int    // the same at parts of which rules, or the description, leave neither a choice
	RuleRuns  int    // the same in runs
	Sum       float64
	Bound     int // no colouring that tells all apart needs fewer reels; 0 where it was not looked for
}

// Shop is everything about the colours of a loom that does not hang on the sizes of its wires.
// It may be used by several at once.
type Shop struct {
	base   *task
	alike  [][]bool
	family []int
	groups [][]harness.WireID // by net
	net    []int              // by group
	role   []role             // by group
	forest forest.Forest
	roles  []role
	locks  Locks
	rank   []int                // by wire: its place in the order of names
	meets  []encounter          // in the order of their nets
	shelf  map[unit.Gauge][]int // combinations that are there
	before [][2]harness.WireID  // wires that look alike by an earlier choice, as the record says
}

// encounter is two wires of different nets that meet where they must look different.
type encounter struct {
	a, b harness.WireID // in the order of their names
	rank fewest.Rank
	spot int
}

// NewShop prepares the question for any sizes.
func NewShop(h *harness.Harness, ways []route.Way, locks Locks) *Shop {
	t := &task{h: h, scale: scaleOf(h), order: byName(h), few: true}
	f := nets(h)
	s := &Shop{base: t, roles: roles(h, f), locks: locks, rank: make([]int, len(h.Wires))}
	s.forest, t.group = policy(h, f, s.roles)
	t.custom = t.customs(s.forest, s.roles)
	t.combos, t.issued = t.combinations(locks)
	t.meant = t.meanings()
	t.far = t.farTable()
	t.spots = spots(h, ways)
	t.core = h.OffReels()
	for i, w := range t.order {
		s.rank[w] = i
	}
	for _, wires := range t.byNet(s.forest) {
		net := s.forest.Root(int(h.Wires[wires[0]].From))
		s.groups, s.net, s.role = append(s.groups, wires), append(s.net, net), append(s.role, s.roles[net])
	}
	t.sides = make([]side, len(h.Wires))
	t.class = make([]int, len(h.Wires))
	for g, wires := range s.groups {
		for _, w := range wires {
			t.sides[w], t.class[w] = side{s.net[g], s.role[g] == ground, h.Wires[w].Existing}, g
		}
	}
	s.options()
	s.colours()
	s.stock()
	s.meets = t.encounters()
	s.before = sleevedBefore(h)
	return s
}

// sleevedBefore gives the wires that the record tells apart by their sleeves, under the names that it has.
func sleevedBefore(h *harness.Harness) [][2]harness.WireID {
	named := map[string]harness.WireID{}
	for i := range h.Wires {
		if k := &h.Wires[i].Kept; k.State != "" {
			named[k.Name] = harness.WireID(i)
		}
	}
	var out [][2]harness.WireID
	for i := range h.Wires {
		for _, name := range h.Wires[i].Kept.Sleeves {
			if other, known := named[name]; known {
				out = append(out, [2]harness.WireID{harness.WireID(i), other})
			}
		}
	}
	return out
}

// options prepares what every wire may take as thin and as thick wire.
func (s *Shop) options() {
	t := s.base
	options := make([][2]choice, len(t.h.Wires))
	var domains [][]int
	once := func(c choice) choice {
		for _, d := range domains {
			if slices.Equal(d, c.domain) {
				c.domain = d
				return c
			}
		}
		domains = append(domains, c.domain)
		return c
	}
	for g, wires := range s.groups {
		for _, w := range wires {
			options[w] = [2]choice{once(t.choiceOf(s.role[g], nil, unit.Gauge{}, w)), once(t.choiceOf(s.role[g], nil, heavy, w))}
		}
	}
	t.options = options
}

// heavy is a size that counts as thick.
var heavy = unit.Gauge{System: unit.Metric, Size: "16"}

// colours notes which combinations look alike.
func (s *Shop) colours() {
	t := s.base
	s.alike = make([][]bool, len(t.combos))
	for i := range s.alike {
		s.alike[i] = make([]bool, len(t.combos))
		for j := range s.alike[i] {
			s.alike[i][j] = t.far[i][j] < checkInGood
		}
		s.family = append(s.family, find(t.combos[i].Base))
	}
}

// stock notes the reels that are there.
func (s *Shop) stock() {
	s.shelf = map[unit.Gauge][]int{}
	for _, x := range s.base.h.Practice.Stock {
		if x.Gauge.Given() {
			s.shelf[x.Gauge] = append(s.shelf[x.Gauge], s.base.stocked(x)...)
		}
	}
}

// lay sorts the wires into classes for their sizes.
func (s *Shop) lay(bought []Bought) (*task, []Bought) {
	t := *s.base
	sizes, size := numbered(bought)
	t.gauges, t.areas = nil, make([]float64, len(t.h.Wires))
	gauges := make([]unit.Gauge, len(t.h.Wires))
	for _, b := range sizes {
		t.gauges = append(t.gauges, b.Gauge)
	}
	areas := make([]float64, len(sizes))
	for i, b := range sizes {
		areas[i] = area(b.Gauge)
	}
	for w, n := range size {
		gauges[w], t.areas[w] = bought[w].Gauge, areas[n]
	}
	t.hold(s.forest, s.roles, gauges, s.locks)
	t.classes = make([]class, 0, len(s.groups)+16)
	for g, wires := range s.groups {
		t.addGroup(s.net[g], s.role[g], wires, gauges, size)
	}
	sort.SliceStable(t.classes, func(i, j int) bool {
		return s.rank[t.classes[i].wires[0]] < s.rank[t.classes[j].wires[0]]
	})
	t.class = make([]int, len(t.h.Wires))
	for i := range t.classes {
		for _, w := range t.classes[i].wires {
			t.class[w] = i
		}
	}
	return &t, sizes
}

// numbered gives the different sizes in the order of the wires, and each wire's.
func numbered(bought []Bought) (sizes []Bought, size []int) {
	at := map[Bought]int{}
	size = make([]int, len(bought))
	for w, b := range bought {
		n, known := at[b]
		if !known {
			n = len(sizes)
			at[b], sizes = n, append(sizes, b)
		}
		size[w] = n
	}
	return sizes, size
}

// addGroup is addNet with sizes that differ by their insulation too, and cores of cables in none.
func (t *task) addGroup(net int, r role, wires []harness.WireID, gauges []unit.Gauge, size []int) {
	from := len(t.classes)
	t.addNet(net, r, wires, gauges)
	for i := from; i < len(t.classes); i++ {
		c := &t.classes[i]
		c.gauges = c.gauges[:0]
		for _, w := range c.wires {
			if !t.core[w] {
				c.gauges = withNumber(c.gauges, size[w])
			}
		}
	}
}

// question puts the classes in numbers.
func (s *Shop) question(t *task, sizes []Bought, a Ask) *fewest.Problem {
	p := &fewest.Problem{Alike: s.alike, Family: s.family, Most: [3]int{a.MostPart, a.MostRun, -1}}
	p.Pair = [3]int{thousandths(a.PartPair), thousandths(a.RunPair), 3000}
	if t.h.Practice.Apart.Runs == "colour" {
		p.Pair[fewest.Run] = max(p.Pair[fewest.Run], hard)
	}
	if a.Numbers {
		p.Pair, p.Most = [3]int{1, 1, 0}, [3]int{-1, -1, -1}
	}
	for _, c := range t.combos {
		p.Tracer = append(p.Tracer, c.Tracer != "")
	}
	for _, b := range sizes {
		price := make([]int, len(t.combos))
		for o := range price {
			price[o] = 1000
			if p.Tracer[o] {
				price[o] += thousandths(a.Tracer)
			}
		}
		if b.Insulation == t.h.Practice.Insulation {
			for _, o := range s.shelf[b.Gauge] {
				price[o] = 0
			}
		}
		p.Price = append(p.Price, price)
	}
	for i := range t.classes {
		c := &t.classes[i]
		p.Nodes = append(p.Nodes, fewest.Node{Options: c.domain, Sizes: c.gauges, Miss: missed(t.wish(c))})
	}
	p.Edges = append(s.edges(t), t.kin()...)
	return p
}

// hard is what two wires cost that must not look alike, in thousandths of a reel.
const hard = 20000

func thousandths(x float64) int { return int(x*1000 + 0.5) }

// missed turns how well a colour keeps to a convention into what it costs (judgement, not
// published): so little that a dozen wires together are no reason to buy a reel.
func missed(wish []int) []int {
	if wish == nil {
		return nil
	}
	out := make([]int, len(wish))
	for o, hit := range wish {
		out[o] = [...]int{60, 20, 0}[hit]
	}
	return out
}

// kin joins the classes that keep one base across devices, each with the next of its group.
func (t *task) kin() []fewest.Edge {
	if t.group == nil {
		return nil
	}
	last := map[int]int{}
	var out []fewest.Edge
	for i := range t.classes {
		g := t.groupOf(&t.classes[i])
		if g == 0 {
			continue
		}
		if before, known := last[g]; known {
			out = append(out, fewest.Edge{A: before, B: i, Rank: fewest.Kin})
		}
		last[g] = i
	}
	return out
}

// Fewest looks for the colours that cost least. Bought is by WireID. Of two colourings the one with
// fewer pairs beyond the limits comes first, then the less sum: 1 a reel that is not on the shelf,
// and what is asked for a tracer and for pairs that only the sleeve tells apart.
func (s *Shop) Fewest(bought []Bought, a Ask) Found {
	t, sizes := s.lay(bought)
	p := s.question(t, sizes, a)
	out := t.found(p, fewest.Solve(p, t.begun(a.Start), a.Moves))
	for _, b := range fewest.Bounds(p, 0) {
		out.Bound += b.Least
	}
	return out
}

// Of measures colours without looking for better ones. A wire whose colour cannot be had in its
// size takes the first that can.
func (s *Shop) Of(bought []Bought, pairs []Pair, a Ask) Found {
	t, sizes := s.lay(bought)
	p := s.question(t, sizes, a)
	return t.found(p, p.Begin(t.begun(pairs)))
}

// begun gives the options of the classes by the colours of their first wires; -1 for none.
func (t *task) begun(pairs []Pair) []int {
	if pairs == nil {
		return nil
	}
	at := map[Pair]int{}
	for i, p := range t.combos {
		at[p] = i
	}
	out := make([]int, len(t.classes))
	for i := range t.classes {
		out[i] = -1
		for _, w := range t.classes[i].wires {
			if o, known := at[pairs[w]]; known && slices.Contains(t.classes[i].domain, o) {
				out[i] = o
				break
			}
		}
	}
	return out
}

// found counts a colouring.
func (t *task) found(p *fewest.Problem, option []int) Found {
	m := p.Measure(option)
	out := Found{Pairs: make([]Pair, len(t.h.Wires)), Reels: m.Reels, Tracers: m.Tracers, Sum: float64(m.Cost) / 1000}
	out.PartPairs, out.RuleParts = m.Pairs[fewest.Part]-m.Rule[fewest.Part], m.Rule[fewest.Part]
	out.RunPairs, out.RuleRuns = m.Pairs[fewest.Run]-m.Rule[fewest.Run], m.Rule[fewest.Run]
	for w := range out.Pairs {
		out.Pairs[w] = t.combos[option[t.class[w]]]
	}
	return out
}
