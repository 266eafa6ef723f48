package colour

import (
	"slices"
	"sort"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/spread"
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

// rivals tells whether two classes must look different where they meet: they
// are on different nets and are not both ground.
func rivals(a, b *class) bool {
	return a.net != b.net && !(a.role == ground && b.role == ground)
}

// toldBySize tells whether nobody mistakes two wires, for their size.
func (t *task) toldBySize(a, b harness.WireID) bool { return sizesApart(t.areas[a], t.areas[b]) }

func sizesApart(a, b float64) bool {
	return min(a, b) > 0 && max(a, b) >= sizeTellsApart*min(a, b)
}

// mistakable tells whether two wires that meet must look different.
func (t *task) mistakable(a, b harness.WireID) bool {
	return rivals(&t.classes[t.class[a]], &t.classes[t.class[b]]) && !t.toldBySize(a, b)
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
	for spot, wires := range t.bySpot() {
		rank := t.rankOf(spot)
		here := t.gathered(wires, spot)
		for i := range here {
			for j := range i {
				a, b := here[j].class, here[i].class
				if !here[i].mistakable(t, &here[j]) {
					continue
				}
				k := &at[a*n+b]
				if *k == 0 {
					out = append(out, spread.Edge{A: a, B: b, Rank: rank})
					*k = int32(len(out))
				}
				meet(&out[*k-1], spot, rank, min(here[i].length, here[j].length))
			}
		}
	}
	return sorted(out)
}

// meet notes on an edge that its ends meet at a spot.
func meet(e *spread.Edge, spot int, rank spread.Rank, length unit.Millimetre) {
	e.Rank = min(e.Rank, rank)
	switch rank {
	case spread.Touch:
		e.Cost += atPart
	case spread.Along:
		e.Cost += 1 + int(length)
	default:
		return
	}
	e.Spots = append(e.Spots, spot)
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
			at[c], out = k, append(out, guest{class: c})
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

func (g *guest) mistakable(t *task, o *guest) bool {
	if !rivals(&t.classes[g.class], &t.classes[o.class]) {
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
