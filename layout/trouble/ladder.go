package trouble

import (
	"slices"
	"strings"

	"example.com/loomfolio/layout/cause"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/unit"
)

// teller words the proof for a reader.
type teller struct {
	page.Ask
	say    cause.Words
	loads  map[harness.ElementID]int // places in the results' loads
	blower blowers
	behind behind
	relays []relayed
	others map[int][]int // by ladder: what leaves its load dead in other states alone
}

func tellerOf(a page.Ask) teller {
	t := teller{Ask: a, say: cause.Words{H: a.H, P: &a.R.Proof}, loads: map[harness.ElementID]int{}, blower: blowersOf(a), behind: behindOf(a)}
	for i, l := range a.R.Loads {
		t.loads[l.Element] = i
	}
	t.relays, t.others = t.relayedOf(), t.only()
	return t
}

// line is one line of a card: a point with its right volts and what it is when they are
// not read, or a heading over the points that follow.
type line struct {
	depth        int
	point, volts string
	means        string
	ends         int      // of a heading: how many ladders end under it, before the next
	head, remark string   // of a heading: whose points follow, and in which states after which point
	anchors      []string // ladder/REF of the loads' parts, ladder/POINT of what feeds others
}

// block is the points of one load, of several that begin alike, or of what feeds them.
type block struct {
	feeds   string // the point up to which it feeds others, "" of loads
	head    string // the loads
	remark  string
	from    string // the points behind which it begins
	anchors []string
	lines   []line
	ladders []int // that end in it
}

// How many lines a block of several loads has at most, of one circuit or of several; what
// they share stands by itself where it would have more.
const (
	mostOwn    = 26
	mostShared = 12
)

// blocks are those of all loads: what feeds several circuits, the loads, and what several return through.
func (t teller) blocks() (feeds, own, returns []block) {
	stems, back := stems(t.Ask)
	for _, k := range stems {
		f, o := t.parted(k, t.after(k))
		feeds, own = append(feeds, f...), append(own, o...)
	}
	for _, k := range back {
		returns = append(returns, block{lines: t.lines(k, 0)})
	}
	return feeds, own, returns
}

// ladders are the cards of all loads: one of what feeds several circuits, then one a circuit in
// the order of their numbers.
func (t teller) ladders() []card {
	feeds, own, returns := t.blocks()
	var out []card
	if len(feeds) > 0 {
		out = append(out, cardOf("Feeds", feeds))
	}
	byCircuit := map[string][]block{}
	var names []string
	for _, b := range own {
		name := t.circuitName(b.ladders[0])
		if byCircuit[name] == nil {
			names = append(names, name)
		}
		byCircuit[name] = append(byCircuit[name], b)
	}
	slices.SortStableFunc(names, unit.Natural)
	for _, name := range names {
		out = append(out, cardOf(name, byCircuit[name]))
	}
	if len(returns) > 0 {
		out = append(out, cardOf("Shared ground", returns))
	}
	return onceAnchored(out)
}

// cardOf is the card of some blocks; of one that is called as the card its remark stands beside the title.
func cardOf(title string, blocks []block) card {
	c := card{title: title}
	for _, b := range blocks {
		head := line{head: page.Or(b.feeds, b.head), remark: b.remark, anchors: b.anchors}
		c.ladders = append(c.ladders, b.ladders...)
		_, name, _ := strings.Cut(title, " · ")
		alike := strings.EqualFold(b.head, page.Or(name, title)) || b.named()
		switch {
		case len(blocks) == 1 && alike:
			c.remark, c.anchors = b.remark, b.anchors
		case head.head != "":
			c.lines = append(c.lines, head)
		}
		c.lines = append(c.lines, b.lines...)
	}
	return c
}

// named tells that headings under that of a block name each of its loads.
func (b block) named() bool {
	n := 0
	for _, l := range b.lines {
		n += l.ends
	}
	return n > 0 && n == len(b.ladders)
}

// onceAnchored leaves each anchor at its first place: two feeds may end at one point, and
// a part may have several loads.
func onceAnchored(cards []card) []card {
	seen := map[string]bool{}
	first := func(list []string) []string {
		return slices.DeleteFunc(slices.Clone(list), func(a string) bool {
			again := seen[a]
			seen[a] = true
			return again
		})
	}
	for i := range cards {
		cards[i].anchors = first(cards[i].anchors)
		for k := range cards[i].lines {
			cards[i].lines[k].anchors = first(cards[i].lines[k].anchors)
		}
	}
	return cards
}

// after names the points that lead to a stem that begins anew.
func (t teller) after(s *stem) string {
	var names []string
	for _, p := range s.after {
		if p != proof.None {
			names = append(names, page.Firm(t.say.Point(p)))
		}
	}
	return strings.Join(names, " or ")
}

// parted is a stem as blocks: one, or what is shared and then what hangs on it.
func (t teller) parted(s *stem, from string) (feeds, own []block) {
	loads := s.all()
	lines := t.lines(s, 0)
	if len(loads) == len(s.pass) && (len(loads) == 1 || len(s.kids) == 0 || t.oneCircuit(loads) && len(lines) <= mostOwn || len(lines) <= mostShared) {
		return nil, []block{t.block(loads, lines, from)}
	}
	last := t.say.Point(s.rungs[len(s.rungs)-1].point)
	feeds = []block{{feeds: "to " + last, anchors: []string{"ladder/" + last}, remark: page.Dotted(t.running(s.pass), afterWords(from)), lines: t.rungs(s.rungs, 0), from: from}}
	if len(s.ends) > 0 {
		own = append(own, t.block(s.ends, nil, last))
	}
	for _, k := range s.kids {
		f, o := t.parted(k, page.Firm(last))
		feeds, own = append(feeds, f...), append(own, o...)
	}
	return feeds, own
}

// block is that of some ladders.
func (t teller) block(loads []int, lines []line, from string) block {
	out := block{head: page.Capital(strings.Join(t.names(loads), ", ")), remark: t.remark(from, loads), lines: slices.Concat(lines, t.otherwise(loads)), from: from, ladders: loads}
	for _, i := range loads {
		if p := t.Part(t.H.Elements[t.R.Proof.Ladders[i].Load].Part); p != nil {
			out.anchors = append(out.anchors, "ladder/"+p.Ref)
		}
	}
	return out
}

// names are the loads of some ladders in plain words.
func (t teller) names(ladders []int) []string {
	var names []string
	for _, i := range ladders {
		names = append(names, t.H.Elements[t.R.Proof.Ladders[i].Load].Name)
	}
	return page.LoadNames(t.Ask, names)
}

// feeder is the circuit that brings a load its supply; nil where none does.
func (t teller) feeder(load harness.ElementID) *harness.Circuit {
	i, ok := t.loads[load]
	if !ok || len(t.R.Loads[i].Feed) == 0 {
		return nil
	}
	feed := t.R.Loads[i].Feed
	if c := t.H.Wires[feed[len(feed)-1]].Circuit; c >= 0 && int(c) < len(t.H.Circuits) {
		return &t.H.Circuits[c]
	}
	return nil
}

// circuit is that of a ladder's load.
func (t teller) circuit(ladder int) *harness.Circuit { return t.feeder(t.R.Proof.Ladders[ladder].Load) }

// circuitName is the name of that circuit as its diagram has it.
func (t teller) circuitName(ladder int) string {
	if c := t.circuit(ladder); c != nil {
		return page.Dotted(c.Number, c.Name)
	}
	return "Other loads"
}

func (t teller) oneCircuit(ladders []int) bool {
	first := t.circuit(ladders[0])
	return !slices.ContainsFunc(ladders, func(i int) bool { return t.circuit(i) != first })
}

// mostStates is how many states are named; where there are more the readings hold in all of them.
const mostStates = 3

// remark says in which states the readings hold and what stands before them.
func (t teller) remark(from string, ladders []int) string {
	var states []string
	for _, i := range ladders {
		if s := t.R.Proof.Ladders[i].State; s >= 0 && s < len(t.H.States) && !slices.Contains(states, t.H.States[s].Name) {
			states = append(states, t.H.States[s].Name)
		}
	}
	if len(states) > mostStates {
		states = nil
	}
	return page.Dotted(strings.Join(states, ", "), afterWords(from))
}

// running says that a feed is read with the engine running alone.
func (t teller) running(ladders []int) string {
	for _, i := range ladders {
		if engineOf(t.Ask, t.R.Proof.Ladders[i].State) != harness.EngineRunning {
			return ""
		}
	}
	return "running"
}

func afterWords(from string) string {
	if from == "" {
		return ""
	}
	return "after " + from
}

// lines are those of a stem and of all that hangs on it.
func (t teller) lines(s *stem, depth int) []line {
	out := t.rungs(s.rungs, depth)
	for _, k := range s.kids {
		if len(k.all()) == 0 {
			out = append(out, t.lines(k, depth)...)
			continue
		}
		out = append(out, line{depth: depth + 1, ends: len(k.ends), head: page.Capital(strings.Join(t.names(k.all()), ", "))})
		out = append(out, t.lines(k, depth+1)...)
	}
	return out
}

// rungs are the lines of some points: the two sides of a plug are one, and a point that tells
// nothing is left out.
func (t teller) rungs(rungs []rung, depth int) []line {
	var out []line
	for i, r := range rungs {
		l := line{depth: depth, point: t.say.Point(r.point), volts: rightWords(r.right), means: t.means(r)}
		switch n := len(out); {
		case n > 0 && out[n-1].point == l.point:
			r.less, r.more = slices.Concat(rungs[i-1].less, r.less), slices.Concat(rungs[i-1].more, r.more)
			out[n-1].volts, out[n-1].means = l.volts, t.means(r)
		case l.means != "":
			out = append(out, l)
		}
	}
	return out
}

// rightWords are the readings that are right; with the engine off and running the low limits alone.
func rightWords(all []right) string {
	if len(all) == 1 {
		return cause.Limits(all[0].low, all[0].high)
	}
	var out []string
	for _, r := range all {
		if r.engine != harness.EngineCranking {
			out = append(out, cause.Least(r.low, r.high))
		}
	}
	return strings.NewReplacer("/≥", "/", "/≤", "/").Replace(strings.Join(slices.Compact(out), "/"))
}

// means says what it is when another reading is taken; where some causes give less and others more, which.
func (t teller) means(r rung) string {
	t.say.Spells = func(faults []int) []cause.Spell { return t.spells(r.point, faults) }
	less, more := t.blower.causes(t.Ask, r.point, r.less), t.blower.causes(t.Ask, r.point, r.more)
	if len(less) == 0 || len(more) == 0 || r.grounded() {
		return t.split(r.point, slices.Concat(less, more))
	}
	return page.List("; ", "more: "+t.say.Grouped(more), "less: "+t.say.Grouped(less))
}
