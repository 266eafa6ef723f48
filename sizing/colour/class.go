package colour

import (
	"sort"
	"strconv"

	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// class is wires that take one colour: those of a net, less the wires whose
// colour the description gives, less those of a gauge in which the net's
// colour cannot be had.
type class struct {
	net    int
	role   role
	rule   string // why the domain is narrow, for the reason
	given  bool
	wires  []harness.WireID // in the order of their names
	domain []int            // combinations that may be issued, in order of preference
	gauges []int            // distinct gauges, as numbers of task.gauges
}

func (c *class) fixed() bool { return len(c.domain) == 1 }

// task is the whole question: which combination for which class.
type task struct {
	h       *harness.Harness
	combos  []Pair
	issued  int     // the first combos, which may be issued unasked
	far     [][]int // distance of two combinations, 1/100; 0 when equal or swapped
	classes []class // in the order of their first wires' names
	near    [][]int // by class: its neighbours, ascending
	gauges  []unit.Gauge
	spots   [][]int   // by wire: the parts and runs where it meets others
	areas   []float64 // by wire: copper, mm2; 0 where not known
}

// choice is what one wire may take, and why.
type choice struct {
	rule   string
	domain []int
}

// newTask lays the question out.
func newTask(h *harness.Harness, runs [][]harness.RunID, gauges []unit.Gauge) *task {
	t := &task{h: h}
	t.combos, t.issued = combinations(h)
	t.far = farTable(t.combos)
	t.spots = spots(h, runs)
	for w := range h.Wires {
		t.areas = append(t.areas, area(gaugeOf(gauges, harness.WireID(w))))
	}
	f := nets(h)
	role := roles(h, f)
	for _, wires := range byNet(h, f) {
		net := f.Root(int(h.Wires[wires[0]].From))
		t.addNet(net, role[net], wires, gauges)
	}
	sort.SliceStable(t.classes, func(i, j int) bool {
		return earlier(h.Wires[t.classes[i].wires[0]].Name, h.Wires[t.classes[j].wires[0]].Name)
	})
	t.near = t.neighbours()
	return t
}

// byNet groups the wires by net; groups and wires in the order of their names.
func byNet(h *harness.Harness, f forest.Forest) [][]harness.WireID {
	groups := make([][]harness.WireID, len(f))
	order := make([]harness.WireID, len(h.Wires))
	for i := range order {
		order[i] = harness.WireID(i)
	}
	sort.Slice(order, func(i, j int) bool { return earlier(h.Wires[order[i]].Name, h.Wires[order[j]].Name) })
	for _, w := range order {
		root := f.Root(int(h.Wires[w].From))
		groups[root] = append(groups[root], w)
	}
	var out [][]harness.WireID
	for _, w := range order {
		if g := groups[f.Root(int(h.Wires[w].From))]; g[0] == w {
			out = append(out, g)
		}
	}
	return out
}

// addNet splits one net into its classes.
func (t *task) addNet(net int, r role, wires []harness.WireID, gauges []unit.Gauge) {
	var given []int
	var others []harness.WireID
	for _, w := range wires {
		p := givenPair(t.h, w)
		if p.Base == "" {
			others = append(others, w)
			continue
		}
		given = append(given, t.index(p))
		t.add(class{net: net, role: r, rule: "given", given: true, domain: []int{t.index(p)}}, w, gauges)
	}
	for _, w := range others {
		c := t.choiceOf(r, given, gaugeOf(gauges, w))
		t.add(class{net: net, role: r, rule: c.rule, domain: c.domain}, w, gauges)
	}
}

// add puts a wire into a class of its net that has a combination in common
// with it, or into a new one.
func (t *task) add(c class, w harness.WireID, gauges []unit.Gauge) {
	g := t.gauge(gaugeOf(gauges, w))
	for i := range t.classes {
		old := &t.classes[i]
		if old.net != c.net || old.given != c.given {
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

func givenPair(h *harness.Harness, w harness.WireID) Pair {
	return Pair{Base: h.Wires[w].Base, Tracer: h.Wires[w].Tracer}
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
	var out []int
	for _, x := range a {
		for _, y := range b {
			if x == y {
				out = append(out, x)
			}
		}
	}
	return out
}

// earlier orders names as people do: 2A before 12A.
func earlier(a, b string) bool {
	na, ra := leadingNumber(a)
	nb, rb := leadingNumber(b)
	if na != nb {
		return na < nb
	}
	if len(ra) != len(rb) {
		return len(ra) < len(rb)
	}
	if ra != rb {
		return ra < rb
	}
	return a < b
}

func leadingNumber(name string) (n int, rest string) {
	end := 0
	for end < len(name) && name[end] >= '0' && name[end] <= '9' {
		end++
	}
	n, _ = strconv.Atoi(name[:end])
	return n, name[end:]
}
