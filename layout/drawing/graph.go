package drawing

import (
	"slices"

	"example.com/loomfolio/layout/diagram"
	"example.com/loomfolio/layout/symbol"
	"example.com/loomfolio/sizing/harness"
)

// look is how a strip is drawn: how captions and flags stand.
type look struct {
	narrow  bool
	stacked bool
	beside  bool
	loads   bool // only loads have their words beside them
	mixed   bool // those parts have of which the strip says so
	low     bool // rather lower than with few bends
}

// looks are those of which the best is taken.
var (
	looks = []look{{}, {loads: true}, {beside: true}, {narrow: true}, {stacked: true}, {stacked: true, loads: true}, {stacked: true, narrow: true}, {stacked: true, beside: true}}
	// quickLooks tell whether a piece fits, the narrowest and the flattest among them
	quickLooks = []look{{}, {stacked: true, narrow: true}, {beside: true}}
)

// node is a tile on a strip.
type node struct {
	tile symbol.Tile
	part harness.PartID
	kind form
	key  string
	from harness.WireID // of a tag: the wire that begins there
}

// graph is a strip before it is laid out.
type graph struct {
	diagram.Graph
	nodes []node
	wires []harness.WireID // by diagram wire
}

// wiresAt is the wires that land on each terminal.
type wiresAt map[harness.TerminalID][]harness.WireID

// waiting is an end of a wire whose pin is known.
type waiting struct {
	from, to map[harness.WireID]diagram.End
}

// builder makes a strip's graph.
type builder struct {
	s      *sheets
	in     set
	own    set
	st     *strip
	form   look
	g      *graph
	ends   waiting
	named  map[harness.PartID]bool // parts whose name and place were told
	groups int
}

func (s *sheets) build(st *strip, f look) *graph {
	all := st.all()
	b := &builder{s: s, in: setOf(all), own: setOf(s.mine(st)), st: st, form: f, g: &graph{}, named: map[harness.PartID]bool{}}
	b.ends = waiting{map[harness.WireID]diagram.End{}, map[harness.WireID]diagram.End{}}
	untagged := slices.DeleteFunc(slices.Clone(all), func(w harness.WireID) bool { return st.lent.tagged[w] })
	for _, id := range s.partsOf(untagged) {
		b.part(&s.h.Parts[id])
	}
	for _, w := range st.lent.wires {
		if st.lent.tagged[w] {
			b.tagged(w)
		}
	}
	for _, w := range all {
		if s.h.Jumper(w) {
			b.loop(w)
			continue
		}
		b.g.Wires = append(b.g.Wires, diagram.Wire{From: b.ends.from[w], To: b.ends.to[w], Flag: s.flag(w, f).w})
		b.g.wires = append(b.g.wires, w)
	}
	return b.g
}

func (b *builder) symbolForm() symbol.Form {
	pitch := 7.5
	switch {
	case len(b.s.states) > 1:
		pitch = 12.5
	case b.form.stacked:
		pitch = 11.25
	case len(b.s.states) > 0:
		pitch = 8.75
	}
	return symbol.Form{Narrow: b.form.narrow, Short: b.form.stacked, Pitch: pitch}
}

// besideOf tells where a part has its words.
func (f look) besideOf(p *harness.Part, st *strip) side {
	switch {
	case f.mixed:
		return st.beside[p.ID]
	case f.beside || f.loads && isLoad(p):
		return beside
	}
	return below
}

// formFor is the form of a part's tile.
func (b *builder) formFor(p *harness.Part) symbol.Form {
	f := b.symbolForm()
	at := b.form.besideOf(p, b.st)
	f.Beside, f.Wide = at != below, at == besideWide
	return f
}

func (b *builder) part(p *harness.Part) {
	if b.atTags(p) {
		return
	}
	switch b.s.formOf(p, b.in) {
	case asGround:
		b.ground(p)
	case asRail:
		b.rail(p)
	case asEnd:
		b.end(p)
	case asPositions:
		b.positions(p)
	case asCavities:
		b.cavities(p)
	case asPost:
		b.post(p)
	default:
		b.tile(p)
	}
}

// atTags tells whether all that lands on a part here begins at a tag.
func (b *builder) atTags(p *harness.Part) bool {
	return !slices.ContainsFunc(b.s.touched(p, b.in), func(t harness.TerminalID) bool {
		_, arrive, leave := b.landing(t)
		return len(arrive)+len(leave) > 0
	})
}

// landing is what lands on a terminal here, without wires that begin at a tag.
func (b *builder) landing(t harness.TerminalID) (u symbol.Use, arrive, leave []harness.WireID) {
	u, arrive, leave = b.s.landing(t, b.in)
	leave = slices.DeleteFunc(slices.Clone(leave), func(w harness.WireID) bool { return b.st.lent.tagged[w] })
	u.Out, u.Volts = len(leave), b.s.voltsAt(t)
	u.Body = u.In+u.Out == 0 && b.s.bodyGrounds(t)
	return u, arrive, leave
}

// add puts a tile on the strip and hands its pins to the wires.
func (b *builder) add(n node, column diagram.Column, arrive, leave wiresAt) {
	id := len(b.g.nodes)
	d := nodeOf(n.tile)
	d.Column, d.Key = column, n.key
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
