package drawing

import (
	"fmt"
	"strings"

	"example.com/loomfolio/layout/diagram"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/harness"
)

// version is a strip laid out in one look.
type version struct {
	graph  *graph
	layout *diagram.Layout
	form   look
}

func (st *strip) take(v version) { st.graph, st.layout, st.form = v.graph, v.layout, v.form }

// layOut lays out all strips, circuit by circuit.
func (s *sheets) layOut(strips []*strip) {
	for from := 0; from < len(strips); {
		to := from + 1
		for to < len(strips) && strips[to].circuits[0] == strips[from].circuits[0] {
			to++
		}
		s.layOutCircuit(from, strips[from:to])
		from = to
	}
}

// layOutCircuit takes the first look in which a circuit's strips need the fewest
// sheets. Strips that fit in no look keep one that does not fit, to be divided.
func (s *sheets) layOutCircuit(first int, strips []*strip) {
	area := s.stripArea()
	best := 1 << 30
	own, large := make([]version, len(strips)), make([]bool, len(strips))
	for i, st := range strips {
		st.number, large[i] = first+i, s.tooLarge(st.wires, area)
	}
	for _, f := range looks {
		versions, fit := make([]version, len(strips)), true
		for i, st := range strips {
			if large[i] {
				versions[i], fit = version{layout: &diagram.Layout{}, form: f}, false
			} else {
				versions[i] = s.version(st.number, st, f, area, false)
			}
			if l := versions[i].layout; l == nil || !l.Fits {
				fit = false
			}
			if own[i].layout == nil || (!own[i].layout.Fits && versions[i].layout != nil) {
				own[i] = versions[i]
			}
		}
		if n := sheetsFor(versions, area.H); fit && n < best {
			best = n
			for i, st := range strips {
				st.take(versions[i])
			}
		}
		if best == 1 {
			return
		}
	}
	if best == 1<<30 {
		for i, st := range strips {
			st.take(own[i])
		}
	}
}

// force lays out what fits in no look and cannot be divided.
func (s *sheets) force(strips []*strip) {
	area := s.usualArea()
	for i, st := range strips {
		if st.layout != nil && !st.layout.Fits {
			st.take(s.version(i, st, look{}, area, true))
		}
	}
}

// sheetsFor is how many sheets strips take one after another.
func sheetsFor(versions []version, room float64) int {
	n, at := 1, 0.0
	for _, v := range versions {
		if v.layout == nil {
			continue
		}
		if at > 0 && at+v.layout.H > room {
			n, at = n+1, 0
		}
		at += v.layout.H + stripGap
	}
	return n
}

// version lays a strip out in a look; equal graphs are laid out once.
func (s *sheets) version(number int, st *strip, f look, area sheet.Rect, force bool) version {
	v := version{graph: s.build(number, st, f), form: f}
	key := fmt.Sprint(f, force, v.graph.Graph)
	if l, ok := s.laid[key]; ok {
		v.layout = l
		return v
	}
	if columns := s.columns(v.graph.Graph); columns != nil {
		v.layout = diagram.Lay(v.graph.Graph, f.rules(area, force), columns)
	}
	s.laid[key] = v.layout
	return v
}

// rules are the distances of a look.
func (f look) rules(area sheet.Rect, force bool) diagram.Rules {
	return diagram.Rules{
		Grid: 1.25, Gap: 2.5, Track: f.track(), Stub: 2, Spread: 16, FlagUp: f.above(), FlagDown: f.below(),
		W: area.W, H: area.H, Tries: 8, Force: force,
	}
}

// track is the distance of upright wires side by side.
func (f look) track() float64 {
	if f.narrow {
		return 2.5
	}
	return 3
}

// columns asks for a graph's columns once for all sizes of its tiles; nil when it
// cannot be laid out.
func (s *sheets) columns(g diagram.Graph) []int {
	var shape strings.Builder
	for _, n := range g.Nodes {
		fmt.Fprint(&shape, n.Column, len(n.Pins), ";")
		for _, p := range n.Pins {
			fmt.Fprint(&shape, p.Side)
		}
	}
	for _, w := range g.Wires {
		fmt.Fprint(&shape, w.From, w.To)
	}
	key := shape.String()
	if _, ok := s.inColumns[key]; !ok {
		s.inColumns[key], _ = diagram.Columns(g)
	}
	return s.inColumns[key]
}

// stripAnchor is where references to a strip's wires lead.
func (s *sheets) stripAnchor(st *strip) string { return "diagram/" + s.h.Wires[st.wires[0]].Name }

// anchorOf is where a wire is drawn.
func (s *sheets) anchorOf(w harness.WireID) string {
	if st := s.stripOf[w]; st != nil {
		return s.stripAnchor(st)
	}
	return "circuit/" + s.h.Circuits[s.h.Wires[w].Circuit].Key
}
