package colour

import (
	"sort"

	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// class is wires that take one colour: those of a net, less the wires whose
// colour is held, less those of a gauge in which the net's colour cannot be had.
type class struct {
	net    int
	role   role
	rule   string // why the domain is narrow, for the reason
	force  force
	wires  []harness.WireID // in the order of their names
	domain []int            // combinations that may be issued, in order of preference
	gauges []int            // distinct gauges, as numbers of task.gauges
}

func (c *class) fixed() bool { return len(c.domain) == 1 }
func (c *class) given() bool { return c.force == written }

// task is the whole question: which combination for which class.
type task struct {
	h       *harness.Harness
	scale   *scale
	custom  []*custom // by wire: what the conventions have for it, nil for nothing
	combos  []Pair
	meant   []bool  // by combination: a convention in force has it for a wire here
	issued  int     // the first combos, which may be issued unasked
	far     [][]int // distance of two combinations, 1/100; 0 when equal or swapped
	held    []held  // by wire
	core    []bool  // by wire: a core of a cable
	broken  []broken
	classes []class // in the order of their first wires' names
	order   []harness.WireID
	class   []int // by wire
	gauges  []unit.Gauge
	spots   [][]stay  // by wire: the parts, runs and branchings where it meets others
	areas   []float64 // by wire: copper, mm2; 0 where not known
	sides   []side    // by wire
	group   forest.Forest
	options [][2]choice // by wire, thin and thick, where nothing is held on its net; nil where not prepared
	few     bool        // reels are saved: what is on the shelf is free, and more may be bought
}

// choice is what one wire may take, and why.
type choice struct {
	rule   string
	domain []int
}

// byNet groups the wires by net; groups and wires in the order of their names.
func (t *task) byNet(f forest.Forest) [][]harness.WireID {
	groups := make([][]harness.WireID, len(f))
	for _, w := range t.order {
		root := f.Root(int(t.h.Wires[w].From))
		groups[root] = append(groups[root], w)
	}
	var out [][]harness.WireID
	for _, w := range t.order {
		if g := groups[f.Root(int(t.h.Wires[w].From))]; g[0] == w {
			out = append(out, g)
		}
	}
	return out
}

// addNet splits one net into its classes: held wires first, the strongest
// before the rest, then the others.
func (t *task) addNet(net int, r role, wires []harness.WireID, gauges []unit.Gauge) {
	var kept []int
	var others []harness.WireID
	for f := written; f > open; f-- {
		for _, w := range wires {
			if x := t.held[w]; x.force == f {
				if !t.core[w] { // a cable's colours go no further than the cable
					kept = append(kept, t.index(x.pair))
				}
				t.add(class{net: net, role: r, rule: f.String(), force: f, domain: []int{t.index(x.pair)}}, w, gauges)
			}
		}
	}
	for _, w := range wires {
		if t.held[w].force == open {
			others = append(others, w)
		}
	}
	for _, w := range others {
		c := t.choiceFor(r, kept, gaugeOf(gauges, w), w)
		t.add(class{net: net, role: r, rule: c.rule, domain: c.domain}, w, gauges)
	}
}

// add puts a wire into a class of its net that has a combination in common
// with it, or into a new one.
func (t *task) add(c class, w harness.WireID, gauges []unit.Gauge) {
	g := t.gauge(gaugeOf(gauges, w))
	from := len(t.classes)
	for from > 0 && t.classes[from-1].net == c.net { // a net's classes lie together
		from--
	}
	for i := from; i < len(t.classes); i++ {
		old := &t.classes[i]
		if old.force != c.force {
			continue
		}
		common := both(old.domain, c.domain)
		if len(common) == 0 {
			continue
		}
		if len(common) < len(old.domain) {
			old.rule = c.rule
		}
		old.domain = common
		old.wires = append(old.wires, w)
		old.gauges = withNumber(old.gauges, g)
		return
	}
	c.wires, c.gauges = []harness.WireID{w}, []int{g}
	t.classes = append(t.classes, c)
}

// sortClasses puts the classes in the order of their first wires' names, and
// notes the class of each wire.
func (t *task) sortClasses() {
	sort.SliceStable(t.classes, func(i, j int) bool {
		return earlier(t.h.Wires[t.classes[i].wires[0]].Name, t.h.Wires[t.classes[j].wires[0]].Name)
	})
	t.class = make([]int, len(t.h.Wires))
	for i, c := range t.classes {
		for _, w := range c.wires {
			t.class[w] = i
		}
	}
}

func (t *task) gauge(g unit.Gauge) int {
	for i, old := range t.gauges {
		if old == g {
			return i
		}
	}
	t.gauges = append(t.gauges, g)
	return len(t.gauges) - 1
}

func gaugeOf(gauges []unit.Gauge, w harness.WireID) unit.Gauge {
	if int(w) < len(gauges) {
		return gauges[w]
	}
	return unit.Gauge{}
}

func withNumber(list []int, n int) []int {
	for _, m := range list {
		if m == n {
			return list
		}
	}
	return append(list, n)
}

// both keeps what is in both lists, in the order of the first.
func both(a, b []int) []int {
	if len(a) > 0 && len(a) == len(b) && &a[0] == &b[0] {
		return a
	}
	in := map[int]bool{}
	for _, y := range b {
		in[y] = true
	}
	var out []int
	for _, x := range a {
		if in[x] {
			out = append(out, x)
		}
	}
	return out
}
