package drawing

import (
	"example.com/loomfolio/layout/diagram"
	"example.com/loomfolio/layout/symbol"
	"example.com/loomfolio/sizing/harness"
)

// look is how a strip is drawn: how captions and flags stand.
type look struct {
	roomy   bool
	narrow  bool
	stacked bool
	beside  bool
}

// looks are tried in this order until one fits.
var looks = []look{
	{roomy: true}, {roomy: true, stacked: true}, {roomy: true, stacked: true, narrow: true},
	{}, {stacked: true}, {beside: true}, {beside: true, stacked: true},
}

// node is a tile on a strip.
type node struct {
	tile   symbol.Tile
	part   harness.PartID
	kind   form
	key    string
	lead   bool   // the entry of a rail that carries its label
	anchor string // where references to the part lead; "" for none
	also   string // where references to this half of a relay lead
}

// graph is a strip before it is laid out.
type graph struct {
	diagram.Graph
	nodes []node
	wires []harness.WireID // by diagram wire; negative for the lines of references
}

// wiresAt is the wires that land on each terminal.
type wiresAt map[harness.TerminalID][]harness.WireID

// waiting is an end of a wire whose pin is known.
type waiting struct {
	from, to map[harness.WireID]diagram.End
}

// builder makes a strip's graph.
type builder struct {
	s        *sheets
	strip    int
	in       set
	form     look
	g        *graph
	ends     waiting
	named    map[harness.PartID]bool // parts whose name and place were told
	anchored map[harness.PartID]bool
	groups   int
	last     harness.WireID // the lowest number given to the line of a reference
}

func (s *sheets) build(strip int, st *strip, f look) *graph {
	b := &builder{s: s, strip: strip, in: setOf(st.wires), form: f, g: &graph{}, named: map[harness.PartID]bool{}, anchored: map[harness.PartID]bool{}}
	b.ends = waiting{map[harness.WireID]diagram.End{}, map[harness.WireID]diagram.End{}}
	for _, id := range s.partsOf(st.wires) {
		b.part(&s.h.Parts[id])
	}
	for _, w := range st.wires {
		if s.h.Jumper(w) {
			b.loop(w)
			continue
		}
		b.g.Wires = append(b.g.Wires, diagram.Wire{From: b.ends.from[w], To: b.ends.to[w], Flag: s.flag(w, f).w})
		b.g.wires = append(b.g.wires, w)
	}
	for w := harness.WireID(-1); w >= b.last; w-- {
		b.g.Wires = append(b.g.Wires, diagram.Wire{From: b.ends.from[w], To: b.ends.to[w]})
		b.g.wires = append(b.g.wires, w)
	}
	return b.g
}

func (b *builder) symbolForm() symbol.Form {
	pitch := 7.5
	if b.form.stacked {
		pitch = 11.25
	}
	return symbol.Form{Beside: b.form.beside, Roomy: b.form.roomy, Narrow: b.form.narrow, Pitch: pitch}
}

func (b *builder) part(p *harness.Part) {
	switch b.s.formOf(p, b.strip, b.in) {
	case asGround:
		b.ground(p)
	case asRail:
		b.rail(p)
	case asPositions:
		b.positions(p)
	case asCavities:
		b.cavities(p)
	case asTag:
		b.tag(p)
	default:
		b.tile(p)
	}
}

// add puts a tile on the strip and hands its pins to the wires.
func (b *builder) add(n node, column diagram.Column, arrive, leave wiresAt) {
	id := len(b.g.nodes)
	d := nodeOf(n.tile)
	d.Column, d.Key, d.Lead = column, n.key, n.lead
	seen := map[harness.TerminalID]int{}
	group := map[harness.TerminalID]int{}
	for i, p := range n.tile.Pins {
		if group[p.Terminal] == 0 {
			b.groups++
			group[p.Terminal] = b.groups
		}
		d.Pins[i].Group = group[p.Terminal]
		b.hand(diagram.End{Node: id, Pin: i}, seen[p.Terminal], arrive[p.Terminal], leave[p.Terminal])
		seen[p.Terminal]++
	}
	b.g.nodes = append(b.g.nodes, n)
	b.g.Nodes = append(b.g.Nodes, d)
}

// nodeOf is a tile as the layout sees it; its pins belong to no group yet.
func nodeOf(t symbol.Tile) diagram.Node {
	d := diagram.Node{W: t.W, H: t.H}
	for _, r := range t.Solid {
		d.Solid = append(d.Solid, diagram.Rect(r))
	}
	for _, p := range t.Pins {
		side := diagram.West
		if p.Side == symbol.East {
			side = diagram.East
		}
		d.Pins = append(d.Pins, diagram.Pin{Side: side, X: p.X, Y: p.Y})
	}
	return d
}

// hand gives the k-th pin of a terminal to its wire: those that arrive come first.
func (b *builder) hand(e diagram.End, k int, arrive, leave []harness.WireID) {
	if k < len(arrive) {
		if _, second := b.ends.to[arrive[k]]; second { // of a jumper
			b.ends.from[arrive[k]] = e
		} else {
			b.ends.to[arrive[k]] = e
		}
		return
	}
	b.ends.from[leave[k-len(arrive)]] = e
}
