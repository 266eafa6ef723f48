package glance

import (
	"cmp"
	"slices"

	"example.com/loomfolio/layout/diagram"
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
	name   string
	anchor string
	along  float64 // how far it is from the end of the loom at which the sheet begins, mm
	side   int
	parts  int
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
	along := m.along()
	for i := range m.a.H.Parts {
		s := m.spotOf(&m.a.H.Parts[i], along)
		k, ok := at[s.anchor]
		if !ok {
			k = len(m.spots)
			at[s.anchor] = k
			m.spots = append(m.spots, s)
		}
		m.spots[k].parts++
		m.group[i] = k
	}
	m.sort()
}

func (m *model) spotOf(p *harness.Part, along []float64) spot {
	switch {
	case p.Place >= 0:
		pl := m.a.H.Places[p.Place]
		return spot{name: pl.Name, anchor: "place/" + pl.Key, along: along[p.Place]}
	case p.Along != nil:
		r := m.a.H.Runs[p.Along.Run]
		return spot{
			name: m.a.H.Places[r.From].Name + " – " + m.a.H.Places[r.To].Name, anchor: m.a.RunAnchor(r.ID),
			along: (along[r.From] + along[r.To]) / 2,
		}
	}
	return spot{name: "No place given", along: 1e9}
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

// along is how far each place lies from where the sheet begins, by the runs of the loom:
// from the first battery's place.
func (m *model) along() []float64 {
	h := m.a.H
	out := make([]float64, len(h.Places))
	for i := range out {
		out[i] = 1e8
	}
	if at := m.begin(); at >= 0 {
		out[at] = 0
	}
	for range h.Places {
		for _, r := range h.Runs {
			out[r.To] = min(out[r.To], out[r.From]+float64(r.Length))
			out[r.From] = min(out[r.From], out[r.To]+float64(r.Length))
		}
	}
	return out
}

// begin is the place at the left of the sheet.
func (m *model) begin() harness.PlaceID {
	for _, p := range m.a.H.Parts {
		if p.Kind == harness.Battery && p.Place >= 0 {
			return p.Place
		}
	}
	if len(m.a.H.Places) > 0 {
		return 0
	}
	return harness.None
}

// chart is the graph to be laid out.
func (m *model) chart(show shown) diagram.Chart {
	var c diagram.Chart
	for _, s := range m.spots {
		g := diagram.ChartGroup{Side: s.side, H: headPad}
		for _, line := range s.lines() {
			g.W, g.H = max(g.W, typeface.Width(line, sheet.Bold, sheet.SizeBody)), g.H+headLine
		}
		c.Groups = append(c.Groups, g)
	}
	for i := range m.a.H.Parts {
		t := m.tile(&m.a.H.Parts[i], show)
		c.Tiles = append(c.Tiles, diagram.ChartTile{W: t.w, H: t.h, Group: m.group[i]})
	}
	for _, w := range m.wires {
		from, to := m.ends(w)
		c.Lines = append(c.Lines, diagram.ChartLine{From: int(from), To: int(to), Flag: m.flag(w.ID, show).wide()})
	}
	return c
}

// ends are a wire's parts from the live side to the ground.
func (m *model) ends(w harness.Wire) (from, to harness.PartID) {
	from, to = m.a.H.Terminals[w.From].Part, m.a.H.Terminals[w.To].Part
	if m.a.H.System.PositiveEarth {
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
	cornerPad = 1.0 // more at the right where corners are cut or round
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
		return tile{w: t.w + 4*tilePad, h: refHigh + 2*tilePad}
	}
	if called := page.Called(p); called != "" {
		wide := max(wordsWide, typeface.Longest(called, sheet.Regular, sheet.SizeNote))
		t.name = typeface.Wrap(called, sheet.Regular, sheet.SizeNote, wide)
	}
	for _, s := range t.name {
		t.w = max(t.w, typeface.Width(s, sheet.Regular, sheet.SizeNote))
	}
	t.w += symbol.SmallSide + 3*tilePad
	switch kind.RoleOf(p.Kind) {
	case kind.Protects, kind.Works:
		t.w += cornerPad
	}
	t.h = max(leastHigh, t.words()+2*tilePad)
	return t
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
