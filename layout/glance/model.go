package glance

import (
	"cmp"
	"math"
	"slices"

	"example.com/loomfolio/layout/diagram/chart"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/symbol"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
)

// model is the harness as groups of parts, and the wires between them.
type model struct {
	a     page.Ask
	spots []spot
	group []int // by part
	wires []harness.Wire
}

// spot is a group: a place, or a stretch of the loom on which splices lie.
type spot struct {
	name  string
	key   string
	along float64 // how far to the right it stands among the others
	side  int     // -1 above others of its band, 1 below them
}

func modelled(a page.Ask) *model {
	m := &model{a: a, group: make([]int, len(a.H.Parts))}
	m.places()
	for _, w := range a.H.Wires {
		if a.H.PartOf(w.From) != nil && a.H.PartOf(w.To) != nil {
			m.wires = append(m.wires, w)
		}
	}
	return m
}

// places finds the groups that have parts, in their order along the loom.
func (m *model) places() {
	at := map[string]int{}
	along := along(m.a.H)
	for i := range m.a.H.Parts {
		s := m.spotOf(&m.a.H.Parts[i], along)
		k, ok := at[s.key]
		if !ok {
			k = len(m.spots)
			at[s.key] = k
			m.spots = append(m.spots, s)
		}
		m.group[i] = k
	}
	m.sort()
}

func (m *model) spotOf(p *harness.Part, along []float64) spot {
	switch {
	case p.Place >= 0:
		pl := m.a.H.Places[p.Place]
		return spot{name: pl.Name, key: "place/" + pl.Key, along: along[p.Place], side: sideOf(pl.Lies)}
	case p.Along != nil:
		r := m.a.H.Runs[p.Along.Run]
		return spot{
			name: m.a.H.Places[r.From].Name + " – " + m.a.H.Places[r.To].Name, key: m.a.RunAnchor(r.ID),
			along: (along[r.From] + along[r.To]) / 2,
		}
	}
	return spot{name: "No place given", along: math.Inf(1)}
}

// sort puts the groups in order along the loom.
func (m *model) sort() {
	order := make([]int, len(m.spots))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(m.spots[a].along, m.spots[b].along) })
	now, sorted := make([]int, len(order)), make([]spot, len(order))
	for i, k := range order {
		now[k], sorted[i] = i, m.spots[k]
	}
	m.spots = sorted
	for p := range m.group {
		m.group[p] = now[m.group[p]]
	}
}

// chart is the graph to be laid out.
func (m *model) chart(show shown) chart.Graph {
	var c chart.Graph
	for _, s := range m.spots {
		g := chart.Group{Side: s.side, H: headPad}
		for _, line := range s.lines() {
			g.W, g.H = max(g.W, typeface.Width(line, sheet.Bold, sheet.SizeBody)), g.H+headLine
		}
		c.Groups = append(c.Groups, g)
	}
	for i := range m.a.H.Parts {
		t := m.tile(&m.a.H.Parts[i], show)
		c.Tiles = append(c.Tiles, chart.Tile{W: t.w, H: t.h, Group: m.group[i]})
	}
	for _, w := range m.wires {
		from, to := m.ends(w)
		c.Lines = append(c.Lines, chart.Line{From: int(from), To: int(to), Flag: m.flag(w.ID, show).wide()})
	}
	return c
}

// ends are a wire's parts from the live side to the ground; a battery comes first, also where its
// own current comes back to it.
func (m *model) ends(w harness.Wire) (from, to harness.PartID) {
	from, to = m.a.H.Terminals[w.From].Part, m.a.H.Terminals[w.To].Part
	if m.a.H.System.PositiveEarth {
		from, to = to, from
	}
	if m.a.H.Parts[to].Kind == harness.Battery && m.a.H.Parts[from].Kind != harness.Battery {
		return to, from
	}
	return from, to
}

// lines is a place's name as it stands in its box.
func (s spot) lines() []string {
	wide := max(headWide, typeface.Longest(s.name, sheet.Bold, sheet.SizeBody))
	return typeface.Wrap(s.name, sheet.Bold, sheet.SizeBody, wide)
}

// Sizes of tiles and places, mm.
const (
	tilePad   = 0.8
	wordsWide = 14.0
	refHigh   = 3.7 // a line of the reference
	nameHigh  = 3.1 // a line of the plain name
	leastHigh = 7.4
	headPad   = 2.6 // above and below a place's name
	headLine  = 3.6 // a line of it
	headWide  = 22.0
)

// tile is what stands in a part's box.
type tile struct {
	name []string
	w, h float64
}

// words is the height of reference and name.
func (t tile) words() float64 { return refHigh + nameHigh*float64(len(t.name)) }

func (m *model) tile(p *harness.Part, show shown) tile {
	t := tile{w: typeface.Width(p.Ref, sheet.Bold, sheet.SizeBody)}
	if show == bare {
		return tile{w: t.w + 4*tilePad + edgePad(p), h: refHigh + 2*tilePad}
	}
	if called := page.Called(p); called != "" {
		wide := max(wordsWide, typeface.Longest(called, sheet.Regular, sheet.SizeNote))
		t.name = typeface.Wrap(called, sheet.Regular, sheet.SizeNote, wide)
	}
	for _, s := range t.name {
		t.w = max(t.w, typeface.Width(s, sheet.Regular, sheet.SizeNote))
	}
	t.w += symbol.SmallSide + 3*tilePad + edgePad(p)
	t.h = max(leastHigh, t.words()+2*tilePad)
	return t
}

// edgePad is what a tile's edge takes of its width: cut or round corners at the right, a heavy
// edge at the left.
func edgePad(p *harness.Part) float64 {
	switch kind.RoleOf(p.Kind) {
	case kind.Protects, kind.Works:
		return 1
	case kind.Supplies:
		return heavyEdge
	}
	return 0
}

// heavyEdge is the left edge of a supply's tile, mm.
const heavyEdge = 1.6

// inset is how far a tile's content stands from its left edge.
func inset(p *harness.Part) float64 {
	if kind.RoleOf(p.Kind) == kind.Supplies {
		return heavyEdge
	}
	return 0
}

// flag is what stands on a wire.
type flag struct{ name, spec string }

func (m *model) flag(w harness.WireID, show shown) flag {
	switch show {
	case whole:
		return flag{m.a.H.Wires[w].Name, m.a.Pair(w).String()}
	case names:
		return flag{name: m.a.H.Wires[w].Name}
	}
	return flag{}
}

const flagPad = 0.4

func (f flag) wide() float64 { return f.nameWide() + f.specWide() }

func (f flag) nameWide() float64 { return padded(f.name, sheet.Bold) }

func (f flag) specWide() float64 { return padded(f.spec, sheet.Regular) }

func padded(s string, face sheet.Face) float64 {
	if s == "" {
		return 0
	}
	return typeface.Width(s, face, sheet.SizeNote) + 2*flagPad
}
