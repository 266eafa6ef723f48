package colour

import (
	"slices"
	"sort"

	"example.com/loomfolio/sizing/colour/spread"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/unit"
)

// stay is a spot where a wire meets others: a part, a run (numbered on after
// the parts), or a place where the loom branches (numbered on after the runs).
type stay struct {
	spot   int
	rank   spread.Rank
	length unit.Millimetre // in a run
}

// spots gives, by wire, where it meets others, ascending by spot.
func spots(h *harness.Harness, ways []route.Way) [][]stay {
	out := make([][]stay, len(h.Wires))
	branch := branches(h)
	for i, w := range h.Wires {
		if w.NoColour() {
			continue // nothing is known that it could be taken for
		}
		for _, end := range []harness.TerminalID{w.From, w.To} {
			if p := h.Terminals[end].Part; p != harness.None {
				out[i] = append(out[i], stay{spot: int(p), rank: spread.Touch})
			}
		}
		if i < len(ways) {
			for _, s := range ways[i].Shares {
				out[i] = append(out[i], stay{len(h.Parts) + int(s.Run), spread.Along, s.Length})
			}
			for _, p := range ways[i].Places {
				if int(p) < len(branch) && branch[p] {
					out[i] = append(out[i], stay{spot: len(h.Parts) + len(h.Runs) + int(p), rank: spread.Pass})
				}
			}
		}
		sort.SliceStable(out[i], func(a, b int) bool { return out[i][a].spot < out[i][b].spot })
		out[i] = slices.CompactFunc(out[i], func(a, b stay) bool { return a.spot == b.spot })
	}
	return out
}

// branches tells, by place, whether three runs or more meet there.
func branches(h *harness.Harness) []bool {
	runs := make([]int, len(h.Places))
	for _, r := range h.Runs {
		for _, p := range []harness.PlaceID{r.From, r.To} {
			if int(p) < len(runs) {
				runs[p]++
			}
		}
	}
	out := make([]bool, len(runs))
	for i, n := range runs {
		out[i] = n >= 3
	}
	return out
}

// meetings is the number of spots of rank Touch and Along.
func (t *task) meetings() int { return len(t.h.Parts) + len(t.h.Runs) }

// rankOf gives a spot's rank.
func (t *task) rankOf(spot int) spread.Rank {
	switch {
	case spot < len(t.h.Parts):
		return spread.Touch
	case spot < t.meetings():
		return spread.Along
	}
	return spread.Pass
}

// bySpot lists the wires at every spot in the order of their names.
func (t *task) bySpot() [][]harness.WireID {
	out := make([][]harness.WireID, t.meetings()+len(t.h.Places))
	for _, w := range t.order {
		for _, s := range t.spots[w] {
			out[s.spot] = append(out[s.spot], w)
		}
	}
	return out
}

// touch tells whether two wires end at one part.
func (t *task) touch(a, b harness.WireID) bool {
	for _, s := range t.spots[a] {
		for _, u := range t.spots[b] {
			if s.spot == u.spot && s.rank == spread.Touch {
				return true
			}
		}
	}
	return false
}

// side is what tells a wire or a class from its neighbours: its net, and whether
// that is ground, or the vehicle's own wire.
type side struct {
	net   int
	earth bool
	own   bool
}

// rivals tells whether two must look different where they meet: they are on
// different nets and are not both ground, nor both there already.
func rivals(a, b side) bool { return a.net != b.net && !(a.earth && b.earth) && !(a.own && b.own) }

// toldBySize tells whether nobody mistakes two wires, for their size.
func (t *task) toldBySize(a, b harness.WireID) bool { return sizesApart(t.areas[a], t.areas[b]) }

func sizesApart(a, b float64) bool {
	return min(a, b) > 0 && max(a, b) >= sizeTellsApart*min(a, b)
}

// mistakable tells whether two wires that meet must look different.
func (t *task) mistakable(a, b harness.WireID) bool {
	return rivals(t.sides[a], t.sides[b]) && !t.toldBySize(a, b)
}

// atPart is the cost of two wires of one colour at a part, in millimetres of
// shared run (our own choice): no length of loom outweighs it.
const atPart = 1000000

// edges joins the classes that must look different: once for every two, with
// the nearest rank at which they meet.
func (t *task) edges() []spread.Edge {
	n := len(t.classes)
	at := make([]int32, n*n) // number of the edge plus 1
	var out []spread.Edge
	var met []int // by edge: the trail of the spots where its ends meet
	trails := newTrails()
	for spot, wires := range t.bySpot() {
		rank := t.rankOf(spot)
		here := t.gathered(wires, spot)
		for i := range here {
			for j := range i {
				a, b := here[j].class, here[i].class
				if !here[i].mistakable(&here[j]) {
					continue
				}
				k := &at[b*n+a] // row by row, as the classes here are met
				if *k == 0 {
					out, met = append(out, spread.Edge{A: a, B: b, Rank: rank}), append(met, 0)
					*k = int32(len(out))
				}
				meet(&out[*k-1], rank, min(here[i].length, here[j].length))
				if rank != spread.Pass {
					met[*k-1] = trails.on(met[*k-1], spot)
				}
			}
		}
	}
	for k := range out {
		out[k].Spots = trails.list(met[k])
	}
	return sorted(out)
}

// meet notes on an edge that its ends meet at a spot of a rank.
func meet(e *spread.Edge, rank spread.Rank, length unit.Millimetre) {
	e.Rank = min(e.Rank, rank)
	switch rank {
	case spread.Touch:
		e.Cost += atPart
	case spread.Along:
		e.Cost += 1 + int(length)
	}
}

// trails holds lists of spots, ascending, each once: in a large loom thousands of
// pairs share hundreds of runs. A list is a number, 0 for the empty one.
type trails struct {
	spot, before []int   // by number: the last spot, and the list without it
	next, asked  []int   // by number: the list with the spot that was asked for last
	lists        [][]int // by number, once asked for
}

func newTrails() *trails {
	return &trails{spot: []int{-1}, before: []int{0}, next: []int{0}, asked: []int{-1}, lists: [][]int{nil}}
}

// on gives a list with one more spot.
func (t *trails) on(trail, spot int) int {
	if t.asked[trail] != spot {
		t.asked[trail], t.next[trail] = spot, len(t.spot)
		t.spot, t.before = append(t.spot, spot), append(t.before, trail)
		t.next, t.asked, t.lists = append(t.next, 0), append(t.asked, -1), append(t.lists, nil)
	}
	return t.next[trail]
}

func (t *trails) list(trail int) []int {
	if t.lists[trail] == nil && trail > 0 {
		t.lists[trail] = append(slices.Clone(t.list(t.before[trail])), t.spot[trail])
	}
	return t.lists[trail]
}

// sorted orders edges by their ends, so that nothing hangs on the order of parts and runs.
func sorted(edges []spread.Edge) []spread.Edge {
	sort.Slice(edges, func(i, j int) bool {
		if edges[i].A != edges[j].A {
			return edges[i].A < edges[j].A
		}
		return edges[i].B < edges[j].B
	})
	return edges
}

// guest is a class at a spot, with the sizes of its wires there.
type guest struct {
	side
	class  int
	areas  []float64
	length unit.Millimetre
}

// gathered lists the classes at a spot, ascending, each once.
func (t *task) gathered(wires []harness.WireID, spot int) []guest {
	var out []guest
	at := map[int]int{}
	for _, w := range wires {
		c := t.class[w]
		k, known := at[c]
		if !known {
			k = len(out)
			at[c], out = k, append(out, guest{side: t.sides[w], class: c})
		}
		g := &out[k]
		if !slices.Contains(g.areas, t.areas[w]) {
			g.areas = append(g.areas, t.areas[w])
		}
		for _, s := range t.spots[w] {
			if s.spot == spot {
				g.length = max(g.length, s.length)
			}
		}
	}
	sort.Slice(out, func(i, j int) bool { return out[i].class < out[j].class })
	return out
}

func (g *guest) mistakable(o *guest) bool {
	if !rivals(g.side, o.side) {
		return false
	}
	for _, a := range g.areas {
		for _, b := range o.areas {
			if !sizesApart(a, b) {
				return true
			}
		}
	}
	return false
}
