package colour

import (
	"fmt"
	"slices"

	"example.com/loomfolio/sizing/colour/fewest"
	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Bought is what a wire is cut from, but for its colour.
type Bought struct {
	Gauge      unit.Gauge
	Insulation string
}

// Ask is what is asked of the colours.
type Ask struct {
	Numbers                   bool    // one colour a size: number sleeves tell the wires apart
	Tracer, PartPair, RunPair float64 // what they count, in reels
	MostPart, MostRun         int     // pairs that may be told apart by the sleeve alone; below 0: any number
	Moves                     int     // of the search
	Start                     []Pair  // by WireID: colours to begin with; nil for none
}

// Found is a colouring with what it comes to.
type Found struct {
	Pairs               []Pair // by WireID
	Reels, Tracers      int
	PartPairs, RunPairs int
	Sum                 float64 // reels, tracers and pairs, weighed
	Bound               int     // no colouring that tells all apart needs fewer reels
}

// Shop is the question of few reels, as far as it does not hang on sizes.
type Shop struct {
	task
	locks  Locks
	net    forest.Forest
	roles  []role
	near   [][]bool // by two combinations
	mixups []mixup
	wires  [][]harness.WireID // by net
}

// NewShop lays it out. ways are by WireID.
func NewShop(h *harness.Harness, ways []route.Way, locks Locks) *Shop {
	s := &Shop{task: task{h: h, scale: scaleOf(h), customs: customs(h), order: byName(h), few: true}, locks: locks}
	s.combos, s.issued = s.combinations(locks)
	s.far, s.core = s.farTable(), h.Cores()
	s.spots = spots(h, ways)
	f := nets(h)
	s.roles = roles(h, f)
	s.net, s.group = policy(h, f, s.roles)
	s.wires = s.byNet(s.net)
	s.near = make([][]bool, len(s.far))
	for i := range s.far {
		s.near[i] = make([]bool, len(s.far))
		for j := range s.far {
			s.near[i][j] = i == j || s.far[i][j] < checkInGood
		}
	}
	s.mixups = s.allMixups()
	return s
}

// asked is the question for some sizes.
type asked struct {
	*task
	p     *fewest.Problem
	edges []meetingOf // by edge of p
}

// meetingOf is where the wires of an edge meet.
type meetingOf struct{ mixup }

// ask lays out the question for some sizes.
func (s *Shop) ask(bought []Bought, a Ask) *asked {
	t := s.task
	gauges := make([]unit.Gauge, len(bought))
	t.areas = make([]float64, len(bought))
	for w := range bought {
		gauges[w] = bought[w].Gauge
		t.areas[w] = area(gauges[w])
	}
	t.hold(s.net, s.roles, gauges, s.locks)
	for _, wires := range s.wires {
		net := s.net.Root(int(s.h.Wires[wires[0]].From))
		t.addNet(net, s.roles[net], wires, gauges)
	}
	t.sortClasses()
	t.sides = nil
	for w := range s.h.Wires {
		c := &t.classes[t.class[w]]
		t.sides = append(t.sides, side{c.net, c.role == ground})
	}
	q := &asked{task: &t}
	q.p = q.problem(s, bought, a)
	return q
}

// problem puts it in numbers.
func (q *asked) problem(s *Shop, bought []Bought, a Ask) *fewest.Problem {
	p := &fewest.Problem{Near: s.near, Limit: [2]int{a.MostPart, a.MostRun}}
	for _, c := range q.combos {
		price := 1.0
		if c.Tracer != "" {
			price += a.Tracer
		}
		p.Price = append(p.Price, price)
	}
	number := map[Bought]int{}
	for i := range q.classes {
		c := &q.classes[i]
		n := fewest.Node{Options: c.domain}
		if a.Numbers && !c.fixed() {
			n.Options = []int{q.plainest(c)}
		}
		n.Extra = q.extra(c, n.Options)
		for _, w := range c.wires {
			if q.core[w] || q.held[w].force == built {
				continue
			}
			r, known := number[bought[w]]
			if !known {
				r = len(number)
				number[bought[w]] = r
				p.Free = append(p.Free, q.free(bought[w]))
			}
			n.Reels = withNumber(n.Reels, r)
		}
		p.Nodes = append(p.Nodes, n)
	}
	p.Reels = len(number)
	q.join(s, p, a)
	return p
}

// plainest gives the one colour of a size: white where it may be (MIL-STD-681F 5.5), else the first.
func (q *asked) plainest(c *class) int {
	if white := q.index(Pair{Base: "WH"}); slices.Contains(c.domain, white) {
		return white
	}
	return c.domain[0]
}

// wishWeight is what a colour counts that is none of its convention, in reels.
const wishWeight = 1.2

// extra says what options cost besides: those that are none of the convention for a class.
func (q *asked) extra(c *class, options []int) []float64 {
	wish := q.wish(c)
	if wish == nil || len(options) == 1 {
		return nil
	}
	out := make([]float64, len(options))
	for i, o := range options {
		out[i] = wishWeight * float64(2-wish[o]) / 2
	}
	return out
}

// free marks the combinations that lie on the shelf.
func (q *asked) free(b Bought) []bool {
	if b.Insulation != q.h.Practice.Insulation {
		return nil
	}
	var out []bool
	for _, s := range q.h.Practice.Stock {
		if s.Gauge != b.Gauge {
			continue
		}
		if out == nil {
			out = make([]bool, len(q.combos))
		}
		for _, c := range s.Colours {
			out[q.index(Pair{c.Base, c.Tracer})] = true
		}
	}
	return out
}

// join makes the edges between the classes.
func (q *asked) join(s *Shop, p *fewest.Problem, a Ask) {
	n := len(q.classes)
	at := make([]int32, n*n)
	for i := range s.mixups {
		m := &s.mixups[i]
		x, y := q.class[m.a], q.class[m.b]
		if x == y || q.toldBySize(m.a, m.b) {
			continue
		}
		if x > y {
			x, y = y, x
		}
		k := &at[x*n+y]
		if *k == 0 {
			cost := a.PartPair
			if m.rank == 1 {
				cost = a.RunPair
			}
			p.Edges = append(p.Edges, fewest.Edge{A: x, B: y, Rank: m.rank, Cost: cost})
			q.edges = append(q.edges, meetingOf{*m})
			*k = int32(len(p.Edges))
		}
	}
}

// Fewest seeks colours for some sizes.
func (s *Shop) Fewest(bought []Bought, a Ask) Found {
	q := s.ask(bought, a)
	option, cost := fewest.Solve(q.p, q.start(a.Start), a.Moves)
	return q.found(option, cost)
}

// Of measures some colours.
func (s *Shop) Of(bought []Bought, pairs []Pair, a Ask) Found {
	q := s.ask(bought, a)
	option := q.start(pairs)
	return q.found(option, fewest.Measure(q.p, option))
}

// start gives by class an option near some colours by wire.
func (q *asked) start(pairs []Pair) []int {
	if pairs == nil {
		return nil
	}
	out := make([]int, len(q.classes))
	for i := range q.classes {
		options := q.p.Nodes[i].Options
		out[i] = options[0]
		for _, w := range q.classes[i].wires {
			if o := q.index(pairs[w]); q.combos[o] == pairs[w] && slices.Contains(options, o) {
				out[i] = o
				break
			}
		}
	}
	return out
}

func (q *asked) found(option []int, c fewest.Cost) Found {
	f := Found{Pairs: make([]Pair, len(q.h.Wires)), Reels: c.Reels, PartPairs: c.Near[0], RunPairs: c.Near[1], Sum: c.Sum}
	used := map[[2]int]bool{}
	for i := range q.classes {
		for _, w := range q.classes[i].wires {
			f.Pairs[w] = q.combos[option[i]]
		}
		for _, r := range q.p.Nodes[i].Reels {
			used[[2]int{r, option[i]}] = true
		}
	}
	for k := range used {
		free := q.p.Free[k[0]]
		if q.combos[k[1]].Tracer != "" && (free == nil || !free[k[1]]) {
			f.Tracers++
		}
	}
	return f
}

// Alike is two nets whose wires only their number sleeves tell apart where they meet.
type Alike struct {
	A, B     harness.WireID // one wire of each, in the order of their names
	Part     harness.PartID // None where they only share a run
	Run      harness.RunID  // None where they meet at a part
	Distance float64        // CIEDE2000
	ByRule   bool           // neither has a choice
}

// SizeBound tells how many reels of one size are bought, and that no fewer tell all apart.
type SizeBound struct {
	Gauge unit.Gauge
	Reels int
	Least int
	Exact bool
}

// Settle writes the colours out with their reasons, and judges them.
func (s *Shop) Settle(bought []Bought, pairs []Pair, a Ask) ([]Choice, Report, []Alike, []SizeBound, source.Problems) {
	q := s.ask(bought, a)
	option := q.start(pairs)
	choices := q.choices(option)
	v := q.judge(choices, option)
	return choices, v.fewReport(), q.alike(option), nil, v.fewProblems()
}

// choices are by wire.
func (q *asked) choices(option []int) []Choice {
	out := make([]Choice, len(q.h.Wires))
	users := map[int]int{}
	for i := range q.classes {
		users[option[i]] += len(q.classes[i].wires)
	}
	for i := range q.classes {
		c := &q.classes[i]
		reason := c.rule
		if !c.fixed() {
			reason = joined(joined(c.rule, q.customReason(c, q.wish(c), option[i])), fmt.Sprintf("one of the %d wires in %s", users[option[i]], q.combos[option[i]]))
		}
		for _, w := range c.wires {
			found := Pair{q.h.Wires[w].Found.Base, q.h.Wires[w].Found.Tracer}
			out[w] = Choice{Pair: q.combos[option[i]], Reason: reason, Given: c.given(), Found: found}
			if found.Base != "" {
				out[w].Reason = joined(reason, fmt.Sprintf("%s in the car as found", found))
			}
		}
	}
	return out
}

// alike lists the near pairs.
func (q *asked) alike(option []int) []Alike {
	var out []Alike
	for i, e := range q.p.Edges {
		if !q.p.Near[option[e.A]][option[e.B]] {
			continue
		}
		m := q.edges[i]
		x := Alike{A: m.a, B: m.b, Part: harness.PartID(harness.None), Run: harness.RunID(harness.None)}
		x.Distance = hundredths(q.far[option[e.A]][option[e.B]])
		x.ByRule = q.classes[e.A].fixed() && q.classes[e.B].fixed()
		if m.rank == 0 {
			x.Part = harness.PartID(m.spot)
		} else {
			x.Run = harness.RunID(m.spot)
		}
		out = append(out, x)
	}
	return out
}

// fewReport sums up without ceilings.
func (v *verdict) fewReport() Report {
	return v.report(make([]most, v.meetings()))
}

// fewProblems leaves out what was chosen so.
func (v *verdict) fewProblems() source.Problems {
	kept := v.alike[:0]
	for _, x := range v.alike {
		if v.classes[v.class[x.a]].fixed() && v.classes[v.class[x.b]].fixed() {
			kept = append(kept, x)
		}
	}
	v.alike = kept
	return v.problems()
}

// Taught says in words which wires must look different.
func Taught(h *harness.Harness) string {
	a := h.Practice.Apart
	out := "all wires at a part"
	if a.Near > 0 {
		out = fmt.Sprintf("in panels, plugs and modules wires within %s of each other, at every other part all", unit.Counted(a.Near, "position"))
	}
	if a.Runs == "colour" {
		out += "; all in one run"
	} else {
		out += "; in one run where that costs no reel"
	}
	if a.Branchings {
		out += "; all that pass one branching"
	}
	return out
}
