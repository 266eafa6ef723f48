package colour

import (
	"slices"

	"example.com/loomfolio/sizing/colour/fewest"
	"example.com/loomfolio/sizing/colour/spread"
	"example.com/loomfolio/sizing/harness"
)

// encounters lists every two wires of different nets that must look different by where they meet,
// each once: at the part where they do, else in the run that comes first. Those of the same two
// nets lie together; task.class holds the numbers of the nets.
func (t *task) encounters() []encounter {
	ap := apartOf(t.h)
	var out []encounter
	met := newMet(len(t.h.Wires))
	for spot, wires := range t.bySpot() {
		e := encounter{spot: spot, rank: fewest.Run}
		var stand map[harness.WireID][]place
		switch t.rankOf(spot) {
		case spread.Touch:
			e.rank = fewest.Part
			if p := &t.h.Parts[spot]; ap.Near > 0 && numberedPart(p) {
				stand = t.places(p, wires)
			}
		case spread.Pass:
			if !ap.Branchings {
				continue
			}
		}
		for i, b := range wires {
			for _, a := range wires[:i] {
				if !rivals(t.sides[a], t.sides[b]) || stand != nil && !beside(stand[a], stand[b], ap.Near) || met.again(a, b) {
					continue
				}
				e.a, e.b = a, b
				out = append(out, e)
			}
		}
	}
	return t.byNets(out)
}

// met notes which wires have met.
type met struct {
	wires int
	bits  []uint64
}

func newMet(wires int) met { return met{wires, make([]uint64, (wires*wires+63)/64)} }

// again tells whether two have met before, and notes that they have.
func (m met) again(a, b harness.WireID) bool {
	i := int(min(a, b))*m.wires + int(max(a, b))
	known := m.bits[i/64]>>(i%64)&1 == 1
	m.bits[i/64] |= 1 << (i % 64)
	return known
}

// byNets sorts by the two nets, the rest as it was: first by the greater, then by the less.
func (t *task) byNets(list []encounter) []encounter {
	greater := func(e *encounter) int { return max(t.class[e.a], t.class[e.b]) }
	less := func(e *encounter) int { return min(t.class[e.a], t.class[e.b]) }
	return counted(counted(list, len(t.h.Wires), greater), len(t.h.Wires), less)
}

// counted sorts by a number below n, equal ones as they were.
func counted(list []encounter, n int, key func(*encounter) int) []encounter {
	from := make([]int, n+1)
	for i := range list {
		from[key(&list[i])+1]++
	}
	for i := range n {
		from[i+1] += from[i]
	}
	out := make([]encounter, len(list))
	for i := range list {
		k := key(&list[i])
		out[from[k]] = list[i]
		from[k]++
	}
	return out
}

// apartOf gives the rule in force: that of a description that says nothing where there is none.
func apartOf(h *harness.Harness) harness.Apart {
	if h.Practice.Apart == (harness.Apart{}) {
		return harness.NearApart()
	}
	return h.Practice.Apart
}

// numberedPart tells whether the positions of a part are numbered, so that only neighbours are
// mistaken for each other.
func numberedPart(p *harness.Part) bool {
	return p.Kind == harness.FusePanel || p.Kind == harness.Connector || p.Kind == harness.Module
}

// place is a position: row and column; a row below 0 lies beside all.
type place struct{ row, column int }

// places gives where the wires end at a part with numbered positions.
func (t *task) places(p *harness.Part, wires []harness.WireID) map[harness.WireID][]place {
	grid := gridOf(t.h, p)
	out := map[harness.WireID][]place{}
	for _, w := range wires {
		for _, end := range []harness.TerminalID{t.h.Wires[w].From, t.h.Wires[w].To} {
			if t.h.Terminals[end].Part == p.ID {
				out[w] = append(out[w], grid.of(&t.h.Terminals[end]))
			}
		}
	}
	return out
}

// grid is where the positions of a part lie, by name.
type grid map[string]place

func (g grid) of(t *harness.Terminal) place {
	name := t.Name
	if t.Cavity != "" {
		name = t.Cavity
	}
	if p, ok := g[name]; ok {
		return p
	}
	return place{row: -1}
}

// gridOf lays a part's positions out: as its rows are seen, else in the order of cavities or
// terminals. What no row shows, such as a panel's feeds and studs, lies beside all.
func gridOf(h *harness.Harness, p *harness.Part) grid {
	rows := p.Rows
	switch {
	case p.Panel != nil:
		rows = p.Panel.Layout
	case rows == nil && len(p.Cavities) > 0:
		rows = [][]string{p.Cavities}
	case rows == nil:
		rows = [][]string{inOrder(h, p)}
	}
	out := grid{}
	for r, row := range rows {
		for c, name := range row {
			out[name] = place{r, c}
		}
	}
	return out
}

// inOrder lists the names of a part's terminals, or cavities, each once.
func inOrder(h *harness.Harness, p *harness.Part) []string {
	var out []string
	for _, id := range p.Terminals {
		name := h.Terminals[id].Name
		if c := h.Terminals[id].Cavity; c != "" {
			name = c
		}
		if !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	if p.Kind == harness.Connector {
		slices.SortStableFunc(out, func(a, b string) int {
			if earlier(a, b) {
				return -1
			}
			return 1
		})
	}
	return out
}

// beside tells whether two wires end within so many positions of each other: in one row, or
// straight above each other in the next.
func beside(a, b []place, near int) bool {
	for _, p := range a {
		for _, q := range b {
			rows, columns := max(p.row-q.row, q.row-p.row), max(p.column-q.column, q.column-p.column)
			if p.row < 0 || q.row < 0 || rows == 0 && columns <= near || rows == 1 && columns == 0 {
				return true
			}
		}
	}
	return false
}

// edges joins the classes that must look different, once for every two.
func (s *Shop) edges(t *task) []fewest.Edge {
	out := make([]fewest.Edge, 0, len(s.meets)/2)
	var block [2]int
	from := 0
	for i := range s.meets {
		e := &s.meets[i]
		x, y := t.sides[e.a].net, t.sides[e.b].net
		if now := [2]int{min(x, y), max(x, y)}; now != block {
			block, from = now, len(out)
		}
		if sizesApart(t.areas[e.a], t.areas[e.b]) {
			continue
		}
		a, b := t.class[e.a], t.class[e.b]
		out = noted(out, from, fewest.Edge{A: min(a, b), B: max(a, b), Rank: e.rank})
	}
	return out
}

// noted adds an edge to those from a place on, or lowers the rank of the one that is there.
func noted(edges []fewest.Edge, from int, e fewest.Edge) []fewest.Edge {
	for i := from; i < len(edges); i++ {
		if old := &edges[i]; old.A == e.A && old.B == e.B {
			old.Rank = min(old.Rank, e.Rank)
			return edges
		}
	}
	return append(edges, e)
}
